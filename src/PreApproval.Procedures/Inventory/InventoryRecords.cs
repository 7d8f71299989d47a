using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Inventory;

/// <summary>An entry of a group's inventory: what its versions have in common. The name is that of the latest version.</summary>
public sealed record InventoryItemRecord
{
    public required Guid Id { get; init; }

    public required Guid GroupId { get; init; }

    public required InventoryKind Kind { get; init; }

    public required string Name { get; init; }

    /// <summary>The name as names are compared: unique among the vessels and among the places in use.</summary>
    public required string NameKey { get; init; }

    /// <summary>Where an agent is on hand; null for vessels and places.</summary>
    public Guid? PlaceId { get; init; }

    /// <summary>Number of the latest version, from 1.</summary>
    public required int Version { get; init; }

    /// <summary>When it was taken out of the inventory; null: it is in it.</summary>
    public DateTimeOffset? RetiredAt { get; init; }

    public required DateTimeOffset UpdatedAt { get; init; }
}

/// <summary>One version. Never changed.</summary>
public sealed record InventoryVersionRecord
{
    public required Guid ItemId { get; init; }

    public required int Version { get; init; }

    public required Guid GroupId { get; init; }

    public required VersionChange Change { get; init; }

    public required Guid AuthorId { get; init; }

    public required DateTimeOffset At { get; init; }

    /// <summary>Why, where it was said.</summary>
    public string? Reason { get; init; }

    /// <summary>The entry in the canonical form of RFC 8785.</summary>
    public required byte[] Content { get; init; }

    /// <summary><c>sha256:</c> and the SHA-256 of the content.</summary>
    public required string ContentDigest { get; init; }
}

/// <summary>An entry of the inventory, for those who read it.</summary>
public sealed record InventoryView
{
    public required Guid Id { get; init; }

    public required Guid GroupId { get; init; }

    public required InventoryKind Kind { get; init; }

    /// <summary>Number of this version; the ETag.</summary>
    public required int Version { get; init; }

    public required InventoryContent Content { get; init; }

    public DateTimeOffset? RetiredAt { get; init; }

    public required VersionChange Change { get; init; }

    public required DateTimeOffset ChangedAt { get; init; }

    public required string ChangedBy { get; init; }

    public string? Reason { get; init; }

    public required string ContentDigest { get; init; }
}
