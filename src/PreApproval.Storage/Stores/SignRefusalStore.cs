using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Decisions;
using PreApproval.Storage.Model;

namespace PreApproval.Storage.Stores;

internal sealed class SignRefusalStore(PreApprovalDbContext db) : ISignRefusalStore
{
    public async Task<SignRefusalCount> CountAsync(Guid groupId, Guid procedureId, int revision, Guid accountId, string reason, DateTimeOffset at, TimeSpan window, CancellationToken cancellationToken)
    {
        // The person's membership is held, so that two at once can't both be the third.
        await db.Database.ExecuteSqlAsync($"SELECT FROM membership WHERE group_id = {groupId} AND account_id = {accountId} FOR NO KEY UPDATE", cancellationToken);
        DateTimeOffset old = at - window;
        await db.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO sign_refusal AS r (procedure_id, revision, account_id, reason, group_id, window_start, count, previous_count)
            VALUES ({procedureId}, {revision}, {accountId}, {reason}, {groupId}, {at}, 1, 0)
            ON CONFLICT (procedure_id, revision, account_id, reason) DO UPDATE SET
                previous_count = CASE WHEN r.window_start <= {old} THEN r.count ELSE r.previous_count END,
                count = CASE WHEN r.window_start <= {old} THEN 1 ELSE r.count + 1 END,
                window_start = CASE WHEN r.window_start <= {old} THEN {at} ELSE r.window_start END
            """,
            cancellationToken);
        List<SignRefusalRow> open = await db.SignRefusals.AsNoTracking()
            .Where(x => x.GroupId == groupId && x.AccountId == accountId && x.WindowStart > old).ToListAsync(cancellationToken);
        SignRefusalRow counted = open.Single(x => x.ProcedureId == procedureId && x.Revision == revision && string.Equals(x.Reason, reason, StringComparison.Ordinal));
        return new SignRefusalCount(counted.Count, Math.Max(0, counted.PreviousCount - 1), open.Sum(x => x.Count));
    }
}
