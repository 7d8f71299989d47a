using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Substances;

namespace PreApproval.Storage.Stores;

internal sealed class GroupSubstanceStore(PreApprovalDbContext db) : IGroupSubstanceStore
{
    public async Task<IReadOnlyList<(GroupSubstanceRecord Head, GroupSubstanceVersionRecord Latest)>> ListAsync(Guid groupId, bool retired, CancellationToken cancellationToken)
    {
        var rows = await db.GroupSubstances.AsNoTracking()
            .Where(x => x.GroupId == groupId && (retired || x.RetiredAt == null))
            .Join(db.GroupSubstanceVersions.AsNoTracking(), x => new { SubstanceId = x.Id, x.Version }, version => new { version.SubstanceId, version.Version }, (head, latest) => new { head, latest })
            .OrderBy(x => x.head.NameKey).ThenBy(x => x.head.Id)
            .ToListAsync(cancellationToken);
        return [.. rows.Select(row => (row.head, row.latest))];
    }

    public Task<GroupSubstanceRecord?> FindAsync(Guid groupId, Guid substanceId, CancellationToken cancellationToken) =>
        db.GroupSubstances.AsNoTracking().FirstOrDefaultAsync(x => x.GroupId == groupId && x.Id == substanceId, cancellationToken);

    public Task LockAllAsync(Guid groupId, CancellationToken cancellationToken) => GroupLock.TakeAsync(db, groupId, cancellationToken);

    public async Task<GroupSubstanceRecord?> LockAsync(Guid groupId, Guid substanceId, CancellationToken cancellationToken) =>
        (await db.GroupSubstances
            .FromSql($"SELECT * FROM group_substance WHERE group_id = {groupId} AND id = {substanceId} FOR UPDATE")
            .AsNoTracking().ToListAsync(cancellationToken)).FirstOrDefault();

    public async Task<IReadOnlyList<GroupSubstanceVersionRecord>> VersionsAsync(Guid groupId, Guid substanceId, CancellationToken cancellationToken) =>
        await db.GroupSubstanceVersions.AsNoTracking()
            .Where(x => x.GroupId == groupId && x.SubstanceId == substanceId)
            .OrderByDescending(x => x.Version).ToListAsync(cancellationToken);

    public async Task<bool> AddAsync(GroupSubstanceRecord substance, GroupSubstanceVersionRecord first, CancellationToken cancellationToken)
    {
        db.GroupSubstances.Add(substance);
        db.GroupSubstanceVersions.Add(first);
        return await UniqueName.IsFreeAsync(() => db.SaveChangesAsync(cancellationToken));
    }

    public async Task<bool> ChangeAsync(GroupSubstanceRecord substance, GroupSubstanceVersionRecord next, CancellationToken cancellationToken)
    {
        db.GroupSubstanceVersions.Add(next);
        return await UniqueName.IsFreeAsync(async () =>
        {
            await db.SaveChangesAsync(cancellationToken);
            await db.GroupSubstances
                .Where(x => x.GroupId == substance.GroupId && x.Id == substance.Id)
                .ExecuteUpdateAsync(
                    set => set
                        .SetProperty(x => x.Name, substance.Name)
                        .SetProperty(x => x.NameKey, substance.NameKey)
                        .SetProperty(x => x.Cas, substance.Cas)
                        .SetProperty(x => x.Version, substance.Version)
                        .SetProperty(x => x.RetiredAt, substance.RetiredAt)
                        .SetProperty(x => x.UpdatedAt, substance.UpdatedAt),
                    cancellationToken);
        });
    }
}
