using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Screenings;

/// <summary>Screening without storing anything.</summary>
public static class ScreeningEndpoints
{
    public static void MapScreenings(this RouteGroupBuilder api) => api.MapPost("/screenings", ScreenAsync)
        .WithName("screen")
        .WithSummary("Screen a procedure document")
        .WithDescription("Answers with the screening report in the canonical form of RFC 8785. Nothing is stored, so an Idempotency-Key has no meaning here: the same document always gives the same bytes.")
        .Takes<ProcedureDocumentBody>()
        .Produces<ScreeningReport>(StatusCodes.Status200OK, "application/json")
        .Refuses(400, 413, 415, 422);

    private static async Task<Results<Utf8ContentHttpResult, ProblemResult>> ScreenAsync(HttpContext context, DocumentScreener screener, CancellationToken cancellationToken)
    {
        Result<ReadOnlyMemory<byte>, Refusal> body = await RequestBody.ReadAsync(context.Request, cancellationToken);
        if (!body.IsOk)
        {
            return Problems.From(context, body.Error);
        }

        Result<ProcedureDocument, DocumentRefusal> document = screener.Read(body.Value);
        return document.IsOk
            ? ApiEndpoints.Json(screener.Screen(document.Value, Policy.Default).Json)
            : Problems.From(context, document.Error);
    }
}
