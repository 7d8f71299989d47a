using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using PreApproval.Procedures.Accounts;

namespace PreApproval.Web.Identity;

/// <summary>
/// Sign-in by password. A deactivated account cannot sign in, and an unknown name takes as long as a wrong password, so that
/// nobody learns which names exist (ASVS 5.0.0, 6.3.8).
/// </summary>
public sealed class AccountSignIn(
    UserManager<Account> users,
    IHttpContextAccessor context,
    IUserClaimsPrincipalFactory<Account> claims,
    IOptions<IdentityOptions> options,
    ILogger<AccountSignIn> logger,
    IAuthenticationSchemeProvider schemes,
    IUserConfirmation<Account> confirmation)
    : SignInManager<Account>(users, context, claims, options, logger, schemes, confirmation)
{
    private static readonly Account Nobody = new() { DisplayName = "", UserName = "" };

    private static readonly Lazy<string> NobodysHash = new(() => new PasswordHasher<Account>(Microsoft.Extensions.Options.Options.Create(IdentitySetup.Hashing)).HashPassword(Nobody, Convert.ToHexString(System.Security.Cryptography.RandomNumberGenerator.GetBytes(32))));

    public override Task<bool> CanSignInAsync(Account user)
    {
        ArgumentNullException.ThrowIfNull(user);
        return user.DeactivatedAt is null ? base.CanSignInAsync(user) : Task.FromResult(false);
    }

    public override async Task<SignInResult> PasswordSignInAsync(string userName, string password, bool isPersistent, bool lockoutOnFailure)
    {
        Account? account = await VerifyAsync(userName, password);
        if (account is null)
        {
            return SignInResult.Failed;
        }

        await SignInAsync(account, isPersistent: false, authenticationMethod: "password");
        return SignInResult.Success;
    }

    /// <summary>The account when name and password fit and it may sign in; otherwise null, whatever the reason.</summary>
    public async Task<Account?> VerifyAsync(string userName, string password)
    {
        ArgumentNullException.ThrowIfNull(password);
        Account? account = string.IsNullOrWhiteSpace(userName) ? null : await UserManager.FindByNameAsync(userName);
        if (account is null || password.Length > PasswordRules.Longest)
        {
            UserManager.PasswordHasher.VerifyHashedPassword(Nobody, NobodysHash.Value, password.Length > PasswordRules.Longest ? "" : password);
            SignInLog.SignInFailed(Logger, account?.Id, "no such account");
            return null;
        }

        SignInResult result = await CheckPasswordSignInAsync(account, password, lockoutOnFailure: true);
        if (result.Succeeded)
        {
            SignInLog.SignedIn(Logger, account.Id);
            return account;
        }

        SignInLog.SignInFailed(Logger, account.Id, result.ToString());
        return null;
    }
}

/// <summary>Checks a person's password again, for a signature.</summary>
public sealed class PasswordConfirmation(IServiceScopeFactory scopes)
{
    /// <summary>In a unit of its own: a failed attempt counts towards the lockout even when the request around it is undone.</summary>
    public async Task<bool> ConfirmAsync(Guid accountId, string password, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(password);
        cancellationToken.ThrowIfCancellationRequested();
        await using AsyncServiceScope scope = scopes.CreateAsyncScope();
        var users = scope.ServiceProvider.GetRequiredService<UserManager<Account>>();
        var signIn = scope.ServiceProvider.GetRequiredService<SignInManager<Account>>();
        Account? account = await users.FindByIdAsync(accountId.ToString());
        return account is not null && password.Length is > 0 and <= PasswordRules.Longest
            && (await signIn.CheckPasswordSignInAsync(account, password, lockoutOnFailure: true)).Succeeded;
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

/// <summary>Looks at every request whether the session still holds: 12 hours at most, the account active, its security stamp unchanged.</summary>
public static class SessionCheck
{
    public static readonly TimeSpan Longest = TimeSpan.FromHours(12);

    public static async Task ValidateAsync(CookieValidatePrincipalContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        IServiceProvider services = context.HttpContext.RequestServices;
        var users = services.GetRequiredService<UserManager<Account>>();
        IdentityOptions options = services.GetRequiredService<IOptions<IdentityOptions>>().Value;
        DateTimeOffset now = services.GetRequiredService<TimeProvider>().GetUtcNow();
        Account? account = context.Principal is null ? null : await users.GetUserAsync(context.Principal);
        bool holds = account is { DeactivatedAt: null }
            && string.Equals(context.Principal!.FindFirstValue(options.ClaimsIdentity.SecurityStampClaimType), account.SecurityStamp, StringComparison.Ordinal)
            && long.TryParse(context.Principal!.FindFirstValue(AccountClaims.AuthenticatedAt), System.Globalization.CultureInfo.InvariantCulture, out long at)
            && now - DateTimeOffset.FromUnixTimeSeconds(at) < Longest;
        if (!holds)
        {
            context.RejectPrincipal();
            await context.HttpContext.SignOutAsync(IdentityConstants.ApplicationScheme);
        }
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
