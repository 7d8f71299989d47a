namespace PreApproval.Hazards.Vessels;

/// <summary>One point of a safe window. Pressures are gauge, in Pa over 101 325 Pa; null where no model gives one or the vessel is open.</summary>
/// <param name="At">Place on the axis: set temperature in K, or fill as a fraction of the vessel.</param>
public sealed record SafeWindowPoint(double At)
{
    /// <summary>Set temperature in K.</summary>
    public required double TemperatureK { get; init; }

    /// <summary>Worst credible temperature in K.</summary>
    public required double WorstTemperatureK { get; init; }

    /// <summary>Governing pressure at the set temperature.</summary>
    public double? ExpectedPaGauge { get; init; }

    /// <summary>Immiscible bound at the worst credible temperature.</summary>
    public double? BoundPaGauge { get; init; }

    /// <summary>Highest governing pressure between closing and the worst credible temperature: what counts.</summary>
    public double? GoverningPaGauge { get; init; }

    /// <summary>True when the liquid fills the vessel on the way: no rating covers it.</summary>
    public bool LiquidFull { get; init; }

    /// <summary>Governing pressure over the weakest rating; null when the rating is unknown or zero, when full, or open.</summary>
    public double? ShareOfRating { get; init; }

    /// <summary>Flash point of the contents minus the set temperature, in K; negative: above its flash point. Null: nothing that flashes, or not known.</summary>
    public double? FlashMarginK { get; init; }

    /// <summary>Highest surface allowed (<see cref="Screening.Policy.HotSurfaceShare"/> of the lowest autoignition temperature in °C) minus the hottest surface, in K. Null: no autoignition temperature on file.</summary>
    public double? SurfaceMarginK { get; init; }

    /// <summary>Lowest temperature limit of vessel and parts minus the worst credible temperature, in K; null when none is stated.</summary>
    public double? LimitMarginK { get; init; }

    /// <summary>Model that gave the governing pressure, in words; null where there is none.</summary>
    public string? Model { get; init; }

    /// <summary>Keys in <c>sources.bib</c> of what the governing pressure rests on.</summary>
    public IReadOnlyList<string> Sources { get; init; } = [];

    /// <summary>True: quiet. False: a limit is passed. Null: data are missing, which is no pass.</summary>
    public bool? Safe { get; init; }
}

/// <summary>Pressure and margins along one axis, with the safe part of it.</summary>
/// <param name="Points">In ascending order of the axis.</param>
/// <param name="SafeFrom">First point of the contiguous safe interval on the axis; null when no point is safe.</param>
/// <param name="SafeTo">Last point of it. Both ends are points that are themselves safe, so the interval errs to the narrow side.</param>
/// <param name="Missing">What the pressure leaves out, in words, at any of the points; those where something is left out do not count as safe.</param>
public sealed record SafeWindowCurve(IReadOnlyList<SafeWindowPoint> Points, double? SafeFrom, double? SafeTo, IReadOnlyList<string> Missing)
{
    /// <summary>The weakest rating in Pa gauge; null: unknown, which counts as zero.</summary>
    public double? RatingPaGauge { get; init; }

    /// <summary>Whose rating it is, in words.</summary>
    public required string RatingOf { get; init; }

    /// <summary>Gauge pressure in Pa up to which the vessel is no finding.</summary>
    public double QuietLimitPaGauge { get; init; }

    /// <summary>Where the step itself stands on the axis; null when outside the asked range.</summary>
    public double? Current { get; init; }

    /// <summary>Distance below the flash point in K that the open step needs to be safe; null for a closed one, which needs none.</summary>
    public double? FlashMarginNeededK { get; init; }
}
