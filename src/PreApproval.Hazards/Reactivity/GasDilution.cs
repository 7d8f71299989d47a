using PreApproval.Hazards.Health;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Reactivity;

/// <summary>Gas that forms in the open: how much, how fast, through what way out, and how thin in the air. Pure functions; docs/methods/gas.md.</summary>
public static class GasDilution
{
    private const double PartsPerMillion = 1e6;

    /// <summary>Discharge coefficient of a sharp-edged orifice (Crowl and Louvar).</summary>
    private const double Discharge = 0.6;

    private const double RoomK = 298.15;

    /// <summary>Volume fraction in ppm of an amount of gas in mol evenly mixed into a space in m³: n · 24.465 L/mol / V. Example: 15.4 mmol in 50 m³ is 7.5 ppm.</summary>
    public static double PpmIn(double mol, double spaceM3) => mol * AirConcentration.MolarVolumeLPerMol / 1000 / spaceM3 * PartsPerMillion;

    /// <summary>Volume fraction in ppm of gas in mol/s that an exhaust in m³/s draws off evenly mixed.</summary>
    public static double PpmInExhaust(double molPerS, double exhaustM3PerS) => PpmIn(molPerS, exhaustM3PerS);

    /// <summary>
    /// Bore in m of an orifice that lets gas out at a small overpressure: Q = 0.6 A √(2 Δp/ρ), incompressible (Crowl and Louvar, flow of
    /// gases through holes, for Δp well below p). Friction in a line makes the true need larger. Example: 1 L/min of gas of 1.2 kg/m³ at
    /// 1 kPa needs 0.93 mm.
    /// </summary>
    /// <param name="flowM3PerS">Gas flow in m³/s, above 0.</param>
    /// <param name="overpressurePa">Overpressure in Pa, above 0.</param>
    /// <param name="densityKgPerM3">Density of the gas in kg/m³, above 0.</param>
    public static double BoreM(double flowM3PerS, double overpressurePa, double densityKgPerM3) =>
        Math.Sqrt(4 * flowM3PerS / (Math.PI * Discharge * Math.Sqrt(2 * overpressurePa / densityKgPerM3)));

    /// <summary>Density in kg/m³ of an ideal gas at 25 °C and 101 325 Pa.</summary>
    public static double DensityKgPerM3(double molarMassKgPerMol) => AtmospherePa * molarMassKgPerMol / (GasConstant * RoomK);
}
