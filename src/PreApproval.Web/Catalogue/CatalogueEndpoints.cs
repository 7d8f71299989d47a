using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Documents;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Catalogue;

/// <summary>Reading: the substances shipped with the engine, and the group's own.</summary>
public static class CatalogueEndpoints
{
    private const int MostFound = 50;

    public static void MapCatalogue(this RouteGroupBuilder api)
    {
        api.MapGet("/substances", SearchAsync)
            .WithName("search-substances")
            .WithSummary("Search the catalogue and the group's own substances by the beginning of a name, synonym or CAS number")
            .WithDescription("Best first: exact name or CAS number, exact synonym, beginning of the name, of a synonym, of the CAS number, of a word inside. The group's own are marked and come first among equals. 'q' is accepted for 'query'.")
            .Refuses(400);
        api.MapGet("/substances/{key}", ReadAsync)
            .WithName("read-substance")
            .WithSummary("A substance with every value")
            .WithDescription("By CAS number, by the name of a substance that has none, or by the identifier of one of the group's own. Each value has quality, source and all published numbers, the governing one first. The ETag of an own substance is its version.")
            .Refuses(403, 404);
        api.MapGet("/structures", ReadStructure)
            .WithName("read-structure")
            .WithSummary("What follows from a structure: composition, groups, estimates")
            .WithDescription("SMILES in the query. A structure of the catalogue names its key under 'listed'; of any other nothing is taken from the catalogue. Every value is an estimate with its error bar, model and source. A fault names the character.")
            .Refuses(400);
        api.MapOwnSubstances();
    }

    /// <summary>One of the group's own, in the group where the person finds it; a foreign one is not there.</summary>
    internal static async Task<(Actor? Actor, Result<GroupSubstanceView, Refusal> Found)> FindOwnAsync(
        HttpContext context, ActorProvider actors, GroupSubstanceHandler substances, Guid id, CancellationToken cancellationToken)
    {
        Actor? first = null;
        Result<GroupSubstanceView, Refusal> answer = Refusal.NotFound;
        foreach (Actor actor in await actors.AllAsync(context.User, cancellationToken))
        {
            Result<GroupSubstanceView, Refusal> found = await substances.ReadAsync(actor, id, cancellationToken);
            if (found.IsOk)
            {
                return (actor, found);
            }

            (first, answer) = first is null ? (actor, found) : (first, answer);
        }

        return (first, answer);
    }

    private static async Task<Results<KeptAnswer<SubstancesAnswer>, ProblemResult>> SearchAsync(
        HttpContext context, ActorProvider actors, OwnValues own, string? query, string? q, int? limit, Guid? group, CancellationToken cancellationToken)
    {
        if (limit is < 1 or > MostFound)
        {
            return Problems.Make(context, StatusCodes.Status400BadRequest, "malformed", "The query has a fault.", new FieldError("?limit", $"Expected 1 to {MostFound}."));
        }

        string text = (query ?? q ?? "").Trim();
        if (text.Length is 0 or > 200)
        {
            return Problems.Make(context, StatusCodes.Status400BadRequest, "malformed", "The query has a fault.",
                new FieldError(query is null && q is not null ? "?q" : "?query", "Required: 1 to 200 characters of a name, synonym or CAS number."));
        }

        Actor? actor = await actors.ForAsync(context.User, group, cancellationToken);
        if (actor is null && group is not null)
        {
            return ApiEndpoints.NoGroup(context, group);
        }

        IReadOnlyList<FoundSubstance> found = SubstanceSearch.Search(text, limit ?? 20, await own.ListAsync(actor, cancellationToken));
        return new KeptAnswer<SubstancesAnswer>(new SubstancesAnswer([.. found.Select(SubstanceLine.From)]));
    }

    private static async Task<Results<KeptAnswer<SubstanceAnswer>, ProblemResult>> ReadAsync(
        HttpContext context, ActorProvider actors, OwnValues own, GroupSubstanceHandler substances, string key, CancellationToken cancellationToken)
    {
        if (Guid.TryParse(key, out Guid id))
        {
            (_, Result<GroupSubstanceView, Refusal> view) = await FindOwnAsync(context, actors, substances, id, cancellationToken);
            return view.IsOk
                ? new KeptAnswer<SubstanceAnswer>(SubstanceAnswer.From(key, SubstanceCard.OfOwn(Listed(view.Value)), OwnSubstanceAnswer.From(view.Value)), EntityTags.Of(view.Value.Version))
                : Problems.From(context, view.Error);
        }

        if (SolutionCard.Find(key) is { } solution)
        {
            return new KeptAnswer<SubstanceAnswer>(SubstanceAnswer.From(solution));
        }

        if (SubstanceCard.Find(key) is not { } substance)
        {
            return Problems.From(context, Refusal.NotFound);
        }

        Actor? actor = await actors.ForAsync(context.User, null, cancellationToken);
        SubstanceCard card = SubstanceCard.OfCatalogue(substance, await own.ListAsync(actor, cancellationToken));
        OwnSubstanceAnswer? stated = card.Own is { } listed && actor is not null && await substances.ReadAsync(actor, listed.Id, cancellationToken) is { IsOk: true } read ? OwnSubstanceAnswer.From(read.Value) : null;
        return new KeptAnswer<SubstanceAnswer>(SubstanceAnswer.From(substance.Key, card, stated));
    }

    private static Results<KeptAnswer<StructureCard>, ProblemResult> ReadStructure(HttpContext context, string? smiles)
    {
        StructureError? error = null;
        return !string.IsNullOrWhiteSpace(smiles) && StructureCard.Of(smiles, out error) is { } card
            ? new KeptAnswer<StructureCard>(card)
            : Problems.Make(context, StatusCodes.Status400BadRequest, "malformed", "The query has a fault.", new FieldError("?smiles", error?.ToString() ?? "Required: a structure as SMILES."));
    }

    internal static ListedGroupSubstance Listed(GroupSubstanceView view) => new(view.Id, view.Version, view.Substance);
}
