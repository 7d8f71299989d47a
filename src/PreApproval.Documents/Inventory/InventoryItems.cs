using PreApproval.Hazards.Plans;

namespace PreApproval.Documents.Inventory;

/// <summary>What a group keeps an inventory of.</summary>
public enum InventoryKind
{
    Vessel,
    Place,

    /// <summary>An extinguishing agent on hand at a place.</summary>
    Agent,
}

/// <summary>What one version of an entry of the inventory says.</summary>
public abstract record InventoryContent
{
    /// <summary>Name by which lists and events call it.</summary>
    public abstract string Called { get; }
}

/// <summary>A vessel of the group.</summary>
public sealed record InventoryVessel : InventoryContent
{
    public const int MostParts = 20;

    /// <summary>As a procedure document describes vessels; its identifier is the label.</summary>
    public required VesselEntry Vessel { get; init; }

    /// <summary>Why nobody may use it at present; null: in service.</summary>
    public string? OutOfService { get; init; }

    public string? Note { get; init; }

    /// <summary>What stands on it, for instance <c>T-07</c>.</summary>
    public string Label => Vessel.Id;

    public override string Called => Label;
}

/// <summary>A bench or a hood of the group.</summary>
public sealed record InventoryPlace : InventoryContent
{
    /// <summary>As a procedure document describes places; the name is always there.</summary>
    public required PlaceEntry Place { get; init; }

    public string? Note { get; init; }

    public string Name => Place.Name ?? "";

    /// <summary>The word of its kind, for instance <c>hood with scrubber</c>.</summary>
    public string KindWord => Place.Kind is { } kind ? Reading.Words.PlaceKinds.WordOf(kind) : "";

    public override string Called => Name;
}

/// <summary>An extinguishing agent on hand at a place.</summary>
public sealed record InventoryAgent : InventoryContent
{
    /// <summary>Identifier of the place.</summary>
    public required Guid Place { get; init; }

    public required Agent Agent { get; init; }

    /// <summary>Count and size as typed, for instance <c>2 × 5 kg</c>.</summary>
    public string? Size { get; init; }

    public DateOnly? CheckedOn { get; init; }

    public string? Note { get; init; }

    public override string Called => Hazards.Fire.ExtinguishingAgents.Name(Agent);
}
