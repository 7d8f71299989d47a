using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Accounts;

namespace PreApproval.Storage.Stores;

internal sealed class ApiTokenStore(PreApprovalDbContext db) : IApiTokenStore
{
    public async Task AddAsync(ApiTokenRecord token, CancellationToken cancellationToken)
    {
        db.ApiTokens.Add(token);
        await db.SaveChangesAsync(cancellationToken);
    }

    public Task<ApiTokenRecord?> FindAsync(byte[] hash, CancellationToken cancellationToken) =>
        db.ApiTokens.AsNoTracking()
            .Where(x => x.Hash == hash && db.Users.Any(account => account.Id == x.AccountId && account.DeactivatedAt == null))
            .FirstOrDefaultAsync(cancellationToken);

    public async Task<bool> RevokeAsync(Guid accountId, byte[] hash, DateTimeOffset at, CancellationToken cancellationToken) =>
        await db.ApiTokens.Where(x => x.AccountId == accountId && x.Hash == hash && x.RevokedAt == null)
            .ExecuteUpdateAsync(set => set.SetProperty(x => x.RevokedAt, at), cancellationToken) == 1;
}
