using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Screenings;

/// <summary>Screening without storing anything.</summary>
public static class ScreeningEndpoints
{
    public static void MapScreenings(this RouteGroupBuilder api) => api.MapPost("/screenings", ScreenAsync)
        .WithName("screen")
        .WithSummary("Screen a procedure document")
        .WithDescription("Answers with the screening report in the canonical form of RFC 8785. Nothing is stored, so an Idempotency-Key has no meaning here: the same document under the same policy always gives the same bytes. Substances of the group's own list (the first group, or 'group') are copied into the document first, as at submission, and its digest is then that of the completed document; it is screened under that group's thresholds, whose digest is engine.policy.")
        .Takes<ProcedureDocumentBody>()
        .Produces<ScreeningReport>(StatusCodes.Status200OK, "application/json")
        .Refuses(400, 404, 413, 415, 422);

    private static async Task<Results<Utf8ContentHttpResult, ProblemResult>> ScreenAsync(HttpContext context, ActorProvider actors, OwnValues ownValues, PolicyInUse thresholds, DocumentScreener screener, Guid? group, CancellationToken cancellationToken)
    {
        Result<ReadOnlyMemory<byte>, Refusal> body = await RequestBody.ReadAsync(context.Request, cancellationToken);
        if (!body.IsOk)
        {
            return Problems.From(context, body.Error);
        }

        Actor? actor = await actors.ForAsync(context.User, group, cancellationToken);
        if (actor is null && group is not null)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        Result<CompletedDocument, DocumentRefusal> document = await ownValues.ReadAsync(actor, body.Value, cancellationToken);
        return document.IsOk
            ? ApiEndpoints.Json(screener.Screen(document.Value.Document, await thresholds.OfAsync(actor, cancellationToken)).Json)
            : Problems.From(context, document.Error);
    }
}
