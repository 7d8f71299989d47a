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
        var answer = Compressed(point, vapourPa, gasMol, [], [], 0);
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
    /// <param name="mixing">The liquids that <paramref name="partialPa"/> begins with; what stands apart follows.</param>
    /// <param name="partialPa">Partial pressures in Pa, or nothing: everything counts as condensed.</param>
    /// <param name="molPerPa">Amount of vapour in mol for each Pa of partial pressure.</param>
    public static double CeilingPa(VesselPoint point, double vapourPa, double gasMol, VolatilePart[] mixing, ReadOnlySpan<double> partialPa, double molPerPa)
    {
        var free = 1 - (point.CondensedM3 / point.Charge.VolumeM3);
        return free < NearlyFullFree && gasMol > 0 && point.PastCritical.Count == 0 && Compressed(point, vapourPa, gasMol, mixing, partialPa, molPerPa).Pascal is { } pascal
            ? pascal * (1 + (MarginPerFree * free))
            : double.PositiveInfinity;
    }

    private static CompressedLiquidPressure Compressed(VesselPoint point, double vapourPa, double gasMol, VolatilePart[] mixing, ReadOnlySpan<double> partialPa, double molPerPa)
    {
        var liquids = new List<LiquidAmount>(point.Mixing.Length + point.Apart.Length);
        foreach (var (substance, mol) in point.Charge.Mixing)
        {
            var index = Array.FindIndex(mixing, part => string.Equals(part.Key, substance.Key, StringComparison.Ordinal));
            liquids.Add(new LiquidAmount(substance, Math.Max(mol - ((index < 0 || partialPa.IsEmpty ? 0 : partialPa[index]) * molPerPa), 0)));
        }

        for (var i = 0; i < point.Charge.Apart.Length; i++)
        {
            var (substance, mol) = point.Charge.Apart[i];
            liquids.Add(new LiquidAmount(substance, Math.Max(mol - ((partialPa.IsEmpty ? 0 : partialPa[mixing.Length + i]) * molPerPa), 0)));
        }

        return CompressedLiquid.PressureAt(liquids, point.Charge.VolumeM3, point.TemperatureK, vapourPa, gasMol, point.RoomM3);
    }
}
