using System.Security.Claims;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared.Components;

/// <summary>Who looks at a page: roles are read from the database for each request, never taken from the client.</summary>
public sealed class PageActor(MembershipQueries memberships, TimeProvider clock)
{
    /// <summary>The signed-in person in their group, or null: not signed in, deactivated or in no group.</summary>
    public async Task<Actor?> FindAsync(ClaimsPrincipal principal, string requestId, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(principal);
        if (!Guid.TryParse(principal.FindFirstValue(ClaimTypes.NameIdentifier), out Guid userId))
        {
            return null;
        }

        IReadOnlyList<Membership> all = await memberships.ForAccountAsync(userId, cancellationToken);
        return all.Count == 0
            ? null
            : new Actor(userId, principal.Identity?.Name ?? "", all[0].GroupId, all[0].Roles, clock.GetUtcNow(), "password", requestId);
    }

    /// <summary>The person and the name of the group, for the head of the page.</summary>
    public async Task<(Actor? Actor, string? Group)> WithGroupAsync(HttpContext http, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(http);
        Actor? actor = await FindAsync(http.User, http.TraceIdentifier, cancellationToken);
        if (actor is null)
        {
            return (null, null);
        }

        IReadOnlyList<Membership> all = await memberships.ForAccountAsync(actor.UserId, cancellationToken);
        return (actor, all.FirstOrDefault(m => m.GroupId == actor.GroupId)?.GroupName);
    }
}
