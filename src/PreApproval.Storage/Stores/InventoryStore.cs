using Microsoft.EntityFrameworkCore;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Storage.Stores;

internal sealed class InventoryStore(PreApprovalDbContext db) : IInventoryStore
{
    public Task<IReadOnlyList<(InventoryItemRecord Head, InventoryVersionRecord Latest)>> ListAsync(Guid groupId, InventoryKind kind, bool retired, CancellationToken cancellationToken) =>
        LatestAsync(db.InventoryItems.AsNoTracking().Where(x => x.GroupId == groupId && x.Kind == kind && (retired || x.RetiredAt == null)), cancellationToken);

    public Task<IReadOnlyList<(InventoryItemRecord Head, InventoryVersionRecord Latest)>> NamedAsync(
        Guid groupId, IReadOnlyCollection<string> vesselKeys, string? placeKey, CancellationToken cancellationToken)
    {
        IQueryable<InventoryItemRecord> place = db.InventoryItems.Where(x => x.GroupId == groupId && x.Kind == InventoryKind.Place && x.RetiredAt == null && x.NameKey == placeKey);
        return LatestAsync(
            db.InventoryItems.AsNoTracking().Where(x => x.GroupId == groupId
                && ((x.Kind == InventoryKind.Vessel && vesselKeys.Contains(x.NameKey))
                    || (placeKey != null && x.RetiredAt == null
                        && ((x.Kind == InventoryKind.Place && x.NameKey == placeKey) || (x.Kind == InventoryKind.Agent && place.Any(at => at.Id == x.PlaceId)))))),
            cancellationToken);
    }

    public Task<long> StampAsync(Guid groupId, CancellationToken cancellationToken) =>
        db.InventoryItems.Where(x => x.GroupId == groupId).SumAsync(x => (long)x.Version, cancellationToken);

    public Task<InventoryItemRecord?> FindAsync(Guid groupId, InventoryKind kind, Guid id, CancellationToken cancellationToken) =>
        db.InventoryItems.AsNoTracking().FirstOrDefaultAsync(x => x.GroupId == groupId && x.Kind == kind && x.Id == id, cancellationToken);

    public Task HoldAllAsync(Guid groupId, CancellationToken cancellationToken) => GroupLock.HoldAsync(db, groupId, cancellationToken);

    public Task LockAllAsync(Guid groupId, CancellationToken cancellationToken) => GroupLock.TakeAsync(db, groupId, cancellationToken);

    public async Task<InventoryItemRecord?> LockAsync(Guid groupId, InventoryKind kind, Guid id, CancellationToken cancellationToken)
    {
        string word = WireName.Of(kind);
        return (await db.InventoryItems
            .FromSql($"SELECT * FROM inventory_item WHERE group_id = {groupId} AND kind = {word} AND id = {id} FOR UPDATE")
            .AsNoTracking().ToListAsync(cancellationToken)).FirstOrDefault();
    }

    public async Task<IReadOnlyList<InventoryVersionRecord>> VersionsAsync(Guid groupId, Guid id, CancellationToken cancellationToken) =>
        await db.InventoryVersions.AsNoTracking()
            .Where(x => x.GroupId == groupId && x.ItemId == id)
            .OrderByDescending(x => x.Version).ToListAsync(cancellationToken);

    public Task<int> CountAsync(Guid groupId, InventoryKind kind, Guid? placeId, CancellationToken cancellationToken) =>
        db.InventoryItems.CountAsync(x => x.GroupId == groupId && x.Kind == kind && x.RetiredAt == null && (placeId == null || x.PlaceId == placeId), cancellationToken);

    public async Task<bool> AddAsync(IReadOnlyList<(InventoryItemRecord Item, InventoryVersionRecord First)> added, CancellationToken cancellationToken)
    {
        db.InventoryItems.AddRange(added.Select(static entry => entry.Item));
        db.InventoryVersions.AddRange(added.Select(static entry => entry.First));
        return await UniqueName.IsFreeAsync(() => db.SaveChangesAsync(cancellationToken));
    }

    public async Task<bool> ChangeAsync(InventoryItemRecord item, InventoryVersionRecord next, CancellationToken cancellationToken)
    {
        db.InventoryVersions.Add(next);
        return await UniqueName.IsFreeAsync(async () =>
        {
            await db.SaveChangesAsync(cancellationToken);

            // A table changes many: each save would look through all that were saved before.
            db.Entry(next).State = EntityState.Detached;
            await db.InventoryItems
                .Where(x => x.GroupId == item.GroupId && x.Id == item.Id)
                .ExecuteUpdateAsync(
                    set => set
                        .SetProperty(x => x.Name, item.Name)
                        .SetProperty(x => x.NameKey, item.NameKey)
                        .SetProperty(x => x.PlaceId, item.PlaceId)
                        .SetProperty(x => x.Version, item.Version)
                        .SetProperty(x => x.RetiredAt, item.RetiredAt)
                        .SetProperty(x => x.UpdatedAt, item.UpdatedAt),
                    cancellationToken);
        });
    }

    private async Task<IReadOnlyList<(InventoryItemRecord Head, InventoryVersionRecord Latest)>> LatestAsync(IQueryable<InventoryItemRecord> items, CancellationToken cancellationToken)
    {
        var rows = await items
            .Join(db.InventoryVersions.AsNoTracking(), x => new { ItemId = x.Id, x.Version }, version => new { version.ItemId, version.Version }, (head, latest) => new { head, latest })
            .OrderBy(x => x.head.NameKey).ThenBy(x => x.head.Id)
            .ToListAsync(cancellationToken);
        return [.. rows.Select(row => (row.head, row.latest))];
    }
}
