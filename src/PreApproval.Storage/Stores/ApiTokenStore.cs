using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Accounts;

namespace PreApproval.Storage.Stores;

internal sealed class ApiTokenStore(PreApprovalDbContext db) : IApiTokenStore
{
    public async Task<string?> LockStampAsync(Guid accountId, CancellationToken cancellationToken) =>
        (await db.Database.SqlQuery<string>(
            $"""SELECT coalesce(security_stamp, '') AS "Value" FROM account WHERE id = {accountId} AND deactivated_at IS NULL FOR NO KEY UPDATE""")
            .ToListAsync(cancellationToken)).FirstOrDefault();

    public async Task AddAsync(ApiTokenRecord token, CancellationToken cancellationToken)
    {
        db.ApiTokens.Add(token);
        await db.SaveChangesAsync(cancellationToken);
    }

    public Task<ApiTokenRecord?> FindAsync(byte[] hash, CancellationToken cancellationToken) =>
        OfStandingAccounts().Where(x => x.Hash == hash).FirstOrDefaultAsync(cancellationToken);

    public async Task<IReadOnlyList<ApiTokenRecord>> LiveAsync(Guid accountId, DateTimeOffset at, CancellationToken cancellationToken) =>
        await OfStandingAccounts().Where(x => x.AccountId == accountId && x.RevokedAt == null && x.ExpiresAt > at)
            .OrderByDescending(x => x.CreatedAt).ThenByDescending(x => x.Id).ToListAsync(cancellationToken);

    public Task TouchAsync(Guid id, DateTimeOffset at, CancellationToken cancellationToken) =>
        db.ApiTokens.Where(x => x.Id == id).ExecuteUpdateAsync(set => set.SetProperty(x => x.LastUsedAt, at), cancellationToken);

    public async Task<bool> RevokeAsync(Guid accountId, byte[] hash, DateTimeOffset at, CancellationToken cancellationToken) =>
        await db.ApiTokens.Where(x => x.AccountId == accountId && x.Hash == hash && x.RevokedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.RevokedAt, at), cancellationToken) == 1;

    public async Task<bool> RevokeAsync(Guid accountId, Guid id, DateTimeOffset at, CancellationToken cancellationToken) =>
        await db.ApiTokens.Where(x => x.AccountId == accountId && x.Id == id && x.RevokedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.RevokedAt, at), cancellationToken) == 1;

    private IQueryable<ApiTokenRecord> OfStandingAccounts() => db.ApiTokens.AsNoTracking()
        .Where(x => x.SecurityStamp != null && db.Users.Any(account => account.Id == x.AccountId && account.DeactivatedAt == null && account.SecurityStamp == x.SecurityStamp));
}
