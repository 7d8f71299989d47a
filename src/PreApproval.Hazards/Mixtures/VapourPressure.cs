using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Mixtures;

/// <summary>Whether a substance has a vapour pressure at a temperature.</summary>
public enum Volatility
{
    /// <summary>It condenses and has a vapour pressure.</summary>
    Condensable,

    /// <summary>It is above its critical temperature: a gas, for which no vapour pressure exists.</summary>
    Gas,

    /// <summary>Salt, metal, polymer: no vapour worth counting.</summary>
    None,

    /// <summary>Nothing on file gives a number.</summary>
    Unknown,
}

/// <summary>A vapour pressure at one temperature.</summary>
/// <param name="Volatility">Whether there is one.</param>
/// <param name="Pascal">Vapour pressure in Pa; 0 for <see cref="Volatility.None"/>, NaN for gas and unknown.</param>
/// <param name="Quality">Correlated inside a published range, estimated outside.</param>
/// <param name="Source">Key in <c>sources.bib</c>.</param>
public readonly record struct VapourPressureValue(Volatility Volatility, double Pascal, Quality Quality, string Source);

/// <summary>
/// Vapour pressure of a pure substance. A correlation is used inside its published range only, the preferred one first. Outside,
/// three estimates take over, so that the curve stays continuous and never falls with temperature: between the end of a range and
/// the normal boiling point a straight line in ln P over 1/T (Clausius–Clapeyron); beyond, the corresponding-states equation of
/// Ambrose and Walton, with the acentric factor that makes it meet the nearest published point, or scaled to meet it; below every range
/// without critical constants, the tangent in ln P over 1/T at the lower end, which is an upper bound. Above Tc there is no vapour pressure.
/// </summary>
public static class VapourPressure
{
    private const string EstimateSource = "ambrose-walton1989";

    // Close to Tc every acentric factor gives nearly the same pressure: a point there does not fix the factor for the way down.
    private const double HighestFittedTr = 0.9;

    private const double JoiningK = 15;

    /// <summary>Vapour pressure at a temperature in K (above 0).</summary>
    public static VapourPressureValue At(Substance substance, double temperatureK)
    {
        if (substance.Involatile)
        {
            return new VapourPressureValue(Volatility.None, 0, Quality.Assumed, "from-memory");
        }

        if (substance.CriticalTemperatureK is { } critical && temperatureK > critical.Value)
        {
            return new VapourPressureValue(Volatility.Gas, double.NaN, critical.Quality, critical.Sources[0]);
        }

        var correlations = substance.VapourPressure;
        for (var i = 0; i < correlations.Count; i++)
        {
            var correlation = correlations[i];
            if (temperatureK >= correlation.MinimumK && temperatureK <= Top(correlation))
            {
                return new VapourPressureValue(Volatility.Condensable, i == 0 ? Evaluate(correlation, temperatureK) : Joined(correlations, i, temperatureK), Quality.Correlated, correlation.Source);
            }
        }

        return OutsideRanges(substance, temperatureK);
    }

    /// <summary>Evaluates one correlation in Pa at a temperature in K, without regard to its range.</summary>
    /// <exception cref="ArgumentException">The form is unknown.</exception>
    public static double Evaluate(VapourPressureCorrelation correlation, double temperatureK)
    {
        var c = correlation.Coefficients;
        return correlation.Form switch
        {
            // ln(P/Pc) = (A t + B t^1.5 + C t^2.5 + D t^5)/Tr, t = 1 - Tr
            "wagner25" => Wagner25(c, temperatureK),
            // ln(P/Pc) = (A t + B t^1.5 + C t^3 + D t^6)/Tr
            "wagner36" => Wagner36(c, temperatureK),
            // ln P = C1 + C2/T + C3 ln T + C4 T^C5
            "dippr101" => Math.Exp(c[0] + (c[1] / temperatureK) + (c[2] * Math.Log(temperatureK)) + (c[3] * Math.Pow(temperatureK, c[4]))),
            // ln P = A - B/(T + C)
            "antoine-ln" => Math.Exp(c[0] - (c[1] / (temperatureK + c[2]))),
            // log10 P = A - B/(T + C)
            "antoine-log10" => Math.Pow(10, c[0] - (c[1] / (temperatureK + c[2]))),
            "antoine-extended" => AntoineExtended(c, temperatureK),
            _ => throw new ArgumentException($"Unknown form '{correlation.Form}'.", nameof(correlation)),
        };
    }

