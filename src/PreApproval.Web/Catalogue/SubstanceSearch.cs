using PreApproval.Documents.Substances;
using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Catalogue;

/// <summary>A substance that fits what was typed.</summary>
/// <param name="Key">Its address: CAS number or name in the catalogue, identifier in the group's own list.</param>
/// <param name="Identity">What names it.</param>
/// <param name="Own">The entry of the group's own list; null: of the catalogue.</param>
/// <param name="Match">How it fits.</param>
/// <param name="Matched">The name, synonym or CAS number that fits.</param>
public sealed record FoundSubstance(string Key, Hazards.Substances.Identity Identity, ListedGroupSubstance? Own, NameMatch Match, string Matched);

/// <summary>
/// The one search of the API, the page and the editor: the catalogue and the group's own list, merged by how well they fit. Of equals the
/// group's own comes first, marked. A further list (solutions, mixtures) would be merged here.
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
        return [.. listed.Concat(catalogue).OrderBy(static found => found.Match).Take(most)];
    }

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
