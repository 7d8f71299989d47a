using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.Submission;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Review;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Submission;

/// <summary>Body of <c>POST …/withdrawal</c>.</summary>
/// <param name="Revision">Number of the revision.</param>
/// <param name="Reason">Words for the history.</param>
public sealed record WithdrawalBody(int Revision, string Reason);

/// <summary>Submitting and taking back.</summary>
public static class SubmissionEndpoints
{
    public static void MapSubmission(this RouteGroupBuilder api)
    {
        api.MapPost("/procedures/{id:guid}/submissions", SubmitAsync)
            .WithName("submit")
            .WithSummary("Submit the draft")
            .WithDescription("Validates fully, screens, makes the next revision and clears it or sends it to its reviewers. No body. If-Match is optional: with it, only the draft of that ETag is submitted.")
            .WithIdempotencyKey()
            .WithMetadata(new TakesIfMatch(Required: false))
            .Produces<RevisionAnswer>(StatusCodes.Status201Created)
            .Refuses(400, 403, 404, 409, 412, 413, 422);
        api.MapPost("/procedures/{id:guid}/withdrawal", WithdrawAsync)
            .WithName("withdraw")
            .WithSummary("Take back a revision that is in review or cleared; only its author may")
            .Takes<WithdrawalBody>().WithIdempotencyKey()
            .Produces<RevisionAnswer>()
            .Refuses(400, 403, 404, 409, 413, 415, 422);
    }

    private static async Task<Results<Created<RevisionAnswer>, ProblemResult>> SubmitAsync(
        HttpContext context, ActorProvider actors, DraftHandler drafts, SubmissionHandler submissions, Guid id, CancellationToken cancellationToken)
    {
        if (await actors.ForProcedureAsync(context.User, id, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, named: null);
        }

        Result<DraftView, Refusal> draft = await drafts.ReadAsync(actor, id, cancellationToken);
        if (!draft.IsOk)
        {
            return Problems.From(context, draft.Error);
        }

        if (await RequestBody.MustSayNothingAsync(context.Request, cancellationToken) is { } said)
        {
            return Problems.From(context, said);
        }

        if (EntityTags.ReadIfMatch(context.Request, draft.Value.Version, out _, out int version) is { } malformed)
        {
            return Problems.From(context, malformed);
        }

        Result<RevisionView, Refusal> submitted = await submissions.SubmitAsync(actor, id, version, cancellationToken);
        if (!submitted.IsOk)
        {
            return Problems.From(context, submitted.Error);
        }

        context.Response.Headers.ETag = EntityTags.Of(submitted.Value.Version);
        return TypedResults.Created($"{ApiPaths.Root}/procedures/{id}/revisions/{submitted.Value.Number}", RevisionAnswer.From(submitted.Value));
    }

    private static async Task<Results<Ok<RevisionAnswer>, ProblemResult>> WithdrawAsync(
        HttpContext context, ActorProvider actors, SubmissionHandler submissions, Guid id, CancellationToken cancellationToken)
    {
        Result<ObjectReader, Refusal> body = await RequestBody.ReadObjectAsync(context.Request, cancellationToken);
        if (!body.IsOk)
        {
            return Problems.From(context, body.Error);
        }

        int revision = body.Value.Number("revision");
        string reason = body.Value.Text("reason", TypedText.Longest);
        if (body.Value.Finish() is { } refusal)
        {
            return Problems.From(context, refusal);
        }

        if (await actors.ForProcedureAsync(context.User, id, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, named: null);
        }

        Result<RevisionView, Refusal> withdrawn = await submissions.WithdrawAsync(actor, id, revision, reason, cancellationToken);
        if (!withdrawn.IsOk)
        {
            return Problems.From(context, withdrawn.Error);
        }

        context.Response.Headers.ETag = EntityTags.Of(withdrawn.Value.Version);
        return TypedResults.Ok(RevisionAnswer.From(withdrawn.Value));
    }
}