    /// <summary>Number of coefficients of a form, or 0 for an unknown form.</summary>
    internal static int CoefficientCount(string form) => form switch
    {
        "wagner25" or "wagner36" => 6,
        "dippr101" => 5,
        "antoine-ln" or "antoine-log10" => 3,
        "antoine-extended" => 8,
        _ => 0,
    };

    private static double Wagner25(IReadOnlyList<double> c, double temperatureK)
    {
        var tr = temperatureK / c[4];
        var t = Math.Max(1 - tr, 0);
        var root = Math.Sqrt(t);
        var t2 = t * t;
        return c[5] * Math.Exp(((c[0] * t) + (c[1] * t * root) + (c[2] * t2 * root) + (c[3] * t2 * t2 * t)) / tr);
    }

    private static double Wagner36(IReadOnlyList<double> c, double temperatureK)
    {
        var tr = temperatureK / c[4];
        var t = Math.Max(1 - tr, 0);
        var t3 = t * t * t;
        return c[5] * Math.Exp(((c[0] * t) + (c[1] * t * Math.Sqrt(t)) + (c[2] * t3) + (c[3] * t3 * t3)) / tr);
    }

    // x = max((T - to - 273.15)/Tc, 0), log10 P = A - B/(T + C) + 0.43429 x^n + E x^8 + F x^12; order A B C Tc to n E F
    private static double AntoineExtended(IReadOnlyList<double> c, double temperatureK)
    {
        var x = Math.Max((temperatureK - c[4] - 273.15) / c[3], 0);
        return Math.Pow(10, c[0] - (c[1] / (temperatureK + c[2])) + (0.43429 * Math.Pow(x, c[5])) + (c[6] * Math.Pow(x, 8)) + (c[7] * Math.Pow(x, 12)));
    }

    // A Wagner equation ends at its own critical temperature even where the printed range is a little wider.
    private static double Top(VapourPressureCorrelation correlation) => correlation.Form switch
    {
        "wagner25" or "wagner36" => Math.Min(correlation.MaximumK, correlation.Coefficients[4]),
        _ => correlation.MaximumK,
    };

    // Two publications differ by a few per cent where the preferred one ends. The next starts from the value there, and its own value is reached
    // within some kelvins: no jump, and no fall.
    private static double Joined(IReadOnlyList<VapourPressureCorrelation> correlations, int index, double temperatureK)
    {
        var own = correlations[index];
        var pascal = Evaluate(own, temperatureK);
        var (nearest, endK, distanceK) = (-1, double.NaN, JoiningK);
        for (var j = 0; j < index; j++)
        {
            var top = Top(correlations[j]);
            var end = temperatureK > top ? top : correlations[j].MinimumK;
            var distance = Math.Abs(temperatureK - end);
            if (distance < distanceK && end >= own.MinimumK && end <= Top(own))
            {
                (nearest, endK, distanceK) = (j, end, distance);
            }
        }

        return nearest < 0 ? pascal : pascal * Math.Pow(Joined(correlations, nearest, endK) / Evaluate(own, endK), 1 - (distanceK / JoiningK));
    }

    private static VapourPressureValue OutsideRanges(Substance substance, double temperatureK)
    {
        (double TemperatureK, double Pascal)? below = null;
        (double TemperatureK, double Pascal)? above = null;
        var source = EstimateSource;
        VapourPressureCorrelation? lowest = null;
        var boilingInRange = false;
        var boiling = substance.BoilingPointK?.Value;
        for (var i = 0; i < substance.VapourPressure.Count; i++)
        {
            var correlation = substance.VapourPressure[i];
            var top = Top(correlation);
            boilingInRange |= boiling >= correlation.MinimumK && boiling <= top;
            if (top < temperatureK && (below is null || top > below.Value.TemperatureK))
            {
                below = (top, Joined(substance.VapourPressure, i, top));
                source = correlation.Source;
            }

            if (correlation.MinimumK > temperatureK && (above is null || correlation.MinimumK < above.Value.TemperatureK))
            {
                above = (correlation.MinimumK, Joined(substance.VapourPressure, i, correlation.MinimumK));
                source = correlation.Source;
                lowest = correlation;
            }
        }

        if (boiling is { } tb && !boilingInRange)
        {
            // The boiling point is one more point of the curve where it does not contradict the ends of the ranges.
            if (tb <= temperatureK && (below is null || tb > below.Value.TemperatureK) && (below is null || below.Value.Pascal < AtmospherePa) && (above is null || above.Value.Pascal > AtmospherePa))
            {
                below = (tb, AtmospherePa);
                source = substance.BoilingPointK!.Sources[0];
            }
            else if (tb > temperatureK && (above is null || tb < above.Value.TemperatureK) && (above is null || above.Value.Pascal > AtmospherePa) && (below is null || below.Value.Pascal < AtmospherePa))
            {
                above = (tb, AtmospherePa);
                source = substance.BoilingPointK!.Sources[0];
            }
        }

        return (below, above) switch
        {
            ({ } low, { } high) => Estimated(Chord(low, high, temperatureK), source),
            ({ } low, null) => Beyond(substance, low, temperatureK),
            (null, { } high) => Beyond(substance, high, temperatureK) is { Volatility: Volatility.Condensable } value ? value
                : lowest is not null ? Estimated(Below(lowest, high, temperatureK), source)
                : Unknown,
            (null, null) => FromCriticalConstants(substance, temperatureK),
        };
    }

