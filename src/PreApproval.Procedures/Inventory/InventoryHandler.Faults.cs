using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Hazards.Substances;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Inventory;

/// <summary>What is wrong with an entry, told at once: mending goes once through the form, not once for each kind of fault.</summary>
public sealed partial class InventoryHandler
{
    /// <summary>All that is wrong with an entry by itself, its name that is taken and its inspection that has not been included; without <paramref name="id"/> as a new one. Keeps nothing.</summary>
    public async Task<IReadOnlyList<Fault>> FaultsAsync(Actor actor, InventoryKind kind, Guid? id, ReadOnlyMemory<byte> entry, CancellationToken cancellationToken) =>
        MayWrite(actor) ? (await AllWrongAsync(actor, kind, id, entry, InventoryDocument.Read(kind, entry), cancellationToken)).Faults : [];

    private static IReadOnlyList<Fault> Unless(IReadOnlyList<Fault> told, Fault? other) =>
        other is null || told.Any(fault => string.Equals(fault.Path, other.Path, StringComparison.Ordinal)) ? told : [.. told, other];

    private bool IsAhead(InventoryContent content) => content is InventoryVessel vessel && InventoryUse.InspectionFault(vessel.Vessel, Today) is not null;

    private DateOnly Today => DateOnly.FromDateTime(clock.GetUtcNow().UtcDateTime);

    private async Task<DocumentRefusal> AllWrongAsync(Actor actor, InventoryKind kind, Guid? id, ReadOnlyMemory<byte> entry, Result<InventoryContent, DocumentRefusal> read, CancellationToken cancellationToken)
    {
        DocumentRefusal refusal = read.IsOk ? new DocumentRefusal(DocumentRefusalKind.Invalid, []) : read.Error;
        if (refusal.Kind != DocumentRefusalKind.Invalid || Parsed(entry) is not { } json)
        {
            return refusal;
        }

        IReadOnlyList<Fault> faults = refusal.Faults;
        if (kind == InventoryKind.Vessel && DateOnly.TryParseExact(Text(json, "inspectedOn"), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out DateOnly inspected))
        {
            faults = Unless(faults, InventoryUse.InspectionFault(new VesselEntry { Id = "", Kind = "", InspectedOn = inspected }, Today));
        }

        if (kind != InventoryKind.Agent && Text(json, kind == InventoryKind.Vessel ? "label" : "name") is { Length: > 0 } name)
        {
            Refusal? clash = await ClashAsync(actor.GroupId, kind, id, NameSpelling.Of(name), cancellationToken);
            faults = Unless(faults, clash?.Faults[0]);
        }

        return refusal with { Faults = faults };
    }

    private static JsonObject? Parsed(ReadOnlyMemory<byte> entry)
    {
        try
        {
            return JsonNode.Parse(entry.Span) as JsonObject;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static string Text(JsonObject json, string member) => json[member] is JsonValue value && value.TryGetValue(out string? text) ? text.Trim() : "";
}
