using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Procedures.Decisions;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Review;

/// <summary>Revisions, their screenings, and decisions on them.</summary>
public static class ReviewEndpoints
{
    private const string Revision = "/procedures/{id:guid}/revisions/{number:int:min(1)}";

    public static void MapReview(this RouteGroupBuilder api)
    {
        api.MapGet(Revision, ReadAsync)
            .WithName("read-revision")
            .WithSummary("Read a revision: its state, who has it, and what was decided")
            .Produces<RevisionAnswer>()
            .Refuses(403, 404);
        api.MapGet(Revision + "/document", ReadDocumentAsync)
            .WithName("read-revision-document")
            .WithSummary("Read the document of a revision, byte for byte as submitted")
            .Produces<ProcedureDocumentBody>(StatusCodes.Status200OK, "application/json")
            .Refuses(403, 404);
        api.MapGet(Revision + "/screening", ReadScreeningAsync)
            .WithName("read-revision-screening")
            .WithSummary("Read the screening of a revision, byte for byte as stored")
            .Produces<ScreeningReport>(StatusCodes.Status200OK, "application/json")
            .Refuses(403, 404);
        api.MapPost("/procedures/{id:guid}/decisions", DecideAsync)
            .WithName("decide")
            .WithSummary("Sign a decision on a revision")
            .WithDescription("Fills the open slot that is routed to you. The author never decides. Of two decisions on one slot the later gets 409; so does one that names another slot than the open one.")
            .Takes<DecisionBody>().AddEndpointFilter<RouteHandlerBuilder, SigningFilter>().WithIdempotencyKey()
            .Produces<RevisionAnswer>()
            .Refuses(400, 403, 404, 409, 413, 415, 422, 429);
    }

    private static async Task<Results<Ok<RevisionAnswer>, ProblemResult>> ReadAsync(
        HttpContext context, ActorProvider actors, ProcedureQueries procedures, Guid id, int number, CancellationToken cancellationToken)
    {
        Result<RevisionView, Refusal> revision = await FindAsync(context, actors, procedures, id, number, cancellationToken);
        if (!revision.IsOk)
        {
            return Problems.From(context, revision.Error);
        }

        context.Response.Headers.ETag = EntityTags.Of(revision.Value.Version);
        return TypedResults.Ok(RevisionAnswer.From(revision.Value));
    }

    private static async Task<Results<Utf8ContentHttpResult, ProblemResult>> ReadDocumentAsync(
        HttpContext context, ActorProvider actors, ProcedureQueries procedures, Guid id, int number, CancellationToken cancellationToken)
    {
        Result<RevisionView, Refusal> revision = await FindAsync(context, actors, procedures, id, number, cancellationToken);
        return revision.IsOk ? ApiEndpoints.Json(revision.Value.Document) : Problems.From(context, revision.Error);
    }

    private static async Task<Results<Utf8ContentHttpResult, ProblemResult>> ReadScreeningAsync(
        HttpContext context, ActorProvider actors, ProcedureQueries procedures, Guid id, int number, CancellationToken cancellationToken)
    {
        Result<RevisionView, Refusal> revision = await FindAsync(context, actors, procedures, id, number, cancellationToken);
        return revision.IsOk ? ApiEndpoints.Json(revision.Value.Screening) : Problems.From(context, revision.Error);
    }

    private static async Task<Results<Ok<RevisionAnswer>, ProblemResult>> DecideAsync(HttpContext context, DecisionHandler decisions, Guid id, CancellationToken cancellationToken)
    {
        (Actor actor, DecisionRequest request) = context.Features.GetRequiredFeature<SignedCall>();
        Result<RevisionView, Refusal> decided = await decisions.DecideAsync(actor, id, request, cancellationToken);
        if (!decided.IsOk)
        {
            return Problems.From(context, decided.Error);
        }

        context.Response.Headers.ETag = EntityTags.Of(decided.Value.Version);
        return TypedResults.Ok(RevisionAnswer.From(decided.Value));
    }

    private static async Task<Result<RevisionView, Refusal>> FindAsync(
        HttpContext context, ActorProvider actors, ProcedureQueries procedures, Guid id, int number, CancellationToken cancellationToken) =>
        await actors.ForProcedureAsync(context.User, id, cancellationToken) is { } actor
            ? await procedures.ReadRevisionAsync(actor, id, number, cancellationToken)
            : Refusal.Because(RefusalKind.Forbidden, "You belong to no group. An administrator can add you to one.");
}
