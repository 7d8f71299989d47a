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
