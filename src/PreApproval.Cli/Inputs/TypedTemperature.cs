using PreApproval.Documents.Units;

namespace PreApproval.Cli.Inputs;

/// <summary>Which temperatures can be asked about: above absolute zero, up to 3000 K.</summary>
internal static class TypedTemperature
{
    private const double LeastC = -UnitTable.CelsiusZeroK;
    private const double MostC = 2_726.85;

    /// <summary>Why it cannot be asked about; null: it can.</summary>
    public static string? Fault(double celsius) =>
        celsius is > LeastC and <= MostC ? null
        : celsius <= LeastC ? "is at or below absolute zero (−273.15 °C)"
        : "is above 2726.85 °C";
}
