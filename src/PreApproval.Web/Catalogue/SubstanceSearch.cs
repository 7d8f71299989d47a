using PreApproval.Documents.Substances;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Catalogue;

/// <summary>A substance that fits what was typed.</summary>
/// <param name="Key">Its address: CAS number or name in the catalogue, identifier in the group's own list.</param>
/// <param name="Identity">What names it.</param>
/// <param name="Own">The entry of the group's own list; null: of the catalogue.</param>
/// <param name="Match">How it fits.</param>
/// <param name="Matched">The name, synonym or CAS number that fits.</param>
public sealed record FoundSubstance(string Key, Hazards.Substances.Identity Identity, ListedGroupSubstance? Own, NameMatch Match, string Matched)
{
    /// <summary>The solution or mixture; null: a substance.</summary>
    public NamedSolution? Solution { get; init; }
}

/// <summary>
/// The one search of the API, the page and the editor: the catalogue, its solutions and mixtures, and the group's own list, merged by how
/// well they fit. What the text means as a solution comes first, and the pure gas behind it is left out; of other equals the group's own
/// comes first, then solutions.
/// </summary>
public static class SubstanceSearch
{
    /// <summary>Best first, at most <paramref name="most"/>.</summary>
    public static IReadOnlyList<FoundSubstance> Search(string text, int most, IReadOnlyList<ListedGroupSubstance> own)
    {
        ArgumentNullException.ThrowIfNull(own);
        IEnumerable<FoundSubstance> listed = own.Count == 0
            ? []
            : new NameIndex<ListedGroupSubstance>(own, static entry => IdentityOf(entry.Substance)).Search(text, most)
                .Select(static hit => new FoundSubstance(hit.Item.Id.ToString(), IdentityOf(hit.Item.Substance), hit.Item, hit.Match, hit.Name));
        IEnumerable<FoundSubstance> catalogue = Catalog.Default.Search(text, most).Select(substance => Judged(substance, text));
        NamedSolution? meant = Catalog.Default.TryFindByCas(text, out _) ? null : Meant(text);
        if (meant?.Solute is { PhaseAt298K: Phase.Gas } gas)
        {
            catalogue = catalogue.Where(found => !string.Equals(found.Key, gas.Key, StringComparison.Ordinal));
        }

        IEnumerable<FoundSubstance> first = meant is null ? [] : [Of(meant, NameMatch.Exact, text.Trim())];
        IEnumerable<FoundSubstance> solutions = SolutionCatalog.Default.Search(text, most)
            .Where(solution => !string.Equals(solution.Label, meant?.Label, StringComparison.Ordinal))
            .Select(solution => Begun(solution, text));
        return [.. first.Concat(listed.Concat(solutions).Concat(catalogue).OrderBy(static found => found.Match)).Take(most)];
    }

    private static NamedSolution? Meant(string text) =>
        SolutionCatalog.Default.TryFindByCas(text, out NamedSolution? byCas) ? byCas
        : SolutionCatalog.Default.TryFindInProcedure(text, out NamedSolution? byName) ? byName
        : null;

    private static FoundSubstance Begun(NamedSolution solution, string text)
    {
        string wanted = NameSpelling.Of(text);
        return NameSpelling.Of(solution.Label).StartsWith(wanted, StringComparison.Ordinal) ? Of(solution, NameMatch.Beginning, solution.Label)
            : solution.Synonyms.FirstOrDefault(name => NameSpelling.Of(name).StartsWith(wanted, StringComparison.Ordinal)) is { } synonym ? Of(solution, NameMatch.SynonymBeginning, synonym)
            : Of(solution, NameMatch.CasBeginning, solution.Cas ?? solution.Label);
    }

    private static FoundSubstance Of(NamedSolution solution, NameMatch match, string matched) =>
        new(solution.Label, new Hazards.Substances.Identity { Cas = solution.Cas, Name = solution.Label, Synonyms = solution.Synonyms }, null, match, matched) { Solution = solution };

    /// <summary>How well a find of the catalogue fits, so that it can be merged; what fits by a mistyped letter only comes last.</summary>
    private static FoundSubstance Judged(Substance substance, string text) =>
        new NameIndex<Substance>([substance], static s => s.Identity).Search(text, 1) is [var hit]
            ? new FoundSubstance(substance.Key, substance.Identity, null, hit.Match, hit.Name)
            : new FoundSubstance(substance.Key, substance.Identity, null, NameMatch.WordBeginning, substance.Identity.Name);

    /// <summary>What names an own substance; its molar mass from the formula where it is not stated.</summary>
    public static Hazards.Substances.Identity IdentityOf(GroupSubstance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        return new Hazards.Substances.Identity
        {
            Cas = substance.Cas,
            Name = substance.Name,
            Synonyms = substance.Synonyms,
            Formula = substance.Properties.Formula,
            MolarMassKgPerMol = substance.Properties.MolarMass?.Si ?? (substance.Properties.Formula is { } formula ? Formula.MolarMassKgPerMol(formula) : null),
            Smiles = substance.Smiles,
        };
    }
}
