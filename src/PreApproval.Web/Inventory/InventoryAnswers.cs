using System.Text.Json;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Inventory;

/// <summary>An entry of the inventory in one of its versions.</summary>
/// <param name="RetiredAt">When it was taken out of the inventory; null: it is in it.</param>
/// <param name="Change">What this version did: added, changed or retired.</param>
/// <param name="Digest"><c>sha256:</c> and the SHA-256 of its canonical form, as in the history.</param>
/// <param name="Entry">As it was written: the members that the body of its POST has.</param>
public sealed record InventoryAnswer(
    Guid Id, Guid Group, int Version, DateTimeOffset? RetiredAt, VersionChange Change, DateTimeOffset ChangedAt, string ChangedBy, string? Reason, string Digest, JsonElement Entry)
{
    public static InventoryAnswer From(InventoryView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return new InventoryAnswer(
            view.Id, view.GroupId, view.Version, view.RetiredAt, view.Change, view.ChangedAt, view.ChangedBy, view.Reason, view.ContentDigest,
            JsonElement.Parse(InventoryDocument.Canonical(view.Content)));
    }
}

/// <summary>Entries of the inventory, or the versions of one.</summary>
public sealed record InventoryAnswers(IReadOnlyList<InventoryAnswer> Items);

/// <summary>Stands in the OpenAPI document for a vessel of the inventory, whose members docs/inventory.md describes.</summary>
public sealed record VesselBody;

/// <summary>Stands in the OpenAPI document for a place of the inventory.</summary>
public sealed record PlaceBody;

/// <summary>Stands in the OpenAPI document for an extinguishing agent on hand.</summary>
public sealed record AgentBody;
