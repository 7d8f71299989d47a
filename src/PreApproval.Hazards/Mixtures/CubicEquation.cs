using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// A cubic equation of state at one temperature, p = R T/(v − b) − a/((v + δ1 b)(v + δ2 b)), with its mixing rule. The mixture enters
/// through b and q = a/(b R T) and their derivatives by amount. Keeps no state between calls; work space belongs to the caller.
/// </summary>
internal abstract class CubicEquation(double temperatureK, double[] coVolumes, double delta1, double delta2)
{
    public double TemperatureK { get; } = temperatureK;

    public int Count => CoVolumes.Length;

    /// <summary>Co-volume b of each component in m³/mol.</summary>
    protected double[] CoVolumes { get; } = coVolumes;

    /// <summary>Co-volume of a mixture in m³/mol.</summary>
    public double CoVolume(ReadOnlySpan<double> x) => Dot(x, CoVolumes);

    /// <summary>q = a/(b R T) of a mixture of mole fractions x, and ∂(n q)/∂n_i of each component.</summary>
    public abstract double Mix(ReadOnlySpan<double> x, double b, Span<double> partialQ);

    /// <summary>Pressure in Pa at a molar volume in m³/mol above b.</summary>
    public double Pressure(double b, double q, double molarVolume)
    {
        var rt = GasConstant * TemperatureK;
        return rt * ((1 / (molarVolume - b)) - (q * b / ((molarVolume + (delta1 * b)) * (molarVolume + (delta2 * b)))));
    }

    /// <summary>Molar volume of the liquid (smallest) or vapour (largest) root at a pressure in Pa, in m³/mol.</summary>
    public double MolarVolume(double b, double q, double pressurePa, bool liquid)
    {
        var rt = GasConstant * TemperatureK;
        var reducedB = b * pressurePa / rt;
        var reducedA = q * reducedB;
        var sum = delta1 + delta2;
        var product = delta1 * delta2;
        var z = Numerics.CubicRoots.Extreme(
            ((sum - 1) * reducedB) - 1,
            reducedA + (product * reducedB * reducedB) - (sum * reducedB * (reducedB + 1)),
            -((product * reducedB * reducedB * (reducedB + 1)) + (reducedA * reducedB)),
            liquid,
            reducedB);
        return z * rt / pressurePa;
    }

    /// <summary>ln of (fugacity / (concentration · R T)) of each component at a molar volume: no pressure is needed.</summary>
    public void LogFugacityOverConcentration(double b, double q, ReadOnlySpan<double> partialQ, double molarVolume, Span<double> result)
    {
        var log = Math.Log((molarVolume + (delta1 * b)) / (molarVolume + (delta2 * b))) / (delta1 - delta2);
        var repulsion = (b / (molarVolume - b)) - (q * b * molarVolume / ((molarVolume + (delta1 * b)) * (molarVolume + (delta2 * b))));
        var free = Math.Log(1 - (b / molarVolume));
        for (var i = 0; i < result.Length; i++)
        {
            result[i] = (CoVolumes[i] / b * repulsion) - free - (partialQ[i] * log);
        }
    }

    protected static double Dot(ReadOnlySpan<double> x, double[] y)
    {
        double sum = 0;
        for (var i = 0; i < x.Length; i++)
        {
            sum += x[i] * y[i];
        }

        return sum;
    }
}
