using System.Collections.ObjectModel;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <param name="Substance">What.</param>
/// <param name="Mol">Amount in mol, above zero.</param>
public sealed record ChargedSubstance(Substance Substance, double Mol);

/// <summary>What is shut into a vessel. Everything in SI units.</summary>
public sealed record ClosedVesselInput
{
    /// <summary>Dry air: 0.79 N2 and 0.21 O2 by mole fraction.</summary>
    public static IReadOnlyList<(Substance Gas, double Fraction)> Air { get; } = [(Gas("7727-37-9"), 0.79), (Gas("7782-44-7"), 0.21)];

    /// <summary>Inner volume in m³.</summary>
    public required double VesselVolumeM3 { get; init; }

    /// <summary>Temperature at closing in K.</summary>
    public double FillTemperatureK { get; init; } = 293.15;

    /// <summary>
    /// Pressure of the dry headspace gas alone, in Pa absolute, at the fill temperature, in the volume the liquid leaves
    /// free. Ignored when <see cref="SaturatedAtClosing"/>.
    /// </summary>
    public double FillPressurePaAbs { get; init; } = AtmospherePa;

    /// <summary>True: the headspace was saturated with vapour at closing, so that gas and vapour together made 101 325 Pa.</summary>
    public bool SaturatedAtClosing { get; init; }

    /// <summary>Gas shut in, by mole fraction; empty: vacuum. Default: <see cref="Air"/>.</summary>
    public IReadOnlyList<(Substance Gas, double Fraction)> Headspace { get; init; } = Air;

    /// <summary>Everything charged; salts, metals and solids included (they take volume, not mole fraction).</summary>
    public required IReadOnlyList<ChargedSubstance> Contents { get; init; }

    /// <summary>Gas made inside after closing, in mol.</summary>
    public double GasEvolvedMol { get; init; }

    /// <summary>True when another input says the same, list by list.</summary>
    internal bool ShutsInTheSame(ClosedVesselInput other) =>
        ReferenceEquals(this, other) || (Headspace.SequenceEqual(other.Headspace) && Contents.SequenceEqual(other.Contents) && this with { Headspace = other.Headspace, Contents = other.Contents } == other);

    internal static Substance Nitrogen => Air[0].Gas;

    private static Substance Gas(string cas) =>
        Catalog.Default.TryFindByCas(cas, out var gas) ? gas : throw new InvalidOperationException($"The catalogue has no {cas}.");
}

/// <summary>Models of the closed vessel.</summary>
public enum VesselModel
{
    ModifiedRaoult,
    PengRobinson,

    /// <summary>Modified Raoult with modified UNIFAC; listed for cyclic ethers with water only.</summary>
    ModifiedUnifac,

    /// <summary>Predictive Soave–Redlich–Kwong with the groups of PSRK.</summary>
    Psrk,
    ImmiscibleBound,
}

public enum VesselPhase
{
    TwoPhase,
    Vapour,
    LiquidFull,
    Supercritical,
}

/// <summary>One model's answer at one temperature.</summary>
public sealed record ModelState
{
    private static readonly IReadOnlyDictionary<string, double> Nothing = ReadOnlyDictionary<string, double>.Empty;

    private IReadOnlyList<string>? sources;

    public required VesselModel Model { get; init; }

    public VesselPhase? Phase { get; init; }

    /// <summary>Absolute pressure in Pa; null where the model does not apply, with <see cref="Because"/>.</summary>
    public double? PressurePaAbs { get; init; }

    public string? Because { get; init; }

    /// <summary>Partial pressures in Pa by substance key; trapped and evolved gas under <c>headspace</c>.</summary>
    public IReadOnlyDictionary<string, double> PartialPressuresPa { get; init; } = Nothing;

    public double? LiquidVolumeFraction { get; init; }

    public IReadOnlyDictionary<string, double> LiquidMoleFractions { get; init; } = Nothing;

    public IReadOnlyDictionary<string, double> ActivityCoefficients { get; init; } = Nothing;

    /// <summary>Keys in <c>sources.bib</c> of everything this answer rests on.</summary>
    public IReadOnlyList<string> Sources
    {
        get => sources ??= Point is null ? Method : [.. Point.Sources, .. Method];
        init => sources = value;
    }

    /// <summary>Where the properties come from; their sources are looked up only for an answer that is shown.</summary>
    internal VesselPoint? Point { get; init; }

    /// <summary>Keys of the sources of the model itself.</summary>
    internal IReadOnlyList<string> Method { get; init; } = [];

    public Quality Quality { get; init; } = Quality.Correlated;
}

/// <summary>The vessel at one temperature by all models, and which of them governs.</summary>
/// <param name="TemperatureK">Temperature in K.</param>
/// <param name="Models">All models, those that do not apply included.</param>
/// <param name="Governing">The model whose answer counts.</param>
/// <param name="Because">Why it governs.</param>
/// <param name="Warnings">Missing data and doubts, in sentences.</param>
public sealed record VesselState(double TemperatureK, IReadOnlyList<ModelState> Models, ModelState Governing, string Because, IReadOnlyList<string> Warnings)
{
    /// <summary>True when the liquid fills the vessel: counts as exceeding every rating.</summary>
    public bool LiquidFull => Governing.Phase == VesselPhase.LiquidFull;

