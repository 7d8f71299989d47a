using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Measured isothermal compressibility of common solvents near 25 °C (Data/compressibility.tsv), and how it corrects the equation of Thomson, Brobst and Hankinson there: the equation makes hydrocarbons a
/// third too soft and alcohols three times too stiff. Grounds: docs/methods/compressed-liquid.md.
/// </summary>
internal static class MeasuredCompressibility
{
    /// <summary>From here on the equation stands alone, in K (150 °C).</summary>
    public const double EndK = 423.15;

    /// <summary>Up to here a liquid softer than the equation keeps the whole correction, in K (70 °C): as far as it is checked, on ethanol.</summary>
    private const double SofterUpToK = 343.15;

    private static readonly FrozenDictionary<string, Measured> ByCas = EmbeddedTable.Rows("compressibility.tsv")
        .ToFrozenDictionary(
            static row => row["cas"],
            static row => new Measured(double.Parse(row["kappa"], CultureInfo.InvariantCulture) * 1e-10, double.Parse(row["celsius"], CultureInfo.InvariantCulture) + 273.15, row["source"]),
            StringComparer.Ordinal);

    /// <summary>The measured value of a substance; null where none is on file.</summary>
    public static Measured? Of(Substance substance) => substance.Identity.Cas is { } cas && ByCas.TryGetValue(cas, out var measured) ? measured : null;

    /// <summary>By how much the B of the equation is to be multiplied at a temperature in K, so that it gives the measured compressibility where that was measured.</summary>
    /// <param name="measured">The measured value.</param>
    /// <param name="bPa">B of the equation at the temperature of the measurement, in Pa.</param>
    /// <param name="c">C of the equation.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public static double Factor(Measured measured, double bPa, double c, double temperatureK)
    {
        // κ = C/(B + P) where the liquid is not yet compressed
        var there = ((c / measured.PerPa) - AtmospherePa) / bPa;
        // a stiffer liquid comes near the equation as it is heated; of a softer one, which the equation makes too stiff, the equation is the cautious side
        var fromK = there < 1 ? SofterUpToK : measured.TemperatureK;
        var share = Math.Clamp((EndK - temperatureK) / (EndK - fromK), 0, 1);
        return 1 + ((there - 1) * share);
    }

    /// <param name="PerPa">Isothermal compressibility in 1/Pa at one atmosphere.</param>
    /// <param name="TemperatureK">Where it was measured, in K.</param>
    /// <param name="Source">Key in <c>sources.bib</c>.</param>
    public sealed record Measured(double PerPa, double TemperatureK, string Source);
}
