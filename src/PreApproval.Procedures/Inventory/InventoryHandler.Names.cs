using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Inventory;

/// <summary>A name belongs to one entry in use of its kind.</summary>
public sealed partial class InventoryHandler
{
    private static Refusal Taken(InventoryKind kind, string? by = null) => new(
        RefusalKind.Conflict,
        $"The inventory has a {InventoryRows.Word(kind)} of this name{(by is null ? "" : $": {by}")}.",
        [new Fault(kind == InventoryKind.Vessel ? "/label" : "/name", by is null ? $"Another {InventoryRows.Word(kind)} of the inventory goes by this name." : $"The {InventoryRows.Word(kind)} {by} of the inventory goes by this name.")]);

    /// <summary>The entry in use that goes by the same name, which may be spelt otherwise: with the group's entries locked none is added meanwhile.</summary>
    private Task<Refusal?> ClashAsync(InventoryItemRecord head, CancellationToken cancellationToken) => ClashAsync(head.GroupId, head.Kind, head.Id, head.NameKey, cancellationToken);

    private async Task<Refusal?> ClashAsync(Guid groupId, InventoryKind kind, Guid? id, string nameKey, CancellationToken cancellationToken)
    {
        IReadOnlyList<(InventoryItemRecord Head, InventoryVersionRecord Latest)> named = kind switch
        {
            InventoryKind.Vessel => await store.NamedAsync(groupId, [nameKey], null, cancellationToken),
            InventoryKind.Place => await store.NamedAsync(groupId, [], nameKey, cancellationToken),
            InventoryKind.Agent => [],
        };
        return named.Select(static row => row.Head).FirstOrDefault(other => other.Kind == kind && other.Id != id && other.RetiredAt is null) is { } taken
            ? Taken(kind, TypedText.Title(taken.Name))
            : null;
    }

    /// <summary>The name of an agent's place, which stays in the inventory until the end of the transaction; empty for other entries.</summary>
    private async Task<Result<string, Refusal>> HoldPlaceAsync(Guid groupId, InventoryContent content, CancellationToken cancellationToken)
    {
        if (content is not InventoryAgent agent)
        {
            return "";
        }

        return await store.LockAsync(groupId, InventoryKind.Place, agent.Place, cancellationToken) is { RetiredAt: null } place
            ? place.Name
            : new Refusal(RefusalKind.Invalid, "The agent has faults.", [new Fault("/place", "names no place of the inventory")]);
    }

    private async Task<string> PlaceNameAsync(Guid groupId, InventoryContent content, CancellationToken cancellationToken) =>
        content is InventoryAgent agent ? (await store.FindAsync(groupId, InventoryKind.Place, agent.Place, cancellationToken))?.Name ?? "" : "";
}
