using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>One side of a reaction equation: a substance in a state, with its stoichiometric number.</summary>
/// <param name="Name">What a person reads.</param>
/// <param name="Formula">Molecular formula, or null where it has none: then the balance of atoms is not checked.</param>
/// <param name="Coefficient">Stoichiometric number: negative consumed, positive formed.</param>
/// <param name="FormationJPerMol">Standard enthalpy of formation in J/mol in the state it is in (dissolved, for one that reacts in water), or null: missing.</param>
public sealed record ReactionTerm(string Name, string? Formula, double Coefficient, Sourced<double>? FormationJPerMol)
{
    /// <summary>A pure substance in a state of matter.</summary>
    public static ReactionTerm Of(Substance substance, double coefficient, Phase phase) =>
        new(substance.Identity.Name, substance.Identity.Formula, coefficient, FormationEnthalpy.JPerMol(substance, phase));
}

/// <summary>A heat of reaction.</summary>
/// <param name="JPerEquation">Enthalpy change in J for the amounts of the equation as written, exothermic negative; null with <paramref name="Because"/>.</param>
/// <param name="Because">What is missing or wrong, in a sentence; null when nothing is.</param>
/// <param name="Quality">That of the worst value it rests on.</param>
/// <param name="Sources">Keys in <c>sources.bib</c>.</param>
public sealed record ReactionHeatValue(double? JPerEquation, string? Because, Quality Quality, IReadOnlyList<string> Sources);

/// <summary>
/// Heat of reaction from enthalpies of formation by Hess's law: ΔH = Σ ν ΔfH, at 298.15 K, reactants with negative ν. It holds for the states named: the
/// enthalpy of mixing is not in it. A difference of large numbers: the absolute errors of the values add up, whatever is left of the sum.
/// </summary>
public static class ReactionEnthalpy
{
    private const double Balance = 1e-9;

    /// <summary>
    /// The heat of a reaction. Benzene(l) + 3 H2 to cyclohexane(l) with −156.4 and +49.1 kJ/mol (CRC Handbook, 95th ed.): −205.5 kJ. Null where a term has no enthalpy of formation, where there are no
    /// terms, or where the formulas show that the equation does not balance.
    /// </summary>
    public static ReactionHeatValue FromFormation(IReadOnlyList<ReactionTerm> terms)
    {
        if (terms.Count == 0)
        {
            return Missing("the reaction has no reactants and no products");
        }

        var without = terms.Where(static t => t.FormationJPerMol is null).Select(static t => t.Name).ToList();
        if (without.Count > 0)
        {
            return Missing($"no enthalpy of formation is on file for {string.Join(", ", without)} in this state");
        }

        var unbalanced = Unbalanced(terms);
        if (unbalanced.Count > 0)
        {
            return Missing($"the equation does not balance in {string.Join(", ", unbalanced)}");
        }

        return new ReactionHeatValue(
            terms.Sum(static t => t.Coefficient * t.FormationJPerMol!.Value),
            null,
            terms.Max(static t => t.FormationJPerMol!.Quality),
            [.. terms.SelectMany(static t => t.FormationJPerMol!.Sources).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)]);
    }

    /// <summary>Elements of which more is formed than consumed or the other way round; empty where a formula is missing.</summary>
    public static IReadOnlyList<string> Unbalanced(IReadOnlyList<ReactionTerm> terms)
    {
        var sums = new SortedDictionary<string, double>(StringComparer.Ordinal);
        foreach (var term in terms)
        {
            if (term.Formula is null || !Formula.TryCount(term.Formula, out var atoms))
            {
                return [];
            }

            foreach (var (element, count) in atoms)
            {
                sums[element] = sums.GetValueOrDefault(element) + (term.Coefficient * count);
            }
        }

        return [.. sums.Where(static s => Math.Abs(s.Value) > Balance).Select(static s => s.Key)];
    }

    private static ReactionHeatValue Missing(string because) => new(null, because, Quality.Assumed, []);
}
