using System.Security.Claims;
using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Identity;

/// <summary>One unit of work of a live page: a circuit lives too long to share a database session with all it does, and the session behind it may have ended.</summary>
public sealed class LiveWork(IServiceScopeFactory scopes)
{
    /// <summary>Runs the work as the person in the group of the procedure, or refuses.</summary>
    public async Task<Result<T, Refusal>> RunAsync<T>(
        ClaimsPrincipal user, Guid procedureId, Func<IServiceProvider, Actor, CancellationToken, Task<Result<T, Refusal>>> work, CancellationToken cancellationToken)
        where T : notnull
    {
        ArgumentNullException.ThrowIfNull(work);
        await using AsyncServiceScope scope = scopes.CreateAsyncScope();
        Actor? actor = await scope.ServiceProvider.GetRequiredService<SessionCheck>().HoldsAsync(user, cancellationToken)
            ? await scope.ServiceProvider.GetRequiredService<ActorProvider>().ForProcedureAsync(user, procedureId, cancellationToken)
            : null;
        return actor is null
            ? Refusal.Because(RefusalKind.Forbidden, "You are not signed in any more, or do not belong to the group. What you typed is kept on this device: sign in again.")
            : await work(scope.ServiceProvider, actor, cancellationToken);
    }
}
