namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Vapour pressure by three-parameter corresponding states: ln(P/Pc) as a function of the reduced temperature Tr = T/Tc (above 0, at
/// most 1) and Pitzer's acentric factor ω. Estimates, for where no correlation of the substance itself is on file.
/// </summary>
public static class CorrespondingStates
{
    /// <summary>
    /// Lee and Kesler: ln(P/Pc) = f0 + ω f1, f0 = 5.92714 − 6.09648/Tr − 1.28862 ln Tr + 0.169347 Tr⁶,
    /// f1 = 15.2518 − 15.6875/Tr − 13.4721 ln Tr + 0.43577 Tr⁶. AIChE J. 21 (1975) 510, doi:10.1002/aic.690210313.
    /// </summary>
    public static double LeeKesler(double reducedTemperature, double acentricFactor)
    {
        var log = Math.Log(reducedTemperature);
        var cube = reducedTemperature * reducedTemperature * reducedTemperature;
        var simple = 5.92714 - (6.09648 / reducedTemperature) - (1.28862 * log) + (0.169347 * cube * cube);
        var deviation = 15.2518 - (15.6875 / reducedTemperature) - (13.4721 * log) + (0.43577 * cube * cube);
        return simple + (acentricFactor * deviation);
    }

    /// <summary>
    /// Ambrose and Walton: ln(P/Pc) = f0 + ω f1 + ω² f2, each f = (a t + b t^1.5 + c t^2.5 + d t^5)/Tr with t = 1 − Tr. Pure Appl. Chem. 61 (1989)
    /// 1395, doi:10.1351/pac198961081395. Ethylbenzene (617.15 K, 36.09 bar, ω 0.304) at 347.25 K: 0.1328 bar (0.1329 in Poling, Prausnitz and O'Connell, 5th ed.).
    /// </summary>
    public static double AmbroseWalton(double reducedTemperature, double acentricFactor)
    {
        var (simple, first, second) = AmbroseWaltonTerms(reducedTemperature);
        return simple + (acentricFactor * (first + (acentricFactor * second)));
    }

    /// <summary>
    /// The acentric factor with which Ambrose and Walton's equation gives ln(P/Pc) at a reduced temperature below 1: the root of a quadratic.
    /// Null where there is none between −0.3 and 1.5, beyond which the equation was never fitted.
    /// </summary>
    public static double? AmbroseWaltonFactor(double reducedTemperature, double logReducedPressure)
    {
        var (simple, first, second) = AmbroseWaltonTerms(reducedTemperature);
        var rest = simple - logReducedPressure;
        var root = (first * first) - (4 * second * rest);
        var factor = 2 * rest / (-first + Math.Sqrt(root));
        return factor is >= -0.3 and <= 1.5 ? factor : null;
    }

    private static (double Simple, double First, double Second) AmbroseWaltonTerms(double reducedTemperature)
    {
        var t = Math.Max(1 - reducedTemperature, 0);
        var t15 = t * Math.Sqrt(t);
        var t25 = t15 * t;
        var t5 = t25 * t25;
        var simple = (-5.97616 * t) + (1.29874 * t15) - (0.60394 * t25) - (1.06841 * t5);
        var first = (-5.03365 * t) + (1.11505 * t15) - (5.41217 * t25) - (7.46628 * t5);
        var second = (-0.64771 * t) + (2.41539 * t15) - (4.26979 * t25) + (3.25259 * t5);
        return (simple / reducedTemperature, first / reducedTemperature, second / reducedTemperature);
    }
}
