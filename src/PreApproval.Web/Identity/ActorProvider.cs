using System.Globalization;
using System.Security.Claims;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Identity;

/// <summary>Builds the actor of a request from the database; the client names at most a group, and only groups it belongs to count.</summary>
public sealed class ActorProvider(MembershipQueries memberships, ProcedureQueries procedures, TimeProvider time, IHttpContextAccessor http)
{
    /// <summary>The signed-in person in a group; null group: the first one they belong to. Null: not signed in, deactivated, or no member there.</summary>
    public async Task<Actor?> ForAsync(ClaimsPrincipal user, Guid? groupId, CancellationToken cancellationToken)
    {
        IReadOnlyList<Actor> actors = await AllAsync(user, cancellationToken);
        return actors.FirstOrDefault(a => groupId is null || a.GroupId == groupId);
    }

    /// <summary>The person in the group of a procedure; where they can see no such procedure, in their first group, so that the handler answers as for any object that is not there.</summary>
    public async Task<Actor?> ForProcedureAsync(ClaimsPrincipal user, Guid procedureId, CancellationToken cancellationToken)
    {
        IReadOnlyList<Actor> actors = await AllAsync(user, cancellationToken);
        if (actors.Count > 1)
        {
            foreach (Actor actor in actors)
            {
                if ((await procedures.ReadAsync(actor, procedureId, cancellationToken)).IsOk)
                {
                    return actor;
                }
            }
        }

        return actors.Count > 0 ? actors[0] : null;
    }

    /// <summary>The signed-in person in each of their groups.</summary>
    public async Task<IReadOnlyList<Actor>> AllAsync(ClaimsPrincipal user, CancellationToken cancellationToken)
    {
        if (!Guid.TryParse(user.FindFirstValue(ClaimTypes.NameIdentifier), out Guid id) || user.Identity?.IsAuthenticated != true)
        {
            return [];
        }

        string name = user.FindFirstValue(AccountClaims.DisplayName) ?? user.Identity.Name ?? "";
        string method = user.FindFirstValue(AccountClaims.Method) ?? "password";
        DateTimeOffset at = long.TryParse(user.FindFirstValue(AccountClaims.AuthenticatedAt), NumberStyles.None, CultureInfo.InvariantCulture, out long seconds)
            ? DateTimeOffset.FromUnixTimeSeconds(seconds)
            : time.GetUtcNow();
        string requestId = http.HttpContext?.TraceIdentifier ?? "";
        return [.. (await memberships.ForAccountAsync(id, cancellationToken))
            .Select(m => new Actor(id, name, m.GroupId, m.Roles, at, method, requestId))];
    }
}

/// <summary>Claims beside the standard ones. They describe the sign-in, never a permission.</summary>
public static class AccountClaims
{
    /// <summary>When the person proved who they are, in seconds since 1970 (name of OpenID Connect Core 1.0, section 2).</summary>
    public const string AuthenticatedAt = "auth_time";

    /// <summary><c>password</c> or <c>token</c>.</summary>
    public const string Method = "amr";

    /// <summary>Identifier of the browser's session on the server (name of OpenID Connect Front-Channel Logout 1.0).</summary>
    public const string Session = "sid";

    /// <summary>When the token was issued, in ticks: tells it from the account's others.</summary>
    public const string TokenIssuedAt = "token-issued-at";

    /// <summary>Printed name.</summary>
    public const string DisplayName = "name";
}
