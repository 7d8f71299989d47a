using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// Pressure on a cylinder of borosilicate glass 3.3 by EN 1595 with the permissible stress K/S = 7 N/mm²: p = 140 s/(d − s), p in bar, lengths alike. For an unscratched, stress-free
/// cylinder at even temperature; scratches take a half to four fifths of the strength (common practice). Caps, septa and seals usually give way first. The mark on the vessel wins over the formula.
/// </summary>
public static class GlassStrength
{
    /// <summary>What counts of the formula where the glass is not known to be annealed: a flame leaves stress in it. Common practice, no source.</summary>
    public const double UnknownAnnealing = 0.5;

    /// <summary>Share of the outside diameter up to which a wall is credible: a bore of a tenth of it. Common practice, no source.</summary>
    public const double MostWallShare = 0.45;

    private const double TwiceStressBar = 140;

    /// <summary>What counts of the formula for a tube.</summary>
    public static double Share(GlassTube tube)
    {
        ArgumentNullException.ThrowIfNull(tube);
        return tube.Annealed ? 1 : UnknownAnnealing;
    }

    /// <summary>Gauge pressure in Pa that counts for a tube.</summary>
    public static double RatingPa(GlassTube tube) => Share(tube) * PermissiblePa(tube.OuterDiameterM, tube.WallM);

    /// <summary>
    /// The rating in Pa gauge that a vessel has by its wall where no lower one is stated: what is sealed in the flame bears no mark. Null where its kind is not rated by the wall alone, or the wall is not given.
    /// </summary>
    public static double? OfWall(Vessel vessel)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        return vessel.GlassTube is { } tube && VesselKinds.TypicalOf(vessel.Kind) is { RatedByWall: true } && RatingPa(tube) is var wall && !(wall > vessel.RatingPaGauge) ? wall : null;
    }

    /// <summary>For a sentence: by which wall a tube is rated, and what counts of it, for instance <c>by its wall of 2 mm at 20 mm (EN 1595, annealed)</c>.</summary>
    public static string Basis(GlassTube tube)
    {
        ArgumentNullException.ThrowIfNull(tube);
        return $"by its wall of {Wording.Text(Math.Round(tube.WallM * 1e3, 2))} mm at {Wording.Text(Math.Round(tube.OuterDiameterM * 1e3, 2))} mm (EN 1595{(tube.Annealed ? ", annealed" : ", halved: it is not stated to be annealed")})";
    }

    /// <summary>The wall in m that makes a tube hold a gauge pressure in Pa; null where no wall does.</summary>
    public static double? NeededWallM(GlassTube tube, double pressurePaGauge) =>
        pressurePaGauge / Share(tube) is var full && full < TwiceStressBar * 1e5 && WallM(tube.OuterDiameterM, full) is var wall && wall < tube.OuterDiameterM / 2 ? wall : null;

    /// <summary>Permissible gauge pressure in Pa of a cylinder.</summary>
    /// <param name="outerDiameterM">Outer diameter in m.</param>
    /// <param name="wallM">Wall in m, above 0 and below half the diameter.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wall does not fit the diameter.</exception>
    public static double PermissiblePa(double outerDiameterM, double wallM)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(wallM);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(wallM, outerDiameterM / 2);
        return TwiceStressBar * wallM / (outerDiameterM - wallM) * 1e5;
    }

    /// <summary>Wall in m needed for a gauge pressure in Pa: s = d p/(140 + p).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Diameter not above 0, pressure below 0, or a pressure that no wall of a tube holds (from 140 bar on).</exception>
    public static double WallM(double outerDiameterM, double pressurePaGauge)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(outerDiameterM);
        ArgumentOutOfRangeException.ThrowIfNegative(pressurePaGauge);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(pressurePaGauge, TwiceStressBar * 1e5);
        var bar = pressurePaGauge / 1e5;
        return outerDiameterM * bar / (TwiceStressBar + bar);
    }
}
