using System.Globalization;

namespace PreApproval.Documents.Inventory;

/// <summary>Relief device and glass wall of a vessel in a document, held against those that the inventory has.</summary>
internal static class InventoryFittings
{
    private const string NotGiven = "not given";

    /// <summary>The measures of the document, or those of the inventory; whether the tube is annealed also where only that is left open.</summary>
    public static GlassTubeEntry? Filled(GlassTubeEntry? stated, GlassTubeEntry? known) => (stated, known) switch
    {
        (null, _) => known,
        ({ Annealed: null }, { Annealed: { } annealed }) when Same(stated, known) => stated with { Annealed = annealed },
        _ => stated,
    };

    /// <summary>Members that the document states otherwise than the inventory: what stands here, and what there.</summary>
    public static IEnumerable<(string Path, string Here, string There)> Differences(VesselEntry vessel, VesselEntry known)
    {
        if (vessel.Relief is { } relief)
        {
            if (relief.Device is not null && relief.Device != known.Relief?.Device)
            {
                yield return ("/relief/device", relief.DeviceWord, known.Relief?.DeviceWord ?? NotGiven);
            }

            if (!InventoryUse.Agree(relief.Set, known.Relief?.Set))
            {
                yield return ("/relief/set", InventoryUse.Words(relief.Set), InventoryUse.Words(known.Relief?.Set));
            }
        }

        if (vessel.GlassTube is { } tube)
        {
            if (!Agree(tube.OutsideDiameterMm, known.GlassTube?.OutsideDiameterMm))
            {
                yield return ("/glassTube/outsideDiameterMm", Millimetres(tube.OutsideDiameterMm), Millimetres(known.GlassTube?.OutsideDiameterMm));
            }

            if (!Agree(tube.WallMm, known.GlassTube?.WallMm))
            {
                yield return ("/glassTube/wallMm", Millimetres(tube.WallMm), Millimetres(known.GlassTube?.WallMm));
            }

            if (tube.Annealed is { } annealed && annealed != known.GlassTube?.Annealed)
            {
                yield return ("/glassTube/annealed", Annealed(annealed), Annealed(known.GlassTube?.Annealed));
            }
        }
    }

    private static bool Same(GlassTubeEntry one, GlassTubeEntry other) => Agree(one.OutsideDiameterMm, other.OutsideDiameterMm) && Agree(one.WallMm, other.WallMm);

    private static bool Agree(double? stated, double? known) => stated is not { } here || (known is { } there && InventoryUse.Same(here, there));

    private static string Millimetres(double? value) => value is { } mm ? string.Create(CultureInfo.InvariantCulture, $"{mm} mm") : NotGiven;

    private static string Annealed(bool? value) => value switch
    {
        true => "annealed",
        false => "not annealed",
        null => NotGiven,
    };
}
