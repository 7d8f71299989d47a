namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Whether a liquid of given composition stays one liquid, by the tangent-plane test on the activity model:
/// Michelsen, Fluid Phase Equilib. 9 (1982) 1, doi:10.1016/0378-3812(82)85001-2.
/// </summary>
public static partial class LiquidStability
{
    private const int MaximumIterations = 100;
    private const double Convergence = 1e-10;
    private const double Excess = 1e-6;
    private const double SameLiquid = 1e-5;

    /// <summary>True when no trial liquid lowers the Gibbs energy: starts from each component nearly pure.</summary>
    /// <param name="model">Activity model at the temperature.</param>
    /// <param name="moleFractions">Composition, summing to 1.</param>
    public static bool IsOneLiquid(Unifac.UnifacAtTemperature model, ReadOnlySpan<double> moleFractions)
    {
        Span<double> trial = stackalloc double[moleFractions.Length];
        return !TryFindSecond(model, moleFractions, trial);
    }

    /// <summary>True when a second liquid would form; <paramref name="trial"/> then has a composition that lowers the Gibbs energy.</summary>
    internal static bool TryFindSecond(Unifac.UnifacAtTemperature model, ReadOnlySpan<double> moleFractions, Span<double> trial)
    {
        var n = moleFractions.Length;
        if (n < 2)
        {
            return false;
        }

        Span<double> feed = stackalloc double[n];
        Span<double> log = stackalloc double[n];
        model.LogActivityCoefficients(moleFractions, feed);
        for (var i = 0; i < n; i++)
        {
            feed[i] += Math.Log(Math.Max(moleFractions[i], 1e-300));
        }

        for (var start = 0; start < n; start++)
        {
            for (var i = 0; i < n; i++)
            {
                trial[i] = i == start ? 0.98 : 0.02 / (n - 1);
            }

            if (LeavesTangentPlane(model, moleFractions, feed, trial, log))
            {
                return true;
            }
        }

        return false;
    }

    private static bool LeavesTangentPlane(Unifac.UnifacAtTemperature model, ReadOnlySpan<double> moleFractions, ReadOnlySpan<double> feed, Span<double> trial, Span<double> log)
    {
        Span<double> step = stackalloc double[trial.Length];
        Span<double> before = stackalloc double[trial.Length];
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            model.LogActivityCoefficients(trial, log);
            double sum = 0;
            double plane = 0;
            for (var i = 0; i < trial.Length; i++)
            {
                log[i] = Math.Exp(feed[i] - log[i]);
                sum += log[i];
            }

            double change = 0;
            double distance = 0;
            double along = 0;
            for (var i = 0; i < trial.Length; i++)
            {
                var next = log[i] / sum;
                var gradient = Math.Log(trial[i] / log[i]);
                along += (trial[i] - moleFractions[i]) * gradient;
                change = Math.Max(change, Math.Abs(next - trial[i]));
                distance = Math.Max(distance, Math.Abs(next - moleFractions[i]));
                plane += trial[i] * gradient;
                step[i] = next - trial[i];
                trial[i] = next;
            }

            // The trial has come home to the feed, or is on its way there: near the trivial solution the distance from the tangent
            // plane is the quadratic form of its own gradient, 2·tm/β = 1 (Michelsen 1982, eq. 21).
            if (distance < SameLiquid || (distance < 0.05 && plane > 0 && plane < 1e-3 && Math.Abs((2 * plane / along) - 1) < 0.1))
            {
                return false;
            }

            if (plane < -Excess)
            {
                return true;
            }

            if (change < Convergence)
            {
                return sum > 1 + Excess;
            }

            if (iteration % 4 == 3)
            {
                Extrapolate(trial, step, before);
            }

            step.CopyTo(before);
        }

        // near where two liquids become one such steps creep
        return Descends(model, moleFractions, feed, trial);
    }

    // The fixed point converges along one direction: its geometric series is summed, as far as the composition stays one.
    private static void Extrapolate(Span<double> trial, ReadOnlySpan<double> step, ReadOnlySpan<double> before)
    {
        double along = 0;
        double square = 0;
        for (var i = 0; i < trial.Length; i++)
        {
            along += step[i] * before[i];
            square += before[i] * before[i];
        }

        var ratio = along / square;
        if (ratio is not (> 0.2 and < 0.98))
        {
            return;
        }

        var factor = ratio / (1 - ratio);
        for (var i = 0; i < trial.Length; i++)
        {
            if (step[i] < 0)
            {
                factor = Math.Min(factor, 0.5 * trial[i] / -step[i]);
            }
        }

        for (var i = 0; i < trial.Length; i++)
        {
            trial[i] += factor * step[i];
        }
    }
}
