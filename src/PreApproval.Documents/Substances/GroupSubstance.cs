namespace PreApproval.Documents.Substances;

/// <summary>A substance of a group's own list: what names it, and values that the group states with their sources.</summary>
public sealed record GroupSubstance
{
    public const int LongestName = 200;

    public const int MostSynonyms = 30;

    public required string Name { get; init; }

    public IReadOnlyList<string> Synonyms { get; init; } = [];

    /// <summary>CAS registry number; null where it has none.</summary>
    public string? Cas { get; init; }

    /// <summary>Structure as an OpenSMILES string, kept as typed.</summary>
    public string? Smiles { get; init; }

    public required SubstanceProperties Properties { get; init; }

    /// <summary>Name and synonyms.</summary>
    public IEnumerable<string> Names => Synonyms.Prepend(Name);
}
