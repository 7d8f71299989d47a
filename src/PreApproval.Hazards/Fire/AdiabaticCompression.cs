namespace PreApproval.Hazards.Fire;

/// <summary>How hot a gas gets that is compressed faster than it can give its heat away. Pure; docs/methods/inerting.md has a worked example.</summary>
public static class AdiabaticCompression
{
    /// <summary>Exponent (γ − 1)/γ of air and of oxygen, γ = 1.40 (Crowl and Louvar, adiabatic compression). Dinitrogen oxide has 0.23, so it stays colder.</summary>
    public const double AirExponent = 0.286;

    /// <summary>
    /// Temperature of an ideal gas after a compression without loss of heat: T₂ = T₁ (p₂/p₁)^((γ − 1)/γ) (Crowl and Louvar, Chemical Process Safety, adiabatic compression). An upper bound: walls take heat
    /// up, and the exponent falls as the gas gets hot (by a tenth at 1000 K). Range: ideal gas, up to some hundred bar.
    /// Example: air of 560 °R from 14.7 to 500 psia, 560 × 34.0^0.286 = 1535 °R, about 580 °C.
    /// </summary>
    /// <param name="temperatureK">Temperature before, in K, above 0.</param>
    /// <param name="fromPaAbs">Pressure before, in Pa absolute, above 0.</param>
    /// <param name="toPaAbs">Pressure after, in Pa absolute; at or below the one before nothing is compressed.</param>
    /// <param name="exponent">(γ − 1)/γ, from 0 to below 1.</param>
    /// <returns>K.</returns>
    public static double TemperatureK(double temperatureK, double fromPaAbs, double toPaAbs, double exponent = AirExponent)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(temperatureK);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(fromPaAbs);
        ArgumentOutOfRangeException.ThrowIfNegative(exponent);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(exponent, 1);
        return toPaAbs <= fromPaAbs ? temperatureK : temperatureK * Math.Pow(toPaAbs / fromPaAbs, exponent);
    }
}
