using PreApproval.Hazards.Numerics;

namespace PreApproval.Hazards.Mixtures;

/// <content>The tangent-plane distance by second-order minimisation, for where substitution creeps.</content>
public static partial class LiquidStability
{
    private const int MaximumDescents = 100;

    /// <summary>
    /// Minimises 1 + Σ W (ln W + ln γ − d − 1) from the trial over α = 2√W, in which the Hessian is near the identity (Michelsen 1982, eqs. 17 to 19): Newton steps made
    /// to lead down, with a line search. True as soon as the value is below that of the feed.
    /// </summary>
    private static bool Descends(Unifac.UnifacAtTemperature model, ReadOnlySpan<double> moleFractions, ReadOnlySpan<double> feed, Span<double> trial)
    {
        var n = trial.Length;
        Span<double> alpha = stackalloc double[n];
        Span<double> moved = stackalloc double[n];
        Span<double> gradient = stackalloc double[n];
        Span<double> movedGradient = stackalloc double[n];
        Span<double> step = stackalloc double[n];
        Span<double> scale = stackalloc double[n];
        Span<double> hessian = stackalloc double[n * n];
        Span<double> factor = stackalloc double[n * n];
        for (var i = 0; i < n; i++)
        {
            alpha[i] = 2 * Math.Sqrt(trial[i]);
        }

        scale.Fill(1);
        var value = Distance(model, feed, alpha, trial, gradient);
        for (var iteration = 0; iteration < MaximumDescents; iteration++)
        {
            double largest = 0;
            double distance = 0;
            for (var i = 0; i < n; i++)
            {
                largest = Math.Max(largest, Math.Abs(gradient[i]));
                distance = Math.Max(distance, Math.Abs(trial[i] - moleFractions[i]));
            }

            if (value < -Excess)
            {
                return true;
            }

            if (distance < SameLiquid || largest < Convergence)
            {
                return false;
            }

            Curvature(model, alpha, trial, gradient, hessian);
            if (!NewtonStep.TryFind(hessian, gradient, scale, factor, step))
            {
                return false;
            }

            double slope = 0;
            for (var i = 0; i < n; i++)
            {
                slope += gradient[i] * step[i];
            }

            var length = 1.0;
            var lower = value;
            for (var halving = 0; halving < 50; halving++, length *= 0.5)
            {
                for (var i = 0; i < n; i++)
                {
                    // a root below 0 means the same amount as one above
                    moved[i] = Math.Max(Math.Abs(alpha[i] + (length * step[i])), 1e-150);
                }

                lower = Distance(model, feed, moved, trial, movedGradient);
                if (lower < value + (1e-4 * length * slope))
                {
                    break;
                }
            }

            if (!(lower < value))
            {
                // at the bottom, to the rounding of the value
                return false;
            }

            value = lower;
            moved.CopyTo(alpha);
            movedGradient.CopyTo(gradient);
        }

        return false;
    }

    // the value, with the mole fractions of W and ∂/∂α = √W (ln W + ln γ − d)
    private static double Distance(Unifac.UnifacAtTemperature model, ReadOnlySpan<double> feed, ReadOnlySpan<double> alpha, Span<double> fractions, Span<double> gradient)
    {
        double sum = 0;
        for (var i = 0; i < alpha.Length; i++)
        {
            fractions[i] = 0.25 * alpha[i] * alpha[i];
            sum += fractions[i];
        }

        for (var i = 0; i < alpha.Length; i++)
        {
            fractions[i] /= sum;
        }

        model.LogActivityCoefficients(fractions, gradient);
        var value = 1 - sum;
        for (var i = 0; i < alpha.Length; i++)
        {
            var amount = 0.25 * alpha[i] * alpha[i];
            var potential = Math.Log(amount) + gradient[i] - feed[i];
            value += amount * potential;
            gradient[i] = Math.Sqrt(amount) * potential;
        }

        return value;
    }

    // ∂²/∂α_i∂α_j = √W_i √W_j ∂ ln γ_i/∂W_j, and on the diagonal 1 + (ln W + ln γ − d)/2
    private static void Curvature(Unifac.UnifacAtTemperature model, ReadOnlySpan<double> alpha, ReadOnlySpan<double> fractions, ReadOnlySpan<double> gradient, Span<double> hessian)
    {
        var n = alpha.Length;
        double sum = 0;
        foreach (var root in alpha)
        {
            sum += 0.25 * root * root;
        }

        model.LogActivityDerivatives(fractions, hessian);
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                hessian[(i * n) + j] *= 0.25 * alpha[i] * alpha[j] / sum;
            }

            hessian[(i * n) + i] += 1 + (gradient[i] / alpha[i]);
        }
    }
}
