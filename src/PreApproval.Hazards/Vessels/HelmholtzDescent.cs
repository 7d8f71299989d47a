using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Numerics;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// Two phases at fixed temperature, volume and amounts by minimising the Helmholtz energy over the amounts and the volume of one of
/// them: Newton steps with a Hessian made positive definite and a line search, so that the energy never rises. At the minimum fugacities and pressures
/// are equal. Slower than the fixed point of <see cref="VolumeFlash"/> and safe where that one is not.
/// </summary>
internal static class HelmholtzDescent
{
    private const int MaximumIterations = 300;

    /// <summary>Splits a phase that is not stable, from a trial phase of the given concentrations in mol/m³; null when that does not lower the energy.</summary>
    public static FlashState? Split(CubicEquation equation, ReadOnlySpan<double> n, double volume, ReadOnlySpan<double> concentrations, Span<double> dense)
    {
        Span<double> u = stackalloc double[n.Length + 1];
        Span<double> scratch = stackalloc double[n.Length + 1];
        var first = new TwoPhaseEnergy(equation, n, volume);
        var single = first.SinglePhaseEnergy();
        var share = 0.5;
        for (var i = 0; i < n.Length; i++)
        {
            share = Math.Min(share, 0.5 * n[i] / (concentrations[i] * volume));
        }

        for (var halving = 0; halving < 60; halving++)
        {
            for (var i = 0; i < n.Length; i++)
            {
                u[i] = concentrations[i] * share * volume;
            }

            u[n.Length] = share * volume;
            if (first.IsInside(u) && first.Energy(u, scratch) < single)
            {
                return Descend(first, u, dense);
            }

            share *= 0.5;
        }

        return null;
    }

    /// <summary>Finishes what the fixed point began; null when the two phases become one.</summary>
    public static FlashState? Settle(CubicEquation equation, ReadOnlySpan<double> n, double volume, ReadOnlySpan<double> x, double liquid, double free, Span<double> dense)
    {
        Span<double> u = stackalloc double[n.Length + 1];
        for (var i = 0; i < n.Length; i++)
        {
            u[i] = liquid * x[i];
        }

        u[n.Length] = volume - free;
        var evaluation = new TwoPhaseEnergy(equation, n, volume);
        return evaluation.IsInside(u) ? Descend(evaluation, u, dense) : null;
    }

    private static FlashState? Descend(TwoPhaseEnergy evaluation, Span<double> u, Span<double> dense)
    {
        var size = u.Length;
        Span<double> gradient = stackalloc double[size];
        Span<double> trial = stackalloc double[size];
        Span<double> trialGradient = stackalloc double[size];
        Span<double> step = stackalloc double[size];
        Span<double> scale = stackalloc double[size];
        Span<double> hessian = stackalloc double[size * size];
        Span<double> factor = stackalloc double[size * size];
        var energy = evaluation.Energy(u, gradient);
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            if (evaluation.IsBalanced(u, gradient))
            {
                return evaluation.State(u, dense);
            }

            evaluation.Hessian(u, hessian, trial, trialGradient, step);
            for (var i = 0; i < size; i++)
            {
                scale[i] = i < size - 1
                    ? Math.Sqrt(u[i] * (evaluation.Amounts[i] - u[i]) / evaluation.Amounts[i])
                    : 1 / Math.Sqrt(Math.Max(Math.Abs(hessian[(size * size) - 1]), 1e-300));
            }

            if (!NewtonStep.TryFind(hessian, gradient, scale, factor, step))
            {
                return null;
            }

            double slope = 0;
            for (var i = 0; i < size; i++)
            {
                slope += gradient[i] * step[i];
            }

            var length = 1.0;
            var moved = false;
            var norm = evaluation.Norm(u, gradient);
            for (var halving = 0; halving < 50; halving++)
            {
                for (var i = 0; i < size; i++)
                {
                    trial[i] = u[i] + (length * step[i]);
                }

                if (evaluation.IsInside(trial))
                {
                    var next = evaluation.Energy(trial, trialGradient);
                    // below the rounding of the energy, the gradient tells
                    if (next < energy + (1e-4 * length * slope) || (Math.Abs(next - energy) < 1e-12 * Math.Abs(energy) && evaluation.Norm(trial, trialGradient) < norm))
                    {
                        energy = next;
                        trial.CopyTo(u);
                        trialGradient.CopyTo(gradient);
                        moved = true;
                        break;
                    }
                }

                length *= 0.5;
            }

            if (!moved)
            {
                return evaluation.IsNearlyBalanced(u, gradient) ? evaluation.State(u, dense) : null;
            }
        }

        return evaluation.IsNearlyBalanced(u, gradient) ? evaluation.State(u, dense) : null;
    }
}
