using PreApproval.Hazards.Numerics;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// Adiabatic rise, the temperature a reaction can reach, and how long a decomposition of zero order takes to run away (F. Stoessel, Thermal Safety of Chemical Processes,
/// 2nd ed., 2020; D. I. Townsend and J. C. Tou, Thermochim. Acta 1980, 37, 1). SI units. Method and examples: docs/methods/runaway.md.
/// </summary>
public static class Runaway
{
    /// <summary>Activation energy in J/mol where none is known: 50 kJ/mol, low, which gives a low and so cautious temperature (Keller and others, J. Loss Prev. Process Ind. 1997, 10, 31; from memory).</summary>
    public const double CautiousActivationJPerMol = 50_000;

    /// <summary>Heat in W/kg that a scanning calorimeter at 4 K/min just shows: what a stated onset stands for (Keller and others 1997; from memory).</summary>
    public const double DetectionLimitWPerKg = 20;

    /// <summary>Twenty-four hours in s.</summary>
    public const double DayS = 86_400;

    /// <summary>Coldest temperature in K that a search looks at.</summary>
    private const double ColdestK = 100;

    /// <summary>Adiabatic rise in K of a heat in J in a heat capacity in J/K.</summary>
    public static double AdiabaticRiseK(double heatJ, double heatCapacityJPerK) => heatJ / heatCapacityJPerK;

    /// <summary>Maximum temperature of the synthesis reaction in K: T + X ΔT.</summary>
    /// <param name="processK">Process temperature in K.</param>
    /// <param name="accumulation">Share of unreacted reagent, 0 to 1.</param>
    /// <param name="riseK">Adiabatic rise in K.</param>
    public static double MtsrK(double processK, double accumulation, double riseK) => processK + (accumulation * riseK);

    /// <summary>Heat output in W/kg at a temperature, from that at another: Arrhenius, zero order.</summary>
    /// <param name="atK">Temperature wanted in K.</param>
    /// <param name="knownWPerKg">Output in W/kg at <paramref name="knownK"/>.</param>
    /// <param name="knownK">Temperature in K it is known at.</param>
    /// <param name="activationJPerMol">Activation energy in J/mol.</param>
    public static double HeatOutputWPerKg(double atK, double knownWPerKg, double knownK, double activationJPerMol) =>
        knownWPerKg * Math.Exp(-activationJPerMol / GasConstant * ((1 / atK) - (1 / knownK)));

    /// <summary>Time to the maximum rate in s without cooling: cp R T²/(q Ea).</summary>
    /// <param name="heatCapacityJPerKgK">Heat capacity in J/(kg K).</param>
    /// <param name="temperatureK">Temperature at the start in K.</param>
    /// <param name="heatOutputWPerKg">Heat output there in W/kg, above 0.</param>
    /// <param name="activationJPerMol">Activation energy in J/mol, above 0.</param>
    public static double TimeToMaximumRateS(double heatCapacityJPerKgK, double temperatureK, double heatOutputWPerKg, double activationJPerMol) =>
        heatCapacityJPerKgK * GasConstant * temperatureK * temperatureK / (heatOutputWPerKg * activationJPerMol);

    /// <summary>
    /// Temperature in K from which a decomposition takes a given time to its maximum rate; null where there is none between 100 K and 300 K above the known temperature.
    /// </summary>
    /// <param name="timeS">Time in s: 86 400 for the usual 24 hours.</param>
    /// <param name="heatCapacityJPerKgK">Heat capacity in J/(kg K).</param>
    /// <param name="knownWPerKg">Heat output in W/kg at <paramref name="knownK"/>.</param>
    /// <param name="knownK">Temperature in K it is known at.</param>
    /// <param name="activationJPerMol">Activation energy in J/mol.</param>
    public static double? TemperatureForTimeK(double timeS, double heatCapacityJPerKgK, double knownWPerKg, double knownK, double activationJPerMol)
    {
        var found = RootBetween.Find(
            temperature => Math.Log(TimeToMaximumRateS(heatCapacityJPerKgK, temperature, HeatOutputWPerKg(temperature, knownWPerKg, knownK, activationJPerMol), activationJPerMol) / timeS),
            ColdestK,
            knownK + 300);
        return double.IsNaN(found) ? null : found;
    }
}
