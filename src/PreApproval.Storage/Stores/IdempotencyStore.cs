using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using PreApproval.Procedures.Idempotency;
using PreApproval.Storage.Model;

namespace PreApproval.Storage.Stores;

internal sealed class IdempotencyStore(PreApprovalDbContext db, TimeProvider clock) : IIdempotencyStore
{
    public async Task<KeyClaim> ClaimAsync(Guid accountId, string key, ReadOnlyMemory<byte> requestHash, CancellationToken cancellationToken)
    {
        if (db.Database.CurrentTransaction is null)
        {
            throw new InvalidOperationException("A key is claimed inside a unit of work.");
        }

        byte[] hash = requestHash.ToArray();
        DateTimeOffset now = clock.GetUtcNow();

        // Waits for a transaction that claimed the same key and has not ended yet.
        int claimed = await db.Database.ExecuteSqlAsync(
            $"""
            INSERT INTO idempotency_record (account_id, key, request_hash, created_at) VALUES ({accountId}, {key}, {hash}, {now})
            ON CONFLICT (account_id, key) DO NOTHING
            """,
            cancellationToken);
        if (claimed == 1)
        {
            return new KeyClaim.Claimed();
        }

        IdempotencyRow stored = await db.IdempotencyRecords.AsNoTracking().SingleAsync(x => x.AccountId == accountId && x.Key == key, cancellationToken);
        if (!stored.RequestHash.AsSpan().SequenceEqual(hash))
        {
            return new KeyClaim.OtherRequest();
        }

        return stored is { Status: { } status, Headers: { } headers, Body: { } body }
            ? new KeyClaim.Replay(new StoredAnswer(status, JsonSerializer.Deserialize<Dictionary<string, string>>(headers)!, body))
            : throw new InvalidOperationException("A key was committed without its answer: complete it before the commit.");
    }

    public async Task CompleteAsync(Guid accountId, string key, StoredAnswer answer, CancellationToken cancellationToken)
    {
        string headers = JsonSerializer.Serialize(answer.Headers);
        byte[] body = answer.Body.ToArray();
        await db.IdempotencyRecords.Where(x => x.AccountId == accountId && x.Key == key).ExecuteUpdateAsync(
            set => set.SetProperty(x => x.Status, answer.Status).SetProperty(x => x.Headers, headers).SetProperty(x => x.Body, body), cancellationToken);
    }

    public Task<int> PruneAsync(DateTimeOffset before, CancellationToken cancellationToken)
    {
        DateTimeOffset utc = before.ToUniversalTime();
        return db.IdempotencyRecords.Where(x => x.CreatedAt < utc).ExecuteDeleteAsync(cancellationToken);
    }
}
