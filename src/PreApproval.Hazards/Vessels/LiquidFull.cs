using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// The vessel that its liquid fills, or nearly fills. Full: the pressure of the compressed liquid (<see cref="CompressedLiquid"/>) with the trapped gas squeezed
/// beside it. Nearly full: a liquid that gave way to no pressure would squeeze the gas without bound, so the pressure is held at that of the liquid
/// that does give way, raised by 5 % for each per cent of the vessel still free. So the curve stays finite, continuous and rising.
/// </summary>
internal static class LiquidFull
{
    // In emptier vessels the liquid gives way by less than any correlation of its volume is accurate to.
    private const double NearlyFullFree = 0.2;
    private const double MarginPerFree = 5;

    /// <summary>The state of a vessel whose liquid, at saturation, takes at least its volume.</summary>
    public static ModelState Solve(VesselModel model, VesselPoint point, double vapourPa, double gasMol)
    {
        var answer = Compressed(point, vapourPa, gasMol, null, 0);
        return new ModelState
        {
            Model = model,
            Phase = VesselPhase.LiquidFull,
            PressurePaAbs = answer.Pascal,
            Because = answer.Pascal is null
                ? $"the liquid fills the vessel: there is no gas space left and the pressure rises steeply with temperature; {answer.Because}"
                : "the liquid fills the vessel: there is no gas space left and the pressure rises steeply with temperature",
            LiquidVolumeFraction = 1,
            Sources = [.. point.Sources.Union(answer.Sources, StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Quality = VesselPoint.Worse(point.Quality, Quality.Estimated),
        };
    }

    /// <summary>Highest pressure in Pa that the giving way of the liquid allows, or infinity where the vessel is not nearly full or no model tells.</summary>
    /// <param name="point">The charge at its temperature.</param>
    /// <param name="vapourPa">Pressure of the vapours, in Pa.</param>
    /// <param name="gasMol">Gas in mol.</param>
    /// <param name="partialPa">Partial pressures in Pa by key, or null: everything counts as condensed.</param>
    /// <param name="molPerPa">Amount of vapour in mol for each Pa of partial pressure.</param>
    public static double CeilingPa(VesselPoint point, double vapourPa, double gasMol, SpeciesValues? partialPa, double molPerPa)
    {
        var free = 1 - (point.CondensedM3 / point.Charge.VolumeM3);
        return free < NearlyFullFree && gasMol > 0 && point.PastCritical.Count == 0 && Compressed(point, vapourPa, gasMol, partialPa, molPerPa).Pascal is { } pascal
            ? pascal * (1 + (MarginPerFree * free))
            : double.PositiveInfinity;
    }

    private static CompressedLiquidPressure Compressed(VesselPoint point, double vapourPa, double gasMol, SpeciesValues? partialPa, double molPerPa)
    {
        var liquids = new List<LiquidAmount>();
        foreach (var (substance, mol) in point.Charge.Mixing.Concat(point.Charge.Apart))
        {
            liquids.Add(new LiquidAmount(substance, Math.Max(mol - ((partialPa?.GetValueOrDefault(substance.Key) ?? 0) * molPerPa), 0)));
        }

        return CompressedLiquid.PressureAt(liquids, point.Charge.VolumeM3, point.TemperatureK, vapourPa, gasMol, point.RoomM3);
    }
}
