using System.Globalization;
using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using PreApproval.Procedures.Accounts;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Identity;

/// <summary>Authenticates <c>Authorization: Bearer pa_…</c>.</summary>
public sealed class BearerTokenHandler(IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder, ApiTokens tokens, UserManager<Account> users)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    public const string SchemeName = "Bearer";

    /// <summary>How long a token lasts.</summary>
    public static readonly TimeSpan Lifetime = TimeSpan.FromHours(12);

    /// <summary>The token of a request, or null.</summary>
    public static string? TokenOf(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        string header = request.Headers.Authorization.ToString();
        return header.StartsWith("Bearer ", StringComparison.OrdinalIgnoreCase) ? header["Bearer ".Length..].Trim() : null;
    }

    protected override async Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        if (TokenOf(Request) is not { } token)
        {
            return AuthenticateResult.NoResult();
        }

        if (await tokens.ResolveAsync(token, Context.RequestAborted) is not { } found
            || await users.FindByIdAsync(found.AccountId.ToString()) is not { DeactivatedAt: null } account)
        {
            return AuthenticateResult.Fail("The token is unknown, expired or revoked.");
        }

        var identity = new ClaimsIdentity(
            [
                new Claim(ClaimTypes.NameIdentifier, account.Id.ToString()),
                new Claim(ClaimTypes.Name, account.UserName ?? ""),
                new Claim(AccountClaims.DisplayName, account.DisplayName),
                new Claim(AccountClaims.Method, "token"),
                new Claim(AccountClaims.TokenIssuedAt, found.IssuedAt.UtcTicks.ToString(CultureInfo.InvariantCulture)),
                new Claim(AccountClaims.AuthenticatedAt, found.IssuedAt.ToUnixTimeSeconds().ToString(CultureInfo.InvariantCulture)),
            ],
            SchemeName, ClaimTypes.Name, roleType: null);
        return AuthenticateResult.Success(new AuthenticationTicket(new ClaimsPrincipal(identity), SchemeName));
    }

    protected override Task HandleChallengeAsync(AuthenticationProperties properties)
    {
        Response.Headers.WWWAuthenticate = Request.Headers.Authorization.Count > 0 ? "Bearer error=\"invalid_token\"" : "Bearer";
        return Problems.FromStatus(Context, StatusCodes.Status401Unauthorized).ExecuteAsync(Context);
    }

    protected override Task HandleForbiddenAsync(AuthenticationProperties properties) =>
        Problems.FromStatus(Context, StatusCodes.Status403Forbidden).ExecuteAsync(Context);
}
