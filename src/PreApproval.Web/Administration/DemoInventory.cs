using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Drafting;
using PreApproval.Web.Drafting.Editing;

namespace PreApproval.Web.Administration;

/// <summary>The demo group's inventory. Vessels, places and agents are invented, and say so. Its dates are those of the samples, and move with them to the day on which the demo is made.</summary>
public static class DemoInventory
{
    private const string Tube = "T-07";

    private const string Hood = "Hood 12, room 2.14 (invented)";

    private static readonly string[] Vessels =
    [
        """
        { "label": "T-07", "kind": "thick-walled glass tube", "volume": { "value": 30, "unit": "mL" }, "rating": { "value": 4, "unit": "bar(g)" }, "ratingEvidence": "engraved on the tube (invented)",
          "maximumTemperature": { "value": 150, "unit": "°C" }, "closure": "screw plug with PTFE seal", "inspectedOn": "2031-02-10", "note": "Invented for the demo." }
        """,
        """
        { "label": "T-03", "kind": "thick-walled glass tube", "volume": { "value": 35, "unit": "mL" }, "rating": { "value": 10, "unit": "bar(g)" }, "ratingEvidence": "engraved on the tube (invented)",
          "maximumTemperature": { "value": 180, "unit": "°C" }, "closure": "screw plug with PTFE seal", "inspectedOn": "2029-11-05", "outOfService": "star crack at the neck (invented)", "note": "Invented for the demo." }
        """,
        """
        { "label": "A-02", "kind": "stainless steel autoclave", "volume": { "value": 100, "unit": "mL" }, "rating": { "value": 100, "unit": "bar(g)" }, "ratingEvidence": "maker's certificate (invented)",
          "maximumTemperature": { "value": 250, "unit": "°C" }, "closure": "bolted head", "inspectedOn": "2031-01-15",
          "parts": [ { "part": "PTFE gasket", "maximumTemperature": { "value": 200, "unit": "°C" } }, { "part": "rupture disc", "rating": { "value": 80, "unit": "bar(g)" } } ], "note": "Invented for the demo." }
        """,
        """
        { "label": "F-21", "kind": "three-necked flask", "volume": { "value": 250, "unit": "mL" }, "note": "Invented for the demo." }
        """,
    ];

    private static readonly (string Place, (string Agent, string Size)[] Agents)[] Places =
    [
        ("""{ "name": "Hood 12, room 2.14 (invented)", "kind": "hood", "roomVolume": { "value": 180, "unit": "m³" }, "airFlow": { "value": 700, "unit": "m³/h" } }""",
            [("dry powder", "1 × 6 kg"), ("carbon dioxide", "1 × 5 kg"), ("dry sand", "1 bucket, 10 L")]),
        ("""{ "name": "Bench 4, room 2.14 (invented)", "kind": "bench", "roomVolume": { "value": 180, "unit": "m³" } }""",
            [("carbon dioxide", "1 × 5 kg"), ("fire blanket", "1")]),
    ];

    /// <summary>Enters it, through the handler that the pages use.</summary>
    public static async Task FillAsync(InventoryHandler inventory, Actor member, DateOnly today, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(inventory);
        foreach (string vessel in Vessels)
        {
            await AddAsync(InventoryKind.Vessel, vessel);
        }

        foreach ((string place, (string Agent, string Size)[] agents) in Places)
        {
            Guid id = await AddAsync(InventoryKind.Place, place);
            foreach ((string agent, string size) in agents)
            {
                await AddAsync(InventoryKind.Agent, new JsonObject { ["place"] = id.ToString(), ["agent"] = agent, ["size"] = size, ["checkedOn"] = "2031-03-02", ["note"] = "Invented for the demo." }.ToJsonString());
            }
        }

        async Task<Guid> AddAsync(InventoryKind kind, string entry)
        {
            Result<InventoryView, Refusal> added = await inventory.AddAsync(member, kind, Encoding.UTF8.GetBytes(ExampleDates.Moved(entry, today)), cancellationToken);
            return added.IsOk ? added.Value.Id : throw new InvalidOperationException($"The demo's inventory could not be entered: {added.Error.Message} {string.Join("; ", added.Error.Faults)}");
        }
    }

    /// <summary>A sample procedure as somebody of the group would write it: with the group's tube and at the group's hood.</summary>
    public static byte[] Used(string example, byte[] document)
    {
        ArgumentNullException.ThrowIfNull(document);
        if (example is not ("closed-tube-amination" or "stoppered-azide-reduction") || JsonNode.Parse(document) is not JsonObject root)
        {
            return document;
        }

        root["place"] = new JsonObject { ["name"] = Hood };
        if (root["vessels"] is JsonArray { Count: 1 } vessels && vessels[0] is JsonObject vessel && vessel["kind"]?.GetValue<string>() is "thick-walled glass tube")
        {
            References.Rename(root, "vessels", new Dictionary<string, string>(StringComparer.Ordinal) { [vessel["id"]!.GetValue<string>()] = Tube });
            vessel["id"] = Tube;
        }

        return Encoding.UTF8.GetBytes(root.ToJsonString());
    }
}
