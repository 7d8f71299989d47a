using System.Diagnostics.CodeAnalysis;

namespace PreApproval.Hazards.Substances;

/// <summary>The substances shipped with the engine. Immutable and safe for concurrent use.</summary>
public sealed partial class Catalog
{
    /// <summary>The catalogue embedded in this assembly, loaded once.</summary>
    public static Catalog Default { get; } = Load();

    /// <summary>All substances, by name.</summary>
    public IReadOnlyList<Substance> Substances { get; private init; } = [];

    /// <summary>SHA-256 over the embedded data files, as <c>sha256:</c> and hexadecimal digits.</summary>
    public string Digest { get; private init; } = "";

    /// <summary>Finds a substance by its CAS number (with hyphens).</summary>
    public partial bool TryFindByCas(string cas, [NotNullWhen(true)] out Substance? substance);

    /// <summary>Finds a substance by name or synonym, without regard to case, spaces and hyphens.</summary>
    public partial bool TryFindByName(string name, [NotNullWhen(true)] out Substance? substance);

    /// <summary>Finds a listed substance by its SMILES as written in the catalogue. Other spellings of a structure are not recognised here.</summary>
    public partial bool TryFindBySmiles(string smiles, [NotNullWhen(true)] out Substance? substance);

    /// <summary>Substances whose name, synonym or CAS number begins with the text, best first.</summary>
    public partial IReadOnlyList<Substance> Search(string text, int most);

    /// <summary>The full reference behind a source key.</summary>
    public partial string Reference(string sourceKey);

    private static partial Catalog Load();
}
