using System.Globalization;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Health;

/// <summary>A concentration or a limit in ppm for a sentence: limits of some poisons are thousandths of a ppm, and none is 0.</summary>
internal static class PpmWords
{
    private const double Smallest = 0.095;

    /// <summary>Two significant figures, also below a tenth.</summary>
    /// <param name="ppm">In ppm.</param>
    public static string Of(double ppm) =>
        ppm is <= 0 or >= Smallest ? Wording.Figures(ppm) : decimal.Parse(ppm.ToString("G2", CultureInfo.InvariantCulture), NumberStyles.Float, CultureInfo.InvariantCulture).ToString("0.############", CultureInfo.InvariantCulture);
}
