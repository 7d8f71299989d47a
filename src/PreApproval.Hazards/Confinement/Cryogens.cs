using System.Text.RegularExpressions;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Confinement;

/// <summary>Which contents are charged cold and become gas on warming: dry ice, liquid nitrogen, argon, oxygen and their like.</summary>
internal static partial class Cryogens
{
    public const string CarbonDioxide = "124-38-9";

    public const string Nitrogen = "7727-37-9";

    public const string Argon = "7440-37-1";

    /// <summary>Temperature of a warm bench in K at which the pressure of a warmed cryogen is stated (25 °C).</summary>
    public const double BenchK = 298.15;

    /// <summary>Normal boiling point of oxygen in K (R. Schmidt, W. Wagner, Fluid Phase Equilib. 1985, 19, 175).</summary>
    public const double OxygenBoilsK = 90.188;

    /// <summary>Normal boiling point of argon in K (C. Tegeler, R. Span, W. Wagner, J. Phys. Chem. Ref. Data 1999, 28, 779).</summary>
    public const double ArgonBoilsK = 87.302;

    /// <summary>Normal boiling point of nitrogen in K (R. Span et al., J. Phys. Chem. Ref. Data 2000, 29, 1361).</summary>
    public const double NitrogenBoilsK = 77.355;

    /// <summary>True for a material that is weighed or poured as a cold solid or liquid though it is a gas at room temperature.</summary>
    public static bool IsCryogen(Material material)
    {
        if (Single(material) is not { Known: { PhaseAt298K: Phase.Gas, CriticalTemperatureK: var critical } known } substance || material.Role == Role.Gas)
        {
            return false;
        }

        // a permanent gas, or carbon dioxide, which no bottle at room pressure holds as a liquid
        var cold = known.Identity.Cas is CarbonDioxide || critical?.Value < BenchK;
        return cold && (Says(material, substance) || (known.Identity.Cas is CarbonDioxide && material.Amount is Amount.Mass));
    }

    /// <summary>True where a step has cold, condensed gas of a material in the vessel: named so, or a gas below its boiling point.</summary>
    public static bool IsCondensed(Content content, StepState state, IReadOnlySet<string> cryogens) =>
        content is { Mol: null or > 0, Substance.Known: { PhaseAt298K: Phase.Gas } known }
        && ((content.MaterialId is { } id && cryogens.Contains(id))
            || (known.CriticalTemperatureK?.Value < BenchK && state.Closing is { } closing && closing.TemperatureK < known.BoilingPointK?.Value));

    /// <summary>Name for a sentence.</summary>
    public static string Name(PlanSubstance substance) => substance.Known?.Identity.Cas is CarbonDioxide ? "dry ice" : "liquid " + (substance.Known?.Identity.Name ?? substance.Name);

    /// <summary>
    /// Pressure in Pa of a warmed cryogen alone in a closed volume: ideal gas, and no more than the vapour pressure where the gas is
    /// below its critical temperature, because then liquid forms.
    /// </summary>
    /// <param name="substance">The gas.</param>
    /// <param name="mol">Amount in mol.</param>
    /// <param name="volumeM3">Volume in m³, above 0.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public static (double Pa, double IdealPa, bool Condenses) PressurePa(Substance substance, double mol, double volumeM3, double temperatureK)
    {
        var ideal = mol * GasConstant * temperatureK / volumeM3;
        var saturation = VapourPressure.At(substance, temperatureK);
        return saturation.Volatility == Volatility.Condensable && saturation.Pascal < ideal ? (saturation.Pascal, ideal, true) : (ideal, ideal, false);
    }

    private static PlanSubstance? Single(Material material) => material.Composition switch
    {
        Composition.Pure pure => pure.Substance,
        Composition.Mixture { Parts: [{ Fraction: >= 0.99 } only] } => only.Substance,
        Composition.Mixture or Composition.Solution => null,
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    private static bool Says(Material material, PlanSubstance substance) =>
        ColdWords().IsMatch($"{material.Id} {material.Form} {material.ReadAs?.Typed} {substance.Name}");

    [GeneratedRegex(@"\b(dry[ -]?ice|solid|pellets?|snow|liquid|liquefied|liquified|cryogen(ic)?|ln2|lin)\b", RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, 60_000)]
    private static partial Regex ColdWords();
}
