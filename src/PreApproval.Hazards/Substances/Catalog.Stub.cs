namespace PreApproval.Hazards.Substances;

public sealed partial class Catalog
{
    public partial bool TryFindByCas(string cas, out Substance? substance) => throw new NotSupportedException();

    public partial bool TryFindByName(string name, out Substance? substance) => throw new NotSupportedException();

    public partial bool TryFindBySmiles(string smiles, out Substance? substance) => throw new NotSupportedException();

    public partial IReadOnlyList<Substance> Search(string text, int most) => throw new NotSupportedException();

    public partial string Reference(string sourceKey) => throw new NotSupportedException();

    private static partial Catalog Load() => new();
}
