using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Predictive Soave–Redlich–Kwong: p = RT/(v − b) − a/(v (v + b)) with a from the excess Gibbs energy of UNIFAC at zero pressure,
/// a/(bRT) = Σ x a_i/(b_i RT) + (gE/RT + Σ x ln(b/b_i))/A1, A1 = −0.64663: Holderbaum and Gmehling, Fluid Phase Equilib. 70 (1991) 251,
/// doi:10.1016/0378-3812(91)85038-V. Groups and parameters: Horstmann et al. 2005. The attraction of a pure component below its critical
/// temperature is the one that gives its vapour pressure on file, instead of constants fitted to one; above, Soave's function of ω.
/// One instance serves one temperature; not for sharing between threads.
/// </summary>
internal sealed class Psrk : CubicEquation
{
    private const double A1 = -0.64663;
    private const double OmegaA = 0.42748023354034140;
    private const double OmegaB = 0.086640349964957721;

    private readonly double[] _q;
    private readonly Unifac.UnifacAtTemperature? _excess;

    /// <param name="critical">Tc in K, Pc in Pa, ω of each component.</param>
    /// <param name="saturationPa">Vapour pressure of each in Pa; NaN where there is none (above Tc, or not on file).</param>
    /// <param name="excess">UNIFAC with the groups and parameters of PSRK at the temperature; null for one component.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public Psrk(ReadOnlySpan<CriticalConstants> critical, ReadOnlySpan<double> saturationPa, Unifac.UnifacAtTemperature? excess, double temperatureK)
        : base(temperatureK, new double[critical.Length], 1, 0)
    {
        _excess = excess;
        _q = new double[critical.Length];
        for (var i = 0; i < critical.Length; i++)
        {
            var (tc, pc, omega) = critical[i];
            var m = 0.48 + (1.574 * omega) - (0.176 * omega * omega);
            var alpha = 1 + (m * (1 - Math.Sqrt(temperatureK / tc)));
            CoVolumes[i] = OmegaB * GasConstant * tc / pc;
            _q[i] = OmegaA / OmegaB * tc / temperatureK * alpha * alpha;
            if (temperatureK < tc && saturationPa[i] > 0)
            {
                _q[i] = AtSaturation(CoVolumes[i], _q[i], saturationPa[i]);
            }
        }
    }

    /// <summary>Molar volume of a pure liquid at its vapour pressure in Pa, in m³/mol, without translation.</summary>
    public double PureLiquidM3PerMol(int component, double saturationPa) => MolarVolume(CoVolumes[component], _q[component], saturationPa, liquid: true);

    public override double Mix(ReadOnlySpan<double> x, double b, Span<double> partialQ)
    {
        if (_excess is null)
        {
            partialQ[0] = _q[0];
            return _q[0];
        }

        _excess.LogActivityCoefficients(x, partialQ);
        double q = 0;
        for (var i = 0; i < partialQ.Length; i++)
        {
            var ratio = CoVolumes[i] / b;
            var excess = partialQ[i] - Math.Log(ratio);
            q += x[i] * (_q[i] + (excess / A1));
            partialQ[i] = _q[i] + ((excess + ratio - 1) / A1);
        }

        return q;
    }

    // The q for which liquid and vapour have one fugacity at the vapour pressure: Newton with d ln φ/dq = −ln(1 + b/v).
    private double AtSaturation(double b, double start, double saturationPa)
    {
        var q = start;
        for (var iteration = 0; iteration < 60; iteration++)
        {
            var liquid = MolarVolume(b, q, saturationPa, liquid: true);
            var vapour = MolarVolume(b, q, saturationPa, liquid: false);
            if (!(vapour > liquid * 1.0001))
            {
                // one root only: a dense one needs less attraction, a thin one more
                q *= vapour < 4 * b ? 0.97 : 1.03;
                continue;
            }

            var step = (LogFugacityCoefficient(b, q, saturationPa, liquid) - LogFugacityCoefficient(b, q, saturationPa, vapour))
                / (Math.Log(1 + (b / liquid)) - Math.Log(1 + (b / vapour)));
            q += Math.Clamp(step, -0.2 * q, 0.2 * q);
            if (Math.Abs(step) < 1e-12 * q)
            {
                return q;
            }
        }

        return start;
    }

    private double LogFugacityCoefficient(double b, double q, double pressurePa, double molarVolume)
    {
        var z = pressurePa * molarVolume / (GasConstant * TemperatureK);
        return z - 1 - Math.Log(z * (1 - (b / molarVolume))) - (q * Math.Log(1 + (b / molarVolume)));
    }
}
