using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>Pure-component properties of a sealed charge at one temperature, worked out once for all models.</summary>
internal sealed class VesselPoint
{
    public VesselPoint(SealedCharge charge, double temperatureK)
    {
        Charge = charge;
        TemperatureK = temperatureK;
        Mixing = Array.ConvertAll(charge.Mixing, p => Volatile(p, temperatureK));
        Apart = Array.ConvertAll(charge.Apart, p => Volatile(p, temperatureK));
        foreach (var part in charge.Room)
        {
            var volume = LiquidVolume.At(part.Substance, temperatureK);
            RoomM3 += part.Mol * volume.M3PerMol;
            Quality = Worse(Quality, volume.Quality);
            Sources.Add(volume.Source);
        }

        DissolvedM3PerMol = Array.ConvertAll(charge.Dissolved, part => SolutionDensities.SoluteM3PerMol(charge, part));
        CondensedM3 = RoomM3;
        for (var i = 0; i < charge.Dissolved.Length; i++)
        {
            CondensedM3 += charge.Dissolved[i].Mol * DissolvedM3PerMol[i];
            Sources.UnionWith(SolutionDensities.Sources(charge, charge.Dissolved[i].Substance));
            Quality = Quality.Assumed;
        }

        foreach (var part in Mixing)
        {
            CondensedM3 += part.Mol * part.M3PerMol;
        }

        foreach (var part in Apart)
        {
            CondensedM3 += part.Mol * part.M3PerMol;
        }

        DissolvedPa = SolutionEquilibrium.DissolvedPa(this);
        if (charge.Dissolved.Length > 0)
        {
            Warnings.AddRange(SolutionEquilibrium.Doubts(charge).Select(static doubt => $"No published data give {doubt}."));
            Warnings.AddRange(SolutionDensities.OutOfRange(charge, temperatureK).Select(static name => $"The partial pressure of {name} over its solution is extrapolated: strength or temperature is outside the published range."));
        }
    }

    public SealedCharge Charge { get; }

    public double TemperatureK { get; }

    public VolatilePart[] Mixing { get; }

    public VolatilePart[] Apart { get; }

    /// <summary>What condenses, as an equation of state sees it: <see cref="Mixing"/>, <see cref="Apart"/>, then the solutes as pure substances.</summary>
    public VolatilePart[] Condensable => Charge.Dissolved.Length == 0
        ? [.. Mixing, .. Apart]
        : [.. Mixing, .. Apart, .. Charge.Dissolved.Select(part => AsPure(part, TemperatureK))];

    /// <summary>Volume that a mol of each solute of <see cref="SealedCharge.Dissolved"/> adds to the liquid, in m³/mol.</summary>
    public double[] DissolvedM3PerMol { get; }

    /// <summary>Partial pressure in Pa of each solute of <see cref="SealedCharge.Dissolved"/> with everything in the liquid.</summary>
    public double[] DissolvedPa { get; }

    /// <summary>Volume of what only takes room, in m³.</summary>
    public double RoomM3 { get; }

    /// <summary>Volume with everything condensed, in m³.</summary>
    public double CondensedM3 { get; }

    /// <summary>Volatile contents without a vapour pressure at this temperature.</summary>
    public List<Substance> Unknown { get; } = [];

    /// <summary>Contents that have passed their critical temperature since filling.</summary>
    public List<Substance> PastCritical { get; } = [];

    /// <summary>True when there are volatile contents and every one of them has passed its critical temperature.</summary>
    public bool AllPastCritical => PastCritical.Count > 0 && PastCritical.Count == Mixing.Length + Apart.Length;

    /// <summary>Gases in solution that have passed their critical temperature: nothing on file represents what is still dissolved.</summary>
    public IReadOnlyList<Substance> HeldPastCritical => Mixing.Length + Apart.Length > 1 ? [.. PastCritical.Where(SealedCharge.IsHeld)] : [];

    public List<string> Warnings { get; } = [];

    public Quality Quality { get; private set; } = Quality.Measured;

    public SortedSet<string> Sources { get; } = new(StringComparer.Ordinal);

    public static Quality Worse(Quality a, Quality b) => a > b ? a : b;

    private static VolatilePart AsPure(ChargedPart part, double temperatureK)
    {
        var saturation = VapourPressure.At(part.Substance, temperatureK);
        return new VolatilePart(part.Substance.Key, part.Mol, saturation.Pascal, LiquidVolume.At(part.Substance, temperatureK).M3PerMol, saturation.Volatility is Volatility.Gas);
    }

    private VolatilePart Volatile(ChargedPart part, double temperatureK)
    {
        var name = part.Substance.Identity.Name;
        var pressure = VapourPressure.At(part.Substance, temperatureK);
        var volume = LiquidVolume.At(part.Substance, temperatureK);
        Quality = Worse(Worse(Quality, pressure.Quality), volume.Quality);
        Sources.Add(volume.Source);
        if (pressure.Source.Length > 0)
        {
            Sources.Add(pressure.Source);
        }

        if (pressure.Volatility is Volatility.Gas)
        {
            PastCritical.Add(part.Substance);
        }
        else if (pressure.Volatility is Volatility.Unknown)
        {
            Unknown.Add(part.Substance);
            Warnings.Add($"The vapour pressure of {name} at this temperature is not on file.");
        }
        else if (pressure.Quality == Quality.Estimated)
        {
            Warnings.Add($"The vapour pressure of {name} is estimated: the temperature is outside the range of its published correlation.");
        }

        return new VolatilePart(part.Substance.Key, part.Mol, pressure.Pascal, volume.M3PerMol, pressure.Volatility is Volatility.Gas);
    }
}

/// <summary>A volatile content at one temperature.</summary>
/// <param name="Key">Substance key.</param>
/// <param name="Mol">Amount in mol.</param>
/// <param name="SaturationPa">Vapour pressure in Pa; NaN past the critical temperature.</param>
/// <param name="M3PerMol">Molar volume of the liquid in m³/mol.</param>
/// <param name="PastCritical">True: a gas, no vapour pressure.</param>
internal readonly record struct VolatilePart(string Key, double Mol, double SaturationPa, double M3PerMol, bool PastCritical);
