using System.Globalization;
using System.Security.Claims;
using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Accounts;

/// <summary>Body of <c>POST tokens</c>.</summary>
public sealed record TokenBody(string UserName, string Password);

/// <summary>A token, shown once.</summary>
/// <param name="Token">Send it as <c>Authorization: Bearer …</c>.</param>
/// <param name="TokenType">Always <c>Bearer</c>.</param>
/// <param name="ExpiresAt">It ends then, or at once when the account is deactivated.</param>
public sealed record TokenAnswer(string Token, string TokenType, DateTimeOffset ExpiresAt);

/// <summary>A token without its text.</summary>
/// <param name="LastUsedAt">To the minute; null: never.</param>
/// <param name="Current">The one this request came with.</param>
public sealed record TokenLine(Guid Id, DateTimeOffset CreatedAt, DateTimeOffset ExpiresAt, DateTimeOffset? LastUsedAt, bool Current);

/// <summary>Tokens that are good now, newest first.</summary>
public sealed record TokensAnswer(IReadOnlyList<TokenLine> Items);

/// <summary>A person of the group.</summary>
/// <param name="Competences">Hazards a reviewer is competent in.</param>
public sealed record MemberAnswer(Guid Id, string UserName, string Name, IReadOnlyList<GroupRole> Roles, IReadOnlyList<Hazard> Competences);

/// <summary>The people of a group.</summary>
public sealed record MembersAnswer(Guid Group, IReadOnlyList<MemberAnswer> Items);

/// <summary>Tokens and members.</summary>
public static class AccountEndpoints
{
    public static void MapAccounts(this RouteGroupBuilder api)
    {
        api.MapPost("/tokens", IssueAsync)
            .AllowAnonymous()
            .WithName("issue-token")
            .WithSummary("Exchange user name and password for a bearer token")
            .WithDescription("The token is shown once; only its hash is stored. The answer is the same whether the name or the password was wrong.")
            .Takes<TokenBody>()
            .Produces<TokenAnswer>()
            .Refuses(400, 413, 415, 422, 429);
        api.MapGet("/tokens", ListTokensAsync)
            .WithName("list-tokens")
            .WithSummary("List your own tokens, without their text")
            .Produces<TokensAnswer>()
            .Refuses();
        api.MapDelete("/tokens/current", EndCurrentAsync)
            .WithName("end-current-token")
            .WithSummary("End the token this request comes with")
            .Produces(StatusCodes.Status204NoContent)
            .Refuses(404);
        api.MapDelete("/tokens/{id:guid}", EndAsync)
            .WithName("end-token")
            .WithSummary("End one of your own tokens")
            .Produces(StatusCodes.Status204NoContent)
            .Refuses(404);
        api.MapGet("/members", ListAsync)
            .WithName("list-members")
            .WithSummary("List the people of a group with their roles and competences")
            .Produces<MembersAnswer>()
            .Refuses(400, 403, 404);
    }

    private static async Task<Results<Ok<TokenAnswer>, ProblemResult>> IssueAsync(
        HttpContext context, AccountSignIn signIn, ApiTokens tokens, ILogger<BearerTokenHandler> logger, CancellationToken cancellationToken)
    {
        Result<ObjectReader, Refusal> body = await RequestBody.ReadObjectAsync(context.Request, cancellationToken);
        if (!body.IsOk)
        {
            return Problems.From(context, body.Error);
        }

        string userName = body.Value.Text("userName", most: 256);
        string password = body.Value.Text("password", PasswordRules.Longest);
        if (body.Value.Finish() is { } refusal)
        {
            return Problems.From(context, refusal);
        }

        if (await signIn.VerifyAsync(userName, password) is not { } account)
        {
            return Problems.Make(context, StatusCodes.Status401Unauthorized, "wrong-password",
                "User name or password is wrong, or the account is closed or locked for a few minutes.");
        }

        (string token, DateTimeOffset expiresAt) = await tokens.IssueAsync(account.Id, BearerTokenHandler.Lifetime, cancellationToken);
        SignInLog.TokenIssued(logger, account.Id, expiresAt);
        return TypedResults.Ok(new TokenAnswer(token, "Bearer", expiresAt));
    }

    private static async Task<Ok<TokensAnswer>> ListTokensAsync(ClaimsPrincipal user, ApiTokens tokens, CancellationToken cancellationToken)
    {
        string? issued = user.FindFirstValue(AccountClaims.TokenIssuedAt);
        return TypedResults.Ok(new TokensAnswer([.. (await tokens.ListAsync(AccountOf(user), cancellationToken))
            .Select(t => new TokenLine(t.Id, t.CreatedAt, t.ExpiresAt, t.LastUsedAt, string.Equals(t.CreatedAt.UtcTicks.ToString(CultureInfo.InvariantCulture), issued, StringComparison.Ordinal)))]));
    }

    private static async Task<Results<NoContent, ProblemResult>> EndCurrentAsync(HttpContext context, ApiTokens tokens, CancellationToken cancellationToken) =>
        BearerTokenHandler.TokenOf(context.Request) is { } token && await tokens.RevokeAsync(AccountOf(context.User), token, cancellationToken)
            ? TypedResults.NoContent()
            : Problems.From(context, Refusal.NotFound);

    private static async Task<Results<NoContent, ProblemResult>> EndAsync(HttpContext context, ApiTokens tokens, Guid id, CancellationToken cancellationToken) =>
        await tokens.RevokeAsync(AccountOf(context.User), id, cancellationToken) ? TypedResults.NoContent() : Problems.From(context, Refusal.NotFound);

    private static Guid AccountOf(ClaimsPrincipal user) => Guid.Parse(user.FindFirstValue(ClaimTypes.NameIdentifier)!, CultureInfo.InvariantCulture);

    private static async Task<Results<Ok<MembersAnswer>, ProblemResult>> ListAsync(
        HttpContext context, ActorProvider actors, MembershipQueries memberships, Guid? group, CancellationToken cancellationToken)
    {
        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        IReadOnlyList<MemberView> members = await memberships.OfGroupAsync(actor, cancellationToken);
        return TypedResults.Ok(new MembersAnswer(actor.GroupId, [.. members.Select(m => new MemberAnswer(m.UserId, m.UserName, m.DisplayName, m.Roles, m.Competences))]));
    }
}
