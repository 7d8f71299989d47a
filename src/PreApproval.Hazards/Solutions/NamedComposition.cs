using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Solutions;

/// <summary>A part of a mixture as typed: a substance, or a solution by its name.</summary>
/// <param name="Substance">What stands for it where <paramref name="Solution"/> is null.</param>
/// <param name="Solution">The named solution; null for a substance.</param>
/// <param name="Fraction">0 to 1.</param>
/// <param name="Basis">What the fraction counts.</param>
public sealed record NamedPart(PlanSubstance Substance, NamedSolution? Solution, double Fraction, FractionBasis Basis);

/// <summary>Takes named solutions inside a composition apart into their substances by mass.</summary>
/// <remarks>
/// Volumes of the parts are added. A part of unknown density counts with 1000 kg/m³, as in a closed vessel; one of unknown molar
/// mass in a mixture by mole leaves the named solution unresolved, which becomes a finding.
/// </remarks>
public static class NamedComposition
{
    private const double AssumedKgPerM3 = 1000;

    /// <summary>A mixture whose parts may be named solutions.</summary>
    public static Composition Mixture(IReadOnlyList<NamedPart> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        if (!parts.Any(static part => part.Solution is not null) || !parts.All(HasMass))
        {
            return new Composition.Mixture([.. parts.Select(static part => new MixturePart(part.Substance, part.Fraction, part.Basis))]);
        }

        var weighed = parts.Select(static part => (part, Kg: Mass(part))).ToArray();
        return ByMass(
            weighed.SelectMany(static pair => Substances(pair.part).Select(one => (one.Substance, pair.Kg * one.Fraction))),
            weighed.Sum(static pair => pair.Kg / Density(pair.part)),
            counted: null);
    }

    /// <summary>A solute in a named mixture (hexanes, aqueous methanol).</summary>
    public static Composition Solution(PlanSubstance solute, NamedSolution solvent, Concentration concentration)
    {
        ArgumentNullException.ThrowIfNull(solute);
        ArgumentNullException.ThrowIfNull(solvent);
        if (solvent.Parts is [var only])
        {
            return new Composition.Solution(solute, Of(only.Substance), concentration);
        }

        var solvents = new NamedPart(Of(solvent.Parts[0].Substance), solvent, 1, FractionBasis.Mass);
        var own = solute.Known is { PhaseAt298K: not Phase.Gas, DensityKgPerM3.Value: var known } ? known : AssumedKgPerM3;
        double? soluteKg = concentration switch
        {
            Concentration.MolPerM3 molar => molar.Value * solute.Known?.Identity.MolarMassKgPerMol,
            Concentration.Fraction { Basis: FractionBasis.Mass } mass => mass.Value,
            Concentration.Fraction { Basis: FractionBasis.Volume } volume => volume.Value * own,
            _ => null,
        };
        if (soluteKg is not { } kg)
        {
            return new Composition.Solution(solute, new PlanSubstance(solvent.Name, solvent.Label, null), concentration);
        }

        var solventKg = concentration switch
        {
            Concentration.MolPerM3 => Math.Max(0, 1 - (kg / own)) * Density(solvents),
            Concentration.Fraction { Basis: FractionBasis.Volume } volume => (1 - volume.Value) * Density(solvents),
            _ => 1 - kg,
        };
        return ByMass(
            Substances(solvents).Select(part => (part.Substance, solventKg * part.Fraction)).Prepend((solute, kg)),
            (kg / own) + (solventKg / Density(solvents)),
            counted: solute);
    }

    private static Composition.Mixture ByMass(IEnumerable<(PlanSubstance Substance, double Kg)> parts, double m3, PlanSubstance? counted)
    {
        var merged = parts.GroupBy(static part => part.Substance.Key, StringComparer.Ordinal).Select(static group => (group.First().Substance, Kg: group.Sum(static part => part.Kg))).ToArray();
        var total = merged.Sum(static part => part.Kg);
        return new Composition.Mixture([.. merged.Select(part => new MixturePart(part.Substance, part.Kg / total, FractionBasis.Mass))])
        {
            DensityKgPerM3 = total / m3,
            CountedPart = counted is null ? null : 0,
        };
    }

    private static IEnumerable<(PlanSubstance Substance, double Fraction)> Substances(NamedPart part) =>
        part.Solution is { } solution ? solution.Parts.Select(static one => (Of(one.Substance), one.MassFraction)) : [(part.Substance, 1)];

    private static bool HasMass(NamedPart part) => part.Basis != FractionBasis.Mole || MolarMass(part) is not null;

    private static double Mass(NamedPart part) => part.Basis switch
    {
        FractionBasis.Mass => part.Fraction,
        FractionBasis.Volume => part.Fraction * Density(part),
        FractionBasis.Mole => part.Fraction * MolarMass(part)!.Value,
    };

    private static double Density(NamedPart part) =>
        (part.Solution is { } solution ? solution.DensityKgPerM3?.Value : part.Substance.Known?.DensityKgPerM3?.Value) ?? AssumedKgPerM3;

    /// <summary>Mean molar mass in kg/mol; null where one is not on file.</summary>
    private static double? MolarMass(NamedPart part) => part.Solution is { } solution
        ? 1 / solution.Parts.Aggregate((double?)0, static (sum, one) => sum + (one.MassFraction / one.Substance.Identity.MolarMassKgPerMol))
        : part.Substance.Known?.Identity.MolarMassKgPerMol;

    private static PlanSubstance Of(Substance substance) => new(substance.Key, substance.Identity.Name, substance);
}
