using System.Globalization;

namespace PreApproval.Cli.Output;

/// <summary>Numbers in tables: enough digits to act on, no more.</summary>
internal static class Rounded
{
    public static string Pressure(double? bar) => Significant(bar, 3);

    public static string Temperature(double? celsius) => celsius is { } value ? value.ToString("0.0", CultureInfo.InvariantCulture) : "–";

    /// <summary>Digits before the point are never cut.</summary>
    public static string Significant(double? number, int digits)
    {
        if (number is not { } value || !double.IsFinite(value))
        {
            return "–";
        }

        if (value == 0)
        {
            return "0";
        }

        int magnitude = (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return magnitude < -5 ? value.ToString($"E{digits - 1}", CultureInfo.InvariantCulture) : value.ToString($"F{Math.Max(0, digits - 1 - magnitude)}", CultureInfo.InvariantCulture);
    }
}
