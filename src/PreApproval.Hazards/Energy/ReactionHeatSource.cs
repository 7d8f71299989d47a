using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>A heat of reaction that the plan does not state.</summary>
/// <param name="JPerMol">For one mol of the equation as declared (equivalents as stoichiometric numbers), exothermic negative.</param>
/// <param name="Model">Where it comes from, in words.</param>
/// <param name="Quality">How good it is.</param>
/// <param name="Sources">Keys of the references.</param>
internal sealed record FoundHeat(double JPerMol, string Model, Quality Quality, IReadOnlyList<string> Sources);

/// <summary>
/// Heat of a declared reaction without a stated heat: from enthalpies of formation where all of them are on file and the equation balances, else the usual heat of its type
/// (Data/reaction-heats.tsv). Method: docs/methods/heats.md.
/// </summary>
internal static class ReactionHeatSource
{
    private static readonly (string Type, string First, string Second, bool PerSecond, double StrongestJ, double WeakestJ, IReadOnlyList<string> Sources)[] Types =
    [
        .. EmbeddedTable.Rows("reaction-heats.tsv").Select(static row => (
            row["type"], row["first"], row["second"], row["per"] is "second",
            1000 * double.Parse(row["strongestKilojoule"], CultureInfo.InvariantCulture), 1000 * double.Parse(row["weakestKilojoule"], CultureInfo.InvariantCulture), EmbeddedTable.Entries(row["sources"]))),
    ];

    /// <summary>The heat, or null where neither way gives one.</summary>
    public static FoundHeat? Of(Reaction reaction, Plan plan)
    {
        var consumed = reaction.Consumes.Select(one => (Use: one, Material: plan.MaterialOf(one.MaterialId)))
            .Where(static pair => pair.Material is not null)
            .Select(static pair => (Substance: Reactant(pair.Material!.Composition), pair.Use.Equivalents))
            .ToArray();
        return consumed.Length == 0 ? null : FromFormation(consumed, reaction) ?? FromType(consumed);
    }

    private static PlanSubstance Reactant(Composition composition) => composition switch
    {
        Composition.Pure pure => pure.Substance,
        Composition.Solution solution => solution.Solute,
        Composition.Mixture mixture => mixture.Parts[mixture.CountedPart ?? 0].Substance,
        _ => throw new System.Diagnostics.UnreachableException(),
    };

    private static FoundHeat? FromFormation((PlanSubstance Substance, double Equivalents)[] consumed, Reaction reaction)
    {
        if (reaction.Produces.Count == 0 || consumed.Any(static one => one.Substance.Known is null) || reaction.Produces.Any(static one => one.Substance.Known?.Identity.Formula is null))
        {
            return null;
        }

        ReactionTerm[] terms =
        [
            .. consumed.Select(static one => ReactionTerm.Of(one.Substance.Known!, -one.Equivalents, one.Substance.Known!.PhaseAt298K)),
            .. reaction.Produces.Select(static one => ReactionTerm.Of(one.Substance.Known!, one.Equivalents, one.State ?? one.Substance.Known!.PhaseAt298K)),
        ];
        var heat = ReactionEnthalpy.FromFormation(terms);
        return heat.JPerEquation is { } joule && Array.TrueForAll(terms, static term => term.Formula is not null)
            ? new FoundHeat(joule, "enthalpies of formation of the pure substances, Hess's law", heat.Quality > Quality.Estimated ? heat.Quality : Quality.Estimated, heat.Sources)
            : null;
    }

    private static FoundHeat? FromType((PlanSubstance Substance, double Equivalents)[] consumed)
    {
        FoundHeat? strongest = null;
        var families = Array.ConvertAll(consumed, static one => FamilyTable.Default.Of(one.Substance));
        foreach (var type in Types)
        {
            var first = Array.FindIndex(families, list => list.Contains(type.First, StringComparer.Ordinal));
            var second = Array.FindIndex(families, list => list.Contains(type.Second, StringComparer.Ordinal));
            if (first < 0 || second < 0 || first == second)
            {
                continue;
            }

            var equivalents = consumed[type.PerSecond ? second : first].Equivalents;
            if (strongest is null || type.StrongestJ * equivalents < strongest.JPerMol)
            {
                var range = type.WeakestJ > type.StrongestJ ? $", {Wording.Text(type.WeakestJ / 1000)} to {Wording.Text(type.StrongestJ / 1000)} kJ/mol" : $", {Wording.Text(type.StrongestJ / 1000)} kJ/mol";
                strongest = new FoundHeat(type.StrongestJ * equivalents, $"usual heat of this type: {type.Type}{range}", Quality.Assumed, type.Sources);
            }
        }

        return strongest;
    }

    /// <summary>Mol of the equation that the step turns over, from what its partners have lost; null when no amount is known.</summary>
    public static double? Turnover(Reaction reaction, StepState state)
    {
        double? least = null;
        foreach (var consumed in reaction.Consumes)
        {
            if (consumed.Equivalents > 0 && Amount(state.Contents, consumed.MaterialId) - Amount(state.Remaining, consumed.MaterialId) is { } lost)
            {
                least = Math.Min(least ?? double.PositiveInfinity, lost / consumed.Equivalents);
            }
        }

        return least;
    }

    private static double? Amount(IReadOnlyList<Content> contents, string material) =>
        contents.Where(content => string.Equals(content.MaterialId, material, StringComparison.Ordinal)).Aggregate((double?)0, static (sum, content) => sum + content.Mol);
}
