using PreApproval.Hazards.Mixtures;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// Whether a single phase at fixed temperature, volume and amounts is stable: c'_i = f_i/(R T exp ψ_i(c')) from several starts; unstable when a
/// trial phase has Σ(μ' − μ)c' − (p' − p) below 0, which at a stationary point is p' &gt; p. Mikyška and Firoozabadi, Fluid Phase
/// Equilib. 321 (2012) 1, doi:10.1016/j.fluid.2012.01.026.
/// </summary>
internal static class PhaseStability
{
    private const int MaximumIterations = 200;

    /// <summary>True, with the concentrations in mol/m³ of a phase that lowers the Helmholtz energy, when the single phase is not stable.</summary>
    public static bool FindBetter(CubicEquation equation, ReadOnlySpan<double> z, double molar, Span<double> concentrations)
    {
        var count = z.Length;
        Span<double> feed = stackalloc double[count];
        Span<double> partial = stackalloc double[count];
        var b = equation.CoVolume(z);
        var q = equation.Mix(z, b, partial);
        var pressure = equation.Pressure(b, q, molar);
        equation.LogFugacityOverConcentration(b, q, partial, molar, feed);
        for (var i = 0; i < count; i++)
        {
            feed[i] += Math.Log(z[i] / molar);
        }

        var most = 0.97 / b;
        for (var start = 0; start < count + 4; start++)
        {
            for (var i = 0; i < count; i++)
            {
                concentrations[i] = start switch
                {
                    // gas of the feed's fugacities; the feed packed as a liquid; the feed thinned; nearly pure liquids
                    0 => Math.Exp(Math.Min(feed[i], 11)),
                    1 => z[i] * 0.75 * most,
                    2 => z[i] * 0.1 / molar,
                    3 => z[i] * 0.4 * most,
                    _ => (i == start - 4 ? 0.98 : 0.02 / count) * 0.75 * most,
                };
            }

            Fit(equation, concentrations);
            if (Lowers(equation, z, molar, pressure, feed, concentrations))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>True, with the concentrations in mol/m³ of a thin gas of the feed's fugacities, when the single phase is under tension.</summary>
    public static bool FindBubble(CubicEquation equation, ReadOnlySpan<double> z, double molar, Span<double> concentrations)
    {
        Span<double> partial = stackalloc double[z.Length];
        var b = equation.CoVolume(z);
        var q = equation.Mix(z, b, partial);
        var pressure = equation.Pressure(b, q, molar);
        equation.LogFugacityOverConcentration(b, q, partial, molar, concentrations);
        var top = double.NegativeInfinity;
        for (var i = 0; i < z.Length; i++)
        {
            concentrations[i] += Math.Log(z[i]);
            top = Math.Max(top, concentrations[i]);
        }

        double sum = 0;
        for (var i = 0; i < z.Length; i++)
        {
            concentrations[i] = Math.Exp(Math.Max(concentrations[i] - top, -30));
            sum += concentrations[i];
        }

        var density = 1e-3 * Math.Abs(pressure) / (GasConstant * equation.TemperatureK);
        for (var i = 0; i < z.Length; i++)
        {
            concentrations[i] *= density / sum;
        }

        return pressure < 0;
    }

    private static bool Lowers(CubicEquation equation, ReadOnlySpan<double> z, double molar, double pressure, ReadOnlySpan<double> feed, Span<double> trial)
    {
        var count = z.Length;
        var rt = GasConstant * equation.TemperatureK;
        Span<double> fractions = stackalloc double[count];
        Span<double> partial = stackalloc double[count];
        Span<double> log = stackalloc double[count];
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            var sum = Fractions(trial, fractions);
            var b = equation.CoVolume(fractions);
            var q = equation.Mix(fractions, b, partial);
            equation.LogFugacityOverConcentration(b, q, partial, 1 / sum, log);
            double change = 0;
            double distance = 0;
            double plane = (pressure - equation.Pressure(b, q, 1 / sum)) / rt;
            for (var i = 0; i < count; i++)
            {
                var potential = Math.Log(trial[i]) + log[i] - feed[i];
                plane += trial[i] * potential;
                var next = trial[i] * Math.Exp(-0.7 * Math.Clamp(potential, -3, 3));
                change = Math.Max(change, Math.Abs(next - trial[i]) * molar);
                distance = Math.Max(distance, Math.Abs((next * molar) - z[i]));
                log[i] = next;
            }

            if (plane < -1e-9 * Math.Max(sum, pressure / rt))
            {
                return true;
            }

            if (distance < 1e-4 || change < 1e-10)
            {
                return false;
            }

            log.CopyTo(trial);
            Fit(equation, trial);
        }

        return false;
    }

    // keeps a trial phase below the packing that the equation allows
    private static void Fit(CubicEquation equation, Span<double> concentrations)
    {
        Span<double> fractions = stackalloc double[concentrations.Length];
        var sum = Fractions(concentrations, fractions);
        var most = 0.96 / equation.CoVolume(fractions);
        if (sum > most)
        {
            for (var i = 0; i < concentrations.Length; i++)
            {
                concentrations[i] *= most / sum;
            }
        }
    }

    private static double Fractions(ReadOnlySpan<double> concentrations, Span<double> fractions)
    {
        double sum = 0;
        foreach (var c in concentrations)
        {
            sum += c;
        }

        for (var i = 0; i < concentrations.Length; i++)
        {
            fractions[i] = concentrations[i] / sum;
        }

        return sum;
    }
}