    /// <summary>
    /// Keys of the contents that the governing answer leaves out because nothing on file gives their vapour pressure, or their
    /// pressure above this liquid. Not empty: the pressure check of this vessel is not done until somebody supplies the value.
    /// </summary>
    public IReadOnlyList<string> Missing { get; init; } = [];
}

/// <summary>
/// The state of a closed vessel: isochoric, isothermal equilibrium of what was shut in. Four models are always listed: modified
/// Raoult (with original UNIFAC), Peng–Robinson, PSRK, and the bound for liquids that do not mix. Which one governs is said with its reason.
/// </summary>
public static class ClosedVessel
{
    /// <summary>Highest temperature looked at, in K (400 °C).</summary>
    public const double CeilingK = 673.15;

    private const double StepK = 20;
    private const double ToleranceK = 0.005;

    /// <summary>State at one temperature in K. Never throws on valid input; a model that does not apply says why.</summary>
    public static VesselState At(ClosedVesselInput input, double temperatureK) => new SealedCharge(input).At(temperatureK);

    /// <summary>
    /// Highest temperature in K, at most <see cref="CeilingK"/>, up to which, from the fill temperature on, the governing pressure stays within the
    /// gauge pressure in Pa (over 101 325 Pa); null when even the fill temperature exceeds it, or when the pressure is not known. Exact to 0.01 K, from below.
    /// </summary>
    public static double? HighestTemperatureK(ClosedVesselInput input, double limitPaGauge)
    {
        var charge = new SealedCharge(input);
        return Holds(charge.PressureAt(input.FillTemperatureK), AtmospherePa + limitPaGauge) ? HighestTemperatureK(charge, input.FillTemperatureK, limitPaGauge, ToleranceK) : null;
    }

    /// <summary>The same from a temperature on up to which it is known to hold.</summary>
    internal static double HighestTemperatureK(SealedCharge charge, double fromK, double limitPaGauge, double toleranceK)
    {
        var limitPaAbs = AtmospherePa + limitPaGauge;
        // by the ends alone first: the way between them is scanned once, and at every step only where something on it is in the way
        var highest = Search(charge, limitPaAbs, fromK, toleranceK, scan: false);
        return !charge.MayHandOver(highest) || Holds(PeakPressure.Between(charge, fromK, highest), limitPaAbs) ? highest : Search(charge, limitPaAbs, fromK, toleranceK, scan: true);
    }

    private static double Search(SealedCharge charge, double limitPaAbs, double fromK, double toleranceK, bool scan)
    {
        var within = (K: fromK, Pa: (double?)null);
        while (within.K < CeilingK)
        {
            var next = Math.Min(within.K + StepK, CeilingK);
            var (holds, pressure) = To(charge, limitPaAbs, within.K, next, scan);
            if (!holds)
            {
                return Narrow(charge, limitPaAbs, within.Pa is null ? (within.K, charge.PressureAt(within.K).PascalAbs) : within, (next, pressure), toleranceK, scan);
            }

            within = (next, pressure);
        }

        return Math.Min(within.K, CeilingK);
    }

    /// <summary>Whether it holds at the end of a way, and where it is scanned everywhere on it; with the pressure at the end in Pa.</summary>
    private static (bool Holds, double? Pa) To(SealedCharge charge, double limitPaAbs, double fromK, double toK, bool scan)
    {
        if (scan)
        {
            var peak = PeakPressure.Between(charge, fromK, toK);
            return (Holds(peak, limitPaAbs), peak.EndPressure.PascalAbs);
        }

        var end = charge.PressureAt(toK);
        return (Holds(end, limitPaAbs), end.PascalAbs);
    }

    /// <summary>
    /// Between a temperature that holds and one that does not: by the straight line of ln p over 1/T, aimed just beyond the limit after a point that holds and just short of it after one that
    /// does not, so that both ends close in; halved where no line can be drawn, and at every fourth step.
    /// </summary>
    private static double Narrow(SealedCharge charge, double limitPaAbs, (double K, double? Pa) within, (double K, double? Pa) beyond, double toleranceK, bool scan)
    {
        var aim = 0.0;
        for (var step = 1; beyond.K - within.K > toleranceK; step++)
        {
            var at = step % 4 != 0 && beyond.Pa > within.Pa && within.Pa > 0 && beyond.Pa > limitPaAbs
                ? 1 / ((1 / within.K) + (((1 / beyond.K) - (1 / within.K)) * Math.Log(limitPaAbs / within.Pa.Value) / Math.Log(beyond.Pa.Value / within.Pa.Value))) + aim
                : double.NaN;
            var edge = 0.25 * toleranceK;
            at = at > within.K && at < beyond.K ? Math.Clamp(at, within.K + edge, beyond.K - edge) : 0.5 * (within.K + beyond.K);
            var (holds, pressure) = To(charge, limitPaAbs, within.K, at, scan);
            if (holds)
            {
                (within, aim) = ((at, pressure), 0.4 * toleranceK);
            }
            else
            {
                (beyond, aim) = ((at, pressure), -0.4 * toleranceK);
            }
        }

        return within.K;
    }

    private static bool Holds(PeakPressure peak, double limitPaAbs) => Holds(peak.Pressure, limitPaAbs) && Holds(peak.EndPressure, limitPaAbs);

    // An unknown pressure does not hold, nor does a vessel full of liquid.
    private static bool Holds(GoverningPressure pressure, double limitPaAbs) => !pressure.LiquidFull && pressure.PascalAbs <= limitPaAbs;
}
