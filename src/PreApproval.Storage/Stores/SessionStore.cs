using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Accounts;

namespace PreApproval.Storage.Stores;

internal sealed class SessionStore(PreApprovalDbContext db) : ISessionStore
{
    public async Task AddAsync(SessionRecord session, CancellationToken cancellationToken)
    {
        db.Sessions.Add(session);
        await db.SaveChangesAsync(cancellationToken);
    }

    public Task<bool> IsLiveAsync(byte[] hash, Guid accountId, CancellationToken cancellationToken) =>
        db.Sessions.AnyAsync(
            x => x.Hash == hash && x.AccountId == accountId && x.EndedAt == null && db.Users.Any(account => account.Id == accountId && account.DeactivatedAt == null),
            cancellationToken);

    public Task EndAsync(byte[] hash, DateTimeOffset at, CancellationToken cancellationToken) =>
        db.Sessions.Where(x => x.Hash == hash && x.EndedAt == null).ExecuteUpdateAsync(set => set.SetProperty(x => x.EndedAt, at), cancellationToken);

    public Task EndAllAsync(Guid accountId, DateTimeOffset at, CancellationToken cancellationToken) =>
        db.Sessions.Where(x => x.AccountId == accountId && x.EndedAt == null).ExecuteUpdateAsync(set => set.SetProperty(x => x.EndedAt, at), cancellationToken);

    public Task<int> PruneAsync(DateTimeOffset before, CancellationToken cancellationToken)
    {
        DateTimeOffset utc = before.ToUniversalTime();
        return db.Sessions.Where(x => x.CreatedAt < utc).ExecuteDeleteAsync(cancellationToken);
    }
}
