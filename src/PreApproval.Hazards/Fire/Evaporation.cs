using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Fire;

/// <summary>How fast a pool of liquid evaporates and what concentration a flow of air then carries. SI units. Method and examples: docs/methods/release.md.</summary>
public static class Evaporation
{
    private const double KgPerLb = 0.45359237;
    private const double FtPerM = 1 / 0.3048;
    private const double PaPerMmHg = AtmospherePa / 760;

    /// <summary>
    /// Mass transfer coefficient of a vapour in still air in m/s, scaled from water: K = 0.0083 (18/M)^(1/3) with M in g/mol (Crowl
    /// and Louvar, evaporation of liquids).
    /// </summary>
    /// <param name="molarMassKgPerMol">Molar mass in kg/mol, above 0.</param>
    public static double MassTransferMPerS(double molarMassKgPerMol) => 0.0083 * Math.Cbrt(0.018 / molarMassKgPerMol);

    /// <summary>Evaporation rate in kg/s in quiet air: K A P M/(R T) (Crowl and Louvar).</summary>
    /// <param name="molarMassKgPerMol">Molar mass in kg/mol, above 0.</param>
    /// <param name="areaM2">Surface of the liquid in m².</param>
    /// <param name="vapourPressurePa">Vapour pressure in Pa.</param>
    /// <param name="temperatureK">Temperature in K, above 0.</param>
    public static double RateKgPerS(double molarMassKgPerMol, double areaM2, double vapourPressurePa, double temperatureK) =>
        MassTransferMPerS(molarMassKgPerMol) * areaM2 * vapourPressurePa * molarMassKgPerMol / (GasConstant * temperatureK);

    /// <summary>
    /// Evaporation rate in kg/s in moving air: in lb/min, 0.284 u^0.78 M^(2/3) A P/(82.05 T) with u in m/s, M in g/mol, A in ft², P in
    /// mmHg (EPA 550-B-99-009, Risk Management Program Guidance for Offsite Consequence Analysis, Appendix D; from memory).
    /// </summary>
    /// <param name="airSpeedMPerS">Speed of the air over the pool in m/s.</param>
    /// <param name="molarMassKgPerMol">Molar mass in kg/mol.</param>
    /// <param name="areaM2">Surface of the liquid in m².</param>
    /// <param name="vapourPressurePa">Vapour pressure in Pa.</param>
    /// <param name="temperatureK">Temperature in K, above 0.</param>
    public static double RateInWindKgPerS(double airSpeedMPerS, double molarMassKgPerMol, double areaM2, double vapourPressurePa, double temperatureK)
    {
        var lbPerMin = 0.284 * Math.Pow(airSpeedMPerS, 0.78) * Math.Pow(molarMassKgPerMol * 1000, 2.0 / 3)
            * areaM2 * FtPerM * FtPerM * (vapourPressurePa / PaPerMmHg) / (82.05 * temperatureK);
        return lbPerMin * KgPerLb / 60;
    }

    /// <summary>Steady volume fraction in a flow of air: Q R T/(k q P M); k from 0.1 to 1 stands for imperfect mixing (Crowl and Louvar).</summary>
    /// <param name="rateKgPerS">Evaporation rate in kg/s.</param>
    /// <param name="molarMassKgPerMol">Molar mass in kg/mol, above 0.</param>
    /// <param name="airFlowM3PerS">Air flow in m³/s, above 0.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    /// <param name="mixing">Mixing factor, above 0 to 1.</param>
    public static double SteadyFraction(double rateKgPerS, double molarMassKgPerMol, double airFlowM3PerS, double temperatureK, double mixing = 1) =>
        rateKgPerS * GasConstant * temperatureK / (mixing * airFlowM3PerS * AtmospherePa * molarMassKgPerMol);

    /// <summary>
    /// Air flow in m³/s that dilutes a steady evaporation to a volume fraction: k Q V/(M x) with V = 24.1 L/mol at 21 °C and a safety factor k of 3
    /// to 10 (ACGIH, Industrial Ventilation; the form with 403 · SG · 10⁶ · K · ER/(M C) in ft³ and pints; from memory).
    /// </summary>
    /// <param name="rateKgPerS">Evaporation rate in kg/s.</param>
    /// <param name="molarMassKgPerMol">Molar mass in kg/mol, above 0.</param>
    /// <param name="fraction">Volume fraction to stay below, above 0.</param>
    /// <param name="safetyFactor">At least 1.</param>
    public static double DilutionAirM3PerS(double rateKgPerS, double molarMassKgPerMol, double fraction, double safetyFactor) =>
        safetyFactor * rateKgPerS * MolarVolumeAt70FM3PerMol / (molarMassKgPerMol * fraction);

    // 387 ft³ per lb-mol at 70 °F and one atmosphere
    private const double MolarVolumeAt70FM3PerMol = GasConstant * 294.26 / AtmospherePa;
}
