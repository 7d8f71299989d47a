using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Vessels;

/// <summary>The rating that governs a vessel: the weakest of vessel, closure, seal and fittings.</summary>
/// <param name="PaGauge">Gauge pressure in Pa; null: unknown, which counts as zero.</param>
/// <param name="Of">Whose rating it is, in words.</param>
/// <param name="Path">JSON Pointer to it.</param>
internal sealed record GoverningRating(double? PaGauge, string Of, string Path)
{
    public static GoverningRating For(Vessel vessel, int vesselIndex)
    {
        var all = new List<GoverningRating> { new(vessel.RatingPaGauge, $"“{vessel.Id}”", Pointer(vesselIndex, "rating")) };
        all.AddRange(vessel.Parts.Select((part, index) =>
            new GoverningRating(part.RatingPaGauge, $"the {part.Name} of “{vessel.Id}”", Pointer(vesselIndex, $"parts/{index.ToString(CultureInfo.InvariantCulture)}/rating"))));
        return all.Find(static rating => rating.PaGauge is null) ?? all.MinBy(static rating => rating.PaGauge!.Value)!;
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

    private static string Pointer(int vesselIndex, string member) => $"/vessels/{vesselIndex.ToString(CultureInfo.InvariantCulture)}/{member}";
}
