using System.Text.Json.Nodes;
using CsCheck;

namespace PreApproval.Documents.Tests;

/// <summary>Documents with one random change.</summary>
internal static class Mutations
{
    private static readonly string[] Replacements =
    [
        "null", "true", "-1", "0", "1e300", "1e-300", "\"\"", "\" \"", "\"x\"", "\"mL\"", "\"°C\"", "\"bar(g)\"", "\"7732-18-5\"", "\"2031-02-29\"", "\"2031-02-28\"",
        "[]", "[null]", "{}", "{\"id\":\"salt\"}", "{\"value\":1,\"unit\":\"g\"}", "{\"value\":-400,\"unit\":\"degC\"}", "{\"a/b\":1}", "\"\\u0000\"", "\"a\\nb\"", "\"a\\n\"", "[\"salt\"]", "{\"name\":\"x\"}",
    ];

    public static Gen<JsonObject> One { get; } =
        Gen.Select(Gen.Int[0, 1], Gen.Int[0, 100_000], Gen.Int[0, Replacements.Length - 1], Gen.Int[0, 3]).Select((which, place, replacement, kind) =>
        {
            JsonObject root = Samples.Parsed(which == 0 ? Samples.Full : Samples.Small);
            Mutate(root, place, Replacements[replacement], kind);
            return root;
        });

    private static void Mutate(JsonObject root, int place, string replacement, int kind)
    {
        List<JsonNode> all = [.. Descendants(root)];
        JsonNode target = all[place % all.Count];
        JsonNode? value = JsonNode.Parse(replacement);
        switch (target.Parent)
        {
            case JsonObject parent when kind == 0:
                parent.Remove(target.GetPropertyName());
                break;
            case JsonObject parent when kind == 1:
                parent["surplus"] = value;
                break;
            case JsonObject parent:
                parent[target.GetPropertyName()] = value;
                break;
            case JsonArray parent when kind == 0:
                parent.Remove(target);
                break;
            case JsonArray parent:
                parent[target.GetElementIndex()] = value;
                break;
        }
    }

    private static IEnumerable<JsonNode> Descendants(JsonNode node)
    {
        IEnumerable<JsonNode?> children = node switch
        {
            JsonObject record => record.Select(member => member.Value),
            JsonArray list => list,
            _ => [],
        };
        return children.OfType<JsonNode>().SelectMany(child => Descendants(child).Prepend(child));
    }
}
