using PreApproval.Documents.Units;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using PreApproval.Web.Shared.Charts;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>Curves of the engine as drawings with their tables.</summary>
public static class ExplorerCharts
{
    private const double PascalPerBar = 1e5;

    /// <summary>Pressure and share of the rating over the set temperature.</summary>
    public static ChartModel Pressure(SafeWindowCurve curve, StepNumbers planned, StepNumbers tried)
    {
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(tried);
        ChartAxis up = PressureAxis(curve, planned, tried);
        SafeWindowPoint? full = curve.Points.FirstOrDefault(static p => p.LiquidFull);
        SafeWindowPoint? hot = curve.Points.FirstOrDefault(static p => p.LimitMarginK < 0);
        List<ChartTurn> turns = [];
        if (full is not null)
        {
            turns.Add(new ChartTurn(C(full.At), $"full of liquid from {ExplorerWords.Celsius(full.At)}"));
        }

        if (hot is not null)
        {
            turns.Add(new ChartTurn(C(hot.At), $"vessel's limit from {ExplorerWords.Celsius(hot.At)}"));
        }

        return new ChartModel
        {
            Id = "chart-pressure",
            Title = $"Pressure in {tried.State.Vessel.Id} over the set temperature",
            Description = $"Worst-case pressure from {ExplorerWords.Pressure(curve.Points[0])} at {ExplorerWords.Celsius(curve.Points[0].At)} to {ExplorerWords.Pressure(curve.Points[^1])} at {ExplorerWords.Celsius(curve.Points[^1].At)}; {ExplorerWords.Pressure(tried.Point)} at the tried {ExplorerWords.Celsius(tried.Point.TemperatureK)}. {WindowWords(curve, ExplorerWords.Celsius)}",
            Across = new ChartAxis(C(curve.Points[0].At), C(curve.Points[^1].At), "set temperature, °C"),
            Up = up,
            Right = ShareScale(curve, up),
            RightWords = "% of rating",
            Lines =
            [
                new ChartLine("bound", [.. curve.Points.Select(static p => (C(p.At), Bar(p.BoundPaGauge)))]),
                new ChartLine("second", [.. curve.Points.Select(static p => (C(p.At), Bar(p.ExpectedPaGauge)))]),
                new ChartLine("line", [.. curve.Points.Select(static p => (C(p.At), Bar(p.GoverningPaGauge)))]),
            ],
            Limits = PressureLimits(curve),
            Turns = turns,
            Bands = Bands(curve, C),
            Marks = Marks(planned, tried, C(planned.Point.TemperatureK), C(tried.Point.TemperatureK), Bar(planned.Point.GoverningPaGauge), Bar(tried.Point.GoverningPaGauge), ExplorerWords.Celsius(planned.Point.TemperatureK), ExplorerWords.Celsius(tried.Point.TemperatureK)),
            Caption = $"Line: worst case, the highest pressure on the way from closing to the worst credible temperature. Dashed: at the set temperature itself. Dotted: the bound for liquids that do not mix. {LowerBoundWords(curve)}{RatingWords(curve, up)}",
            Columns = ["Set", "Worst case", "At set", "Bound", "Of rating", "Limits"],
            Rows = [.. Sampled(curve.Points, tried.Point).Select(static p => (IReadOnlyList<string>)
                [ExplorerWords.Celsius(p.At), p.LiquidFull ? "full" : ExplorerWords.Bar(p.GoverningPaGauge), ExplorerWords.Bar(p.ExpectedPaGauge), ExplorerWords.Bar(p.BoundPaGauge), ExplorerWords.Percent(p.ShareOfRating), ExplorerWords.Safe(p.Safe)])],
        };
    }

