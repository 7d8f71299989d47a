namespace PreApproval.Hazards.Energy;

/// <summary>Heat of a dosed reaction against what a vessel can give off, and how that changes with size. SI units. Examples: docs/methods/runaway.md.</summary>
public static class HeatBalance
{
    /// <summary>Heat in W of a reagent that reacts as it is dosed.</summary>
    /// <param name="heatJ">Heat given off in all in J.</param>
    /// <param name="overS">Time of dosing in s, above 0.</param>
    public static double DosingW(double heatJ, double overS) => heatJ / overS;

    /// <summary>Heat in W through the wall of a vessel: U A ΔT. A stirred flask has 150 to 250 W/(m² K) (common practice, no source).</summary>
    /// <param name="transferWPerM2K">Coefficient U in W/(m² K).</param>
    /// <param name="areaM2">Wetted wall A in m².</param>
    /// <param name="differenceK">Contents less bath in K.</param>
    public static double CoolingW(double transferWPerM2K, double areaM2, double differenceK) => transferWPerM2K * areaM2 * differenceK;

    /// <summary>Surface of a sphere over its volume in 1/m: 104 at 0.1 L, 4.8 at 1 m³. Ten times the scale cools 2.15 times worse.</summary>
    /// <param name="volumeM3">Volume in m³, above 0.</param>
    public static double SphereSurfacePerVolume(double volumeM3) => 3 / Math.Cbrt(3 * volumeM3 / (4 * Math.PI));
}
