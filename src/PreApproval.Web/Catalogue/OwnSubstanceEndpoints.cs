using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Catalogue;

/// <summary>Writing the group's own substances. Reviewers and leads write, everybody who reads procedures reads.</summary>
public static class OwnSubstanceEndpoints
{
    public static void MapOwnSubstances(this RouteGroupBuilder api)
    {
        api.MapGet("/own-substances", ListAsync)
            .WithName("list-own-substances")
            .WithSummary("The group's own substances by name; with retired=true also those taken out of use")
            .Refuses(400, 403, 404);
        api.MapPost("/substances", AddAsync)
            .WithName("add-own-substance")
            .WithSummary("Add a substance to the group's own list")
            .WithDescription("The body is {name, synonyms?, cas?, smiles?, properties}; 'properties' is that of a substance in a procedure document, each value with its unit, and needs a source. 409 where the name, a synonym or the CAS number is taken.")
            .Takes<OwnSubstanceBody>().WithIdempotencyKey()
            .Produces<OwnSubstanceAnswer>(StatusCodes.Status201Created)
            .Refuses(400, 403, 404, 409, 413, 415, 422);
        api.MapPut("/substances/{id:guid}", ChangeAsync)
            .WithName("change-own-substance")
            .WithSummary("Replace a substance of the group's own list: its next version")
            .WithDescription("If-Match must carry the ETag of the version that was edited: without it 428, with an old one 412. Earlier versions stay.")
            .Takes<OwnSubstanceBody>().WithIdempotencyKey()
            .WithMetadata(new TakesIfMatch(Required: true))
            .Produces<OwnSubstanceAnswer>()
            .Refuses(400, 403, 404, 409, 412, 413, 415, 422, 428);
        api.MapPost("/substances/{id:guid}/retirement", RetireAsync)
            .WithName("retire-own-substance")
            .WithSummary("Take a substance of the group's own list out of use for ever; revisions keep their copy")
            .Takes<RetirementBody>().WithIdempotencyKey()
            .WithMetadata(new TakesIfMatch(Required: true))
            .Produces<OwnSubstanceAnswer>()
            .Refuses(400, 403, 404, 409, 412, 413, 415, 422, 428);
        api.MapGet("/substances/{id:guid}/versions", VersionsAsync)
            .WithName("read-own-substance-versions")
            .WithSummary("Every version of a substance of the group's own list, newest first")
            .Refuses(403, 404);
    }

    private static async Task<Results<KeptAnswer<OwnSubstancesAnswer>, ProblemResult>> ListAsync(
        HttpContext context, ActorProvider actors, GroupSubstanceHandler substances, Guid? group, bool? retired, CancellationToken cancellationToken)
    {
        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        Result<IReadOnlyList<GroupSubstanceView>, Refusal> listed = await substances.ListAsync(actor, retired ?? false, cancellationToken);
        return listed.IsOk
            ? new KeptAnswer<OwnSubstancesAnswer>(new OwnSubstancesAnswer([.. listed.Value.Select(OwnSubstanceAnswer.From)]))
            : Problems.From(context, listed.Error);
    }

    private static async Task<Results<Created<OwnSubstanceAnswer>, ProblemResult>> AddAsync(
        HttpContext context, ActorProvider actors, GroupSubstanceHandler substances, Guid? group, CancellationToken cancellationToken)
    {
        Result<ReadOnlyMemory<byte>, Refusal> body = await RequestBody.ReadAsync(context.Request, cancellationToken);
        if (!body.IsOk)
        {
            return Problems.From(context, body.Error);
        }

        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        Result<GroupSubstanceView, Refusal> added = await substances.AddAsync(actor, body.Value, cancellationToken);
        if (!added.IsOk)
        {
            return Problems.From(context, added.Error);
        }

        context.Response.Headers.ETag = EntityTags.Of(added.Value.Version);
        return TypedResults.Created($"{ApiPaths.Root}/substances/{added.Value.Id}", OwnSubstanceAnswer.From(added.Value));
    }

    private static Task<Results<Ok<OwnSubstanceAnswer>, ProblemResult>> ChangeAsync(
        HttpContext context, ActorProvider actors, GroupSubstanceHandler substances, Guid id, CancellationToken cancellationToken) =>
        WriteAsync(context, actors, substances, id, async (actor, version) =>
        {
            Result<ReadOnlyMemory<byte>, Refusal> body = await RequestBody.ReadAsync(context.Request, cancellationToken);
            return body.IsOk ? await substances.ChangeAsync(actor, id, version, body.Value, cancellationToken) : body.Error;
        }, cancellationToken);

    private static Task<Results<Ok<OwnSubstanceAnswer>, ProblemResult>> RetireAsync(
        HttpContext context, ActorProvider actors, GroupSubstanceHandler substances, Guid id, CancellationToken cancellationToken) =>
        WriteAsync(context, actors, substances, id, async (actor, version) =>
        {
            Result<string, Refusal> reason = await RetirementBody.ReadAsync(context.Request, cancellationToken);
            return reason.IsOk ? await substances.RetireAsync(actor, id, version, reason.Value, cancellationToken) : reason.Error;
        }, cancellationToken);

    private static async Task<Results<KeptAnswer<OwnSubstancesAnswer>, ProblemResult>> VersionsAsync(
        HttpContext context, ActorProvider actors, GroupSubstanceHandler substances, Guid id, CancellationToken cancellationToken)
    {
        (Actor? actor, Result<GroupSubstanceView, Refusal> found) = await CatalogueEndpoints.FindOwnAsync(context, actors, substances, id, cancellationToken);
        if (!found.IsOk || actor is null)
        {
            return Problems.From(context, found.Error ?? Refusal.NotFound);
        }

        Result<IReadOnlyList<GroupSubstanceView>, Refusal> versions = await substances.VersionsAsync(actor, id, cancellationToken);
        return versions.IsOk
            ? new KeptAnswer<OwnSubstancesAnswer>(new OwnSubstancesAnswer([.. versions.Value.Select(OwnSubstanceAnswer.From)]))
            : Problems.From(context, versions.Error);
    }

    /// <summary>A foreign object is not there, whatever the request says about its version; then the version; then the body.</summary>
    private static async Task<Results<Ok<OwnSubstanceAnswer>, ProblemResult>> WriteAsync(
        HttpContext context, ActorProvider actors, GroupSubstanceHandler substances, Guid id, Func<Actor, int, Task<Result<GroupSubstanceView, Refusal>>> write, CancellationToken cancellationToken)
    {
        (Actor? actor, Result<GroupSubstanceView, Refusal> current) = await CatalogueEndpoints.FindOwnAsync(context, actors, substances, id, cancellationToken);
        if (!current.IsOk || actor is null)
        {
            return Problems.From(context, current.Error ?? Refusal.NotFound);
        }

        if (EntityTags.RequireIfMatch(context, current.Value.Version, "substance", out int version) is { } refused)
        {
            return refused;
        }

        Result<GroupSubstanceView, Refusal> written = await write(actor, version);
        if (!written.IsOk)
        {
            return Problems.From(context, written.Error);
        }

        context.Response.Headers.ETag = EntityTags.Of(written.Value.Version);
        return TypedResults.Ok(OwnSubstanceAnswer.From(written.Value));
    }
}
