using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Numerics;

/// <summary>The ideal gas at one atmosphere: the one law behind every volume of gas and vapour.</summary>
internal static class IdealGas
{
    /// <summary>Volume in m³ at 101 325 Pa: n R T/p. Example: 1 mol at 298.15 K is 24.465 L.</summary>
    /// <param name="mol">Amount in mol, 0 or more.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public static double VolumeM3(double mol, double temperatureK) => mol * GasConstant * temperatureK / AtmospherePa;

    /// <summary>Amount in mol of a volume in m³ at a pressure in Pa absolute: p V/(R T).</summary>
    public static double Mol(double pressurePaAbs, double m3, double temperatureK) => pressurePaAbs * m3 / (GasConstant * temperatureK);
}
