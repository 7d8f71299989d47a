using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using PreApproval.Audit;
using PreApproval.Documents.Planning;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Reactivity;
using PreApproval.Web.Screenings;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Pairs;

/// <summary>A gas of an encounter.</summary>
public sealed record PairGasAnswer(string Name, double MolPerEquivalent, string EquivalentOf, string Encounter);

/// <summary>What two do to each other.</summary>
public sealed record PairLine(string A, string B, string Assessment, string? Severity, IReadOnlyList<string> Consequences, IReadOnlyList<PairGasAnswer> Gas, string Conditions, string Reason, IReadOnlyList<string> Source, IReadOnlyList<string> Encounters);

/// <summary>Answer of <c>GET /pairs</c>.</summary>
public sealed record PairsAnswer(IReadOnlyList<PairLine> Pairs);

/// <summary>What named substances do to each other; reads the shipped tables and nothing of any group.</summary>
public static class PairEndpoints
{
    /// <summary>More make more pairs than anybody reads.</summary>
    private const int Most = 40;

    private const int Longest = 500;

    public static void MapPairs(this RouteGroupBuilder api) => api.MapGet("/pairs", Read)
        .WithName("read-pairs")
        .WithSummary("What substances do to each other, two by two")
        .WithDescription("Name 2 to 40 substances, each in a 'substance' parameter of its own: CAS number, name or SMILES, a named solution, air, or a material of construction (glass, steel, copper or brass, aluminium ware, PTFE). Each pair is 'hazard', 'none known' (with its basis) or 'not assessed', which never means compatible. In the canonical form of RFC 8785.")
        .Produces<PairsAnswer>(StatusCodes.Status200OK, "application/json")
        .Refuses(400, 422);

    private static Results<Utf8ContentHttpResult, ProblemResult> Read(HttpContext context, ScreeningLimiter limiter, string[]? substance)
    {
        string[] names = substance ?? [];
        if (names.Length is < 2 or > Most || Array.Exists(names, static name => name.Length is 0 or > Longest))
        {
            return Problems.Make(context, StatusCodes.Status400BadRequest, "malformed", "The query has a fault.", new FieldError("?substance", $"Required: 2 to {Most} parameters of 1 to {Longest} characters."));
        }

        // Each name may be a structure that is read and searched for every pattern: as much work as a screening, so it takes a place among them.
        return limiter.Run(() => Assess(context, names));
    }

    private static Results<Utf8ContentHttpResult, ProblemResult> Assess(HttpContext context, string[] names)
    {
        PairPartner?[] partners = Array.ConvertAll(names, static name => PartnerResolution.Find(name));
        FieldError[] unknown = [.. partners.Index().Where(static entry => entry.Item is null).Select(entry => new FieldError(string.Create(CultureInfo.InvariantCulture, $"?substance/{entry.Index}"), $"No substance is on file under \"{names[entry.Index]}\"."))];
        return unknown.Length > 0
            ? Problems.Make(context, StatusCodes.Status422UnprocessableEntity, "invalid", "A substance cannot be found.", unknown)
            : ApiEndpoints.Json(CanonicalJson.Serialize(PairWriter.ToJson(PairAssessment.Of([.. partners.Select(static partner => partner!)]))));
    }
}
