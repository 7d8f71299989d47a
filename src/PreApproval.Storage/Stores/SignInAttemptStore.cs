using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using PreApproval.Procedures.Accounts;

namespace PreApproval.Storage.Stores;

/// <summary>Each act on a connection of its own, so that it is committed whatever becomes of the request.</summary>
internal sealed class SignInAttemptStore(IServiceScopeFactory scopes) : ISignInAttemptStore
{
    public async Task<bool> TryTakeAsync(Guid accountId, int most, TimeSpan lockout, DateTimeOffset now, CancellationToken cancellationToken)
    {
        await using AsyncServiceScope scope = scopes.CreateAsyncScope();
        DateTimeOffset until = now + lockout;
        List<Guid> taken = await scope.ServiceProvider.GetRequiredService<PreApprovalDbContext>().Database.SqlQuery<Guid>(
            $"""
            UPDATE account SET
                access_failed_count = CASE WHEN access_failed_count + 1 >= {most} THEN 0 ELSE access_failed_count + 1 END,
                lockout_end = CASE WHEN access_failed_count + 1 >= {most} THEN {until} ELSE NULL END
            WHERE id = {accountId} AND deactivated_at IS NULL AND (lockout_end IS NULL OR lockout_end <= {now})
            RETURNING id AS "Value"
            """).ToListAsync(cancellationToken);
        return taken.Count == 1;
    }

    public async Task ResetAsync(Guid accountId, CancellationToken cancellationToken)
    {
        await using AsyncServiceScope scope = scopes.CreateAsyncScope();
        await scope.ServiceProvider.GetRequiredService<PreApprovalDbContext>().Database.ExecuteSqlAsync(
            $"UPDATE account SET access_failed_count = 0, lockout_end = NULL WHERE id = {accountId} AND (access_failed_count <> 0 OR lockout_end IS NOT NULL)",
            cancellationToken);
    }
}
