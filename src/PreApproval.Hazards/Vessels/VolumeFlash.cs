using System.Runtime.InteropServices;
using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Vessels;

/// <summary>What fills a volume by an equation of state.</summary>
internal enum FlashPhases
{
    /// <summary>Liquid and vapour (or two liquids, in a full vessel).</summary>
    Two,

    /// <summary>One phase that no trial phase improves on.</summary>
    One,

    /// <summary>Less room than the co-volume: the equation describes no such state.</summary>
    TooDense,
}

/// <summary>A state at fixed temperature, volume and amounts. Amounts and volume of the denser phase stand in the caller's space.</summary>
/// <param name="Phases">One or two phases.</param>
/// <param name="PressurePa">Pressure in Pa; NaN when too dense.</param>
/// <param name="DenseM3">Volume of the denser phase in m³; 0 for one phase.</param>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct FlashState(FlashPhases Phases, double PressurePa, double DenseM3);

/// <summary>
/// Equilibrium at fixed temperature, volume and amounts. With E = f_L/(x R T) · c R T/f_V, the concentration in the vapour over the mole fraction in
/// the liquid, each balance is n = x (L + E V_gas), and Σx = 1 is one monotone equation in the amount of liquid: the same shape as
/// modified Raoult, and as well conditioned, unlike a pressure loop around a flash. This fixed point serves nearly all vessels. Where it does
/// not settle (near a critical point, or one phase), a stability test of the single phase decides (Mikyška and Firoozabadi, Fluid
/// Phase Equilib. 321 (2012) 1, doi:10.1016/j.fluid.2012.01.026), and an unstable one is split by <see cref="HelmholtzDescent"/>, which always goes down.
/// </summary>
internal static class VolumeFlash
{
    private const int FixedPointIterations = 40;
    private const int RelaxedIterations = 2000;
    private const double Convergence = 1e-11;
    private const double RelaxedPa = 1000;

    // in co-volumes
    private const double ClosestVapour = 1.2;

    /// <summary>Solves the state. <paramref name="dense"/> receives the amounts in the denser phase in mol (those of the feed for one phase).</summary>
    /// <param name="equation">The equation of state at the temperature.</param>
    /// <param name="n">Amounts in mol, each above 0.</param>
    /// <param name="volume">Volume in m³.</param>
    /// <param name="guessK">x-to-concentration ratios E to start from, in mol/m³; receives the last ones.</param>
    /// <param name="guessFree">Gas volume to start from, in m³.</param>
    /// <param name="dense">Receives the amounts in the denser phase.</param>
    public static FlashState Solve(CubicEquation equation, ReadOnlySpan<double> n, double volume, Span<double> guessK, double guessFree, Span<double> dense)
    {
        if (FixedPoint(equation, n, volume, guessK, guessFree, dense) is { PressurePa: > 0 } quick)
        {
            return quick;
        }

        double total = 0;
        foreach (var mol in n)
        {
            total += mol;
        }

        Span<double> z = stackalloc double[n.Length];
        for (var i = 0; i < n.Length; i++)
        {
            z[i] = n[i] / total;
        }

        Span<double> concentrations = stackalloc double[n.Length];
        var molar = volume / total;
        if (molar <= equation.CoVolume(z) * (1 + 1e-9))
        {
            n.CopyTo(dense);
            return new FlashState(FlashPhases.TooDense, double.NaN, 0);
        }

        if (PhaseStability.FindBetter(equation, z, molar, concentrations) && HelmholtzDescent.Split(equation, n, volume, concentrations, dense) is { PressurePa: > 0 } split)
        {
            return split;
        }

        // a stretched liquid, or two of them, boils
        if (PhaseStability.FindBubble(equation, z, molar, concentrations))
        {
            if (HelmholtzDescent.Split(equation, n, volume, concentrations, dense) is { PressurePa: > 0 } boiling)
            {
                return boiling;
            }

            // where two liquids would part, one liquid of all that condenses stands for both
            if (FromRelaxedLiquid(equation, n, z, volume, total, guessK, dense) is { PressurePa: > 0 } relaxed)
            {
                return relaxed;
            }
        }

        Span<double> partial = stackalloc double[n.Length];
        var b = equation.CoVolume(z);
        var pressure = equation.Pressure(b, equation.Mix(z, b, partial), molar);
        n.CopyTo(dense);
        return new FlashState(FlashPhases.One, pressure, 0);
    }

