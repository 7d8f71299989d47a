using System.Globalization;

namespace PreApproval.Web.Shared.Charts;

/// <summary>Round numbers along an axis.</summary>
public static class ChartTicks
{
    /// <summary>The next of 1, 2, 5 and 10 times a power of ten that is not below <paramref name="rough"/>, which is above zero.</summary>
    public static double StepFor(double rough)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(rough)));
        return (rough / power) switch { <= 1 => 1, <= 2 => 2, <= 5 => 5, _ => 10 } * power;
    }

    /// <summary>The multiples of a round step between two ends, about <paramref name="most"/> of them.</summary>
    public static IReadOnlyList<double> Between(double from, double to, int most)
    {
        double step = StepFor((to - from) / most);
        int first = (int)Math.Ceiling((from / step) - 1e-9);
        int last = (int)Math.Floor((to / step) + 1e-9);
        return [.. Enumerable.Range(first, Math.Max(0, last - first + 1)).Select(i => i * step)];
    }

    /// <summary>A coordinate of a drawing, to a tenth.</summary>
    public static string Coordinate(double value) => Math.Round(value, 1).ToString(CultureInfo.InvariantCulture);
}
