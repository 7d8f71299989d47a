using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace PreApproval.Procedures.Accounts;

/// <summary>A browser's sign-in as stored: of its identifier only the SHA-256.</summary>
public sealed record SessionRecord
{
    public required Guid Id { get; init; }

    public required Guid AccountId { get; init; }

    /// <summary>SHA-256 of the identifier's text.</summary>
    public required byte[] Hash { get; init; }

    public required DateTimeOffset CreatedAt { get; init; }

    public DateTimeOffset? EndedAt { get; init; }
}

/// <summary>Stored sessions.</summary>
public interface ISessionStore
{
    Task AddAsync(SessionRecord session, CancellationToken cancellationToken);

    /// <summary>True for a session of this very account that was not ended, while the account is not deactivated.</summary>
    Task<bool> IsLiveAsync(byte[] hash, Guid accountId, CancellationToken cancellationToken);

    Task EndAsync(byte[] hash, DateTimeOffset at, CancellationToken cancellationToken);

    Task EndAllAsync(Guid accountId, DateTimeOffset at, CancellationToken cancellationToken);

    /// <summary>Removes sessions that began before; their number.</summary>
    Task<int> PruneAsync(DateTimeOffset before, CancellationToken cancellationToken);
}

/// <summary>
/// Sessions of browsers, kept on the server so that a sign-out ends them: a copied cookie is then worth nothing. How long a session may last is for
/// the caller to say, who knows when it began.
/// </summary>
public sealed class Sessions(ISessionStore store, TimeProvider clock)
{
    /// <summary>A new session; its identifier with 256 random bits, which is stored only as a hash.</summary>
    public async Task<string> BeginAsync(Guid accountId, CancellationToken cancellationToken)
    {
        string id = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));
        DateTimeOffset now = clock.GetUtcNow();
        await store.AddAsync(new SessionRecord { Id = Guid.CreateVersion7(now), AccountId = accountId, Hash = Hash(id), CreatedAt = now }, cancellationToken);
        return id;
    }

    /// <summary>True while nobody ended it and the account is not deactivated.</summary>
    public Task<bool> IsLiveAsync(string id, Guid accountId, CancellationToken cancellationToken) => store.IsLiveAsync(Hash(id), accountId, cancellationToken);

    /// <summary>Ends one session. Ending it again changes nothing.</summary>
    public Task EndAsync(string id, CancellationToken cancellationToken) => store.EndAsync(Hash(id), clock.GetUtcNow(), cancellationToken);

    /// <summary>Ends every session of the account, for instance after a change of its password.</summary>
    public Task EndAllAsync(Guid accountId, CancellationToken cancellationToken) => store.EndAllAsync(accountId, clock.GetUtcNow(), cancellationToken);

    /// <summary>Forgets sessions that began before a time at which all of them have ended by age; their number.</summary>
    public Task<int> PruneAsync(DateTimeOffset before, CancellationToken cancellationToken) => store.PruneAsync(before, cancellationToken);

    private static byte[] Hash(string id) => SHA256.HashData(Encoding.UTF8.GetBytes(id));
}
