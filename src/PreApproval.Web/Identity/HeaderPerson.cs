using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Identity;

/// <summary>Who is signed in, as the head of every page says it.</summary>
/// <param name="Actor">The person in their first group.</param>
/// <param name="Group">Name of that group.</param>
public sealed record HeaderPerson(Actor Actor, string? Group)
{
    /// <summary>Null: nobody is signed in, or they belong to no group.</summary>
    public static async Task<HeaderPerson?> ReadAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        if (context.User.Identity?.IsAuthenticated != true)
        {
            return null;
        }

        // The page reads at the same time: a database session serves one reader only.
        await using AsyncServiceScope scope = context.RequestServices.GetRequiredService<IServiceScopeFactory>().CreateAsyncScope();
        if (await scope.ServiceProvider.GetRequiredService<ActorProvider>().ForAsync(context.User, null, context.RequestAborted) is not { } actor)
        {
            return null;
        }

        IReadOnlyList<Membership> memberships = await scope.ServiceProvider.GetRequiredService<MembershipQueries>().ForAccountAsync(actor.UserId, context.RequestAborted);
        return new HeaderPerson(actor, memberships.FirstOrDefault(m => m.GroupId == actor.GroupId)?.GroupName);
    }

    /// <summary>Reads the person before the page is drawn: an error page that takes the place of another is sent without waiting for its head.</summary>
    public static async Task KeepOnAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        context.Items[typeof(HeaderPerson)] = await ReadAsync(context);
    }

    public static HeaderPerson? KeptOn(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        return context.Items[typeof(HeaderPerson)] as HeaderPerson;
    }
}
