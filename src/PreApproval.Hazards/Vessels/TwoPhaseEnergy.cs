using PreApproval.Hazards.Mixtures;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>Energy over R T, its gradient and its bounds, for the amounts and the volume of the first phase in one vector.</summary>
internal readonly ref struct TwoPhaseEnergy(CubicEquation equation, ReadOnlySpan<double> n, double volume)
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
