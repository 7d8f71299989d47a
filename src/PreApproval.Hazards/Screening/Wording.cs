using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Screening;

/// <summary>Numbers as sentences show them. The report carries the unrounded ones.</summary>
internal static class Wording
{
    public static double InCelsius(double temperatureK) => temperatureK - 273.15;

    public static double InBarGauge(double pressurePaAbs) => Math.Abs(pressurePaAbs - AtmospherePa) < RoundingPa ? 0 : (pressurePaAbs - AtmospherePa) / 1e5;

    // what a sum of partial pressures that make one atmosphere leaves over, in Pa
    private const double RoundingPa = 1e-6;

    /// <summary>A temperature in K as whole °C.</summary>
    public static NumberWords Celsius(double temperatureK) => new(Math.Round(InCelsius(temperatureK), MidpointRounding.AwayFromZero), " °C");

    /// <summary>A gauge pressure in Pa as bar(g), two figures.</summary>
    public static NumberWords BarGauge(double pressurePaGauge) => Figures(pressurePaGauge / 1e5) with { Unit = " bar(g)" };

    /// <summary>A number with two significant figures, whole above 100.</summary>
    public static NumberWords Figures(double value)
    {
        var size = Math.Abs(value);
        var digits = size >= 9.95 ? 0 : size >= 0.995 ? 1 : 2;
        return Text(Math.Round(value, digits, MidpointRounding.AwayFromZero));
    }

    public static NumberWords Text(double value) => new(value, "");

    /// <summary>Names as “a, b and c”.</summary>
    public static ListWords List(IEnumerable<string> words) => new(words as IReadOnlyList<string> ?? [.. words]);

    /// <summary>“step 3” or “steps 3, 4 and 5”.</summary>
    public static string Steps(IReadOnlyList<string> steps) => $"{(steps.Count == 1 ? "step " : "steps ")}{List(steps)}";

    public static string Capital(string sentence)
    {
        // a prefix of a name stays as it is: n-Butyllithium, tert-Butanol
        var at = 0;
        foreach (var prefix in Prefixes)
        {
            if (sentence.StartsWith(prefix, StringComparison.Ordinal))
            {
                at = prefix.Length;
                break;
            }
        }

        return sentence.Length <= at ? sentence : string.Create(sentence.Length, (sentence, at), static (capital, from) =>
        {
            from.sentence.CopyTo(capital);
            capital[from.at] = char.ToUpperInvariant(capital[from.at]);
        });
    }

    private static readonly string[] Prefixes = ["n-", "o-", "m-", "p-", "sec-", "tert-", "cis-", "trans-"];
}
