using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Exploring;

/// <summary>
/// What the group's inventory holds is not another vessel because somebody tries numbers on it: another kind, volume or rating makes a vessel
/// of its own, with a short name that the inventory does not have.
/// </summary>
public static class ListedVessels
{
    /// <summary>What goes along to the vessel that is tried; the inspection and what shows the rating stay with the one that was inspected.</summary>
    private static readonly string[] Copied = ["volume", "rating", "maximumTemperature", "closure", "relief", "glassTube", "parts"];

    /// <summary>The vessel of the inventory that the step uses; null: none.</summary>
    public static ListedVessel? Find(ExploredPlan plan, StepState state, GroupInventory inventory)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(inventory);
        return plan.Document is { } document ? inventory.Find(document.Vessels[state.VesselIndex]) : null;
    }

    /// <summary>True where what is tried is not the vessel as it is planned.</summary>
    public static bool IsAnother(StepState planned, ExploredValues values)
    {
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(values);
        return values.Kind is not null || Differs(values.VolumeML, planned.Vessel.VolumeM3 * 1e6) || Differs(values.RatingBarGauge, planned.Vessel.RatingPaGauge / 1e5);
    }

    /// <summary>A short name that neither the document nor the inventory has.</summary>
    public static string NameFor(string id, ProcedureDocument document, GroupInventory inventory)
    {
        ArgumentNullException.ThrowIfNull(document);
        ArgumentNullException.ThrowIfNull(inventory);
        return Enumerable.Range(1, int.MaxValue)
            .Select(n => n == 1 ? $"{id}-other" : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{id}-other-{n}"))
            .First(name => !document.Vessels.Any(vessel => NameSpelling.Same(vessel.Id, name)) && !inventory.Vessels.Any(listed => NameSpelling.Same(listed.Entry.Label, name)));
    }

    /// <summary>Values of the vessel that only the inventory gave, as members of a document.</summary>
    public static IEnumerable<(string Member, JsonNode Value)> Open(JsonObject row, ProcedureDocument completed, int vessel)
    {
        ArgumentNullException.ThrowIfNull(row);
        ArgumentNullException.ThrowIfNull(completed);
        JsonObject full = DocumentWriter.ToJson(completed.Vessels[vessel]);
        return Copied.Where(member => row[member] is null && full[member] is not null).Select(member => (member, full[member]!.DeepClone()));
    }

    private static bool Differs(double? tried, double? planned) => tried is { } value && (planned is not { } was || Math.Abs(value - was) > 1e-9 * Math.Abs(was));
}
