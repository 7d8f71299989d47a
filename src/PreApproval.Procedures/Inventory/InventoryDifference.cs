using System.Globalization;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Inventory;

/// <summary>What changed between two versions of an entry of the inventory, in words for the history.</summary>
internal static class InventoryDifference
{
    /// <summary>Both of one kind; the places of an agent are named by what they are called.</summary>
    public static string Words(InventoryContent before, InventoryContent after, string placeBefore = "", string placeAfter = "") => Differences.Words(
        Members(before, placeBefore).Zip(Members(after, placeAfter), static (old, now) => (old.Name, old.Value, now.Value)),
        "nothing that is shown");

    /// <summary>What an entry says beyond its name, for somebody who looks before it is added.</summary>
    public static string Values(InventoryContent content) =>
        string.Join("; ", Members(content, "").Where(static member => member.Value.Length > 0 && member.Name is not ("label" or "name")).Select(static member => $"{member.Name} {member.Value}"));

    private static (string Name, string Value)[] Members(InventoryContent content, string placeOfAgent) => content switch
    {
        InventoryVessel vessel =>
        [
            ("label", vessel.Label),
            ("kind", vessel.Vessel.Kind),
            ("volume", Differences.Words(vessel.Vessel.Volume)),
            ("rating", Differences.Words(vessel.Vessel.Rating)),
            ("evidence of the rating", vessel.Vessel.RatingEvidence ?? ""),
            ("maximum temperature", Differences.Words(vessel.Vessel.MaximumTemperature)),
            ("closure", vessel.Vessel.Closure ?? ""),
            ("inspected on", Differences.Words(vessel.Vessel.InspectedOn)),
            ("relief device", vessel.Vessel.Relief?.DeviceWord ?? ""),
            ("relief set", Differences.Words(vessel.Vessel.Relief?.Set)),
            ("outside diameter", Millimetres(vessel.Vessel.GlassTube?.OutsideDiameterMm)),
            ("wall", Millimetres(vessel.Vessel.GlassTube?.WallMm)),
            ("annealed", vessel.Vessel.GlassTube?.Annealed is { } annealed ? annealed ? "yes" : "no" : ""),
            ("parts", string.Join("; ", (vessel.Vessel.Parts ?? []).Select(Part))),
            ("out of service", vessel.OutOfService ?? ""),
            ("note", vessel.Note ?? ""),
        ],
        InventoryPlace place =>
        [
            ("name", place.Name),
            ("kind", place.KindWord),
            ("room volume", Differences.Words(place.Place.RoomVolume)),
            ("air flow", Differences.Words(place.Place.AirFlow)),
            ("note", place.Note ?? ""),
        ],
        InventoryAgent agent =>
        [
            ("agent", agent.Called),
            ("place", placeOfAgent),
            ("count and size", agent.Size ?? ""),
            ("checked on", Differences.Words(agent.CheckedOn)),
            ("note", agent.Note ?? ""),
        ],
        _ => throw new InvalidOperationException($"{content.GetType().Name} is no entry of an inventory."),
    };

    private static string Millimetres(double? value) => value is { } mm ? string.Create(CultureInfo.InvariantCulture, $"{mm} mm") : "";

    private static string Part(VesselPartEntry part) => string.Join(", ", ((string[])[part.Part, Differences.Words(part.Rating), Differences.Words(part.MaximumTemperature)]).Where(static words => words.Length > 0));
}
