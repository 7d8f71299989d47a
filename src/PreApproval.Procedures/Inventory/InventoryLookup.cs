using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Substances;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Inventory;

/// <summary>The inventory as documents use it; nothing for those who do not read procedures of the group.</summary>
public sealed class InventoryLookup(IInventoryStore store, IProcedureReader reader, PolicyInUse thresholds, TimeProvider clock)
{
    public DateOnly Today => DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime);

    /// <summary>It stays as it is until the end of the transaction.</summary>
    public Task HoldAsync(Guid groupId, CancellationToken cancellationToken) => store.HoldAllAsync(groupId, cancellationToken);

    /// <summary>A number that is another one after each change, to know without reading all of it whether it was changed.</summary>
    public async Task<long> StampAsync(Actor? actor, CancellationToken cancellationToken) =>
        actor is not null && Access.MayRead(actor) ? await store.StampAsync(actor.GroupId, cancellationToken) : 0;

    /// <summary>What a document names of it.</summary>
    public async Task<GroupInventory> OfAsync(Actor? actor, ProcedureDocument document, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(document);
        if (actor is null || !Access.MayRead(actor))
        {
            return GroupInventory.Empty;
        }

        string[] vessels = [.. document.Vessels.Select(static vessel => NameSpelling.Of(vessel.Id)).Where(static key => key.Length > 0).Distinct(StringComparer.Ordinal)];
        string? place = document.Place?.Name is { } name ? NameSpelling.Of(name) : null;
        return vessels.Length == 0 && place is null
            ? GroupInventory.Empty
            : await MadeAsync(actor, await store.NamedAsync(actor.GroupId, vessels, place, cancellationToken), cancellationToken);
    }

    /// <summary>All of it, with the vessels that were taken out, so that a draft that names one can be told.</summary>
    public async Task<GroupInventory> AllAsync(Actor? actor, CancellationToken cancellationToken)
    {
        if (actor is null || !Access.MayRead(actor))
        {
            return GroupInventory.Empty;
        }

        return await MadeAsync(
            actor,
            [
                .. await store.ListAsync(actor.GroupId, InventoryKind.Vessel, retired: true, cancellationToken),
                .. await store.ListAsync(actor.GroupId, InventoryKind.Place, retired: false, cancellationToken),
                .. await store.ListAsync(actor.GroupId, InventoryKind.Agent, retired: false, cancellationToken),
            ],
            cancellationToken);
    }

    private async Task<GroupInventory> MadeAsync(Actor actor, IReadOnlyList<(InventoryItemRecord Head, InventoryVersionRecord Latest)> rows, CancellationToken cancellationToken)
    {
        if (rows.Count == 0)
        {
            return GroupInventory.Empty;
        }

        IReadOnlyDictionary<Guid, string> names = await reader.NamesAsync([.. rows.Where(static row => row.Head.Kind == InventoryKind.Vessel).Select(static row => row.Latest.AuthorId).Distinct()], cancellationToken);
        InventoryAgent[] agents = [.. rows.Where(static row => row.Head.Kind == InventoryKind.Agent).Select(static row => (InventoryAgent)InventoryRows.Content(row))];
        return new GroupInventory(
            [
                .. rows.Where(static row => row.Head.Kind == InventoryKind.Vessel).Select(row => new ListedVessel(
                    row.Head.Id, row.Head.Version, names[row.Latest.AuthorId], row.Head.RetiredAt is null ? null : row.Latest.Reason ?? "", (InventoryVessel)InventoryRows.Content(row))),
            ],
            [
                .. rows.Where(static row => row.Head.Kind == InventoryKind.Place).Select(row => new ListedPlace(
                    row.Head.Id, row.Head.Version, (InventoryPlace)InventoryRows.Content(row),
                    [.. agents.Where(agent => agent.Place == row.Head.Id).Select(static agent => agent.Agent).Distinct().Order()])),
            ])
        {
            InspectionMonths = (await thresholds.OfAsync(actor, cancellationToken)).InspectionMonths,
        };
    }
}
