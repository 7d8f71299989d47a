using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Catalogue;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Inventory;

/// <summary>Vessels, places and extinguishing agents of a group: one set of calls for each kind.</summary>
public static class InventoryEndpoints
{
    public static void MapInventory(this RouteGroupBuilder api)
    {
        api.MapVesselTable();
        Map<VesselBody>(api, InventoryKind.Vessel, "vessels", "vessel");
        Map<PlaceBody>(api, InventoryKind.Place, "places", "place");
        Map<AgentBody>(api, InventoryKind.Agent, "agents", "agent");
    }

    private static void Map<TBody>(RouteGroupBuilder api, InventoryKind kind, string many, string one)
        where TBody : notnull
    {
        api.MapGet($"/{many}", (HttpContext context, ActorProvider actors, InventoryHandler inventory, Guid? group, bool? retired, CancellationToken cancellationToken) =>
                ListAsync(context, actors, inventory, kind, group, retired ?? false, cancellationToken))
            .WithName($"list-{many}")
            .WithSummary($"The {many} of the group's inventory by name; with retired=true also those taken out")
            .Refuses(400, 403, 404);
        api.MapPost($"/{many}", (HttpContext context, ActorProvider actors, InventoryHandler inventory, Guid? group, CancellationToken cancellationToken) =>
                AddAsync(context, actors, inventory, kind, many, group, cancellationToken))
            .WithName($"add-{one}")
            .WithSummary($"Add one of the {many} to the inventory")
            .WithDescription(kind == InventoryKind.Agent ? "422 where the place is not in the inventory." : "409 where the name is taken.")
            .Takes<TBody>().WithIdempotencyKey()
            .Produces<InventoryAnswer>(StatusCodes.Status201Created)
            .Refuses(400, 403, 404, 409, 413, 415, 422);
        api.MapGet($"/{many}/{{id:guid}}", (HttpContext context, ActorProvider actors, InventoryHandler inventory, Guid id, CancellationToken cancellationToken) =>
                ReadAsync(context, actors, inventory, kind, id, cancellationToken))
            .WithName($"read-{one}")
            .WithSummary($"One of the {many}; the ETag is its version")
            .Refuses(403, 404);
        api.MapPut($"/{many}/{{id:guid}}", (HttpContext context, ActorProvider actors, InventoryHandler inventory, Guid id, CancellationToken cancellationToken) =>
                ChangeAsync(context, actors, inventory, kind, id, cancellationToken))
            .WithName($"change-{one}")
            .WithSummary($"Replace one of the {many}: its next version")
            .WithDescription("If-Match must carry the ETag of the version that was edited: without it 428, with an old one 412. Earlier versions stay.")
            .Takes<TBody>().WithIdempotencyKey()
            .WithMetadata(new TakesIfMatch(Required: true))
            .Produces<InventoryAnswer>()
            .Refuses(400, 403, 404, 409, 412, 413, 415, 422, 428);
        api.MapPost($"/{many}/{{id:guid}}/retirement", (HttpContext context, ActorProvider actors, InventoryHandler inventory, Guid id, CancellationToken cancellationToken) =>
                RetireAsync(context, actors, inventory, kind, id, cancellationToken))
            .WithName($"retire-{one}")
            .WithSummary($"Take one of the {many} out of the inventory for ever; revisions keep their copy")
            .Takes<RetirementBody>().WithIdempotencyKey()
            .WithMetadata(new TakesIfMatch(Required: true))
            .Produces<InventoryAnswer>()
            .Refuses(400, 403, 404, 409, 412, 413, 415, 422, 428);
        api.MapGet($"/{many}/{{id:guid}}/versions", (HttpContext context, ActorProvider actors, InventoryHandler inventory, Guid id, CancellationToken cancellationToken) =>
                VersionsAsync(context, actors, inventory, kind, id, cancellationToken))
            .WithName($"read-{one}-versions")
            .WithSummary($"Every version of one of the {many}, newest first")
            .Refuses(403, 404);
    }

    /// <summary>An entry in the group where the person finds it; a foreign one is not there.</summary>
    private static async Task<(Actor? Actor, Result<InventoryView, Refusal> Found)> FindAsync(
        HttpContext context, ActorProvider actors, InventoryHandler inventory, InventoryKind kind, Guid id, CancellationToken cancellationToken)
    {
        Actor? first = null;
        Result<InventoryView, Refusal> answer = Refusal.NotFound;
        foreach (Actor actor in await actors.AllAsync(context.User, cancellationToken))
        {
            Result<InventoryView, Refusal> found = await inventory.ReadAsync(actor, kind, id, cancellationToken);
            if (found.IsOk)
            {
                return (actor, found);
            }

            (first, answer) = first is null ? (actor, found) : (first, answer);
        }

        return (first, answer);
    }

