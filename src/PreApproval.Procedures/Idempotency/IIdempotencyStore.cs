namespace PreApproval.Procedures.Idempotency;

/// <summary>An answer as it was first given.</summary>
/// <param name="Status">HTTP status.</param>
/// <param name="Headers">Headers that belong to the answer: ETag, Location, Content-Type.</param>
/// <param name="Body">Exact bytes.</param>
public sealed record StoredAnswer(int Status, IReadOnlyDictionary<string, string> Headers, ReadOnlyMemory<byte> Body);

/// <summary>What a key means for a request.</summary>
public abstract record KeyClaim
{
    private KeyClaim()
    {
    }

    /// <summary>The key is new: carry the request out, then complete it.</summary>
    public sealed record Claimed : KeyClaim;

    /// <summary>The same request was answered before.</summary>
    public sealed record Replay(StoredAnswer Answer) : KeyClaim;

    /// <summary>The key was used with another request (422).</summary>
    public sealed record OtherRequest : KeyClaim;
}

/// <summary>
/// Keys of unsafe requests. To be used inside a unit of work begun by the caller: claim first, carry out, complete, commit. A second
/// request with the key waits for the first one's end and then gets its answer.
/// </summary>
public interface IIdempotencyStore
{
    /// <summary>How long an answer is kept at least.</summary>
    static readonly TimeSpan Kept = TimeSpan.FromDays(7);

    /// <param name="accountId">Whose key it is.</param>
    /// <param name="key">As sent.</param>
    /// <param name="requestHash">SHA-256 over method, path and body.</param>
    /// <param name="cancellationToken">Cancels.</param>
    Task<KeyClaim> ClaimAsync(Guid accountId, string key, ReadOnlyMemory<byte> requestHash, CancellationToken cancellationToken);

    Task CompleteAsync(Guid accountId, string key, StoredAnswer answer, CancellationToken cancellationToken);

    /// <summary>Forgets keys claimed before a time; their number. A key sent again after that is a new request.</summary>
    Task<int> PruneAsync(DateTimeOffset before, CancellationToken cancellationToken);
}
