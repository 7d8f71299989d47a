namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Liquid volume by corresponding states, COSTALD: the saturated liquid after Hankinson and Thomson (AIChE J. 25 (1979) 653,
/// doi:10.1002/aic.690250412) and the compressed liquid after Thomson, Brobst and Hankinson (AIChE J. 28 (1982) 671,
/// doi:10.1002/aic.690280420). The acentric factor is meant to be that of the Soave equation; Pitzer's differs from it by less than 0.01 for most liquids.
/// </summary>
public static class Costald
{
    /// <summary>
    /// Saturated volume over the characteristic volume V*: V/V* = V0 (1 − ω Vδ), 0.25 &lt; Tr &lt; 1 (outside, the value at the end). Propane at 272.04 K
    /// (369.83 K, V* 200.08 cm³/mol, ω 0.1532) has 530.3 kg/m³ (API Technical Data Book).
    /// </summary>
    public static double ReducedVolume(double reducedTemperature, double acentricFactor)
    {
        var tr = Math.Clamp(reducedTemperature, 0.25, 1);
        var third = Math.Cbrt(1 - tr);
        var simple = 1 + (third * (-1.52816 + (third * (1.43907 + (third * (-0.81446 + (0.190454 * third)))))));
        var deviation = (-0.296123 + (tr * (0.386914 + (tr * (-0.0427258 - (0.0480645 * tr)))))) / (tr - 1.00001);
        return simple * (1 - (acentricFactor * deviation));
    }

    /// <summary>
    /// Volume under pressure over the saturated volume: V/Vs = 1 − C ln((B + P)/(B + Ps)); B/Pc = −1 + a t^(1/3) + b t^(2/3) + d t + e t^(4/3), t = 1 − Tr,
    /// C = j + k ω. For Tr up to 0.95. At 303 K and 98 MPa a liquid with Tc 466.7 K, Pc 3.64 MPa, ω 0.281, Ps 85 857.9 Pa
    /// and 105.047 cm³/mol shrinks to 92.87 cm³/mol (worked example of DIPPR procedure 4C). Pressures in Pa.
    /// </summary>
    public static double Compression(double reducedTemperature, double criticalPressurePa, double acentricFactor, double pressurePa, double saturationPa)
    {
        var (b, c) = Constants(reducedTemperature, criticalPressurePa, acentricFactor);
        return 1 - (c * Math.Log((b + pressurePa) / (b + saturationPa)));
    }

    /// <summary>B in Pa and C of the compressed liquid.</summary>
    internal static (double BPa, double C) Constants(double reducedTemperature, double criticalPressurePa, double acentricFactor)
    {
        var third = Math.Cbrt(Math.Max(1 - reducedTemperature, 0));
        var e = Math.Exp(4.79594 + (0.250047 * acentricFactor) + (1.14188 * acentricFactor * acentricFactor));
        var b = criticalPressurePa * (-1 + (third * (-9.070217 + (third * (62.45326 + (third * (-135.1102 + (e * third))))))));
        return (b, 0.0861488 + (0.0344483 * acentricFactor));
    }
}
