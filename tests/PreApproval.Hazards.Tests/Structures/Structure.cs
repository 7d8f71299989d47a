using PreApproval.Hazards.Structures;

namespace PreApproval.Hazards.Tests.Structures;

internal static class Structure
{
    public static Molecule Of(string smiles) =>
        SmilesReader.TryRead(smiles, out var molecule, out var error) ? molecule : throw new ArgumentException($"{smiles}: {error}", nameof(smiles));

    public static SubstructurePattern Pattern(string smarts) =>
        SubstructurePattern.TryParse(smarts, out var pattern, out var error) ? pattern : throw new ArgumentException($"{smarts}: {error}", nameof(smarts));

    public static StructureKey Key(string smiles) => StructureKey.Of(Of(smiles));
}
