namespace PreApproval.Web.Shared.Charts;

/// <summary>One axis of a chart.</summary>
/// <param name="From">Lowest value.</param>
/// <param name="To">Highest value, above <paramref name="From"/>.</param>
/// <param name="Words">What it measures, with the unit.</param>
public sealed record ChartAxis(double From, double To, string Words);

/// <summary>A curve; a point without a value is a gap.</summary>
/// <param name="Css">line, bound or second: how it is drawn. The caption says what each means.</param>
/// <param name="Points">In ascending order across.</param>
public sealed record ChartLine(string Css, IReadOnlyList<(double Across, double? Up)> Points);

/// <summary>A limit: a line over the whole width at a value.</summary>
public sealed record ChartLimit(double Up, string Words);

/// <summary>A line over the whole height where something begins.</summary>
public sealed record ChartTurn(double Across, string Words);

/// <summary>A shaded part of the axis.</summary>
public sealed record ChartBand(double From, double To, string Words);

/// <summary>A marked point; without a value only its place on the axis is marked.</summary>
/// <param name="Open">True for the planned point, drawn as a ring.</param>
public sealed record ChartMark(double Across, double? Up, string Words, bool Open);

/// <summary>A drawing with its numbers in a table. Whatever is drawn is said in words too.</summary>
public sealed record ChartModel
{
    /// <summary>Identifier on the page.</summary>
    public required string Id { get; init; }

    public required string Title { get; init; }

    /// <summary>What the drawing shows, with the numbers that matter.</summary>
    public required string Description { get; init; }

    public required ChartAxis Across { get; init; }

    public required ChartAxis Up { get; init; }

    /// <summary>A second scale at the right: places on <see cref="Up"/> with what is written there; empty: none.</summary>
    public IReadOnlyList<(double Up, string Words)> Right { get; init; } = [];

    /// <summary>What the scale at the right measures.</summary>
    public string RightWords { get; init; } = "";

    public IReadOnlyList<ChartLine> Lines { get; init; } = [];

    public IReadOnlyList<ChartLimit> Limits { get; init; } = [];

    public IReadOnlyList<ChartTurn> Turns { get; init; } = [];

    public IReadOnlyList<ChartBand> Bands { get; init; } = [];

    public IReadOnlyList<ChartMark> Marks { get; init; } = [];

    /// <summary>What each kind of line means, and what is not shown.</summary>
    public required string Caption { get; init; }

    /// <summary>Headings of the table; the first column is the axis.</summary>
    public required IReadOnlyList<string> Columns { get; init; }

    public required IReadOnlyList<IReadOnlyList<string>> Rows { get; init; }
}
