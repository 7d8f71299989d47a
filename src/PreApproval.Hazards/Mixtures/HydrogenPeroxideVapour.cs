namespace PreApproval.Hazards.Mixtures;

/// <summary>Partial pressures over aqueous hydrogen peroxide (Scatchard, Kavanagh and Ticknor 1952; written down from memory).</summary>
/// <remarks>
/// p = x γ P with R T ln γ(H2O) = (1 − x)²[B0 + B1(1 − 4x) + B2(1 − 2x)(1 − 6x)] and
/// R T ln γ(H2O2) = x²[B0 + B1(3 − 4x) + B2(1 − 2x)(5 − 6x)], x the mole fraction of water, B0 = −1017 + 0.97 T, B1 = 85, B2 = 13 cal/mol;
/// log10(P(H2O2)/mmHg) = 44.5760 − 4025.3/T − 12.996 log10 T + 0.0046055 T. Measured from 44 to 105 °C.
/// </remarks>
public static class HydrogenPeroxideVapour
{
    private const double GasConstantCal = 1.98720;
    private const double MmHgPa = 133.322;

    /// <summary>Key of the source in <c>sources.bib</c>.</summary>
    public const string Source = "scatchard1952";

    /// <summary>Partial pressure of the peroxide in Pa.</summary>
    /// <param name="water">Mole fraction of water in the binary.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public static double SolutePa(double water, double temperatureK)
    {
        var gamma = water * water * (B0(temperatureK) + (85 * (3 - (4 * water))) + (13 * (1 - (2 * water)) * (5 - (6 * water)))) / (GasConstantCal * temperatureK);
        var pure = MmHgPa * Math.Pow(10, 44.5760 - (4025.3 / temperatureK) - (12.996 * Math.Log10(temperatureK)) + (0.0046055 * temperatureK));
        return (1 - water) * Math.Exp(gamma) * pure;
    }

    /// <summary>Activity of the water.</summary>
    public static double WaterActivity(double water, double temperatureK) => water * Math.Exp(
        (1 - water) * (1 - water) * (B0(temperatureK) + (85 * (1 - (4 * water))) + (13 * (1 - (2 * water)) * (1 - (6 * water)))) / (GasConstantCal * temperatureK));

    private static double B0(double temperatureK) => -1017 + (0.97 * temperatureK);
}
