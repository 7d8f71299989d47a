using PreApproval.Hazards.Mixtures;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

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
        var first = new Evaluation(equation, n, volume);
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
        var evaluation = new Evaluation(equation, n, volume);
        return evaluation.IsInside(u) ? Descend(evaluation, u, dense) : null;
    }

    private static FlashState? Descend(Evaluation evaluation, Span<double> u, Span<double> dense)
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

            if (!TryNewtonStep(hessian, gradient, scale, factor, step))
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

    // Cholesky of the scaled Hessian, with as much of the identity added as it takes.
    private static bool TryNewtonStep(ReadOnlySpan<double> hessian, ReadOnlySpan<double> gradient, ReadOnlySpan<double> scale, Span<double> factor, Span<double> step)
    {
        var size = gradient.Length;
        for (var shift = 0.0; shift < 1e8; shift = shift == 0 ? 1e-6 : shift * 10)
        {
            var definite = true;
            for (var i = 0; i < size && definite; i++)
            {
                for (var j = 0; j <= i; j++)
                {
                    var sum = 0.5 * (hessian[(i * size) + j] + hessian[(j * size) + i]) * scale[i] * scale[j];
                    sum += i == j ? shift : 0;
                    for (var k = 0; k < j; k++)
                    {
                        sum -= factor[(i * size) + k] * factor[(j * size) + k];
                    }

                    if (i != j)
                    {
                        factor[(i * size) + j] = sum / factor[(j * size) + j];
                    }
                    else if (sum > 1e-14)
                    {
                        factor[(i * size) + i] = Math.Sqrt(sum);
                    }
                    else
                    {
                        definite = false;
                    }
                }
            }

            if (!definite)
            {
                continue;
            }

            for (var i = 0; i < size; i++)
            {
                var sum = -gradient[i] * scale[i];
                for (var k = 0; k < i; k++)
                {
                    sum -= factor[(i * size) + k] * step[k];
                }

                step[i] = sum / factor[(i * size) + i];
            }

            for (var i = size - 1; i >= 0; i--)
            {
                var sum = step[i];
                for (var k = i + 1; k < size; k++)
                {
                    sum -= factor[(k * size) + i] * step[k];
                }

                step[i] = sum / factor[(i * size) + i];
            }

            for (var i = 0; i < size; i++)
            {
                step[i] *= scale[i];
            }

            return true;
        }

        return false;
    }

    /// <summary>Energy over R T, its gradient and its bounds, for the amounts and the volume of the first phase in one vector.</summary>
    private readonly ref struct Evaluation(CubicEquation equation, ReadOnlySpan<double> n, double volume)
    {
        private readonly ReadOnlySpan<double> _n = n;
        private readonly double _volume = volume;

        public ReadOnlySpan<double> Amounts => _n;

        private double RT => GasConstant * equation.TemperatureK;

        public double SinglePhaseEnergy()
        {
            Span<double> log = stackalloc double[_n.Length];
            var pressure = Phase(_n, _volume, log);
            var energy = -pressure * _volume / RT;
            for (var i = 0; i < _n.Length; i++)
            {
                energy += _n[i] * log[i];
            }

            return energy;
        }

        public double Energy(ReadOnlySpan<double> u, Span<double> gradient)
        {
            var count = _n.Length;
            Span<double> rest = stackalloc double[count];
            Span<double> other = stackalloc double[count];
            for (var i = 0; i < count; i++)
            {
                rest[i] = _n[i] - u[i];
            }

            var first = Phase(u[..count], u[count], gradient[..count]);
            var second = Phase(rest, _volume - u[count], other);
            var energy = -((first * u[count]) + (second * (_volume - u[count]))) / RT;
            for (var i = 0; i < count; i++)
            {
                energy += (u[i] * gradient[i]) + (rest[i] * other[i]);
                gradient[i] -= other[i];
            }

            gradient[count] = (second - first) / RT;
            return energy;
        }

        public void Hessian(ReadOnlySpan<double> u, Span<double> hessian, Span<double> moved, Span<double> above, Span<double> below)
        {
            var size = u.Length;
            for (var j = 0; j < size; j++)
            {
                var room = j < size - 1
                    ? Math.Min(u[j], _n[j] - u[j])
                    : Math.Min(u[j] - CoVolume(u, first: true), _volume - u[j] - CoVolume(u, first: false));
                var h = 1e-5 * room;
                u.CopyTo(moved);
                moved[j] = u[j] + h;
                Energy(moved, above);
                moved[j] = u[j] - h;
                Energy(moved, below);
                for (var i = 0; i < size; i++)
                {
                    hessian[(i * size) + j] = (above[i] - below[i]) / (2 * h);
                }
            }
        }

        public bool IsInside(ReadOnlySpan<double> u)
        {
            for (var i = 0; i < _n.Length; i++)
            {
                if (!(u[i] > 1e-14 * _n[i] && _n[i] - u[i] > 1e-14 * _n[i]))
                {
                    return false;
                }
            }

            var v = u[_n.Length];
            return v > CoVolume(u, first: true) * 1.0001 && _volume - v > CoVolume(u, first: false) * 1.0001;
        }

        public bool IsBalanced(ReadOnlySpan<double> u, ReadOnlySpan<double> gradient) => Norm(u, gradient) < 1e-11;

        public bool IsNearlyBalanced(ReadOnlySpan<double> u, ReadOnlySpan<double> gradient) => Norm(u, gradient) < 1e-7;

        /// <summary>The largest difference of ln fugacity, and of the pressure as a share of the ideal pressure of the denser phase.</summary>
        public double Norm(ReadOnlySpan<double> u, ReadOnlySpan<double> gradient)
        {
            double norm = 0;
            double first = 0;
            double second = 0;
            for (var i = 0; i < _n.Length; i++)
            {
                norm = Math.Max(norm, Math.Abs(gradient[i]));
                first += u[i];
                second += _n[i] - u[i];
            }

            var count = _n.Length;
            return Math.Max(norm, Math.Abs(gradient[count]) / Math.Max(first / u[count], second / (_volume - u[count])));
        }

        public FlashState? State(ReadOnlySpan<double> u, Span<double> dense)
        {
            var count = _n.Length;
            double first = 0;
            double second = 0;
            for (var i = 0; i < count; i++)
            {
                first += u[i];
                second += _n[i] - u[i];
            }

            var v = u[count];
            var same = Math.Abs((first / v * (_volume - v) / second) - 1) < 1e-5;
            for (var i = 0; i < count && same; i++)
            {
                same = Math.Abs((u[i] / first) - ((_n[i] - u[i]) / second)) < 1e-6;
            }

            if (same)
            {
                return null;
            }

            Span<double> log = stackalloc double[count];
            var firstPacking = CoVolume(u, first: true) / v;
            var secondPacking = CoVolume(u, first: false) / (_volume - v);
            var isFirst = firstPacking > secondPacking;
            Span<double> thin = stackalloc double[count];
            for (var i = 0; i < count; i++)
            {
                dense[i] = isFirst ? u[i] : _n[i] - u[i];
                thin[i] = _n[i] - dense[i];
            }

            var denseM3 = isFirst ? v : _volume - v;
            return new FlashState(FlashPhases.Two, Phase(thin, _volume - denseM3, log), denseM3);
        }

        private double CoVolume(ReadOnlySpan<double> u, bool first)
        {
            Span<double> amounts = stackalloc double[_n.Length];
            for (var i = 0; i < _n.Length; i++)
            {
                amounts[i] = first ? u[i] : _n[i] - u[i];
            }

            return equation.CoVolume(amounts);
        }

        // ln(f/RT) of each component; returns the pressure
        private double Phase(ReadOnlySpan<double> amounts, double phaseVolume, Span<double> log)
        {
            Span<double> x = stackalloc double[amounts.Length];
            Span<double> partial = stackalloc double[amounts.Length];
            double total = 0;
            foreach (var mol in amounts)
            {
                total += mol;
            }

            for (var i = 0; i < x.Length; i++)
            {
                x[i] = amounts[i] / total;
            }

            var b = equation.CoVolume(x);
            var q = equation.Mix(x, b, partial);
            equation.LogFugacityOverConcentration(b, q, partial, phaseVolume / total, log);
            for (var i = 0; i < x.Length; i++)
            {
                log[i] += Math.Log(amounts[i] / phaseVolume);
            }

            return equation.Pressure(b, q, phaseVolume / total);
        }
    }
}
