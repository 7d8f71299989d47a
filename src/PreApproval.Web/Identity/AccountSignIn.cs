using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using PreApproval.Procedures.Accounts;

namespace PreApproval.Web.Identity;

/// <summary>
/// Sign-in by password. Unknown names and locked or deactivated accounts take as long as a wrong password, so that
/// nobody learns which names exist (ASVS 5.0.0, 6.3.8).
/// </summary>
public sealed class AccountSignIn(
    UserManager<Account> users,
    IHttpContextAccessor context,
    IUserClaimsPrincipalFactory<Account> claims,
    IOptions<IdentityOptions> options,
    ILogger<AccountSignIn> logger,
    IAuthenticationSchemeProvider schemes,
    IUserConfirmation<Account> confirmation,
    Sessions sessions,
    SignInAttempts attempts)
    : SignInManager<Account>(users, context, claims, options, logger, schemes, confirmation)
{
    private static readonly Account Nobody = new() { DisplayName = "", UserName = "" };

    private static readonly Lazy<string> NobodysHash = new(() => new PasswordHasher<Account>(Microsoft.Extensions.Options.Options.Create(IdentitySetup.Hashing)).HashPassword(Nobody, Convert.ToHexString(System.Security.Cryptography.RandomNumberGenerator.GetBytes(32))));

    public override Task<bool> CanSignInAsync(Account user)
    {
        ArgumentNullException.ThrowIfNull(user);
        return user.DeactivatedAt is null ? base.CanSignInAsync(user) : Task.FromResult(false);
    }

    /// <summary>Begins a session on the server; the cookie carries its identifier.</summary>
    public override async Task<SignInResult> PasswordSignInAsync(string userName, string password, bool isPersistent, bool lockoutOnFailure)
    {
        Account? account = await VerifyAsync(userName, password);
        if (account is null)
        {
            return SignInResult.Failed;
        }

        string session = await sessions.BeginAsync(account.Id, Context.RequestAborted);
        await SignInWithClaimsAsync(account, isPersistent: false, [new Claim(AccountClaims.Method, "password"), new Claim(AccountClaims.Session, session)]);
        return SignInResult.Success;
    }

    /// <summary>Ends the session on the server too: a copy of the cookie is worth nothing afterwards.</summary>
    public override async Task SignOutAsync()
    {
        if (Context.User.FindFirstValue(AccountClaims.Session) is { } session)
        {
            await sessions.EndAsync(session, Context.RequestAborted);
        }

        await base.SignOutAsync();
    }

    /// <summary>The account when name and password fit and it may sign in; otherwise null, whatever the reason.</summary>
    public async Task<Account?> VerifyAsync(string userName, string password)
    {
        ArgumentNullException.ThrowIfNull(password);
        Account? account = string.IsNullOrWhiteSpace(userName) ? null : await UserManager.FindByNameAsync(userName);
        if (!await IsPasswordAsync(account, password))
        {
            return null;
        }

        SignInLog.SignedIn(Logger, account!.Id);
        return account;
    }

    /// <summary>
    /// True for the account's password. An attempt is taken before anything is hashed, and one hash is computed whether the account is
    /// unknown, locked or deactivated, so that neither the answer nor its time tells which.
    /// </summary>
    public async Task<bool> IsPasswordAsync(Account? account, string password)
    {
        ArgumentNullException.ThrowIfNull(password);
        bool fits = password.Length is > 0 and <= PasswordRules.Longest;
        bool taken = await attempts.TryTakeAsync(account?.Id ?? Guid.Empty, Context.RequestAborted);
        if (account?.PasswordHash is null || !taken || !fits || !await CanSignInAsync(account))
        {
            UserManager.PasswordHasher.VerifyHashedPassword(Nobody, NobodysHash.Value, fits ? password : "");
            SignInLog.SignInFailed(Logger, account?.Id, account is null ? "no such account" : taken ? "unusable" : "locked or closed");
            return false;
        }

        if (!await UserManager.CheckPasswordAsync(account, password))
        {
            SignInLog.SignInFailed(Logger, account.Id, "wrong password");
            return false;
        }

        await attempts.ResetAsync(account.Id, Context.RequestAborted);
        return true;
    }
}

/// <summary>Puts the printed name and the time of the sign-in into the session.</summary>
public sealed class AccountClaimsFactory(UserManager<Account> users, IOptions<IdentityOptions> options, TimeProvider time)
    : UserClaimsPrincipalFactory<Account>(users, options)
{
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(Account user)
    {
        ArgumentNullException.ThrowIfNull(user);
        ClaimsIdentity identity = await base.GenerateClaimsAsync(user);
        identity.AddClaim(new Claim(AccountClaims.DisplayName, user.DisplayName));
        identity.AddClaim(new Claim(AccountClaims.AuthenticatedAt, time.GetUtcNow().ToUnixTimeSeconds().ToString(System.Globalization.CultureInfo.InvariantCulture), ClaimValueTypes.Integer64));
        return identity;
    }
}

internal static partial class SignInLog
{
    [LoggerMessage(2001, LogLevel.Information, "Signed in: account {AccountId}")]
    public static partial void SignedIn(ILogger logger, Guid accountId);

    [LoggerMessage(2002, LogLevel.Warning, "Sign-in failed: account {AccountId}, {Reason}")]
    public static partial void SignInFailed(ILogger logger, Guid? accountId, string reason);

    [LoggerMessage(2003, LogLevel.Information, "Token issued: account {AccountId}, until {Expires}")]
    public static partial void TokenIssued(ILogger logger, Guid accountId, DateTimeOffset expires);
}
