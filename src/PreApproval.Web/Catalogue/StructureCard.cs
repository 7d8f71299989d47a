using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Catalogue;

/// <summary>What follows from a structure.</summary>
/// <param name="Smiles">As asked for.</param>
/// <param name="Listed">Key of the catalogue's substance of this structure, for <c>GET substances/{key}</c>; null: it lists none.</param>
/// <param name="Relation">The listed substances it comes near to, whose values are not taken; null: none.</param>
/// <param name="MolarMass">g/mol.</param>
/// <param name="Families">Those of the encounters.</param>
/// <param name="ReactiveSigns">Signs that it may decompose, polymerise or react by itself, energetic groups among them.</param>
/// <param name="Undecided">Groups whose search was given up: they may be there.</param>
/// <param name="Unifac">Subgroups of original UNIFAC, or why there are none.</param>
/// <param name="Values">Estimates, each with its error bar, model and source.</param>
/// <param name="Caution">What to know of every estimate.</param>
public sealed record StructureCard(
    string Smiles, string? Listed, string? Relation, string? Formula, double? MolarMass, IReadOnlyList<string> Families, IReadOnlyList<string> FunctionalGroups,
    IReadOnlyList<string> EnergeticGroups, IReadOnlyList<string> ReactiveSigns, IReadOnlyList<string> Undecided, string Unifac, IReadOnlyList<StructureValue> Values, string Caution)
{
    /// <summary>The card, or null with the reason in <paramref name="error"/>.</summary>
    public static StructureCard? Of(string smiles, out StructureError? error)
    {
        TypedStructure structure = TypedStructure.Of(smiles);
        error = structure.Error;
        if (structure.Groups is not { } groups)
        {
            return null;
        }

        string? listed = Catalog.Default.TryFindBySmiles(structure.Smiles, out Substance? substance) ? substance.Key : null;
        return new StructureCard(
            structure.Smiles,
            listed,
            listed is null ? structure.Relation?.Words : null,
            structure.Formula,
            structure.MolarMassKgPerMol is { } mass ? Math.Round(mass * 1000, 9) : null,
            structure.Families,
            [.. groups.FunctionalGroups],
            [.. groups.EnergeticGroups],
            [.. groups.ReactiveSigns],
            [.. groups.Undecided.Select(group => group.Name)],
            StructureValues.Unifac(structure),
            StructureValues.Of(structure),
            StructureValues.Caution);
    }
}
