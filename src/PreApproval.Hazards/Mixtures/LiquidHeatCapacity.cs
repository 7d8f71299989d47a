using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Heat capacity of the liquid at constant pressure. The published value at 298.15 K is used at every temperature: between 273 and 323 K it is good to about 3 %; hotter, real liquids
/// take up more (for most 0.1 to 0.3 % per kelvin), so a temperature rise worked out with the constant value is on the high, cautious side.
/// Corresponding-states forms (Rowlinson–Bondi) would need the heat capacity of the ideal gas over temperature, which is not on file.
/// </summary>
public static class LiquidHeatCapacity
{
    private const double LowK = 273.15;
    private const double HighK = 323.15;

    /// <summary>
    /// Molar heat capacity in J/(mol K) at a temperature in K; marked as estimated outside 273 to 323 K; null where no value is on file, or above the critical
    /// temperature. Missing is not zero: whoever needs it must say that it is missing.
    /// </summary>
    public static Sourced<double>? JPerMolK(Substance substance, double temperatureK)
    {
        if (substance.LiquidHeatCapacityJPerMolK is not { } value || temperatureK > substance.CriticalTemperatureK?.Value)
        {
            return null;
        }

        return temperatureK is >= LowK and <= HighK || value.Quality > Quality.Estimated ? value : value with { Quality = Quality.Estimated };
    }

    /// <summary>Heat capacity in J/(kg K) at a temperature in K; null as for <see cref="JPerMolK"/>, or without a molar mass.</summary>
    public static Sourced<double>? JPerKgK(Substance substance, double temperatureK) =>
        JPerMolK(substance, temperatureK) is { } value && substance.Identity.MolarMassKgPerMol is { } mass ? value with { Value = value.Value / mass } : null;
}