    private static VapourPressureValue Unknown => new(Volatility.Unknown, double.NaN, Quality.Assumed, "");

    private static VapourPressureValue Estimated(double pascal, string source) => new(Volatility.Condensable, pascal, Quality.Estimated, source);

    private static double Chord((double TemperatureK, double Pascal) low, (double TemperatureK, double Pascal) high, double temperatureK)
    {
        if (high.Pascal <= low.Pascal)
        {
            return low.Pascal;
        }

        var share = ((1 / low.TemperatureK) - (1 / temperatureK)) / ((1 / low.TemperatureK) - (1 / high.TemperatureK));
        return low.Pascal * Math.Pow(high.Pascal / low.Pascal, share);
    }

    // The enthalpy of vaporisation falls as the temperature rises, so the line with the slope at the end lies above the true curve.
    private static double Below(VapourPressureCorrelation correlation, (double TemperatureK, double Pascal) end, double temperatureK)
    {
        var nearK = correlation.MinimumK * 1.001;
        var slope = Math.Log(Evaluate(correlation, nearK) / Evaluate(correlation, correlation.MinimumK)) / ((1 / correlation.MinimumK) - (1 / nearK));
        return end.Pascal * Math.Exp(-Math.Max(slope, 0) * ((1 / temperatureK) - (1 / end.TemperatureK)));
    }

    private static VapourPressureValue Beyond(Substance substance, (double TemperatureK, double Pascal) anchor, double temperatureK)
    {
        if (substance.CriticalTemperatureK is not { } tc || anchor.TemperatureK > tc.Value)
        {
            return Unknown;
        }

        var anchorTr = anchor.TemperatureK / tc.Value;
        var tr = temperatureK / tc.Value;
        if (substance.CriticalPressurePa is { } pc && anchorTr < 1 && (tr > anchorTr || anchorTr <= HighestFittedTr)
            && CorrespondingStates.AmbroseWaltonFactor(anchorTr, Math.Log(anchor.Pascal / pc.Value)) is { } fitted)
        {
            return Estimated(pc.Value * Math.Exp(CorrespondingStates.AmbroseWalton(tr, fitted)), EstimateSource);
        }

        if (AcentricFactor(substance) is not { } omega)
        {
            return Unknown;
        }

        var ratio = CorrespondingStates.AmbroseWalton(tr, omega) - CorrespondingStates.AmbroseWalton(anchorTr, omega);
        return Estimated(anchor.Pascal * Math.Exp(ratio), EstimateSource);
    }

    private static VapourPressureValue FromCriticalConstants(Substance substance, double temperatureK) =>
        substance is { CriticalTemperatureK: { } tc, CriticalPressurePa: { } pc } && AcentricFactor(substance) is { } omega
            ? Estimated(pc.Value * Math.Exp(CorrespondingStates.AmbroseWalton(temperatureK / tc.Value, omega)), EstimateSource)
            : Unknown;

    /// <summary>Pitzer's factor, or the one that makes the equation of Ambrose and Walton boil at the normal boiling point; null without either.</summary>
    internal static double? AcentricFactor(Substance substance) =>
        substance.AcentricFactor is { } omega ? omega.Value
        : substance is { BoilingPointK: { } tb, CriticalTemperatureK: { } tc, CriticalPressurePa: { } pc } && tb.Value < tc.Value
            ? CorrespondingStates.AmbroseWaltonFactor(tb.Value / tc.Value, Math.Log(AtmospherePa / pc.Value))
            : null;
}
