using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Accounts;

/// <summary>A bearer token as stored: only its SHA-256.</summary>
public sealed record ApiTokenRecord
{
    public required Guid Id { get; init; }

    public required Guid AccountId { get; init; }

    /// <summary>SHA-256 of the token's text.</summary>
    public required byte[] Hash { get; init; }

    /// <summary>The account's security stamp when it was issued: a change of the password ends it.</summary>
    public string? SecurityStamp { get; init; }

    public required DateTimeOffset CreatedAt { get; init; }

    public required DateTimeOffset ExpiresAt { get; init; }

    /// <summary>To the minute.</summary>
    public DateTimeOffset? LastUsedAt { get; init; }

    public DateTimeOffset? RevokedAt { get; init; }
}

/// <summary>A token as its owner sees it; its text is never shown again.</summary>
public sealed record ApiTokenView(Guid Id, DateTimeOffset CreatedAt, DateTimeOffset ExpiresAt, DateTimeOffset? LastUsedAt);

/// <summary>Stored tokens.</summary>
public interface IApiTokenStore
{
    /// <summary>Holds the account until the end of the transaction; its security stamp, or null when it is deactivated or unknown.</summary>
    Task<string?> LockStampAsync(Guid accountId, CancellationToken cancellationToken);

    Task AddAsync(ApiTokenRecord token, CancellationToken cancellationToken);

    /// <summary>The token of an account that is not deactivated and whose security stamp is still the token's.</summary>
    Task<ApiTokenRecord?> FindAsync(byte[] hash, CancellationToken cancellationToken);

    /// <summary>Tokens of the account that are good at this time, newest first.</summary>
    Task<IReadOnlyList<ApiTokenRecord>> LiveAsync(Guid accountId, DateTimeOffset at, CancellationToken cancellationToken);

    Task TouchAsync(Guid id, DateTimeOffset at, CancellationToken cancellationToken);

    Task<bool> RevokeAsync(Guid accountId, byte[] hash, DateTimeOffset at, CancellationToken cancellationToken);

    Task<bool> RevokeAsync(Guid accountId, Guid id, DateTimeOffset at, CancellationToken cancellationToken);
}

/// <summary>Bearer tokens for the REST interface.</summary>
public sealed class ApiTokens(IApiTokenStore store, IUnitOfWork work, TimeProvider clock)
{
    /// <summary>Begins every token, so that a leaked one can be recognised.</summary>
    public const string Prefix = "pa_";

    /// <summary>Good tokens that an account may have; a further one ends the oldest.</summary>
    public const int Most = 20;

    private static readonly TimeSpan TouchEvery = TimeSpan.FromMinutes(1);

    /// <summary>A new token with 256 random bits; it is shown once and can't be had again.</summary>
    public async Task<(string Token, DateTimeOffset ExpiresAt)> IssueAsync(Guid accountId, TimeSpan lifetime, CancellationToken cancellationToken)
    {
        string token = Prefix + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);

        // Without a stamp (deactivated at this very moment) the token is good for nothing.
        string? stamp = await store.LockStampAsync(accountId, cancellationToken);
        DateTimeOffset now = clock.GetUtcNow();
        foreach (ApiTokenRecord surplus in (await store.LiveAsync(accountId, now, cancellationToken)).Skip(Most - 1))
        {
            await store.RevokeAsync(accountId, surplus.Id, now, cancellationToken);
        }

        var record = new ApiTokenRecord { Id = Guid.CreateVersion7(now), AccountId = accountId, Hash = Hash(token), SecurityStamp = stamp, CreatedAt = now, ExpiresAt = now + lifetime };
        await store.AddAsync(record, cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return (token, record.ExpiresAt);
    }

    /// <summary>Whose token it is and since when, or null when it is unknown, expired, revoked, of a deactivated account or from before a change of its password.</summary>
    public async Task<(Guid AccountId, DateTimeOffset IssuedAt)?> ResolveAsync(string token, CancellationToken cancellationToken)
    {
        DateTimeOffset now = clock.GetUtcNow();
        if (!token.StartsWith(Prefix, StringComparison.Ordinal)
            || await store.FindAsync(Hash(token), cancellationToken) is not { RevokedAt: null } found
            || found.ExpiresAt <= now)
        {
            return null;
        }

        if (found.LastUsedAt is not { } last || now - last >= TouchEvery)
        {
            await store.TouchAsync(found.Id, now, cancellationToken);
        }

        return (found.AccountId, found.CreatedAt);
    }

    /// <summary>The account's good tokens, newest first.</summary>
    public async Task<IReadOnlyList<ApiTokenView>> ListAsync(Guid accountId, CancellationToken cancellationToken) =>
        [.. (await store.LiveAsync(accountId, clock.GetUtcNow(), cancellationToken)).Select(token => new ApiTokenView(token.Id, token.CreatedAt, token.ExpiresAt, token.LastUsedAt))];

    /// <summary>Revokes one of the account's own tokens; false when there is no such.</summary>
    public Task<bool> RevokeAsync(Guid accountId, string token, CancellationToken cancellationToken) =>
        InUnitAsync(() => store.RevokeAsync(accountId, Hash(token), clock.GetUtcNow(), cancellationToken), cancellationToken);

    /// <summary>Revokes one of the account's own tokens by its identifier in the list; false when there is no such.</summary>
    public Task<bool> RevokeAsync(Guid accountId, Guid id, CancellationToken cancellationToken) =>
        InUnitAsync(() => store.RevokeAsync(accountId, id, clock.GetUtcNow(), cancellationToken), cancellationToken);

    private async Task<bool> InUnitAsync(Func<Task<bool>> revoke, CancellationToken cancellationToken)
    {
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        bool revoked = await revoke();
        await scope.CommitAsync(cancellationToken);
        return revoked;
    }

    private static byte[] Hash(string token) => SHA256.HashData(Encoding.UTF8.GetBytes(token));
}
