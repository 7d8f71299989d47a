using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using PreApproval.Procedures.Accounts;

namespace PreApproval.Web.Identity;

/// <summary>Whether a session still holds: not signed out, 12 hours at most, the account active, its security stamp unchanged. Every request asks, and every act of an open editor.</summary>
public sealed class SessionCheck(UserManager<Account> users, Sessions sessions, IOptions<IdentityOptions> options, TimeProvider time)
{
    public static readonly TimeSpan Longest = TimeSpan.FromHours(12);

    public async Task<bool> HoldsAsync(ClaimsPrincipal? user, CancellationToken cancellationToken) =>
        user?.FindFirstValue(AccountClaims.Session) is { } session
        && long.TryParse(user.FindFirstValue(AccountClaims.AuthenticatedAt), System.Globalization.CultureInfo.InvariantCulture, out long at)
        && time.GetUtcNow() - DateTimeOffset.FromUnixTimeSeconds(at) < Longest
        && await users.GetUserAsync(user) is { DeactivatedAt: null } account
        && string.Equals(user.FindFirstValue(options.Value.ClaimsIdentity.SecurityStampClaimType), account.SecurityStamp, StringComparison.Ordinal)
        && await sessions.IsLiveAsync(session, account.Id, cancellationToken);

    public static async Task ValidateAsync(CookieValidatePrincipalContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (!await context.HttpContext.RequestServices.GetRequiredService<SessionCheck>().HoldsAsync(context.Principal, context.HttpContext.RequestAborted))
        {
            context.RejectPrincipal();
            await context.HttpContext.SignOutAsync(IdentityConstants.ApplicationScheme);
        }
    }
}
