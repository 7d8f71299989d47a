using System.Globalization;
using System.Text.Json.Nodes;

namespace PreApproval.Documents.Tests.Examples;

/// <summary>Makes the change that a finding of the report offers, as a person would in the document: what stands in <c>to</c>, at the <c>path</c>.</summary>
internal static class ClearingChange
{
    public static void Apply(JsonObject document, JsonObject clearing)
    {
        string[] names = clearing["path"]!.GetValue<string>().Split('/')[1..];
        JsonNode to = clearing["to"]!;
        JsonNode parent = names.SkipLast(1).Aggregate((JsonNode)document, (node, name) =>
            node is JsonArray list ? list[int.Parse(name, CultureInfo.InvariantCulture)]! : node[name] ??= new JsonObject());
        var target = parent.AsObject();
        if (names[^1] is "temperature" && target["surfaceTemperature"] is { } surface && target["temperature"] is { } before)
        {
            // Lowering a temperature lowers the surface temperature by the same difference.
            double difference = before["value"]!.GetValue<double>() - to["value"]!.GetValue<double>();
            surface["value"] = surface["value"]!.GetValue<double>() - difference;
        }

        target[names[^1]] = to.DeepClone();
    }
}
