using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Peng–Robinson equation of state of 1976 with one-fluid mixing and kij = 0: p = RT/(v − b) − a/(v² + 2bv − b²),
/// Ind. Eng. Chem. Fundam. 15 (1976) 59, doi:10.1021/i160057a011. One instance serves one temperature.
/// </summary>
internal sealed class PengRobinson
{
    public const double GasConstant = 8.31446261815324;
    private const double OmegaA = 0.45723552892138218;
    private const double OmegaB = 0.077796073903888455;
    private static readonly double RootTwo = Math.Sqrt(2);

    private readonly double[] _rootA;
    private readonly double[] _b;

    /// <param name="critical">Tc in K, Pc in Pa, ω of each component.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public PengRobinson(IReadOnlyList<(double TcK, double PcPa, double Omega)> critical, double temperatureK)
    {
        TemperatureK = temperatureK;
        _rootA = new double[critical.Count];
        _b = new double[critical.Count];
        for (var i = 0; i < critical.Count; i++)
        {
            var (tc, pc, omega) = critical[i];
            var kappa = 0.37464 + (1.54226 * omega) - (0.26992 * omega * omega);
            var alpha = 1 + (kappa * (1 - Math.Sqrt(temperatureK / tc)));
            _rootA[i] = GasConstant * tc * Math.Sqrt(OmegaA / pc) * Math.Abs(alpha);
            _b[i] = OmegaB * GasConstant * tc / pc;
        }
    }

    public double TemperatureK { get; }

    public int Count => _b.Length;

    /// <summary>Tc, Pc, ω of a substance, or null when one is not on file.</summary>
    public static (double TcK, double PcPa, double Omega)? Constants(Substance substance) =>
        substance is { CriticalTemperatureK: { } tc, CriticalPressurePa: { } pc, AcentricFactor: { } omega } ? (tc.Value, pc.Value, omega.Value) : null;

    /// <summary>Co-volume of a mixture in m³/mol.</summary>
    public double CoVolume(ReadOnlySpan<double> x) => Dot(x, _b);

    /// <summary>Pressure in Pa at a molar volume in m³/mol above the co-volume.</summary>
    public double Pressure(ReadOnlySpan<double> x, double molarVolume)
    {
        var b = Dot(x, _b);
        var root = Dot(x, _rootA);
        return (GasConstant * TemperatureK / (molarVolume - b)) - (root * root / ((molarVolume * molarVolume) + (2 * b * molarVolume) - (b * b)));
    }

    /// <summary>Molar volume of the liquid (smallest) or vapour (largest) root at a pressure, in m³/mol.</summary>
    public double MolarVolume(ReadOnlySpan<double> x, double pressurePa, bool liquid)
    {
        var rt = GasConstant * TemperatureK;
        var root = Dot(x, _rootA);
        var a = root * root * pressurePa / (rt * rt);
        var b = Dot(x, _b) * pressurePa / rt;
        var z = Numerics.CubicRoots.Extreme(b - 1, a - (3 * b * b) - (2 * b), (b * b * b) + (b * b) - (a * b), liquid, b);
        return z * rt / pressurePa;
    }

    /// <summary>ln of (fugacity / (concentration · R T)) of each component at a molar volume: no pressure is needed.</summary>
    public void LogFugacityOverConcentration(ReadOnlySpan<double> x, double molarVolume, Span<double> result)
    {
        var rt = GasConstant * TemperatureK;
        var b = Dot(x, _b);
        var root = Dot(x, _rootA);
        var free = molarVolume - b;
        var log = Math.Log((molarVolume + ((1 + RootTwo) * b)) / (molarVolume + ((1 - RootTwo) * b))) / (2 * RootTwo * b);
        var attraction = root * root * molarVolume / ((molarVolume * molarVolume) + (2 * b * molarVolume) - (b * b));
        var z1 = (b / free) - (attraction / rt);
        for (var i = 0; i < result.Length; i++)
        {
            result[i] = (_b[i] / b * z1) - Math.Log(free / molarVolume) - (root / rt * ((2 * _rootA[i]) - (root * _b[i] / b)) * log);
        }
    }

    private static double Dot(ReadOnlySpan<double> x, double[] y)
    {
        double sum = 0;
        for (var i = 0; i < x.Length; i++)
        {
            sum += x[i] * y[i];
        }

        return sum;
    }
}
