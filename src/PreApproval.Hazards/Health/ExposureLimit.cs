using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Health;

/// <summary>The time an exposure limit is averaged over.</summary>
public enum LimitKind
{
    /// <summary>Average over a working shift of eight hours (NIOSH: up to ten).</summary>
    TimeWeightedAverage,

    /// <summary>Average over fifteen minutes, unless the note says otherwise.</summary>
    ShortTerm,

    /// <summary>Not to be exceeded at any time.</summary>
    Ceiling,
}

/// <summary>What is in the air.</summary>
public enum AirborneForm
{
    /// <summary>A gas or vapour: ppm and mg/m³ convert into each other.</summary>
    Vapour,

    /// <summary>Dust, mist or fume in total: mg/m³ only.</summary>
    Particulate,

    /// <summary>The inhalable fraction (ISO 7708): mg/m³ only.</summary>
    Inhalable,

    /// <summary>The thoracic fraction (ISO 7708): mg/m³ only.</summary>
    Thoracic,

    /// <summary>The respirable fraction (ISO 7708): mg/m³ only.</summary>
    Respirable,
}

/// <summary>One published occupational exposure limit. At least one of <see cref="Ppm"/> and <see cref="MilligramPerM3"/> is known.</summary>
public sealed record ExposureLimit
{
    public required LimitKind Kind { get; init; }

    /// <summary>Volume fraction in ppm (10⁻⁶); null for particulates and where the molar mass is not known.</summary>
    public double? Ppm { get; init; }

    /// <summary>Mass concentration in mg/m³.</summary>
    public double? MilligramPerM3 { get; init; }

    /// <summary>True: <see cref="Ppm"/> was not published but converted at 25 °C.</summary>
    public bool IsPpmConverted { get; init; }

    /// <summary>True: <see cref="MilligramPerM3"/> was not published but converted at 25 °C.</summary>
    public bool IsMassConverted { get; init; }

    public AirborneForm Form { get; init; }

    /// <summary>True: the publication warns that the substance passes through the skin.</summary>
    public bool Skin { get; init; }

    /// <summary>Who set the limit.</summary>
    public required string Jurisdiction { get; init; }

    /// <summary>Year of the publication or of its snapshot; the limit may have changed since.</summary>
    public required int Year { get; init; }

    public required Quality Quality { get; init; }

    /// <summary>Key in <c>sources.bib</c>.</summary>
    public required string Source { get; init; }

    public string? Note { get; init; }
}

/// <summary>All limits on file for one substance. The strictest governs; the law of the place is not known here and may be stricter still.</summary>
public sealed class ExposureLimits
{
    internal ExposureLimits(IReadOnlyList<ExposureLimit> all)
    {
        All = all;
        StrictestTwa = Strictest(LimitKind.TimeWeightedAverage);
        StrictestStel = Strictest(LimitKind.ShortTerm);
        StrictestCeiling = Strictest(LimitKind.Ceiling);
        Skin = AnySkin();
    }

    /// <summary>Every limit on file, in the order of the files.</summary>
    public IReadOnlyList<ExposureLimit> All { get; }

    /// <summary>The lowest eight-hour average, or null when none is on file.</summary>
    public ExposureLimit? StrictestTwa { get; }

    /// <summary>The lowest fifteen-minute average, or null when none is on file.</summary>
    public ExposureLimit? StrictestStel { get; }

    /// <summary>The lowest ceiling, or null when none is on file.</summary>
    public ExposureLimit? StrictestCeiling { get; }

    /// <summary>True when any publication warns of the skin.</summary>
    public bool Skin { get; }

    /// <summary>The strictest limit of a kind, or null when none is on file.</summary>
    public ExposureLimit? Of(LimitKind kind) => kind switch
    {
        LimitKind.TimeWeightedAverage => StrictestTwa,
        LimitKind.ShortTerm => StrictestStel,
        LimitKind.Ceiling => StrictestCeiling,
    };

    // Masses compare across forms; ppm only where no limit of the substance has a mass. Of equal limits the newest governs.
    // A plain loop: this runs while the catalogue loads, where compiling a sorted query would cost more than the whole reading.
    private ExposureLimit? Strictest(LimitKind kind)
    {
        ExposureLimit? strictest = null;
        foreach (var limit in All)
        {
            if (limit.Kind == kind && (strictest is null || IsStricter(limit, strictest)))
            {
                strictest = limit;
            }
        }

        return strictest;
    }

    private static bool IsStricter(ExposureLimit limit, ExposureLimit than)
    {
        var level = (limit.MilligramPerM3 ?? limit.Ppm).GetValueOrDefault();
        var other = (than.MilligramPerM3 ?? than.Ppm).GetValueOrDefault();
        return level < other || (level <= other && limit.Year > than.Year);
    }

    private bool AnySkin()
    {
        foreach (var limit in All)
        {
            if (limit.Skin)
            {
                return true;
            }
        }

        return false;
    }
}
