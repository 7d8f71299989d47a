using System.Globalization;
using System.Text.Json.Nodes;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Tests.Examples;

/// <summary>Makes the change that a finding offers, as a person would in the document.</summary>
internal static class ClearingChange
{
    public static void Apply(JsonObject document, Clearing clearing)
    {
        string[] names = clearing.Path.Split('/')[1..];
        JsonNode parent = names.SkipLast(1).Aggregate((JsonNode)document, (node, name) =>
            node is JsonArray list ? list[int.Parse(name, CultureInfo.InvariantCulture)]! : node[name]!);
        var target = parent.AsObject();
        if (names[^1] is "temperature" && target["surfaceTemperature"] is { } surface && target["temperature"] is { } before)
        {
            // Lowering a temperature lowers the surface temperature by the same difference.
            double difference = before["value"]!.GetValue<double>() - clearing.Value!.Value;
            surface["value"] = surface["value"]!.GetValue<double>() - difference;
        }

        target[names[^1]] = new JsonObject { ["value"] = clearing.Value, ["unit"] = clearing.Unit };
    }
}
