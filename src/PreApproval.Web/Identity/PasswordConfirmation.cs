using System.Threading.RateLimiting;
using PreApproval.Procedures.Accounts;

namespace PreApproval.Web.Identity;

/// <summary>What became of a password that was asked for a signature.</summary>
public enum Confirmation
{
    /// <summary>It is the person's.</summary>
    Confirmed,

    /// <summary>It is not, or the account is locked.</summary>
    Wrong,

    /// <summary>More signatures in a minute than anybody reads; it was not looked at.</summary>
    TooMany,
}

/// <summary>Checks a person's password again, for a signature.</summary>
public sealed class PasswordConfirmation(IServiceScopeFactory scopes, IConfiguration configuration) : IDisposable
{
    /// <summary>Setting: signatures per minute and account.</summary>
    public const string DecisionsPerMinute = "RateLimits:DecisionsPerMinute";

    /// <summary>How long to wait after too many.</summary>
    public static readonly TimeSpan Window = TimeSpan.FromMinutes(1);

    private const int DefaultDecisionsPerMinute = 10;

    private readonly PartitionedRateLimiter<Guid> _limiter = PartitionedRateLimiter.Create<Guid, Guid>(account => RateLimitPartition.GetFixedWindowLimiter(account, _ => new FixedWindowRateLimiterOptions
    {
        PermitLimit = configuration.GetValue(DecisionsPerMinute, DefaultDecisionsPerMinute),
        Window = Window,
        QueueLimit = 0,
    }));

    /// <summary>In a unit of its own: a failed attempt counts towards the lockout even when the request around it is undone.</summary>
    public async Task<Confirmation> ConfirmAsync(Guid accountId, string password, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(password);
        cancellationToken.ThrowIfCancellationRequested();
        using RateLimitLease lease = _limiter.AttemptAcquire(accountId);
        if (!lease.IsAcquired)
        {
            return Confirmation.TooMany;
        }

        await using AsyncServiceScope scope = scopes.CreateAsyncScope();
        var signIn = scope.ServiceProvider.GetRequiredService<AccountSignIn>();
        Account? account = await signIn.UserManager.FindByIdAsync(accountId.ToString());
        return await signIn.IsPasswordAsync(account, password) ? Confirmation.Confirmed : Confirmation.Wrong;
    }

    public void Dispose() => _limiter.Dispose();
}
