using System.Text.Json;
using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Drafting;

/// <summary>Procedures and their drafts.</summary>
public static class DraftEndpoints
{
    public static void MapDrafting(this RouteGroupBuilder api)
    {
        api.MapPost("/procedures", CreateAsync)
            .WithName("create-procedure")
            .WithSummary("Begin a procedure")
            .WithDescription("The document may be incomplete; what is missing comes back as faults. Refused are bytes that are not JSON, more than 1 MB, and unknown members.")
            .Takes<NewProcedureBody>().WithIdempotencyKey()
            .Produces<NewProcedureAnswer>(StatusCodes.Status201Created)
            .Refuses(400, 403, 404, 413, 415, 422);
        api.MapGet("/procedures", ListAsync)
            .WithName("list-procedures")
            .WithSummary("List the procedures of a group, newest first")
            .WithDescription("Drafts of other people are left out. Filter by state; page with limit and cursor.")
            .Produces<PageAnswer<ProcedureLine>>()
            .Refuses(400, 403, 404);
        api.MapGet("/procedures/{id:guid}", ReadAsync)
            .WithName("read-procedure")
            .WithSummary("Read a procedure and the list of its revisions")
            .Produces<ProcedureAnswer>()
            .Refuses(403, 404);
        api.MapGet("/procedures/{id:guid}/draft", ReadDraftAsync)
            .WithName("read-draft")
            .WithSummary("Read the draft; its version is the ETag")
            .Produces<DraftAnswer>()
            .Refuses(403, 404);
        api.MapPut("/procedures/{id:guid}/draft", SaveAsync)
            .WithName("save-draft")
            .WithSummary("Replace the draft")
            .WithDescription("The body is the document. If-Match must carry the ETag of the draft that was edited: without it 428, with an old one 412.")
            .Takes<ProcedureDocumentBody>().WithIdempotencyKey()
            .WithMetadata(new TakesIfMatch(Required: true))
            .Produces<SavedDraftAnswer>()
            .Refuses(400, 403, 404, 409, 412, 413, 415, 428);
    }

    private static async Task<Results<Created<NewProcedureAnswer>, ProblemResult>> CreateAsync(
        HttpContext context, ActorProvider actors, DraftHandler drafts, CancellationToken cancellationToken)
    {
        Result<ObjectReader, Refusal> body = await RequestBody.ReadObjectAsync(context.Request, cancellationToken);
        if (!body.IsOk)
        {
            return Problems.From(context, body.Error);
        }

        Guid? group = body.Value.OptionalIdentifier("group");
        ReadOnlyMemory<byte> document = body.Value.Raw("document");
        if (body.Value.Finish() is { } refusal)
        {
            return Problems.From(context, refusal);
        }

        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        Result<DraftView, Refusal> created = await drafts.CreateAsync(actor, document, cancellationToken);
        if (!created.IsOk)
        {
            // The document is a member of the body: its faults are found below it.
            return Problems.From(context, created.Error with { Faults = [.. created.Error.Faults.Select(f => f with { Path = "/document" + f.Path })] });
        }

        DraftView draft = created.Value;
        context.Response.Headers.ETag = EntityTags.Of(draft.Version);
        return TypedResults.Created($"{ApiPaths.Root}/procedures/{draft.ProcedureId}",
            new NewProcedureAnswer(draft.ProcedureId, draft.State, [.. draft.Faults.Select(f => new FieldError("/document" + f.Path, f.Message))]));
    }

    private static async Task<Results<Ok<PageAnswer<ProcedureLine>>, ProblemResult>> ListAsync(
        HttpContext context, ActorProvider actors, ProcedureQueries procedures, Guid? group, string? state, string? cursor, int? limit, CancellationToken cancellationToken)
    {
        if (ApiEndpoints.CheckLimit(context, limit) is { } fault)
        {
            return fault;
        }

        ProcedureState wanted = default;
        if (state is not null && !ApiJson.TryReadWord(state, out wanted))
        {
            return Problems.Make(context, StatusCodes.Status400BadRequest, "malformed", "The query has a fault.",
                new FieldError("?state", $"Expected one of: {ApiJson.Words<ProcedureState>()}."));
        }

        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        Result<Page<ProcedureSummary>, Refusal> page = await procedures.ListAsync(
            actor, state is null ? null : wanted, cursor, limit ?? ApiEndpoints.DefaultLimit, cancellationToken);
        return page.IsOk
            ? TypedResults.Ok(new PageAnswer<ProcedureLine>([.. page.Value.Items.Select(ProcedureLine.From)], page.Value.Next))
            : ApiEndpoints.QueryProblem(context, page.Error);
    }

    private static async Task<Results<Ok<ProcedureAnswer>, ProblemResult>> ReadAsync(
        HttpContext context, ActorProvider actors, ProcedureQueries procedures, Guid id, CancellationToken cancellationToken)
    {
        if (await actors.ForProcedureAsync(context.User, id, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, named: null);
        }

        Result<ProcedureView, Refusal> procedure = await procedures.ReadAsync(actor, id, cancellationToken);
        return procedure.IsOk ? TypedResults.Ok(ProcedureAnswer.From(procedure.Value)) : Problems.From(context, procedure.Error);
    }

    private static async Task<Results<Ok<DraftAnswer>, ProblemResult>> ReadDraftAsync(
        HttpContext context, ActorProvider actors, DraftHandler drafts, Guid id, CancellationToken cancellationToken)
    {
        if (await actors.ForProcedureAsync(context.User, id, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, named: null);
        }

        Result<DraftView, Refusal> read = await drafts.ReadAsync(actor, id, cancellationToken);
        if (!read.IsOk)
        {
            return Problems.From(context, read.Error);
        }

        DraftView draft = read.Value;
        context.Response.Headers.ETag = EntityTags.Of(draft.Version);
        return TypedResults.Ok(new DraftAnswer(draft.ProcedureId, draft.State, draft.Title, draft.SavedAt,
            [.. draft.Faults.Select(f => new FieldError(f.Path, f.Message))], JsonElement.Parse(draft.Document.Span)));
    }

    private static async Task<Results<Ok<SavedDraftAnswer>, ProblemResult>> SaveAsync(
        HttpContext context, ActorProvider actors, DraftHandler drafts, Guid id, CancellationToken cancellationToken)
    {
        if (await actors.ForProcedureAsync(context.User, id, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, named: null);
        }

        // A foreign object is not there, whatever the request says about its version.
        Result<DraftView, Refusal> current = await drafts.ReadAsync(actor, id, cancellationToken);
        if (!current.IsOk)
        {
            return Problems.From(context, current.Error);
        }

        if (EntityTags.RequireIfMatch(context, current.Value.Version, "draft", out int version) is { } refused)
        {
            return refused;
        }

        Result<ReadOnlyMemory<byte>, Refusal> body = await RequestBody.ReadAsync(context.Request, cancellationToken);
        if (!body.IsOk)
        {
            return Problems.From(context, body.Error);
        }

        Result<DraftView, Refusal> saved = await drafts.SaveAsync(actor, id, version, body.Value, cancellationToken);
        if (!saved.IsOk)
        {
            return Problems.From(context, saved.Error);
        }

        context.Response.Headers.ETag = EntityTags.Of(saved.Value.Version);
        return TypedResults.Ok(SavedDraftAnswer.From(saved.Value));
    }
}
