using System.Globalization;

namespace PreApproval.Documents.Reporting;

/// <summary>Numbers of a report carry six significant digits: the last bits of exp, log and pow differ between processors.</summary>
internal static class SignificantDigits
{
    /// <summary>The nearest number with six significant decimal digits.</summary>
    public static double Six(double number) =>
        double.Parse(number.ToString("E5", CultureInfo.InvariantCulture), NumberStyles.Float, CultureInfo.InvariantCulture);
}
