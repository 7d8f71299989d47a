using System.Text.Json.Serialization;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;

namespace PreApproval.Web.Shared.Components;

/// <summary>What newly meets what at one place, as in the report.</summary>
public sealed record StripView
{
    public StripPlace Place { get; init; }

    public string? Step { get; init; }

    public string Where { get; init; } = "";

    /// <summary>Identifiers of findings.</summary>
    public IReadOnlyList<string> Findings { get; init; } = [];

    public IReadOnlyList<StripHazardView> Hazards { get; init; } = [];

    public IReadOnlyList<StripBasisView> NoneKnown { get; init; } = [];

    public IReadOnlyList<StripPairView> NotAssessed { get; init; } = [];

    /// <summary>Each finding at the first step of its vessel that it is about; a step at which nothing else is new has no strip then.</summary>
    public static IReadOnlyList<StripView> ToldOnce(IReadOnlyList<StripView> strips)
    {
        ArgumentNullException.ThrowIfNull(strips);
        HashSet<string> told = new(StringComparer.Ordinal);
        return
        [
            .. strips.Select(strip => strip.Place is StripPlace.Vessel ? strip with { Findings = [.. strip.Findings.Where(told.Add)] } : strip)
                .Where(static strip => strip.Place is not StripPlace.Vessel || strip.Findings.Count + strip.Hazards.Count + strip.NoneKnown.Count + strip.NotAssessed.Count > 0),
        ];
    }

    /// <summary>Agents at hand of which the report tells nothing: no listed ban concerns what is here.</summary>
    /// <param name="strips">As reported.</param>
    /// <param name="agents">Agents that the document names.</param>
    public static IReadOnlyList<string> WithoutBan(IReadOnlyList<StripView> strips, IReadOnlyList<string> agents)
    {
        ArgumentNullException.ThrowIfNull(strips);
        ArgumentNullException.ThrowIfNull(agents);
        return [.. agents.Where(agent => !strips.Any(strip => strip.Place is StripPlace.Agent && string.Equals(strip.Where, agent, StringComparison.Ordinal))).Distinct(StringComparer.Ordinal)];
    }

    /// <summary>True for an agent of which only a list of bans is known: what the list does not name is not told.</summary>
    public bool OnlyBans => Place is StripPlace.Agent && NoneKnown.Count + NotAssessed.Count == 0;

    public int NoneKnownCount => NoneKnown.Sum(static group => group.Pairs.Count);

    /// <summary>Where, for a heading.</summary>
    public string Heading => Place switch
    {
        StripPlace.Vessel => $"Step {Step}, in {Where}",
        StripPlace.Waste => $"Waste “{Where}”",
        StripPlace.Agent => $"Under {Where}, should it burn",
    };

    /// <summary>How many of each, for a heading: <c>1 hazard, 5 none known, 2 not assessed</c>.</summary>
    public string Counts
    {
        get
        {
            int hazards = Findings.Count + Hazards.Count;
            string[] parts =
            [
                hazards == 0 ? "" : Words.Count(hazards, "hazard", "hazards"),
                NoneKnownCount == 0 ? "" : $"{NoneKnownCount} none known",
                NotAssessed.Count == 0 ? "" : $"{NotAssessed.Count} not assessed",
            ];
            return string.Join(", ", parts.Where(static part => part.Length > 0));
        }
    }
}

/// <summary>A hazard that no finding tells.</summary>
public sealed record StripHazardView
{
    public Severity Severity { get; init; }

    public string Statement { get; init; } = "";

    public IReadOnlyList<string> Source { get; init; } = [];
}

/// <summary>Pairs on one basis.</summary>
public sealed record StripBasisView
{
    public string Basis { get; init; } = "";

    public IReadOnlyList<string> Source { get; init; } = [];

    public IReadOnlyList<StripPairView> Pairs { get; init; } = [];
}

/// <summary>Two that meet.</summary>
public sealed record StripPairView
{
    public string A { get; init; } = "";

    public string B { get; init; } = "";

    [JsonIgnore]
    public string Both => $"{Words.Capital(A)} and {B}";
}
