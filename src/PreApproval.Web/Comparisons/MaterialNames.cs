using PreApproval.Documents;
using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Comparisons;

/// <summary>What the materials of documents are called, by the short names that findings give.</summary>
public static class MaterialNames
{
    /// <summary>Where documents use a short name for two things, both are named.</summary>
    public static IReadOnlyDictionary<string, string> Of(params IReadOnlyList<ProcedureDocument> documents)
    {
        ArgumentNullException.ThrowIfNull(documents);
        return documents.SelectMany(static document => document.Materials)
            .GroupBy(static material => material.Id, StringComparer.Ordinal)
            .ToDictionary(static same => same.Key, static same => string.Join(" or ", same.Select(Of).Distinct(StringComparer.Ordinal)), StringComparer.Ordinal);
    }

    private static string Of(MaterialEntry material) => material switch
    {
        { Substance: { } substance, Solution.Solvent: { } solvent } => $"{Of(substance)} in {Of(solvent)}",
        { Substance: { } substance } => Of(substance),
        { Mixture: { } parts } => string.Join(" and ", parts.Select(static part => Of(part.Substance))),
        _ => material.Id,
    };

    private static string Of(SubstanceReference? reference) => reference?.Name
        ?? (reference?.Cas is { } cas && Catalog.Default.TryFindByCas(cas, out Substance? known) ? known.Identity.Name : null)
        ?? reference?.Cas ?? reference?.Smiles ?? "a part without a name";
}
