using PreApproval.Hazards.Mixtures;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <content>The fixed point over the composition of the liquid, its amount and the free volume.</content>
internal static partial class ModifiedRaoult
{
    private const int MaximumIterations = 600;
    private const double Convergence = 1e-13;

    /// <summary>The composition of the liquid, its amount in mol and the free volume in m³ at equilibrium.</summary>
    private static void Converge(VesselPoint point, VolatilePart[] mixing, Unifac.UnifacAtTemperature? model, Span<double> x, Span<double> log, out double liquid, out double free)
    {
        var n = mixing.Length;
        var volume = point.Charge.VolumeM3;
        var rt = GasConstant * point.TemperatureK;
        var fixedM3 = point.RoomM3;
        if (n < point.Mixing.Length)
        {
            fixedM3 += RoomOfOthers(point, mixing);
        }

        Span<double> k = stackalloc double[n];
        log.Clear();
        double total = 0;
        foreach (var part in mixing)
        {
            total += part.Mol;
        }

        for (var i = 0; i < n; i++)
        {
            x[i] = mixing[i].Mol / total;
        }

        free = volume - point.CondensedM3;
        liquid = 0;
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            model?.LogActivityCoefficients(x, log);
            for (var i = 0; i < n; i++)
            {
                k[i] = Math.Exp(log[i]) * mixing[i].SaturationPa * free / rt;
            }

            liquid = LiquidAmount(mixing, k);
            double sum = 0;
            for (var i = 0; i < n; i++)
            {
                sum += mixing[i].Mol / (liquid + k[i]);
            }

            var damping = iteration < 100 ? 1 : 0.5;
            var change = 0.0;
            var nextFree = volume - fixedM3;
            for (var i = 0; i < n; i++)
            {
                var next = mixing[i].Mol / (liquid + k[i]) / sum;
                change = Math.Max(change, Math.Abs(next - x[i]));
                x[i] += damping * (next - x[i]);

                // on the way there x and L do not belong together yet; no more is liquid than there is, or the vessel would overflow
                nextFree -= Math.Min(x[i] * liquid, mixing[i].Mol) * mixing[i].M3PerMol;
            }

            foreach (var part in point.Apart)
            {
                nextFree -= Math.Max(part.Mol - (part.SaturationPa * free / rt), 0) * part.M3PerMol;
            }

            change = Math.Max(change, Math.Abs(nextFree - free) / volume);
            free += damping * (nextFree - free);
            if (change < Convergence)
            {
                break;
            }
        }
    }

    // both in one order, what is counted being a part of the whole
    private static double RoomOfOthers(VesselPoint point, VolatilePart[] mixing)
    {
        var (room, counted) = (0.0, 0);
        foreach (var part in point.Mixing)
        {
            if (counted < mixing.Length && ReferenceEquals(part.Key, mixing[counted].Key))
            {
                counted++;
            }
            else
            {
                room += part.Mol * part.M3PerMol;
            }
        }

        return room;
    }

    // Σ n/(L + K) = 1 falls and is convex in L: Newton from a point where the sum is at least 1 never overshoots.
    private static double LiquidAmount(VolatilePart[] mixing, ReadOnlySpan<double> k)
    {
        double dry = 0;
        double liquid = 0;
        for (var i = 0; i < mixing.Length; i++)
        {
            dry += mixing[i].Mol / k[i];
            liquid = Math.Max(liquid, mixing[i].Mol - k[i]);
        }

        if (dry <= 1)
        {
            return 0;
        }

        for (var iteration = 0; iteration < 100; iteration++)
        {
            double value = -1;
            double slope = 0;
            for (var i = 0; i < mixing.Length; i++)
            {
                var share = mixing[i].Mol / (liquid + k[i]);
                value += share;
                slope -= share / (liquid + k[i]);
            }

            var step = -value / slope;
            liquid += step;
            if (step <= 1e-15 * liquid)
            {
                break;
            }
        }

        return liquid;
    }
}
