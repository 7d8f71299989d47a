using System.Runtime.InteropServices;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Peng–Robinson equation of state of 1976 with one-fluid mixing and kij = 0: p = RT/(v − b) − a/(v² + 2bv − b²),
/// Ind. Eng. Chem. Fundam. 15 (1976) 59, doi:10.1021/i160057a011. One instance serves one temperature.
/// </summary>
internal sealed class PengRobinson : CubicEquation
{
    private const double OmegaA = 0.45723552892138218;
    private const double OmegaB = 0.077796073903888455;
    private static readonly double RootTwo = Math.Sqrt(2);

    private readonly double[] _rootA;

    /// <param name="critical">Tc in K, Pc in Pa, ω of each component.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public PengRobinson(ReadOnlySpan<CriticalConstants> critical, double temperatureK)
        : base(temperatureK, new double[critical.Length], 1 + RootTwo, 1 - RootTwo)
    {
        _rootA = new double[critical.Length];
        for (var i = 0; i < critical.Length; i++)
        {
            var (tc, pc, omega) = critical[i];
            var kappa = 0.37464 + (1.54226 * omega) - (0.26992 * omega * omega);
            var alpha = 1 + (kappa * (1 - Math.Sqrt(temperatureK / tc)));
            _rootA[i] = GasConstant * tc * Math.Sqrt(OmegaA / pc) * Math.Abs(alpha);
            CoVolumes[i] = OmegaB * GasConstant * tc / pc;
        }
    }

    /// <summary>a = (Σ x √a)², b = Σ x b.</summary>
    public override double Mix(ReadOnlySpan<double> x, double b, Span<double> partialQ)
    {
        var root = Dot(x, _rootA);
        var scale = root / (b * GasConstant * TemperatureK);
        var q = root * scale;
        for (var i = 0; i < partialQ.Length; i++)
        {
            partialQ[i] = (2 * scale * _rootA[i]) - (q * CoVolumes[i] / b);
        }

        return q;
    }
}

/// <summary>Critical constants of a component of an equation of state.</summary>
/// <param name="TcK">Critical temperature in K.</param>
/// <param name="PcPa">Critical pressure in Pa.</param>
/// <param name="Omega">Acentric factor.</param>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct CriticalConstants(double TcK, double PcPa, double Omega)
{
    /// <summary>The constants of a substance, or null when one is not on file.</summary>
    public static CriticalConstants? Of(Substance substance) =>
        substance is { CriticalTemperatureK: { } tc, CriticalPressurePa: { } pc, AcentricFactor: { } omega } ? new CriticalConstants(tc.Value, pc.Value, omega.Value) : null;
}
