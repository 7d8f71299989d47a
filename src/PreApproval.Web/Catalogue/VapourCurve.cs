using PreApproval.Documents.Units;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Catalogue;

/// <summary>A vapour pressure at one temperature.</summary>
/// <param name="TemperatureC">In °C.</param>
/// <param name="Bar">In bar absolute.</param>
/// <param name="Quality">correlated, estimated, assumed, or stated by the group.</param>
/// <param name="Source">Full references.</param>
/// <param name="Mark">boiling point or critical point; null: neither.</param>
public sealed record VapourPoint(double TemperatureC, double Bar, string Quality, IReadOnlyList<string> Source, string? Mark);

/// <summary>
/// The vapour pressure of a substance from about a millibar to its critical point: where no published range reaches, the estimate that
/// the engine computes with, marked as one.
/// </summary>
public sealed record VapourCurve
{
    private const double PascalPerBar = 1e5;
    private const double LeastPa = 100;
    private const double MostPa = 1e7;
    private const double StepK = 2;
    private const double ColdestK = 20;
    private const double HottestK = 1200;
    private const int Points = 80;
    private static readonly double[] Steps = [1, 2, 5, 10, 20, 25, 50, 100];

    /// <summary>Dense enough to be drawn; the ends of the ranges are among them.</summary>
    public required IReadOnlyList<VapourPoint> Line { get; init; }

    /// <summary>At round temperatures, with the boiling and the critical point.</summary>
    public required IReadOnlyList<VapourPoint> Table { get; init; }

    public VapourPoint? Boiling { get; init; }

    public VapourPoint? Critical { get; init; }

    /// <summary>Null where nothing gives a pressure over a range of temperatures.</summary>
    public static VapourCurve? Of(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        if (substance.Involatile || Start(substance) is not { } start)
        {
            return null;
        }

        double low = Walk(substance, start, -StepK);
        double high = substance.CriticalTemperatureK?.Value ?? Walk(substance, start, StepK);
        if (high - low < 2 * StepK)
        {
            return null;
        }

        double? boilingK = substance.BoilingPointK?.Value is { } tb && tb >= low && tb <= high ? tb : null;
        IEnumerable<double> drawn = Enumerable.Range(0, Points + 1).Select(i => low + ((high - low) * i / Points))
            .Concat(substance.VapourPressure.SelectMany(static c => new[] { c.MinimumK, c.MaximumK }).Where(t => t > low && t < high))
            .Concat(boilingK is { } b ? [b] : []);
        VapourPoint? boiling = boilingK is { } at ? Point(substance, at, "boiling point") : null;
        VapourPoint? critical = CriticalPoint(substance);
        List<VapourPoint> points = [.. drawn.Distinct().Order().Select(t => Point(substance, t, null)).OfType<VapourPoint>()];
        return points.Count < 3
            ? null
            : new VapourCurve { Line = points, Boiling = boiling, Critical = critical, Table = [.. Rows(substance, low, high).Where(row => !IsAt(row, boiling) && !IsAt(row, critical)).Concat([boiling, critical]).OfType<VapourPoint>().OrderBy(static p => p.TemperatureC)] };
    }

    private static bool IsAt(VapourPoint? row, VapourPoint? mark) => row is not null && mark is not null && Math.Abs(row.TemperatureC - mark.TemperatureC) < 0.05;

    /// <summary>A temperature at which there is a pressure.</summary>
    private static double? Start(Substance substance)
    {
        IEnumerable<double> candidates = substance.VapourPressure.Select(static c => c.MinimumK)
            .Prepend(substance.BoilingPointK?.Value ?? double.NaN)
            .Append((substance.CriticalTemperatureK?.Value ?? double.NaN) * 0.7);
        return candidates.Where(double.IsFinite).Select(static t => (double?)t).FirstOrDefault(t => Pascal(substance, t!.Value) is > 0);
    }

    /// <summary>As far as the pressure stays between a millibar and 100 bar, and beyond every published range for 50 K at most.</summary>
    private static double Walk(Substance substance, double from, double step)
    {
        double published = step > 0
            ? Math.Max(from, substance.VapourPressure.Select(static c => c.MaximumK).DefaultIfEmpty(from).Max()) + 50
            : Math.Min(from, substance.VapourPressure.Select(static c => c.MinimumK).DefaultIfEmpty(from).Min()) - 50;
        double at = from;
        double last = Pascal(substance, from) ?? 0;
        for (double next = at + step; next is > ColdestK and < HottestK && (step > 0 ? next <= published : next >= published); next += step)
        {
            // Below every range without critical constants the engine keeps an upper bound, which is no curve.
            if (Pascal(substance, next) is not { } pascal || pascal > MostPa || pascal < LeastPa || (step < 0 && pascal >= last))
            {
                break;
            }

            (at, last) = (next, pascal);
        }

        return at;
    }

    private static double? Pascal(Substance substance, double temperatureK) =>
        VapourPressure.At(substance, temperatureK) is { Volatility: Volatility.Condensable } value && double.IsFinite(value.Pascal) ? value.Pascal : null;

    private static VapourPoint? Point(Substance substance, double temperatureK, string? mark)
    {
        VapourPressureValue value = VapourPressure.At(substance, temperatureK);
        return value.Volatility == Volatility.Condensable && value.Pascal > 0
            ? new VapourPoint(SubstanceCard.Celsius(temperatureK), value.Pascal / PascalPerBar, QualityOf(value), SubstanceCard.References([value.Source]), mark)
            : null;
    }

    private static string QualityOf(VapourPressureValue value) => value.Quality == Quality.Correlated ? SubstanceCard.QualityOf(value.Quality, [value.Source]) : SubstanceCard.QualityOf(value.Quality, []);

    private static VapourPoint? CriticalPoint(Substance substance) => substance is { CriticalTemperatureK: { } tc, CriticalPressurePa: { } pc }
        ? new VapourPoint(SubstanceCard.Celsius(tc.Value), pc.Value / PascalPerBar, SubstanceCard.QualityOf(pc.Quality, pc.Sources), SubstanceCard.References(pc.Sources), "critical point")
        : null;

    private static IEnumerable<VapourPoint?> Rows(Substance substance, double lowK, double highK)
    {
        double from = lowK - UnitTable.CelsiusZeroK;
        double to = highK - UnitTable.CelsiusZeroK;
        double step = Steps.FirstOrDefault(s => (to - from) / s <= 12, 100);
        for (double t = Math.Ceiling(from / step) * step; t <= to; t += step)
        {
            yield return Point(substance, t + UnitTable.CelsiusZeroK, null);
        }
    }
}
