using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Hazards.Substances;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Catalogue;

/// <summary>A substance of the catalogue, as an editor needs it.</summary>
/// <param name="Formula">Hill order.</param>
/// <param name="MolarMass">g/mol.</param>
public sealed record SubstanceLine(string? Cas, string Name, IReadOnlyList<string> Synonyms, string? Formula, double? MolarMass, string? Smiles)
{
    public static SubstanceLine From(Substance s)
    {
        ArgumentNullException.ThrowIfNull(s);
        Hazards.Substances.Identity identity = s.Identity;
        return new SubstanceLine(identity.Cas, identity.Name, identity.Synonyms, identity.Formula, identity.MolarMassKgPerMol * 1000, identity.Smiles);
    }
}

/// <summary>Substances found.</summary>
public sealed record SubstancesAnswer(IReadOnlyList<SubstanceLine> Items);

/// <summary>The substances shipped with the engine.</summary>
public static class CatalogueEndpoints
{
    private const int MostFound = 50;

    public static void MapCatalogue(this RouteGroupBuilder api) => api.MapGet("/substances", Search)
        .WithName("search-substances")
        .WithSummary("Search the catalogue by the beginning of a name, synonym or CAS number")
        .Produces<SubstancesAnswer>()
        .Refuses(400);

    private static Results<Ok<SubstancesAnswer>, ProblemResult> Search(HttpContext context, string? q, int? limit)
    {
        if (limit is < 1 or > MostFound)
        {
            return Problems.Make(context, StatusCodes.Status400BadRequest, "malformed", "The query has a fault.", new FieldError("?limit", $"Expected 1 to {MostFound}."));
        }

        if (string.IsNullOrWhiteSpace(q) || q.Length > 200)
        {
            return Problems.Make(context, StatusCodes.Status400BadRequest, "malformed", "The query has a fault.", new FieldError("?q", "Required: 1 to 200 characters of a name, synonym or CAS number."));
        }

        return TypedResults.Ok(new SubstancesAnswer([.. Catalog.Default.Search(q.Trim(), limit ?? 20).Select(SubstanceLine.From)]));
    }
}
