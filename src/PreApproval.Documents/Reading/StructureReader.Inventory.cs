using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Plans;

namespace PreApproval.Documents.Reading;

internal sealed partial class StructureReader
{
    /// <summary>An entry of a group's inventory; null where it is no object.</summary>
    public InventoryContent? Inventory(InventoryKind kind, JsonTree root) => kind switch
    {
        InventoryKind.Vessel => InventoryVessel(root),
        InventoryKind.Place => InventoryPlace(root),
        InventoryKind.Agent => InventoryAgent(root),
    };

    private InventoryVessel? InventoryVessel(JsonTree root)
    {
        var reader = new ObjectReader(root, "", "a vessel as an object", faults);
        VesselEntry vessel = Vessel(reader, "label", "give the label that stands on the vessel", Documents.Inventory.InventoryVessel.MostParts);
        var entry = new InventoryVessel
        {
            Vessel = vessel with { Id = vessel.Id.Trim(), Kind = vessel.Kind.Trim() },
            OutOfService = reader.Text("outOfService", TextLimit.Line)?.Trim(),
            Note = reader.Text("note", TextLimit.Note),
        };
        reader.End();
        return reader.IsObject ? entry : null;
    }

    private InventoryPlace? InventoryPlace(JsonTree root)
    {
        var reader = new ObjectReader(root, "", "a place as an object", faults);
        var entry = new InventoryPlace
        {
            Place = new PlaceEntry(
                reader.Text("name", TextLimit.Line, "give the name the place is known by")?.Trim(),
                reader.Word("kind", Words.PlaceKinds, $"one of {Shown.Choice(Words.PlaceKinds.All)}"),
                reader.Quantity("roomVolume", MemberUnits.RoomVolume),
                reader.Quantity("airFlow", MemberUnits.AirFlow)),
            Note = reader.Text("note", TextLimit.Note),
        };
        reader.End();
        return reader.IsObject ? entry : null;
    }

    private InventoryAgent? InventoryAgent(JsonTree root)
    {
        var reader = new ObjectReader(root, "", "an extinguishing agent as an object", faults);
        string? place = reader.Text("place", TextLimit.Identifier, "name the place by its identifier");
        if (place is not null && !Guid.TryParseExact(place, "D", out _))
        {
            faults.Invalid(reader.PathOf("place"), "must be the identifier of a place, for instance 0198c0de-0000-7000-8000-000000000000");
        }

        var entry = new InventoryAgent
        {
            Place = Guid.TryParseExact(place, "D", out Guid id) ? id : Guid.Empty,
            Agent = reader.Word("agent", Words.Agents, $"one of {Shown.Choice(Words.Agents.All)}") ?? Agent.Water,
            Size = reader.Text("size", TextLimit.Line)?.Trim(),
            CheckedOn = reader.Date("checkedOn"),
            Note = reader.Text("note", TextLimit.Note),
        };
        reader.End();
        return reader.IsObject ? entry : null;
    }
}
