using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Inventory;

/// <summary>A vessel of the inventory in one of its versions.</summary>
/// <param name="Id">Its identifier in the inventory.</param>
/// <param name="Version">Counts up with each change, from 1.</param>
/// <param name="ChangedBy">Who made this version.</param>
/// <param name="Retired">Why it was taken out of the inventory; null: it is in it.</param>
/// <param name="Entry">What that version says.</param>
public sealed record ListedVessel(Guid Id, int Version, string ChangedBy, string? Retired, InventoryVessel Entry);

/// <summary>A place of the inventory in one of its versions, with what is on hand there.</summary>
/// <param name="Id">Its identifier in the inventory.</param>
/// <param name="Version">Counts up with each change, from 1.</param>
/// <param name="Entry">What that version says.</param>
/// <param name="Agents">Extinguishing agents on hand, each once, in the order of the list of agents; empty: none was entered.</param>
public sealed record ListedPlace(Guid Id, int Version, InventoryPlace Entry, IReadOnlyList<Agent> Agents);

/// <summary>A group's vessels and places, all of them or those that one document names.</summary>
public sealed record GroupInventory(IReadOnlyList<ListedVessel> Vessels, IReadOnlyList<ListedPlace> Places)
{
    public static GroupInventory Empty { get; } = new([], []);

    /// <summary>How many months an inspection counts in this group.</summary>
    public double InspectionMonths { get; init; } = Policy.Default.InspectionMonths;

    /// <summary>
    /// The vessel that a vessel of a document is: the same label and the same kind, letter case, spaces and hyphens aside. One that is in the
    /// inventory goes before one that was taken out of it.
    /// </summary>
    public ListedVessel? Find(VesselEntry vessel)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        return Vessels.Where(listed => NameSpelling.Same(listed.Entry.Label, vessel.Id) && NameSpelling.Same(listed.Entry.Vessel.Kind, vessel.Kind))
            .OrderBy(static listed => listed.Retired is not null)
            .FirstOrDefault();
    }

    /// <summary>The place that a document names.</summary>
    public ListedPlace? Find(PlaceEntry? place) =>
        place?.Name is { } name ? Places.FirstOrDefault(listed => NameSpelling.Same(listed.Entry.Name, name)) : null;
}
