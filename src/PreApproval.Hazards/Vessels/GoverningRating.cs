using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Vessels;

/// <summary>The rating that governs a vessel: the weakest of vessel, closure, seal and fittings.</summary>
/// <param name="PaGauge">Gauge pressure in Pa; null: unknown, which counts as zero.</param>
/// <param name="Vessel">The vessel.</param>
/// <param name="VesselIndex">Its place in the plan.</param>
/// <param name="Part">Whose rating it is: the place of the part; null: the vessel's own.</param>
internal sealed record GoverningRating(double? PaGauge, Vessel Vessel, int VesselIndex, int? Part)
{
    /// <summary>Whose rating it is, in words.</summary>
    public string Of => Part is { } part ? $"the {Vessel.Parts[part].Name} of “{Vessel.Id}”" : $"“{Vessel.Id}”";

    /// <summary>JSON Pointer to it.</summary>
    public string Path => Part is { } part
        ? string.Create(CultureInfo.InvariantCulture, $"/vessels/{VesselIndex}/parts/{part}/rating")
        : string.Create(CultureInfo.InvariantCulture, $"/vessels/{VesselIndex}/rating");

    public static GoverningRating For(Vessel vessel, int vesselIndex)
    {
        var (weakest, of) = (vessel.RatingPaGauge, (int?)null);
        for (var part = 0; part < vessel.Parts.Count && weakest is not null; part++)
        {
            if (!(vessel.Parts[part].RatingPaGauge >= weakest))
            {
                (weakest, of) = (vessel.Parts[part].RatingPaGauge, part);
            }
        }

        return new GoverningRating(weakest, vessel, vesselIndex, of);
    }

    /// <summary>Share of the rating above which there is a warning, by what the vessel is made of.</summary>
    public static double WarningShare(Vessel vessel, Policy policy) => VesselKinds.MaterialOf(vessel.Kind) switch
    {
        VesselMaterial.Metal => policy.WarningShareMetal,
        VesselMaterial.Glass or VesselMaterial.Plastic => policy.WarningShareGlass,
    };

    /// <summary>Gauge pressure in Pa below which the vessel is no finding.</summary>
    public double QuietLimitPaGauge(Vessel vessel, Policy policy) =>
        PaGauge is { } rating and > 0 ? rating * Math.Min(WarningShare(vessel, policy), policy.DangerShare) : policy.UnratedNothingPa;
}
