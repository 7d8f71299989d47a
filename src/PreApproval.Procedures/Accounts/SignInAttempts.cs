namespace PreApproval.Procedures.Accounts;

/// <summary>Counts attempts at passwords.</summary>
public interface ISignInAttemptStore
{
    /// <summary>
    /// Counts one attempt in a transaction of its own, which also stands when the caller's is undone. False when the account is locked, deactivated
    /// or unknown. The attempt that reaches <paramref name="most"/> locks the account until <paramref name="now"/> + <paramref name="lockout"/>.
    /// </summary>
    Task<bool> TryTakeAsync(Guid accountId, int most, TimeSpan lockout, DateTimeOffset now, CancellationToken cancellationToken);

    Task ResetAsync(Guid accountId, CancellationToken cancellationToken);
}

/// <summary>
/// The right to try a password. It is taken before the password is looked at, so that guesses sent at the same time are
/// counted one by one, and given back by a right password.
/// </summary>
public sealed class SignInAttempts(ISignInAttemptStore store, TimeProvider clock)
{
    /// <summary>Attempts until the account is locked.</summary>
    public const int Most = 5;

    /// <summary>How long it is locked.</summary>
    public static readonly TimeSpan Lockout = TimeSpan.FromMinutes(5);

    /// <summary>True when a password may be tried now. Call it before hashing; when false, answer as for a wrong password.</summary>
    public Task<bool> TryTakeAsync(Guid accountId, CancellationToken cancellationToken) =>
        store.TryTakeAsync(accountId, Most, Lockout, clock.GetUtcNow(), cancellationToken);

    /// <summary>After a right password: nothing counts against the account any more.</summary>
    public Task ResetAsync(Guid accountId, CancellationToken cancellationToken) => store.ResetAsync(accountId, cancellationToken);
}
