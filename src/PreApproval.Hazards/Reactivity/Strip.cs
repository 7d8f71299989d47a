using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>Where partners meet.</summary>
public enum StripPlace
{
    /// <summary>In a vessel at a step, with the gas over it.</summary>
    Vessel,

    /// <summary>In a waste container.</summary>
    Waste,

    /// <summary>Under an extinguishing agent that is at hand.</summary>
    Agent,
}

/// <summary>A hazardous encounter that no finding of the report tells: what an agent does.</summary>
public sealed record StripHazard(Severity Severity, string Statement, IReadOnlyList<string> Sources);

/// <summary>Two that meet.</summary>
public readonly record struct StripPair(string A, string B);

/// <summary>Pairs of which no hazard is known, on one basis.</summary>
public sealed record StripNoneKnown(string Basis, IReadOnlyList<string> Sources, IReadOnlyList<StripPair> Pairs);

/// <summary>What newly meets what at one place: in a vessel at a step, in a waste container, under an agent.</summary>
public sealed record Strip
{
    public required StripPlace Place { get; init; }

    /// <summary>Step; null for waste and agents.</summary>
    public string? Step { get; init; }

    /// <summary>Vessel, container or agent.</summary>
    public required string Where { get; init; }

    /// <summary>Identifiers of the findings that tell the hazards, in the order of the report.</summary>
    public IReadOnlyList<string> Findings { get; init; } = [];

    public IReadOnlyList<StripHazard> Hazards { get; init; } = [];

    public IReadOnlyList<StripNoneKnown> NoneKnown { get; init; } = [];

    public IReadOnlyList<StripPair> NotAssessed { get; init; } = [];

    internal bool IsEmpty => Findings.Count == 0 && Hazards.Count == 0 && NoneKnown.Count == 0 && NotAssessed.Count == 0;
}
