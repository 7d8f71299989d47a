using System.Text.Json;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Vessels;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Shared;

/// <summary>The rating of a vessel that its glass wall rates, as the screening takes it. Grounds: docs/methods/ratings.md.</summary>
/// <param name="PaGauge">In Pa above the atmosphere.</param>
/// <param name="Basis">For instance <c>by its wall of 2 mm at 20 mm (EN 1595, annealed)</c>.</param>
public sealed record WallRating(double PaGauge, string Basis)
{
    private const double PascalPerBar = 1e5;

    public double BarGauge => PaGauge / PascalPerBar;

    /// <summary>For instance <c>15.6 bar(g)</c>.</summary>
    public string Bar => $"{Words.Figures(BarGauge)} bar(g)";

    /// <summary>Null where the wall does not rate it.</summary>
    public static WallRating? Of(Vessel vessel) => vessel is { GlassTube: { } tube } && GlassStrength.OfWall(vessel) is { } rating
        ? new WallRating(rating, GlassStrength.Basis(tube))
        : null;

    public static WallRating? Of(VesselEntry vessel)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        return Of(vessel.Kind, vessel.GlassTube?.OutsideDiameterMm, vessel.GlassTube?.WallMm, vessel.GlassTube?.Annealed, vessel.Rating?.PaGauge);
    }

    /// <summary>The same of a vessel as it stands in a document, complete or not.</summary>
    public static WallRating? Of(JsonObject vessel) =>
        Of(DocumentText.Text(vessel, "kind"), Number(vessel, "glassTube/outsideDiameterMm"), Number(vessel, "glassTube/wallMm"), DocumentText.Flag(vessel, "glassTube/annealed"), Stated(vessel));

    private static WallRating? Of(string kind, double? outsideMm, double? wallMm, bool? annealed, double? statedPaGauge) =>
        outsideMm is { } outside && wallMm is > 0 and { } wall && wall < outside / 2
            ? Of(new Vessel { Id = "", Kind = kind, RatingPaGauge = statedPaGauge, GlassTube = new GlassTube(outside * 1e-3, wall * 1e-3, annealed is true) })
            : null;

    private static double? Stated(JsonObject vessel) =>
        Number(vessel, "rating/value") is { } value && DocumentText.Text(vessel, "rating/unit") is var unit && UnitTable.TryFind(unit, out Unit? known) && known.Dimension == Dimension.Pressure
            ? new Quantity(value, unit).PaGauge
            : null;

    private static double? Number(JsonObject vessel, string path) =>
        DocumentText.At(vessel, path) is JsonValue value && value.GetValueKind() == JsonValueKind.Number && value.TryGetValue(out double number) ? number : null;
}
