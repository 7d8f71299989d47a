namespace PreApproval.Hazards.Plans;

/// <summary>A vessel and what it is good for.</summary>
public sealed record Vessel
{
    public required string Id { get; init; }

    /// <summary>Kind as typed, for instance <c>thick-walled glass tube</c>.</summary>
    public required string Kind { get; init; }

    /// <summary>Inner volume in m³; null when not given, which forbids closing it without a finding.</summary>
    public double? VolumeM3 { get; init; }

    /// <summary>Rated gauge pressure in Pa; null when unknown, which counts as zero.</summary>
    public double? RatingPaGauge { get; init; }

    public string? RatingEvidence { get; init; }

    public double? MaximumTemperatureK { get; init; }

    public string? Closure { get; init; }

    public DateOnly? InspectedOn { get; init; }

    /// <summary>The relief device on it; null: none is stated.</summary>
    public Relief? Relief { get; init; }

    /// <summary>Measures of its glass wall; null: not given.</summary>
    public GlassTube? GlassTube { get; init; }

    /// <summary>Closure, seal and fittings with ratings of their own; the weakest governs.</summary>
    public IReadOnlyList<VesselPart> Parts { get; init; } = [];
}

/// <param name="OuterDiameterM">Outside diameter in m.</param>
/// <param name="WallM">Wall in m, above 0 and below half the diameter.</param>
/// <param name="Annealed">True where it is known to be annealed, free of stress.</param>
public sealed record GlassTube(double OuterDiameterM, double WallM, bool Annealed);

public enum ReliefKind
{
    Valve,
    BurstingDisc,
}

/// <param name="Kind">Valve or disc.</param>
/// <param name="SetPaGauge">Gauge pressure in Pa at which it opens.</param>
public sealed record Relief(ReliefKind Kind, double SetPaGauge);

/// <param name="Name">What it is.</param>
/// <param name="RatingPaGauge">Rated gauge pressure in Pa, or null when unknown.</param>
/// <param name="MaximumTemperatureK">Highest temperature in K, or null when unknown.</param>
public sealed record VesselPart(string Name, double? RatingPaGauge, double? MaximumTemperatureK);
