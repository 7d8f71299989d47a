using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Substances;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>Writes what the inventory says of a vessel or a place into the draft under the editor's hands.</summary>
public static class InventoryFilling
{
    /// <summary>What the inventory decides of a vessel; the closure may be another each time.</summary>
    private static readonly string[] Governed = ["volume", "rating", "ratingEvidence", "maximumTemperature", "inspectedOn", "relief", "glassTube", "parts"];

    /// <summary>Fills the row of the vessel, or adds one.</summary>
    public static void Vessel(EditedDocument document, ListedVessel listed)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(listed);
        JsonObject known = DocumentWriter.ToJson(listed.Entry.Vessel);
        if (DocumentText.Rows(document.Root, "vessels").FirstOrDefault(row => NameSpelling.Same(DocumentText.Text(row, "id"), listed.Entry.Label)) is not { } present)
        {
            document.AddRow(document.Root, "vessels", known);
            return;
        }

        foreach (string member in Governed)
        {
            present.Remove(member);
        }

        // The short name stays: steps refer to it.
        foreach ((string member, JsonNode? value) in known.Where(static member => member.Key is not "id").ToArray())
        {
            present[member] = value?.DeepClone();
        }

        document.Reshape();
    }

    /// <summary>Fills the place and the agents on hand there.</summary>
    public static void Place(EditedDocument document, ListedPlace listed)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(listed);
        document.Root["place"] = DocumentWriter.ToJson(listed.Entry.Place);
        if (listed.Agents.Count > 0)
        {
            document.Set(document.Root, "fireResponse/agents", new JsonArray([.. listed.Agents.Select(static agent => JsonValue.Create(ExtinguishingAgents.Name(agent)))]));
        }

        document.Reshape();
    }
}
