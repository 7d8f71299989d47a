using System.Globalization;
using System.Text.Json.Nodes;

namespace PreApproval.Documents.Tests.Examples;

/// <summary>Makes the change that a finding of the report offers, as a person would in the document: what stands in <c>to</c>, at the <c>path</c>, and what stands in <c>with</c>.</summary>
internal static class ClearingChange
{
    public static void Apply(JsonObject document, JsonObject clearing)
    {
        string[] names = clearing["path"]!.GetValue<string>().Split('/')[1..];
        JsonNode to = clearing["to"]!;
        JsonNode parent = names.SkipLast(1).Aggregate((JsonNode)document, (node, name) =>
            node is JsonArray list ? list[int.Parse(name, CultureInfo.InvariantCulture)]! : node[name] ??= new JsonObject());
        var target = parent.AsObject();
        if (clearing["with"] is { } with)
        {
            Assert.Equal("surfaceTemperature", with["path"]!.GetValue<string>().Split('/')[^1]);
            target["surfaceTemperature"] = with["to"]!.DeepClone();
        }

        target[names[^1]] = to.DeepClone();
    }
}