    /// <summary>Pressure over the fill, at the tried temperature.</summary>
    public static ChartModel Fill(SafeWindowCurve curve, StepNumbers planned, StepNumbers tried, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(tried);
        ArgumentNullException.ThrowIfNull(policy);
        ChartAxis up = PressureAxis(curve, planned, tried);
        double usual = FillLimits.Usual(tried.State.Vessel, policy);

        // What is filled beyond the usual most is a finding: no window reaches past that line.
        SafeWindowCurve window = curve.SafeFrom < usual ? curve with { SafeTo = Math.Min(curve.SafeTo ?? usual, usual) } : curve with { SafeFrom = null, SafeTo = null };
        List<ChartTurn> turns = [new ChartTurn(100 * usual, $"usual most {ExplorerWords.Percent(usual)}")];
        if (curve.Points.FirstOrDefault(static p => p.LiquidFull) is { } full)
        {
            turns.Add(new ChartTurn(100 * full.At, $"full of liquid from {ExplorerWords.Percent(full.At)}"));
        }

        return new ChartModel
        {
            Id = "chart-fill",
            Title = $"Pressure in {tried.State.Vessel.Id} over its fill at {ExplorerWords.Celsius(tried.Point.TemperatureK)}",
            Description = $"Worst-case pressure from {ExplorerWords.Pressure(curve.Points[0])} at a fill of {ExplorerWords.Percent(curve.Points[0].At)} to {ExplorerWords.Pressure(curve.Points[^1])} at {ExplorerWords.Percent(curve.Points[^1].At)}; {ExplorerWords.Pressure(tried.Point)} at the tried {ExplorerWords.Percent(tried.Fill)}. {WindowWords(window, static f => ExplorerWords.Percent(f))}",
            Across = new ChartAxis(100 * curve.Points[0].At, 100 * curve.Points[^1].At, "fill at 25 °C, % of the vessel"),
            Up = up,
            Right = ShareScale(curve, up),
            RightWords = "% of rating",
            Lines =
            [
                new ChartLine("bound", [.. curve.Points.Select(static p => (100 * p.At, Bar(p.BoundPaGauge)))]),
                new ChartLine("line", [.. curve.Points.Select(static p => (100 * p.At, Bar(p.GoverningPaGauge)))]),
            ],
            Limits = PressureLimits(curve),
            Turns = turns,
            Bands = Bands(window, static f => 100 * f),
            Marks = planned.Fill is { } was && tried.Fill is { } fill
                ? Marks(planned, tried, 100 * was, 100 * fill, Bar(planned.Point.GoverningPaGauge), Bar(tried.Point.GoverningPaGauge), ExplorerWords.Percent(was), ExplorerWords.Percent(fill))
                : [],
            Caption = $"Line: worst case. Dotted: the bound for liquids that do not mix. All amounts are scaled together. The usual most is common practice, no source. {LowerBoundWords(curve)}{RatingWords(curve, up)}",
            Columns = ["Fill", "Worst case", "Bound", "Of rating", "Limits"],
            Rows = [.. curve.Points.Select(static p => (IReadOnlyList<string>)
                [ExplorerWords.Percent(p.At), p.LiquidFull ? "full" : ExplorerWords.Bar(p.GoverningPaGauge), ExplorerWords.Bar(p.BoundPaGauge), ExplorerWords.Percent(p.ShareOfRating), ExplorerWords.Safe(p.Safe)])],
        };
    }

    /// <summary>Flash margin and margin of the hottest surface over the set temperature; null: neither is on file.</summary>
    public static ChartModel? Margins(SafeWindowCurve curve, StepNumbers planned, StepNumbers tried, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(tried);
        ArgumentNullException.ThrowIfNull(policy);
        double[] all = [.. curve.Points.SelectMany(static p => new[] { p.FlashMarginK, p.SurfaceMarginK }).OfType<double>()];
        if (all.Length == 0)
        {
            return null;
        }

        double step = ChartTicks.StepFor((Math.Max(all.Max(), 20) - Math.Min(all.Min(), -20)) / 5);
        var up = new ChartAxis(step * Math.Floor(Math.Min(all.Min(), -20) / step), step * Math.Ceiling(Math.Max(all.Max(), 20) / step), "margin, K");
        List<ChartLimit> limits = [new ChartLimit(0, "limit: below 0 K is too hot")];
        if (curve.FlashMarginNeededK is { } needed and > 0)
        {
            limits.Add(new ChartLimit(needed, $"kept below the flash point: {ExplorerWords.Difference(needed)}"));
        }

        return new ChartModel
        {
            Id = "chart-margins",
            Title = $"Flash and hot-surface margins in {tried.State.Vessel.Id} over the set temperature",
            Description = $"At the tried {ExplorerWords.Celsius(tried.Point.TemperatureK)} the contents are {MarginWords(tried.Point.FlashMarginK, "their flash point")} and the hottest surface is {MarginWords(tried.Point.SurfaceMarginK, "the highest allowed")}. {WindowWords(curve, ExplorerWords.Celsius)}",
            Across = new ChartAxis(C(curve.Points[0].At), C(curve.Points[^1].At), "set temperature, °C"),
            Up = up,
            Lines =
            [
                new ChartLine("second", [.. curve.Points.Select(static p => (C(p.At), p.FlashMarginK))]),
                new ChartLine("line", [.. curve.Points.Select(static p => (C(p.At), p.SurfaceMarginK))]),
            ],
            Limits = limits,
            Bands = Bands(curve, C),
            Marks = Marks(planned, tried, C(planned.Point.TemperatureK), C(tried.Point.TemperatureK), planned.Point.SurfaceMarginK, tried.Point.SurfaceMarginK, ExplorerWords.Celsius(planned.Point.TemperatureK), ExplorerWords.Celsius(tried.Point.TemperatureK)),
            Caption = $"Line: hottest surface below {Words.Number(100 * policy.HotSurfaceShare)} % of the lowest autoignition temperature in °C. Dashed: contents below their flash point{(tried.State.Sealed ? ", which counts once the vessel is opened or leaks" : "")}.",
            Columns = ["Set", "To the flash point", "Hottest surface", "Limits"],
            Rows = [.. Sampled(curve.Points, tried.Point).Select(static p => (IReadOnlyList<string>)
                [ExplorerWords.Celsius(p.At), ExplorerWords.Difference(p.FlashMarginK), ExplorerWords.Difference(p.SurfaceMarginK), ExplorerWords.Safe(p.Safe)])],
        };
    }

