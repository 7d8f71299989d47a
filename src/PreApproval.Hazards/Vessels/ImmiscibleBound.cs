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
        var partial = new SpeciesValues(point.Mixing.Length + point.Apart.Length + point.DissolvedPa.Length + 1);
        double total = gasMol * perMol;
        var liquid = point.Charge.TakesRoomAsLiquid;
        var held = point.CondensedM3;
        for (var i = 0; i < point.Mixing.Length + point.Apart.Length; i++)
        {
            var part = i < point.Mixing.Length ? point.Mixing[i] : point.Apart[i - point.Mixing.Length];
            var all = part.Mol * perMol;
            var pressure = Pressure(part, perMol);
            liquid |= pressure < all;
            held -= pressure / perMol * part.M3PerMol;
            partial[part.Key] = pressure;
            total += pressure;
        }

        for (var i = 0; i < point.DissolvedPa.Length; i++)
        {
            var part = point.Charge.Dissolved[i];
            var pressure = Math.Min(part.Mol * perMol, point.DissolvedPa[i]);
            liquid |= pressure < part.Mol * perMol;
            held -= pressure / perMol * point.DissolvedM3PerMol[i];
            partial[part.Substance.Key] = pressure;
            total += pressure;
        }

        if (gasMol > 0)
        {
            var gas = gasMol * perMol;
            var ceiling = LiquidFull.CeilingPa(point, total - gas, gasMol, [], [], 0);
            partial["headspace"] = Math.Min(gas, ceiling - (total - gas));
            total = Math.Min(total, ceiling);
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

        var perMol = GasConstant * point.TemperatureK / free;
        var total = gasMol * perMol;
        for (var i = 0; i < point.Mixing.Length + point.Apart.Length; i++)
        {
            total += Pressure(i < point.Mixing.Length ? point.Mixing[i] : point.Apart[i - point.Mixing.Length], perMol);
        }

        for (var i = 0; i < point.DissolvedPa.Length; i++)
        {
            total += Math.Min(point.Charge.Dissolved[i].Mol * perMol, point.DissolvedPa[i]);
        }

        return gasMol > 0 ? Math.Min(total, LiquidFull.CeilingPa(point, total - (gasMol * perMol), gasMol, [], [], 0)) : total;
    }

    private static double Pressure(VolatilePart part, double perMol) => part.PastCritical ? part.Mol * perMol : Math.Min(part.Mol * perMol, part.SaturationPa);

    internal static string Names(IEnumerable<Substance> substances) => string.Join(", ", substances.Select(s => s.Identity.Name));
}
