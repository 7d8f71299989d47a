using PreApproval.Hazards.Plans;

namespace PreApproval.Documents;

/// <summary>A vessel and what it is good for.</summary>
public sealed record VesselEntry
{
    public required string Id { get; init; }

    /// <summary>Kind as typed, for instance <c>thick-walled glass tube</c>.</summary>
    public required string Kind { get; init; }

    /// <summary>Inner volume.</summary>
    public Quantity? Volume { get; init; }

    /// <summary>Rated pressure. A unit without (g) is absolute.</summary>
    public Quantity? Rating { get; init; }

    public string? RatingEvidence { get; init; }

    public Quantity? MaximumTemperature { get; init; }

    /// <summary>As typed.</summary>
    public string? Closure { get; init; }

    public DateOnly? InspectedOn { get; init; }

    /// <summary>The relief device on it.</summary>
    public ReliefEntry? Relief { get; init; }

    /// <summary>Measures of its glass wall.</summary>
    public GlassTubeEntry? GlassTube { get; init; }

    /// <summary>Closure, seal and fittings with limits of their own.</summary>
    public IReadOnlyList<VesselPartEntry>? Parts { get; init; }
}

/// <param name="OutsideDiameterMm">Outside diameter in mm.</param>
/// <param name="WallMm">Wall in mm.</param>
/// <param name="Annealed">True where it is known to be annealed; left out: not known.</param>
public sealed record GlassTubeEntry(double? OutsideDiameterMm, double? WallMm, bool? Annealed);

/// <param name="Device">Valve or disc.</param>
/// <param name="Set">Pressure at which it opens. A unit without (g) is absolute.</param>
public sealed record ReliefEntry(ReliefKind? Device, Quantity? Set)
{
    /// <summary>The word of the device, for instance <c>bursting disc</c>; empty where it is not given.</summary>
    public string DeviceWord => Device is { } device ? Reading.Words.ReliefKinds.WordOf(device) : "";
}

/// <param name="Part">What it is.</param>
/// <param name="Rating">Rated pressure.</param>
/// <param name="MaximumTemperature">Highest temperature.</param>
public sealed record VesselPartEntry(string Part, Quantity? Rating, Quantity? MaximumTemperature);