    private static ChartAxis PressureAxis(SafeWindowCurve curve, StepNumbers planned, StepNumbers tried)
    {
        double most = curve.Points.Max(static p => Bar(p.GoverningPaGauge)) ?? 1;
        double rating = Bar(curve.RatingPaGauge) ?? 0;
        double here = Math.Max(Bar(planned.Point.GoverningPaGauge) ?? 0, Bar(tried.Point.GoverningPaGauge) ?? 0);

        // What matters stands near the limits: a curve that runs far beyond them is cut off.
        double top = Math.Max(Math.Min(most, Math.Max(1.6 * rating, 1.4 * here)), rating <= 2 * most ? 1.15 * rating : 0);
        top = Math.Max(top, 0.2);
        double step = ChartTicks.StepFor(top / 4);
        return new ChartAxis(0, step * Math.Ceiling(top / step), "bar(g)");
    }

    private static IReadOnlyList<(double Up, string Words)> ShareScale(SafeWindowCurve curve, ChartAxis up) => Bar(curve.RatingPaGauge) is { } rating and > 0
        ? [.. ChartTicks.Between(0, 100 * up.To / rating, 5).Select(share => (share * rating / 100, Words.Number(Math.Round(share, 6))))]
        : [];

    private static List<ChartLimit> PressureLimits(SafeWindowCurve curve)
    {
        double quiet = curve.QuietLimitPaGauge / PascalPerBar;
        return curve.RatingPaGauge is { } rating and > 0
            ? [new ChartLimit(rating / PascalPerBar, $"rating {ExplorerWords.Bar(rating)}"), new ChartLimit(quiet, $"no finding up to {ExplorerWords.Bar(curve.QuietLimitPaGauge)}")]
            : [new ChartLimit(quiet, $"not rated: no finding up to {ExplorerWords.Bar(curve.QuietLimitPaGauge)}")];
    }

    /// <summary>A curve that leaves something out must not be read as all of the pressure.</summary>
    private static string LowerBoundWords(SafeWindowCurve curve) => curve.Missing.Count > 0 ? $"A lower bound: the pressure leaves out {string.Join(", ", curve.Missing)}. " : "";

    private static string RatingWords(SafeWindowCurve curve, ChartAxis up) => curve.RatingPaGauge is { } rating and > 0
        ? rating / PascalPerBar > up.To ? $"The rating of {ExplorerWords.Bar(rating)} lies above the chart." : ""
        : "The rating is not known and counts as 0 bar(g).";

    private static List<ChartBand> Bands(SafeWindowCurve curve, Func<double, double> across) =>
        curve is { SafeFrom: { } from, SafeTo: { } to } ? [new ChartBand(across(from), across(to), "safe window")] : [];

    private static string WindowWords(SafeWindowCurve curve, Func<double, string> words) =>
        curve is { SafeFrom: { } from, SafeTo: { } to } ? $"Safe window from {words(from)} to {words(to)}, shaded." : "No safe window.";

    private static List<ChartMark> Marks(StepNumbers planned, StepNumbers tried, double plannedAcross, double triedAcross, double? plannedUp, double? triedUp, string plannedWords, string triedWords)
    {
        List<ChartMark> marks = [new ChartMark(triedAcross, triedUp, $"tried {triedWords}", Open: false)];
        if (!plannedUp.Equals(triedUp) || Math.Abs(plannedAcross - triedAcross) > 1e-9)
        {
            marks.Insert(0, new ChartMark(plannedAcross, plannedUp, $"planned {plannedWords}", Open: true));
        }

        return marks;
    }

    /// <summary>Every tenth degree, and the tried point in its place.</summary>
    private static IEnumerable<SafeWindowPoint> Sampled(IReadOnlyList<SafeWindowPoint> points, SafeWindowPoint tried) =>
        points.Where(p => Math.Abs(C(p.At) - (10 * Math.Round(C(p.At) / 10))) < 1e-6 && Math.Abs(p.At - tried.At) > 1e-6).Append(tried).OrderBy(static p => p.At);

    private static string MarginWords(double? margin, string what) => margin switch
    {
        null => $"without a known distance to {what}",
        < 0 => $"{ExplorerWords.Difference(-margin)} above {what}",
        _ => $"{ExplorerWords.Difference(margin)} below {what}",
    };

    private static double C(double kelvin) => kelvin - UnitTable.CelsiusZeroK;

    private static double? Bar(double? paGauge) => paGauge / PascalPerBar;
}
