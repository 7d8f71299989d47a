using PreApproval.Documents.Substances;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Substances;

/// <summary>A substance of a group's own list: what its versions have in common. The name is that of the latest version.</summary>
public sealed record GroupSubstanceRecord
{
    public required Guid Id { get; init; }

    public required Guid GroupId { get; init; }

    public required string Name { get; init; }

    /// <summary>The name as names are compared: unique among those in use.</summary>
    public required string NameKey { get; init; }

    /// <summary>CAS registry number; unique among those in use.</summary>
    public string? Cas { get; init; }

    /// <summary>Number of the latest version, from 1.</summary>
    public required int Version { get; init; }

    /// <summary>When it was taken out of use; null: in use.</summary>
    public DateTimeOffset? RetiredAt { get; init; }

    public required DateTimeOffset UpdatedAt { get; init; }
}

/// <summary>One version. Never changed.</summary>
public sealed record GroupSubstanceVersionRecord
{
    public required Guid SubstanceId { get; init; }

    public required int Version { get; init; }

    public required Guid GroupId { get; init; }

    public required VersionChange Change { get; init; }

    public required Guid AuthorId { get; init; }

    public required DateTimeOffset At { get; init; }

    /// <summary>Why, where it was said.</summary>
    public string? Reason { get; init; }

    /// <summary>The substance in the canonical form of RFC 8785.</summary>
    public required byte[] Content { get; init; }

    /// <summary><c>sha256:</c> and the SHA-256 of the content.</summary>
    public required string ContentDigest { get; init; }
}

/// <summary>A substance of the group's own list, for those who read it.</summary>
public sealed record GroupSubstanceView
{
    public required Guid Id { get; init; }

    public required Guid GroupId { get; init; }

    /// <summary>Number of this version; the ETag.</summary>
    public required int Version { get; init; }

    public required GroupSubstance Substance { get; init; }

    public DateTimeOffset? RetiredAt { get; init; }

    public required VersionChange Change { get; init; }

    public required DateTimeOffset ChangedAt { get; init; }

    public required string ChangedBy { get; init; }

    public string? Reason { get; init; }

    public required string ContentDigest { get; init; }
}