    private static FlashState? FromRelaxedLiquid(CubicEquation equation, ReadOnlySpan<double> n, ReadOnlySpan<double> z, double volume, double total, Span<double> e, Span<double> dense)
    {
        Span<double> partial = stackalloc double[n.Length];
        var b = equation.CoVolume(z);
        var q = equation.Mix(z, b, partial);
        var molar = equation.MolarVolume(b, q, RelaxedPa, liquid: true);
        equation.LogFugacityOverConcentration(b, q, partial, molar, e);
        for (var i = 0; i < n.Length; i++)
        {
            e[i] = Math.Exp(Math.Max(e[i], -600)) / molar;
        }

        return FixedPoint(equation, n, volume, e, Math.Max(volume - (total * molar), 0.01 * volume), dense, RelaxedIterations);
    }

    private static FlashState? FixedPoint(CubicEquation equation, ReadOnlySpan<double> n, double volume, Span<double> e, double free, Span<double> dense, int most = FixedPointIterations)
    {
        var count = n.Length;
        Span<double> x = stackalloc double[count];
        Span<double> y = stackalloc double[count];
        Span<double> partial = stackalloc double[count];
        Span<double> logLiquid = stackalloc double[count];
        Span<double> logVapour = stackalloc double[count];
        double start = 0;
        for (var iteration = 0; iteration < most; iteration++)
        {
            var liquid = LiquidAmount(n, e, free, start);
            if (!(liquid > 0))
            {
                return null;
            }

            start = liquid;
            double vapour = 0;
            for (var i = 0; i < count; i++)
            {
                x[i] = n[i] / (liquid + (e[i] * free));
                y[i] = x[i] * e[i] * free;
                vapour += y[i];
            }

            for (var i = 0; i < count; i++)
            {
                y[i] /= vapour;
            }

            var vapourB = equation.CoVolume(y);
            // on the way there the room for the vapour may be less than it can be packed into
            var packed = free / vapour < ClosestVapour * vapourB;
            var vapourMolar = packed ? ClosestVapour * vapourB : free / vapour;
            var q = equation.Mix(y, vapourB, partial);
            var pressure = equation.Pressure(vapourB, q, vapourMolar);
            if (!(pressure > 0))
            {
                return null;
            }

            equation.LogFugacityOverConcentration(vapourB, q, partial, vapourMolar, logVapour);
            var liquidB = equation.CoVolume(x);
            q = equation.Mix(x, liquidB, partial);
            var liquidMolar = equation.MolarVolume(liquidB, q, pressure, liquid: true);
            equation.LogFugacityOverConcentration(liquidB, q, partial, liquidMolar, logLiquid);
            double change = 0;
            for (var i = 0; i < count; i++)
            {
                var next = Math.Exp(logLiquid[i] - logVapour[i]) / liquidMolar;
                change = Math.Max(change, Math.Abs((next / e[i]) - 1));
                e[i] = next;
            }

            var nextFree = volume - (liquid * liquidMolar);
            if (nextFree <= 0)
            {
                nextFree = 0.5 * free;
            }

            if (!(nextFree > 1e-7 * volume) || (liquidMolar > 0.97 * vapourMolar && iteration > 10))
            {
                return null;
            }

            change = Math.Max(change, Math.Abs(nextFree - free) / free);
            free = nextFree;
            if (change < Convergence)
            {
                if (packed)
                {
                    // settled with a vapour that does not fit: no equilibrium
                    return null;
                }

                for (var i = 0; i < count; i++)
                {
                    dense[i] = liquid * x[i];
                }

                // not as volume − free: a droplet of 1e-8 of the volume keeps eight digits in that difference, a liquid's pressure needs more
                return new FlashState(FlashPhases.Two, pressure, liquid * liquidMolar);
            }
        }

        return most > FixedPointIterations ? null : HelmholtzDescent.Settle(equation, n, volume, x, start, free, dense);
    }

    // Σ n/(L + K) = 1 falls and is convex in L: Newton from a point where the sum is at least 1 never overshoots; from beyond it, once.
    private static double LiquidAmount(ReadOnlySpan<double> n, ReadOnlySpan<double> e, double free, double start)
    {
        double dry = 0;
        double least = 0;
        for (var i = 0; i < n.Length; i++)
        {
            dry += n[i] / (e[i] * free);
            least = Math.Max(least, n[i] - (e[i] * free));
        }

        if (!(dry > 1))
        {
            return 0;
        }

        var liquid = Math.Max(least, start);
        for (var iteration = 0; iteration < 100; iteration++)
        {
            double value = -1;
            double slope = 0;
            for (var i = 0; i < n.Length; i++)
            {
                var share = n[i] / (liquid + (e[i] * free));
                value += share;
                slope -= share / (liquid + (e[i] * free));
            }

            var step = -value / slope;
            liquid = Math.Max(liquid + step, least);
            if (Math.Abs(step) <= 1e-14 * liquid)
            {
                break;
            }
        }

        return liquid;
    }
}