    private static async Task<Results<KeptAnswer<InventoryAnswers>, ProblemResult>> ListAsync(
        HttpContext context, ActorProvider actors, InventoryHandler inventory, InventoryKind kind, Guid? group, bool retired, CancellationToken cancellationToken)
    {
        if (await actors.ForAsync(context.User, group, cancellationToken) is not { } actor)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        Result<IReadOnlyList<InventoryView>, Refusal> listed = await inventory.ListAsync(actor, kind, retired, cancellationToken);
        return listed.IsOk ? new KeptAnswer<InventoryAnswers>(new InventoryAnswers([.. listed.Value.Select(InventoryAnswer.From)])) : Problems.From(context, listed.Error);
    }

    private static async Task<Results<Created<InventoryAnswer>, ProblemResult>> AddAsync(
        HttpContext context, ActorProvider actors, InventoryHandler inventory, InventoryKind kind, string many, Guid? group, CancellationToken cancellationToken)
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

        Result<InventoryView, Refusal> added = await inventory.AddAsync(actor, kind, body.Value, cancellationToken);
        if (!added.IsOk)
        {
            return Problems.From(context, added.Error);
        }

        context.Response.Headers.ETag = EntityTags.Of(added.Value.Version);
        return TypedResults.Created($"{ApiPaths.Root}/{many}/{added.Value.Id}", InventoryAnswer.From(added.Value));
    }

    private static async Task<Results<KeptAnswer<InventoryAnswer>, ProblemResult>> ReadAsync(
        HttpContext context, ActorProvider actors, InventoryHandler inventory, InventoryKind kind, Guid id, CancellationToken cancellationToken)
    {
        (_, Result<InventoryView, Refusal> found) = await FindAsync(context, actors, inventory, kind, id, cancellationToken);
        return found.IsOk ? new KeptAnswer<InventoryAnswer>(InventoryAnswer.From(found.Value), EntityTags.Of(found.Value.Version)) : Problems.From(context, found.Error);
    }

    private static Task<Results<Ok<InventoryAnswer>, ProblemResult>> ChangeAsync(
        HttpContext context, ActorProvider actors, InventoryHandler inventory, InventoryKind kind, Guid id, CancellationToken cancellationToken) =>
        WriteAsync(context, actors, inventory, kind, id, async (actor, version) =>
        {
            Result<ReadOnlyMemory<byte>, Refusal> body = await RequestBody.ReadAsync(context.Request, cancellationToken);
            return body.IsOk ? await inventory.ChangeAsync(actor, kind, id, version, body.Value, cancellationToken) : body.Error;
        }, cancellationToken);

    private static Task<Results<Ok<InventoryAnswer>, ProblemResult>> RetireAsync(
        HttpContext context, ActorProvider actors, InventoryHandler inventory, InventoryKind kind, Guid id, CancellationToken cancellationToken) =>
        WriteAsync(context, actors, inventory, kind, id, async (actor, version) =>
        {
            Result<string, Refusal> reason = await RetirementBody.ReadAsync(context.Request, cancellationToken);
            return reason.IsOk ? await inventory.RetireAsync(actor, kind, id, version, reason.Value, cancellationToken) : reason.Error;
        }, cancellationToken);

    private static async Task<Results<KeptAnswer<InventoryAnswers>, ProblemResult>> VersionsAsync(
        HttpContext context, ActorProvider actors, InventoryHandler inventory, InventoryKind kind, Guid id, CancellationToken cancellationToken)
    {
        (Actor? actor, Result<InventoryView, Refusal> found) = await FindAsync(context, actors, inventory, kind, id, cancellationToken);
        if (!found.IsOk || actor is null)
        {
            return Problems.From(context, found.Error ?? Refusal.NotFound);
        }

        Result<IReadOnlyList<InventoryView>, Refusal> versions = await inventory.VersionsAsync(actor, kind, id, cancellationToken);
        return versions.IsOk ? new KeptAnswer<InventoryAnswers>(new InventoryAnswers([.. versions.Value.Select(InventoryAnswer.From)])) : Problems.From(context, versions.Error);
    }

    /// <summary>A foreign object is not there, whatever the request says about its version; then the version; then the body.</summary>
    private static async Task<Results<Ok<InventoryAnswer>, ProblemResult>> WriteAsync(
        HttpContext context, ActorProvider actors, InventoryHandler inventory, InventoryKind kind, Guid id, Func<Actor, int, Task<Result<InventoryView, Refusal>>> write, CancellationToken cancellationToken)
    {
        (Actor? actor, Result<InventoryView, Refusal> current) = await FindAsync(context, actors, inventory, kind, id, cancellationToken);
        if (!current.IsOk || actor is null)
        {
            return Problems.From(context, current.Error ?? Refusal.NotFound);
        }

        if (EntityTags.RequireIfMatch(context, current.Value.Version, ApiJson.Word(kind), out int version) is { } refused)
        {
            return refused;
        }

        Result<InventoryView, Refusal> written = await write(actor, version);
        if (!written.IsOk)
        {
            return Problems.From(context, written.Error);
        }

        context.Response.Headers.ETag = EntityTags.Of(written.Value.Version);
        return TypedResults.Ok(InventoryAnswer.From(written.Value));
    }
}
