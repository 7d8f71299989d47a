using System.Text.Json;
using PreApproval.Documents;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Catalogue;

/// <summary>A substance that fits a search.</summary>
/// <param name="Key">For <c>GET substances/{key}</c>: CAS number or name in the catalogue, identifier in the group's own list.</param>
/// <param name="Own">True for one of the group's own list.</param>
/// <param name="Matched">The name, synonym or CAS number that fits.</param>
/// <param name="Formula">Hill order in the catalogue.</param>
/// <param name="MolarMass">g/mol.</param>
/// <param name="Solution">What is in it, where it is a solution or mixture; null: a substance.</param>
public sealed record SubstanceLine(string Key, bool Own, string Matched, string? Cas, string Name, IReadOnlyList<string> Synonyms, string? Formula, double? MolarMass, string? Smiles, SolutionLine? Solution)
{
    public static SubstanceLine From(FoundSubstance found)
    {
        ArgumentNullException.ThrowIfNull(found);
        Hazards.Substances.Identity identity = found.Identity;
        return new SubstanceLine(found.Key, found.Own is not null, found.Matched, identity.Cas, identity.Name, identity.Synonyms, identity.Formula, GramsPerMol(identity), identity.Smiles,
            found.Solution is { } solution ? new SolutionLine(solution.Strength?.ToString(), solution.StrengthAssumed, solution.Contents) : null);
    }

    internal static double? GramsPerMol(Hazards.Substances.Identity identity) => identity.MolarMassKgPerMol is { } mass ? Math.Round(mass * 1000, 9) : null;
}

/// <summary>A solution or mixture in a search.</summary>
/// <param name="Strength">Percent by mass or mol/L; null for a mixture.</param>
/// <param name="StrengthAssumed">True: other strengths go by the same name, and none was typed.</param>
/// <param name="Contents">In words, by mass.</param>
public sealed record SolutionLine(string? Strength, bool StrengthAssumed, string Contents);

/// <summary>Substances found.</summary>
public sealed record SubstancesAnswer(IReadOnlyList<SubstanceLine> Items);

/// <summary>What names a substance.</summary>
/// <param name="MolarMass">g/mol.</param>
/// <param name="State">gas, liquid or solid at 25 °C and 1 atm.</param>
/// <param name="Involatile">True: leaves no vapour worth counting.</param>
public sealed record SubstanceIdentity(string? Cas, string Name, IReadOnlyList<string> Synonyms, string? Formula, double? MolarMass, string? Smiles, string State, bool Involatile);

/// <summary>Everything that is known of a substance.</summary>
/// <param name="Own">What the group's own list says of it, as it was written; null: nothing.</param>
/// <param name="InCatalogue">False: only the group's own list has it.</param>
/// <param name="Values">Each with the number that governs and all that are published.</param>
/// <param name="Correlations">Over temperature, the preferred one of each quantity first.</param>
/// <param name="VapourPressure">At round temperatures up to the critical point; empty where it has none.</param>
/// <param name="Health">Hazard statements, exposure limits, IDLH, carcinogen group; null for a solution, whose parts carry them.</param>
/// <param name="Solution">Parts, strength, density and partial pressures of a solution or mixture; null: a substance.</param>
public sealed record SubstanceAnswer(
    string Key, SubstanceIdentity Identity, bool InCatalogue, IReadOnlyList<SubstanceValue> Values, IReadOnlyList<SubstanceCorrelation> Correlations,
    IReadOnlyList<VapourPoint> VapourPressure, OwnSubstanceAnswer? Own, HealthAnswer? Health, SolutionCard? Solution)
{
    public static SubstanceAnswer From(NamedSolution solution)
    {
        ArgumentNullException.ThrowIfNull(solution);
        return new SubstanceAnswer(
            solution.Label,
            new SubstanceIdentity(solution.Cas, solution.Label, solution.Synonyms, null, null, null, ApiJson.Word(Phase.Liquid), false),
            InCatalogue: true, [], [], [], null, null, SolutionCard.Of(solution));
    }

    public static SubstanceAnswer From(string key, SubstanceCard card, OwnSubstanceAnswer? own)
    {
        ArgumentNullException.ThrowIfNull(card);
        Substance substance = card.Substance;
        Hazards.Substances.Identity identity = substance.Identity;
        IReadOnlyList<string> synonyms = card.Catalogue is null && card.Own is { } listed ? listed.Substance.Synonyms : identity.Synonyms;
        return new SubstanceAnswer(
            key,
            new SubstanceIdentity(identity.Cas, identity.Name, synonyms, identity.Formula, SubstanceLine.GramsPerMol(identity), identity.Smiles, ApiJson.Word(substance.PhaseAt298K), substance.Involatile),
            card.Catalogue is not null,
            card.Values,
            card.Correlations,
            VapourCurve.Of(substance)?.Table ?? [],
            own,
            HealthAnswer.Of(substance),
            null);
    }
}

/// <summary>A substance of the group's own list in one of its versions.</summary>
/// <param name="Substance">As it was written: name, synonyms, cas, smiles, properties with their sources.</param>
/// <param name="RetiredAt">When it was taken out of use; null: in use.</param>
/// <param name="Change">What this version did: added, changed or retired.</param>
/// <param name="Digest"><c>sha256:</c> and the SHA-256 of its canonical form, as in the history.</param>
public sealed record OwnSubstanceAnswer(
    Guid Id, Guid Group, int Version, DateTimeOffset? RetiredAt, VersionChange Change, DateTimeOffset ChangedAt, string ChangedBy, string? Reason, string Digest, JsonElement Substance)
{
    public static OwnSubstanceAnswer From(GroupSubstanceView view)
    {
        ArgumentNullException.ThrowIfNull(view);
        return new OwnSubstanceAnswer(
            view.Id, view.GroupId, view.Version, view.RetiredAt, view.Change, view.ChangedAt, view.ChangedBy, view.Reason, view.ContentDigest,
            JsonElement.Parse(GroupSubstanceDocument.Canonical(view.Substance)));
    }
}

/// <summary>The group's own substances, or the versions of one.</summary>
public sealed record OwnSubstancesAnswer(IReadOnlyList<OwnSubstanceAnswer> Items);

/// <summary>Body of <c>POST substances/{id}/retirement</c>.</summary>
/// <param name="Reason">Words for the history.</param>
public sealed record RetirementBody(string Reason)
{
    public static async Task<Result<string, Refusal>> ReadAsync(HttpRequest request, CancellationToken cancellationToken)
    {
        Result<ObjectReader, Refusal> body = await RequestBody.ReadObjectAsync(request, cancellationToken);
        if (!body.IsOk)
        {
            return body.Error;
        }

        string reason = body.Value.Text("reason", TypedText.Longest);
        return body.Value.Finish() is { } refusal ? refusal : reason;
    }
}

/// <summary>Stands in the OpenAPI document for a substance of the group's own list, whose members docs/api.md describes.</summary>
public sealed record OwnSubstanceBody;
