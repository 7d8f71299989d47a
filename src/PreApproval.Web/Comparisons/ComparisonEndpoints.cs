using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Audit;
using PreApproval.Documents;
using PreApproval.Documents.Comparing;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Comparisons;

/// <summary>Body of <c>POST /comparisons</c>.</summary>
/// <param name="Before">The earlier or source procedure.</param>
/// <param name="After">The later procedure.</param>
public sealed record ComparisonBody(ProcedureDocumentBody Before, ProcedureDocumentBody After);

/// <summary>One changed hazard; in <paramref name="Also"/>, where it is there, what has the same pressure and is told with it.</summary>
public sealed record ChangeAnswer(string Hazard, string Quantity, string Effect, double? Before, double? After, string? Unit, string? SeverityBefore, string? SeverityAfter, string? FindingBefore, string? FindingAfter, IReadOnlyList<ChangeAnswer>? Also = null);

/// <summary>One difference between the plans.</summary>
public sealed record PlanChangeAnswer(string Part, string Name, string? NameBefore, string? What, string Effect, string? Before, string? After);

/// <summary>Answer of <c>POST /comparisons</c>.</summary>
/// <param name="Changes">The hazards that differ.</param>
/// <param name="Plan">What differs in the plan itself; absent where nothing does.</param>
public sealed record ComparisonAnswer(IReadOnlyList<ChangeAnswer> Changes, IReadOnlyList<PlanChangeAnswer>? Plan = null);

/// <summary>Comparing two procedure documents without storing anything.</summary>
public static class ComparisonEndpoints
{
    public static void MapComparisons(this RouteGroupBuilder api) => api.MapPost("/comparisons", CompareAsync)
        .WithName("compare")
        .WithSummary("Compare the hazards of two procedure documents")
        .WithDescription("Screens both documents with today's engine and data and answers with the hazards that the later one introduces, removes, raises or lowers, and with what differs in the plan itself, in the canonical form of RFC 8785. Nothing is stored, so an Idempotency-Key has no meaning here. Faults carry the path of the document they are in: /before/… or /after/…. Substances of the group's own list (the first group, or 'group') are copied in first, and that group's thresholds apply to both.")
        .Takes<ComparisonBody>()
        .Produces<ComparisonAnswer>(StatusCodes.Status200OK, "application/json")
        .Refuses(400, 404, 413, 415, 422);

    private static async Task<Results<Utf8ContentHttpResult, ProblemResult>> CompareAsync(HttpContext context, ActorProvider actors, OwnValues ownValues, DocumentScreener screener, PolicyInUse thresholds, Guid? group, CancellationToken cancellationToken)
    {
        Result<ObjectReader, Refusal> body = await RequestBody.ReadObjectAsync(context.Request, cancellationToken);
        if (!body.IsOk)
        {
            return Problems.From(context, body.Error);
        }

        ReadOnlyMemory<byte> before = body.Value.Raw("before");
        ReadOnlyMemory<byte> after = body.Value.Raw("after");
        if (body.Value.Finish() is { } refusal)
        {
            return Problems.From(context, refusal);
        }

        Actor? actor = await actors.ForAsync(context.User, group, cancellationToken);
        if (actor is null && group is not null)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        Result<CompletedDocument, DocumentRefusal> old = await ownValues.ReadAsync(actor, before, cancellationToken);
        Result<CompletedDocument, DocumentRefusal> now = await ownValues.ReadAsync(actor, after, cancellationToken);
        if (!old.IsOk || !now.IsOk)
        {
            Fault[] faults = [.. FaultsOf(old, "/before"), .. FaultsOf(now, "/after")];
            return Problems.From(context, DocumentScreener.Refuse((old.IsOk ? now : old).Error!) with { Faults = faults });
        }

        IReadOnlyList<HazardChange> changes = screener.Compare(old.Value.Document, now.Value.Document, await thresholds.OfAsync(actor, cancellationToken));
        return ApiEndpoints.Json(CanonicalJson.Serialize(ComparisonWriter.ToJson(changes, PlanComparison.Between(old.Value.Document, now.Value.Document))));
    }

    private static IEnumerable<Fault> FaultsOf(Result<CompletedDocument, DocumentRefusal> read, string place) =>
        read.IsOk ? [] : read.Error.Faults.Select(fault => fault with { Path = place + fault.Path });
}
