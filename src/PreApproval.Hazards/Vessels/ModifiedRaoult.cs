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
internal static partial class ModifiedRaoult
{
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
        var counted = point.Charge.Counted(point);
        return counted.Gaps is { } because ? Refuse(because) : Solve(point, gasMol, counted.Liquids, counted.Model);
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
        Span<double> x = stackalloc double[mixing.Length];
        Span<double> log = stackalloc double[mixing.Length];
        Converge(point, mixing, model, x, log, out var liquid, out var free);
        return Answer(point, gasMol, mixing, model, x, log, liquid, free);
    }

    /// <summary>
    /// The pressure of <see cref="Solve(VesselPoint, double)"/> alone, in Pa absolute, for searches: of volatile liquids with nothing dissolved, none of them past its critical temperature, with room left in the vessel.
    /// Null where no activity model covers them. With the share of the vessel that is liquid.
    /// </summary>
    public static (double? PascalAbs, bool OneLiquid, double LiquidFraction) PressureAt(VesselPoint point, double gasMol)
    {
        var mixing = point.Mixing;
        var model = point.Charge.ActivitiesAt(point.TemperatureK);
        if (mixing.Length > 1 && model is null)
        {
            // Where parameters are missing, liquids without a vapour pressure to speak of may be left out; the rest may be covered.
            var counted = point.Charge.Counted(point);
            if (counted.Gaps is not null)
            {
                return (null, OneLiquid: true, 0);
            }

            (mixing, model) = (counted.Liquids, counted.Model);
        }

        Span<double> x = stackalloc double[mixing.Length];
        Span<double> log = stackalloc double[mixing.Length];
        Converge(point, mixing, model, x, log, out var liquid, out var free);
        Span<double> partial = stackalloc double[mixing.Length + point.Apart.Length];
        var pressure = Pressure(point, gasMol, mixing, x, log, liquid, ref free, partial, out _, out var dropsAlone, out _);
        return (pressure, IsOneLiquid(mixing, model, x, liquid, dropsAlone), LiquidFraction(point, free));
    }

    private static double LiquidFraction(VesselPoint point, double free) => Math.Clamp(1 - (free / point.Charge.VolumeM3), 0, 1);

    private static bool IsOneLiquid(VolatilePart[] mixing, Unifac.UnifacAtTemperature? model, ReadOnlySpan<double> x, double liquid, bool dropsAlone) =>
        liquid <= 0 ? !dropsAlone || mixing.Length < 2 : model is null || LiquidStability.IsOneLiquid(model, x);

    // partial: in Pa, of the mixing liquids, then of what stands apart. free: less where the giving way of the liquid limits the pressure.
    // dropsAlone: the solution has run dry as one liquid, and yet a part of it would condense by itself, as water beside a hydrocarbon.
    private static double Pressure(VesselPoint point, double gasMol, VolatilePart[] mixing, ReadOnlySpan<double> x, ReadOnlySpan<double> log, double liquid, ref double free, Span<double> partial, out bool condensed, out bool dropsAlone, out double gasPa)
    {
        var rt = GasConstant * point.TemperatureK;
        gasPa = gasMol * rt / free;
        var pressure = gasPa;
        dropsAlone = false;
        for (var i = 0; i < mixing.Length; i++)
        {
            partial[i] = liquid > 0 ? x[i] * Math.Exp(log[i]) * mixing[i].SaturationPa : mixing[i].Mol * rt / free;
            pressure += partial[i];
            dropsAlone |= liquid <= 0 && partial[i] > mixing[i].SaturationPa;
        }

        condensed = liquid > 0 || point.Charge.TakesRoomAsLiquid;
        for (var i = 0; i < point.Apart.Length; i++)
        {
            var part = point.Apart[i];
            var all = part.Mol * rt / free;
            condensed |= all > part.SaturationPa;
            partial[mixing.Length + i] = part.SaturationPa >= SealedCharge.NegligiblePa ? Math.Min(all, part.SaturationPa) : 0;
            pressure += partial[mixing.Length + i];
        }

        var ceiling = LiquidFull.CeilingPa(point, pressure - gasPa, gasMol, mixing, partial, free / rt);
        if (pressure > ceiling)
        {
            gasPa = ceiling - (pressure - gasPa);
            pressure = ceiling;
            free = gasMol * rt / gasPa;
        }

        return pressure;
    }

    private static RaoultAnswer Answer(VesselPoint point, double gasMol, VolatilePart[] mixing, Unifac.UnifacAtTemperature? model, ReadOnlySpan<double> x, ReadOnlySpan<double> log, double liquid, double free)
    {
        Span<double> pascal = stackalloc double[mixing.Length + point.Apart.Length];
        var pressure = Pressure(point, gasMol, mixing, x, log, liquid, ref free, pascal, out var condensed, out var dropsAlone, out var gasPa);
        var partial = new SpeciesValues(pascal.Length + 1);
        var fractions = new SpeciesValues(liquid > 0 ? mixing.Length : 0);
        var coefficients = new SpeciesValues(liquid > 0 ? mixing.Length : 0);
        if (gasMol > 0)
        {
            partial["headspace"] = gasPa;
        }

        for (var i = 0; i < mixing.Length; i++)
        {
            partial[mixing[i].Key] = pascal[i];
            if (liquid > 0)
            {
                fractions[mixing[i].Key] = x[i];
                coefficients[mixing[i].Key] = Math.Exp(log[i]);
            }
        }

        for (var i = 0; i < point.Apart.Length; i++)
        {
            if (point.Apart[i].SaturationPa >= SealedCharge.NegligiblePa)
            {
                partial[point.Apart[i].Key] = pascal[mixing.Length + i];
            }
        }

        return new RaoultAnswer(
            new ModelState
            {
                Model = VesselModel.ModifiedRaoult,
                Phase = condensed ? VesselPhase.TwoPhase : VesselPhase.Vapour,
                PressurePaAbs = pressure,
                PartialPressuresPa = partial,
                LiquidVolumeFraction = LiquidFraction(point, free),
                LiquidMoleFractions = fractions,
                ActivityCoefficients = coefficients,
                Point = point,
                Method = model is null ? [] : MethodSources,
                Quality = model is null ? point.Quality : VesselPoint.Worse(point.Quality, Quality.Estimated),
            },
            IsOneLiquid(mixing, model, x, liquid, dropsAlone));
    }

    private static RaoultAnswer Refuse(string because) => new(new ModelState { Model = VesselModel.ModifiedRaoult, Because = because }, OneLiquid: true);
}
