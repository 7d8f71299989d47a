using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <param name="State">The answer.</param>
/// <param name="OneLiquid">False when the activity model says that the liquid splits.</param>
internal readonly record struct RaoultAnswer(ModelState State, bool OneLiquid);

/// <summary>
/// Modified Raoult in a closed volume: p = x γ Psat with original UNIFAC, ideal vapour, gas insoluble and ideal, liquid volume by
/// ideal mixing. For each liquid n = l + p V_gas/(R T); with K = γ Psat V_gas/(R T) this is x = n/(L + K), and Σx = 1 is one monotone
/// equation in the amount of liquid L, solved by Newton from below, inside a fixed point over γ and V_gas. Dry-out is L = 0.
/// </summary>
internal static class ModifiedRaoult
{
    private const int MaximumIterations = 600;
    private const double Convergence = 1e-13;
    private static readonly string[] MethodSources = ["fredenslund1975", "unifac-published"];

    public static RaoultAnswer Solve(VesselPoint point, double gasMol)
    {
        var charge = point.Charge;
        if (point.Unknown.Count > 0)
        {
            return Refuse($"no vapour pressure on file for {ImmiscibleBound.Names(point.Unknown)} at this temperature");
        }

        if (charge.Held.Count > 0)
        {
            return Refuse($"no model on file represents {ImmiscibleBound.Names(charge.Held)} dissolved in these liquids; enter its measured partial pressure");
        }

        if (point.PastCritical.Count > 0)
        {
            return Refuse($"{ImmiscibleBound.Names(point.PastCritical)} is above its critical temperature and has no vapour pressure");
        }

        if (point.CondensedM3 >= charge.VolumeM3)
        {
            return new RaoultAnswer(LiquidFull.Solve(VesselModel.ModifiedRaoult, point, VapourOfAllLiquid(point), gasMol), OneLiquid: true);
        }

        if (charge.Dissolved.Length > 0)
        {
            return SolutionEquilibrium.Solve(point, gasMol);
        }

        if (charge.Mixing.Length < 2 || charge.Model is not null)
        {
            return Solve(point, gasMol, point.Mixing, charge.ActivitiesAt(point.TemperatureK));
        }

        return WithoutNegligible(point, gasMol);
    }

    private static RaoultAnswer WithoutNegligible(VesselPoint point, double gasMol)
    {
        // Where parameters are missing, liquids without a vapour pressure to speak of may be left out; the rest may be covered.
        var counted = Array.FindAll(point.Mixing, static part => part.SaturationPa >= SealedCharge.NegligiblePa);
        if (counted.Length < 2)
        {
            return Solve(point, gasMol, counted, null);
        }

        var model = point.Charge.ActivitiesAmong(counted, point.TemperatureK, out var gaps);
        return model is not null ? Solve(point, gasMol, counted, model) : Refuse($"UNIFAC has no published interaction parameters for {string.Join(", ", gaps)}");
    }

    // No liquid counts for more than its full vapour pressure, and for all of it where no activity model covers them all.
    private static double VapourOfAllLiquid(VesselPoint point)
    {
        var total = point.Mixing.Sum(p => p.Mol);
        var factors = point.Charge.Model?.ActivityCoefficients(point.TemperatureK, [.. point.Mixing.Select(p => p.Mol / total)]);
        return point.Mixing.Select((p, i) => p.SaturationPa * Math.Min(factors is null ? 1 : factors[i] * p.Mol / total, 1)).Sum() + point.Apart.Sum(p => p.SaturationPa);
    }

    internal static RaoultAnswer Solve(VesselPoint point, double gasMol, VolatilePart[] mixing, Unifac.UnifacAtTemperature? model)
    {
        var n = mixing.Length;
        var volume = point.Charge.VolumeM3;
        var rt = GasConstant * point.TemperatureK;
        var fixedM3 = point.RoomM3;
        if (n < point.Mixing.Length)
        {
            fixedM3 += point.Mixing.Except(mixing).Sum(p => p.Mol * p.M3PerMol);
        }

        Span<double> x = stackalloc double[n];
        Span<double> log = stackalloc double[n];
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

        var free = volume - point.CondensedM3;
        double liquid = 0;
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

        return Answer(point, gasMol, mixing, model, x, log, liquid, free, rt);
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

    private static RaoultAnswer Answer(VesselPoint point, double gasMol, VolatilePart[] mixing, Unifac.UnifacAtTemperature? model, ReadOnlySpan<double> x, ReadOnlySpan<double> log, double liquid, double free, double rt)
    {
        var partial = new SpeciesValues(mixing.Length + point.Apart.Length + 1);
        var fractions = new SpeciesValues(mixing.Length);
        var coefficients = new SpeciesValues(mixing.Length);
        var pressure = gasMol * rt / free;
        var dropsAlone = false;
        if (gasMol > 0)
        {
            partial["headspace"] = pressure;
        }

        for (var i = 0; i < mixing.Length; i++)
        {
            var gamma = Math.Exp(log[i]);
            var p = liquid > 0 ? x[i] * gamma * mixing[i].SaturationPa : mixing[i].Mol * rt / free;
            pressure += p;
            partial[mixing[i].Key] = p;

            // the solution ran dry in one mixed liquid, and yet this one would condense by itself, as water beside a hydrocarbon
            dropsAlone |= liquid <= 0 && p > mixing[i].SaturationPa;
            if (liquid > 0)
            {
                fractions[mixing[i].Key] = x[i];
                coefficients[mixing[i].Key] = gamma;
            }
        }

        var condensed = liquid > 0 || point.Charge.TakesRoomAsLiquid;
        foreach (var part in point.Apart)
        {
            var all = part.Mol * rt / free;
            condensed |= all > part.SaturationPa;
            if (part.SaturationPa >= SealedCharge.NegligiblePa)
            {
                var p = Math.Min(all, part.SaturationPa);
                pressure += p;
                partial[part.Key] = p;
            }
        }

        var gas = gasMol * rt / free;
        var ceiling = LiquidFull.CeilingPa(point, pressure - gas, gasMol, partial, free / rt);
        if (pressure > ceiling)
        {
            partial["headspace"] = ceiling - (pressure - gas);
            pressure = ceiling;
            free = gasMol * rt / partial["headspace"];
        }

        return new RaoultAnswer(
            new ModelState
            {
                Model = VesselModel.ModifiedRaoult,
                Phase = condensed ? VesselPhase.TwoPhase : VesselPhase.Vapour,
                PressurePaAbs = pressure,
                PartialPressuresPa = partial,
                LiquidVolumeFraction = Math.Clamp(1 - (free / point.Charge.VolumeM3), 0, 1),
                LiquidMoleFractions = fractions,
                ActivityCoefficients = coefficients,
                Point = point,
                Method = model is null ? [] : MethodSources,
                Quality = model is null ? point.Quality : VesselPoint.Worse(point.Quality, Quality.Estimated),
            },
            liquid <= 0 ? !dropsAlone || mixing.Length < 2 : model is null || LiquidStability.IsOneLiquid(model, x));
    }

    private static RaoultAnswer Refuse(string because) => new(new ModelState { Model = VesselModel.ModifiedRaoult, Because = because }, OneLiquid: true);
}
