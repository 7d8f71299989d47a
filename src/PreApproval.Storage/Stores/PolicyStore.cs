using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Thresholds;

namespace PreApproval.Storage.Stores;

internal sealed class PolicyStore(PreApprovalDbContext db) : IPolicyStore
{
    public Task<PolicyVersionRecord?> CurrentAsync(Guid groupId, CancellationToken cancellationToken) =>
        db.PolicyVersions.AsNoTracking().Where(x => x.GroupId == groupId).OrderByDescending(x => x.Version).FirstOrDefaultAsync(cancellationToken);

    public async Task<PolicyVersionRecord?> HoldAsync(Guid groupId, CancellationToken cancellationToken)
    {
        await GroupLock.HoldAsync(db, groupId, cancellationToken);
        return await CurrentAsync(groupId, cancellationToken);
    }

    public async Task<PolicyVersionRecord?> LockAsync(Guid groupId, CancellationToken cancellationToken)
    {
        await GroupLock.TakeAsync(db, groupId, cancellationToken);
        return await CurrentAsync(groupId, cancellationToken);
    }

    public async Task<IReadOnlyList<PolicyVersionRecord>> VersionsAsync(Guid groupId, CancellationToken cancellationToken) =>
        await db.PolicyVersions.AsNoTracking().Where(x => x.GroupId == groupId).OrderByDescending(x => x.Version).ToListAsync(cancellationToken);

    public async Task AddAsync(PolicyVersionRecord version, CancellationToken cancellationToken)
    {
        db.PolicyVersions.Add(version);
        await db.SaveChangesAsync(cancellationToken);
    }
}
