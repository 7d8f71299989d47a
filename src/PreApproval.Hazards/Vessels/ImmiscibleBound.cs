using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// The bound for liquids that do not mix: each volatile at its full vapour pressure (or, when there is too little of it, all of it as
/// vapour), a gas in solution at its pressure over the solution as charged, and the gas in the smallest gas volume, with everything condensed. A content past its critical temperature counts as ideal gas.
/// </summary>
internal static class ImmiscibleBound
{
    public static ModelState Solve(VesselPoint point, double gasMol)
    {
        if (point.Unknown.Count > 0)
        {
            return new ModelState { Model = VesselModel.ImmiscibleBound, Because = $"no vapour pressure on file for {Names(point.Unknown)} at this temperature" };
        }

        var volume = point.Charge.VolumeM3;
        var free = volume - point.CondensedM3;
        if (!(free > 0))
        {
            return LiquidFull.Solve(VesselModel.ImmiscibleBound, point, point.Mixing.Concat(point.Apart).Sum(static p => p.SaturationPa), gasMol);
        }

        var perMol = GasConstant * point.TemperatureK / free;
        Span<double> pascal = stackalloc double[Count(point)];
        var total = Total(point, gasMol, perMol, pascal);
        var partial = new SpeciesValues(pascal.Length);
        var liquid = point.Charge.TakesRoomAsLiquid;
        var held = point.CondensedM3;
        for (var i = 0; i < point.Mixing.Length + point.Apart.Length; i++)
        {
            var part = PartOf(point, i);
            liquid |= pascal[i] < part.Mol * perMol;
            held -= pascal[i] / perMol * part.M3PerMol;
            partial[part.Key] = pascal[i];
        }

        for (var i = 0; i < point.DissolvedPa.Length; i++)
        {
            var part = point.Charge.Dissolved[i];
            var own = pascal[point.Mixing.Length + point.Apart.Length + i];
            liquid |= own < part.Mol * perMol;
            held -= own / perMol * point.DissolvedM3PerMol[i];
            partial[part.Substance.Key] = own;
        }

        if (gasMol > 0)
        {
            partial["headspace"] = pascal[^1];
        }

        return new ModelState
        {
            Model = VesselModel.ImmiscibleBound,
            Phase = liquid ? VesselPhase.TwoPhase : point.PastCritical.Count > 0 ? VesselPhase.Supercritical : VesselPhase.Vapour,
            PressurePaAbs = total,
            PartialPressuresPa = partial,
            LiquidVolumeFraction = Math.Clamp(held / volume, 0, 1),
            Point = point,
            Quality = point.Quality,
        };
    }

    /// <summary>The pressure of <see cref="Solve"/> alone, in Pa absolute, for searches and the timeline; null where there is none.</summary>
    public static double? PascalAt(VesselPoint point, double gasMol)
    {
        if (point.Unknown.Count > 0)
        {
            return null;
        }

        var free = point.Charge.VolumeM3 - point.CondensedM3;
        if (!(free > 0))
        {
            return Solve(point, gasMol).PressurePaAbs;
        }

        Span<double> pascal = stackalloc double[Count(point)];
        return Total(point, gasMol, GasConstant * point.TemperatureK / free, pascal);
    }

    // of what mixes, what stands apart, what is dissolved, and the gas
    private static int Count(VesselPoint point) => point.Mixing.Length + point.Apart.Length + point.DissolvedPa.Length + 1;

    private static VolatilePart PartOf(VesselPoint point, int index) => index < point.Mixing.Length ? point.Mixing[index] : point.Apart[index - point.Mixing.Length];

    /// <summary>The sum of the partial pressures in Pa, which fill the room in the order of <see cref="Count"/>; perMol is what a mol of gas presses with in what is free.</summary>
    private static double Total(VesselPoint point, double gasMol, double perMol, Span<double> pascal)
    {
        var volatiles = point.Mixing.Length + point.Apart.Length;
        var gas = gasMol * perMol;
        var total = gas;
        for (var i = 0; i < volatiles; i++)
        {
            var part = PartOf(point, i);
            pascal[i] = part.PastCritical ? part.Mol * perMol : Math.Min(part.Mol * perMol, part.SaturationPa);
            total += pascal[i];
        }

        for (var i = 0; i < point.DissolvedPa.Length; i++)
        {
            pascal[volatiles + i] = Math.Min(point.Charge.Dissolved[i].Mol * perMol, point.DissolvedPa[i]);
            total += pascal[volatiles + i];
        }

        pascal[^1] = gas;
        if (gasMol > 0)
        {
            var ceiling = LiquidFull.CeilingPa(point, total - gas, gasMol, [], [], 0);
            pascal[^1] = Math.Min(gas, ceiling - (total - gas));
            total = Math.Min(total, ceiling);
        }

        return total;
    }

    internal static string Names(IEnumerable<Substance> substances) => string.Join(", ", substances.Select(s => s.Identity.Name));
}
