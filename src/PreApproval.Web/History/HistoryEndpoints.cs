using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Procedures.History;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.History;

/// <summary>One event.</summary>
/// <param name="LeafHash">SHA-256 leaf hash of RFC 9162, hexadecimal.</param>
/// <param name="Leaf">What was hashed, in the canonical form of RFC 8785.</param>
public sealed record EventAnswer(
    long Sequence, DateTimeOffset At, Guid ActorId, string ActorName, string ActorRole, string Action, Guid? Procedure, string? ProcedureTitle, int? Revision, string? Reason, string Summary,
    string LeafHash, JsonElement Leaf)
{
    public static EventAnswer From(EventView e)
    {
        ArgumentNullException.ThrowIfNull(e);
        return new EventAnswer(e.Sequence, e.At, e.ActorId, e.ActorName, e.ActorRole, e.Action, e.ProcedureId, e.ProcedureTitle, e.Revision, e.Reason, e.Summary,
            e.LeafHash, JsonElement.Parse(e.Leaf.Span));
    }
}

/// <summary>The history of a group.</summary>
public static class HistoryEndpoints
{
    public static void MapHistory(this RouteGroupBuilder api) => api.MapGet("/history", ListAsync)
        .WithName("list-history")
        .WithSummary("List the events of a group, newest first")
        .WithDescription("The lead, reviewers and auditors read all of it, a member the events of their own procedures. An action also matches by its beginning up to a dot, for instance decision.")
        .Produces<PageAnswer<EventAnswer>>()
        .Refuses(400, 403, 404);

    private static async Task<Results<Ok<PageAnswer<EventAnswer>>, ProblemResult>> ListAsync(
        HttpContext context, ActorProvider actors, HistoryHandler history, Guid? group, Guid? procedure, Guid? actor, string? action, string? text,
        DateTimeOffset? from, DateTimeOffset? until, string? cursor, int? limit, CancellationToken cancellationToken)
    {
        if ((ApiEndpoints.CheckLimit(context, limit) ?? ApiEndpoints.CheckText(context, "text", text) ?? ApiEndpoints.CheckText(context, "action", action)) is { } fault)
        {
            return fault;
        }

        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } person)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        var filter = new HistoryFilter
        {
            ProcedureId = procedure,
            ActorId = actor,
            Action = action,
            Text = text,
            From = from?.ToUniversalTime(),
            Until = until?.ToUniversalTime(),
        };
        Result<Page<EventView>, Refusal> page = await history.ListAsync(person, filter, cursor, limit ?? ApiEndpoints.DefaultLimit, cancellationToken);
        return page.IsOk
            ? TypedResults.Ok(new PageAnswer<EventAnswer>([.. page.Value.Items.Select(EventAnswer.From)], page.Value.Next))
            : ApiEndpoints.QueryProblem(context, page.Error);
    }
}
