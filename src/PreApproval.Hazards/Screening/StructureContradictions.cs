using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Structures;

namespace PreApproval.Hazards.Screening;

/// <summary>A CAS number or name beside a structure that is not the one the catalogue has for it: what is listed was screened, and one of the two is wrong.</summary>
internal static class StructureContradictions
{
    public static IEnumerable<Finding> Find(ScreeningContext context) =>
        !context.Plan.Materials.Any(IsTyped) ? [] : context.Plan.Materials
            .SelectMany(static material => AmountConversion.Parts(material.Composition).Select(part => (Material: material.Id, part.Substance)))
            .Where(static pair => pair.Substance.Smiles is not null)
            .GroupBy(static pair => (pair.Substance.Key, pair.Substance.Smiles))
            .Select(static group => Of(group.First().Substance, [.. group.Select(static pair => pair.Material).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)]))
            .OfType<Finding>();

    private static bool IsTyped(Material material) =>
        material.Composition is Composition.Pure { Substance: var pure } ? pure.Smiles is not null : AmountConversion.Parts(material.Composition).Any(static part => part.Substance.Smiles is not null);

    private static Finding? Of(PlanSubstance substance, string[] materials)
    {
        // an unlisted substance has its own finding
        if (substance is not { Structure: null, Smiles: { } typed, Known.Identity: { Smiles: { } listed, Formula: { } formula } identity } || string.Equals(typed.Trim(), listed, StringComparison.Ordinal))
        {
            return null;
        }

        var read = SmilesReader.TryRead(typed.Trim(), out var molecule, out var error);
        if (read && StructureKey.TryOf(listed, out var key, out _) && StructureKey.Of(molecule!) == key)
        {
            return null;
        }

        var otherFormula = !read || !string.Equals(molecule!.Formula, formula, StringComparison.Ordinal);
        var says = !read ? $"cannot be read (character {error!.Position + 1}: {error.Message})"
            : otherFormula ? $"is of {molecule!.Formula}, but {identity.Name} is {formula}"
            : $"is not the one listed for {identity.Name}, which may be another isomer or another drawing";
        return new Finding
        {
            Code = "data.structure-differs",
            Hazard = Hazard.Data,
            Severity = otherFormula ? Severity.Caution : Severity.Notice,
            Materials = materials,
            Statement = $"The structure typed for {Wording.List(materials.Select(static id => $"“{id}”"))} {says}: {identity.Name} was screened. Say which is meant.",
            LeavesCheckUndone = otherFormula,
        };
    }
}
