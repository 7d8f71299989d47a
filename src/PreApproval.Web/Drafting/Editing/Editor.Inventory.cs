using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Fire;
using PreApproval.Web.Inventory;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>Vessels and places of the group's inventory, for the draft.</summary>
public sealed partial class Editor
{
    private IReadOnlyList<(Guid Id, string Words)> VesselOptions =>
        [.. _document!.Inventory.Vessels.Where(static vessel => vessel.Retired is null).Select(static vessel => (vessel.Id, InventoryWords.Line(vessel.Entry)))];

    private IReadOnlyList<(Guid Id, string Words)> PlaceOptions =>
        [.. _document!.Inventory.Places.Select(static place => (place.Id, $"{place.Entry.Name}, {place.Entry.KindWord}"))];

    private ListedPlace? Place => _document!.Inventory.Find(new PlaceEntry(DocumentText.Text(Root, "place/name"), null, null, null));

    /// <summary>What is on hand at the place, and what the draft names beyond it; null: the inventory does not say.</summary>
    private string? AgentsHint
    {
        get
        {
            if (Place is not { Agents.Count: > 0 } place)
            {
                return null;
            }

            string[] onHand = [.. place.Agents.Select(ExtinguishingAgents.Name)];
            string[] beyond = [.. DocumentText.Texts(Root, "fireResponse/agents").Where(agent => !onHand.Contains(agent, StringComparer.Ordinal))];
            return $"On hand at {place.Entry.Name} by the inventory: {string.Join(", ", onHand)}."
                + (beyond.Length == 0 ? "" : $" Not on hand there: {string.Join(", ", beyond)}; bring it, or enter it at the place.");
        }
    }

    private string TakeVessel(Guid id)
    {
        if (_document!.Inventory.Vessels.FirstOrDefault(vessel => vessel.Id == id) is not { } listed)
        {
            return "The inventory does not have it any more.";
        }

        InventoryFilling.Vessel(_document, listed);
        return listed.Entry.OutOfService is null ? $"{listed.Entry.Label} was taken over." : $"{listed.Entry.Label} was taken over; it is out of service.";
    }

    private string UsePlace(Guid id)
    {
        if (_document!.Inventory.Places.FirstOrDefault(place => place.Id == id) is not { } listed)
        {
            return "The inventory does not have it any more.";
        }

        InventoryFilling.Place(_document, listed);
        return listed.Agents.Count == 0
            ? $"{listed.Entry.Name} was taken over. No extinguishing agent is entered there."
            : $"{listed.Entry.Name} was taken over, with what is on hand there: {string.Join(", ", listed.Agents.Select(ExtinguishingAgents.Name))}.";
    }
}
