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

    public required DateTimeOffset CreatedAt { get; init; }

    public required DateTimeOffset ExpiresAt { get; init; }

    public DateTimeOffset? RevokedAt { get; init; }
}

/// <summary>Stored tokens.</summary>
public interface IApiTokenStore
{
    Task AddAsync(ApiTokenRecord token, CancellationToken cancellationToken);

    /// <summary>The token of an account that is not deactivated.</summary>
    Task<ApiTokenRecord?> FindAsync(byte[] hash, CancellationToken cancellationToken);

    Task<bool> RevokeAsync(Guid accountId, byte[] hash, DateTimeOffset at, CancellationToken cancellationToken);
}

/// <summary>Bearer tokens for the REST interface.</summary>
public sealed class ApiTokens(IApiTokenStore store, IUnitOfWork work, TimeProvider clock)
{
    /// <summary>Begins every token, so that a leaked one can be recognised.</summary>
    public const string Prefix = "pa_";

    /// <summary>A new token with 256 random bits; it is shown once and can't be had again.</summary>
    public async Task<(string Token, DateTimeOffset ExpiresAt)> IssueAsync(Guid accountId, TimeSpan lifetime, CancellationToken cancellationToken)
    {
        string token = Prefix + Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));
        DateTimeOffset now = clock.GetUtcNow();
        var record = new ApiTokenRecord { Id = Guid.CreateVersion7(now), AccountId = accountId, Hash = Hash(token), CreatedAt = now, ExpiresAt = now + lifetime };
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        await store.AddAsync(record, cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return (token, record.ExpiresAt);
    }

    /// <summary>Whose token it is and since when, or null when it is unknown, expired, revoked or of a deactivated account.</summary>
    public async Task<(Guid AccountId, DateTimeOffset IssuedAt)?> ResolveAsync(string token, CancellationToken cancellationToken) =>
        token.StartsWith(Prefix, StringComparison.Ordinal)
        && await store.FindAsync(Hash(token), cancellationToken) is { RevokedAt: null } found
        && found.ExpiresAt > clock.GetUtcNow()
            ? (found.AccountId, found.CreatedAt)
            : null;

    /// <summary>Revokes one of the account's own tokens; false when there is no such.</summary>
    public async Task<bool> RevokeAsync(Guid accountId, string token, CancellationToken cancellationToken)
    {
        await using IUnitScope scope = await work.BeginAsync(cancellationToken);
        bool revoked = await store.RevokeAsync(accountId, Hash(token), clock.GetUtcNow(), cancellationToken);
        await scope.CommitAsync(cancellationToken);
        return revoked;
    }

    private static byte[] Hash(string token) => SHA256.HashData(Encoding.UTF8.GetBytes(token));
}
