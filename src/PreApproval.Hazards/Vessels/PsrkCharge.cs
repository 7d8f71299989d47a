using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// A sealed charge as PSRK sees it. Every content that condenses needs critical constants, groups and all interaction parameters; what is
/// missing is named and no parameter is set to zero. A gas without parameters counts as ideal and not dissolved, as in modified Raoult.
/// </summary>
internal sealed class PsrkCharge
{
    // In these liquids and with each other they ionise or react, which no group parameter describes: hydrochloric acid comes out at a
    // third to a quarter of its true vapour pressure.
    private static readonly HashSet<string> Reacting = new(StringComparer.Ordinal)
    {
        "7647-01-0", "10035-10-6", "10034-85-2", "7664-39-3", "50-00-0", "7446-09-5", "7637-07-2", "7782-50-5", "7726-95-6", "7782-41-4", "10102-44-0", "10102-43-9", "74-90-8", "10028-15-6",
    };

    private const double HighestReduced = 0.9;

    private readonly ChargedPart[] _condensable;
    private double[]? _hotShifts;

    public PsrkCharge(ChargedPart[] condensable, IReadOnlyList<ChargedPart> gases)
    {
        _condensable = condensable;
        var groups = new List<IReadOnlyDictionary<int, int>>();
        var components = new List<EquationComponent>();
        foreach (var part in condensable)
        {
            if (CriticalConstants.Of(part.Substance) is not { } critical)
            {
                Because = $"critical constants are not on file for {part.Substance.Identity.Name}";
                return;
            }

            if (PsrkGroups.Of(part.Substance) is not { } own)
            {
                Because = $"no groups of PSRK are assigned to {part.Substance.Identity.Name}";
                return;
            }

            groups.Add(own);
            components.Add(new EquationComponent(part.Substance.Key, part.Mol, critical, IsGas: false));
        }

        Unifac? model = null;
        if (groups.Count > 1)
        {
            model = Unifac.TryCreate(UnifacTable.Psrk, groups, out var missing);
            if (model is null)
            {
                Because = $"PSRK has no published interaction parameters for {string.Join(", ", missing)}";
                return;
            }
        }

        foreach (var gas in gases)
        {
            if (CriticalConstants.Of(gas.Substance) is { } critical && PsrkGroups.Of(gas.Substance) is { } own)
            {
                groups.Add(own);
                if (groups.Count == 1 || Unifac.TryCreate(UnifacTable.Psrk, groups, out _) is { } larger && (model = larger) is not null)
                {
                    components.Add(new EquationComponent("headspace", gas.Mol, critical, IsGas: true));
                    continue;
                }

                groups.RemoveAt(groups.Count - 1);
            }

            InsolubleMol += gas.Mol;
        }

        Model = model;
        Components = [.. components];
        var dissolved = condensable.Any(static p => p.Substance.PhaseAt298K == Phase.Gas);
        IsCredible = !condensable.Any(static p => Reacting.Contains(p.Substance.Key));
        DissolvesGas = IsCredible && dissolved && condensable.Length > 1;
    }

    /// <summary>Why PSRK does not apply; null when it does.</summary>
    public string? Because { get; }

    public EquationComponent[] Components { get; } = [];

    /// <summary>UNIFAC with the groups of PSRK; null for one component.</summary>
    public Unifac? Model { get; }

    /// <summary>Gas that counts as ideal and not dissolved, in mol.</summary>
    public double InsolubleMol { get; }

    /// <summary>
    /// Volume translation c in m³/mol of each component, v = v(SRK) − Σ x c, so that a pure liquid has its volume on file: Péneloux, Rauzy and
    /// Fréze, Fluid Phase Equilib. 8 (1982) 7. It changes no equilibrium. Above 0.9 Tc it stays what it is there; trapped gas has none.
    /// </summary>
    /// <param name="equation">PSRK at the temperature.</param>
    /// <param name="condensable">Vapour pressures and liquid volumes at the temperature, in the order of the charge.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    /// <param name="shifts">Receives one value for each component.</param>
    public void Translate(Psrk equation, VolatilePart[] condensable, double temperatureK, Span<double> shifts)
    {
        shifts.Clear();
        for (var i = 0; i < _condensable.Length; i++)
        {
            var part = condensable[i];
            shifts[i] = temperatureK < HighestReduced * Components[i].Critical.TcK && part.SaturationPa > 0
                ? equation.PureLiquidM3PerMol(i, part.SaturationPa) - part.M3PerMol
                : (_hotShifts ??= Array.ConvertAll(_condensable, HotShift))[i];
        }
    }

    private static double HotShift(ChargedPart part)
    {
        var critical = CriticalConstants.Of(part.Substance)!.Value;
        var temperatureK = HighestReduced * critical.TcK;
        var saturation = VapourPressure.At(part.Substance, temperatureK).Pascal;
        return saturation > 0
            ? new Psrk([critical], [saturation], null, temperatureK).PureLiquidM3PerMol(0, saturation) - LiquidVolume.At(part.Substance, temperatureK).M3PerMol
            : 0;
    }

    /// <summary>True when parameters are complete and no content ionises or reacts in the others.</summary>
    public bool IsCredible { get; }

    /// <summary>True when it is credible and a content that is a gas at 25 °C and 1 atm meets another that condenses.</summary>
    public bool DissolvesGas { get; }
}
