using System.Security.Cryptography;
using System.Text;
using System.Xml.Linq;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using PreApproval.Procedures.Idempotency;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared;

/// <summary>
/// Requests that carry a key: claim, effect and stored answer are one transaction, so that there is no moment at which one
/// exists without the other. Refusals are answers too; a server fault is none: it undoes everything and may be tried again.
/// </summary>
public sealed class KeyedRequests(IUnitOfWork unit, IIdempotencyStore store, RequestHash hash)
{
    /// <summary>What a request is compared by. To be called before <see cref="RunAsync"/> opens its transaction.</summary>
    public byte[] HashOf(HttpRequest request, ReadOnlySpan<byte> content)
    {
        ArgumentNullException.ThrowIfNull(request);
        return hash.Compute($"{request.Method}\n{request.Path}{request.QueryString}\n{request.Headers.IfMatch}\n", content);
    }

    /// <summary>The first answer to this key, given now or before; null when the key was used with another request.</summary>
    public async Task<StoredAnswer?> RunAsync(Guid account, string key, byte[] requestHash, Func<Task<StoredAnswer>> act, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(act);
        await using IUnitScope scope = await unit.BeginAsync(cancellationToken);
        switch (await store.ClaimAsync(account, key, requestHash, cancellationToken))
        {
            case KeyClaim.Replay replay:
                return replay.Answer;
            case KeyClaim.OtherRequest:
                return null;
            default:
                StoredAnswer answer = await act();
                if (answer.Status < 500)
                {
                    await store.CompleteAsync(account, key, answer, cancellationToken);
                    await scope.CommitAsync(cancellationToken);
                }

                return answer;
        }
    }

    /// <summary>The answer this key had before, if any; claims nothing.</summary>
    public async Task<StoredAnswer?> FindAsync(Guid account, string key, byte[] requestHash, CancellationToken cancellationToken)
    {
        await using IUnitScope scope = await unit.BeginAsync(cancellationToken);
        return await store.ClaimAsync(account, key, requestHash, cancellationToken) is KeyClaim.Replay replay ? replay.Answer : null;
    }
}

/// <summary>
/// HMAC-SHA-256 of requests. Its key is derived (HKDF, RFC 5869) from the oldest key of Data Protection, which every process of an
/// installation shares: without it nobody can try contents against what is stored.
/// </summary>
public sealed class RequestHash(IKeyManager keys, IDataProtectionProvider protection)
{
    private readonly Lock _deriving = new();
    private byte[]? _key;

    public byte[] Compute(string head, ReadOnlySpan<byte> content)
    {
        using var hmac = IncrementalHash.CreateHMAC(HashAlgorithmName.SHA256, Key());
        hmac.AppendData(Encoding.UTF8.GetBytes(head));
        hmac.AppendData(content);
        return hmac.GetHashAndReset();
    }

    private byte[] Key()
    {
        lock (_deriving)
        {
            return _key ??= Derive();
        }
    }

    private byte[] Derive()
    {
        // Makes the first key where there is none yet.
        protection.CreateProtector(nameof(RequestHash)).Protect([]);
        IKey oldest = keys.GetAllKeys().Where(k => !k.IsRevoked).OrderBy(k => k.CreationDate).ThenBy(k => k.KeyId).First();
        XElement secret = oldest.Descriptor.ExportToXml().SerializedDescriptorElement.Descendants("masterKey").Elements("value").Single();
        return HKDF.DeriveKey(HashAlgorithmName.SHA256, Convert.FromBase64String(secret.Value), outputLength: 32, info: "preapproval request hash 1"u8.ToArray());
    }
}
