using PreApproval.Hazards.Numerics;

namespace PreApproval.Hazards.Fire;

/// <summary>What a superheated liquid and a spilled one give off, and how far it goes. Pure functions; docs/methods/release.md has worked examples.</summary>
public static class ReleaseLaw
{
    private const double RoomK = 298.15;

    /// <summary>
    /// Share of a superheated liquid that turns to vapour at once when its pressure is let off: cp (T − Tb)/ΔHvap, 0 at or below the boiling
    /// point, at most 1 (Crowl and Louvar, flashing liquids). What flashes also carries droplets with it, often as much again.
    /// </summary>
    /// <param name="heatCapacityJPerMolK">Heat capacity of the liquid in J/(mol K).</param>
    /// <param name="temperatureK">Temperature of the liquid in K.</param>
    /// <param name="boilingPointK">Its boiling point at 101 325 Pa in K.</param>
    /// <param name="vaporisationJPerMol">Enthalpy of vaporisation at the boiling point in J/mol, above 0.</param>
    public static double FlashFraction(double heatCapacityJPerMolK, double temperatureK, double boilingPointK, double vaporisationJPerMol) =>
        Math.Clamp(heatCapacityJPerMolK * (temperatureK - boilingPointK) / vaporisationJPerMol, 0, 1);

    /// <summary>Volume in m³ of an amount of gas or vapour in mol at 25 °C and 101 325 Pa.</summary>
    public static double VapourM3(double mol) => IdealGas.VolumeM3(mol, RoomK);

    /// <summary>Volume in m³ of air that a volume of vapour brings to its lower flammable limit.</summary>
    /// <param name="vapourM3">Volume of the vapour in m³.</param>
    /// <param name="lowerLimit">Lower limit as a volume fraction, above 0.</param>
    public static double VolumeAtLimitM3(double vapourM3, double lowerLimit) => vapourM3 / lowerLimit;

    /// <summary>
    /// Highest volume fraction, at most 1, in an evenly mixed space with a flow of air through it, of vapour that is there at once and of a pool that gives off its
    /// vapour at a steady rate until it is gone: (v/V) + (q/F)(1 − exp(−F t/V)) with t = w/q (general dilution, the balance V dx/dt = q − F x). It is never
    /// more than all of it in the space, (v + w)/V, which it becomes as the flow goes to 0 or the rate to infinity.
    /// </summary>
    /// <param name="spaceM3">The space V in m³, above 0.</param>
    /// <param name="flowM3PerS">Fresh air F in m³/s, above 0.</param>
    /// <param name="atOnceM3">Vapour v at once in m³.</param>
    /// <param name="poolM3">Vapour w that the pool holds in m³.</param>
    /// <param name="poolM3PerS">Vapour q it gives off in m³/s.</param>
    public static double PeakFraction(double spaceM3, double flowM3PerS, double atOnceM3, double poolM3, double poolM3PerS)
    {
        var evaporating = poolM3 > 0 && poolM3PerS > 0 ? poolM3PerS / flowM3PerS * -ExpM1(-flowM3PerS * poolM3 / (poolM3PerS * spaceM3)) : 0;
        return Math.Min((atOnceM3 / spaceM3) + evaporating, 1);

        // e^x − 1 without the loss of digits near 0
        static double ExpM1(double x) => Math.Abs(x) < 1e-5 ? x + (x * x / 2) : Math.Exp(x) - 1;
    }

    /// <summary>Volume fraction of a vapour evenly mixed into a space in m³; at most 1.</summary>
    public static double FractionIn(double spaceM3, double vapourM3) => Math.Min(vapourM3 / spaceM3, 1);
}
