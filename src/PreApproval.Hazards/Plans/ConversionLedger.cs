using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Plans;

/// <summary>Masses, densities and readings of one conversion, with what was missing and what was assumed on the way.</summary>
/// <param name="measured">How volumes were measured.</param>
internal sealed class ConversionLedger(Measured measured)
{
    // most amounts need no word
    private List<string>? missing;
    private List<string>? assumptions;
    private List<TakenAs>? takenAs;

    public IReadOnlyList<TakenAs> TakenAs => takenAs ?? (IReadOnlyList<TakenAs>)[];

    public IReadOnlyList<string> Missing => missing ?? (IReadOnlyList<string>)[];

    public IReadOnlyList<string> Assumptions => assumptions ?? (IReadOnlyList<string>)[];

    public static double? KnownMolarMass(PlanSubstance substance) => substance.Known?.Identity.MolarMassKgPerMol ?? substance.Structure?.MolarMassKgPerMol;

    public static double? KnownDensity(PlanSubstance substance) => substance.Known?.DensityKgPerM3?.Value;

    public void Assume(string what)
    {
        assumptions ??= [];
        if (!assumptions.Contains(what, StringComparer.Ordinal))
        {
            assumptions.Add(what);
        }
    }

    /// <summary>The mol of a pure substance where nothing has to be said of how; null where something is missing or may be read in two ways.</summary>
    public static double? KnownMol(PlanSubstance substance, Amount amount) => amount switch
    {
        Amount.Mol mol => mol.Moles,
        Amount.Mass mass => mass.Kg / KnownMolarMass(substance),
        Amount.Volume when substance.Known is { PhaseAt298K: Phase.Gas } => null,
        Amount.Volume volume => volume.M3 * KnownDensity(substance) / KnownMolarMass(substance),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    public double? Mol(PlanSubstance substance, Amount amount) => amount switch
    {
        Amount.Mol mol => mol.Moles,
        Amount.Mass mass => mass.Kg / MolarMass(substance),
        Amount.Volume volume when substance.Known is { PhaseAt298K: Phase.Gas } gas => OfLowBoiling(substance, gas, volume.M3),
        Amount.Volume volume => volume.M3 * Density(substance) / MolarMass(substance),
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    public double? MolarMass(PlanSubstance substance) => KnownMolarMass(substance) ?? Missed($"molar mass of {substance.Name}");

    public double? Density(PlanSubstance substance) => KnownDensity(substance) ?? Missed($"density of {substance.Name}{Otherwise(substance)}");

    /// <summary>A solid measured by volume is often another substance of the same short name: EDC for 1,2-dichloroethane.</summary>
    private static string Otherwise(PlanSubstance substance) => substance.Known is not { PhaseAt298K: Phase.Solid, Identity.Name: var full } ? ""
        : string.Equals(full, substance.Name, StringComparison.OrdinalIgnoreCase) ? " (a solid: is another substance meant?)"
        : $" ({full}, a solid: is another substance meant?)";

    private double? OfLowBoiling(PlanSubstance substance, Substance known, double m3)
    {
        // what is led into a cold trap is called a gas and has more litres than the trap; the few millilitres condensed for a reaction are a liquid, whatever its role
        if (measured.TemperatureK is { } temperature && temperature < known.BoilingPointK?.Value && !(measured.AsGas && m3 > measured.RoomM3))
        {
            (takenAs ??= []).Add(new TakenAs(Phase.Liquid, $"{substance.Name} as liquid at {Screening.Wording.Celsius(temperature)}, below its boiling point"));
            return m3 / LiquidVolume.At(known, temperature).M3PerMol;
        }

        // a boiling point that is not on file decides nothing
        if (measured.AsGas || (measured.TemperatureK is not null && known.BoilingPointK is not null))
        {
            (takenAs ??= []).Add(new TakenAs(Phase.Gas, $"{substance.Name} as gas at 20 °C and 1.01325 bar"));
            return IdealGas.Mol(AtmospherePa, m3, Walk.RoomTemperatureK);
        }

        return Missed($"whether {substance.Name} is measured as liquid or gas (no step states its temperature)");
    }

    private double? Missed(string what)
    {
        missing ??= [];
        if (!missing.Contains(what, StringComparer.Ordinal))
        {
            missing.Add(what);
        }

        return null;
    }
}
