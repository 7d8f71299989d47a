using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Audit;

namespace PreApproval.Cli.Output;

/// <summary>JSON as written by every command: one line in the canonical form of RFC 8785.</summary>
internal static class JsonText
{
    public static string Of(JsonNode node) => Encoding.UTF8.GetString(CanonicalJson.Serialize(node));

    /// <summary>JSON has no word for a number that is none.</summary>
    public static JsonNode? Number(double? number) => number is { } value && double.IsFinite(value) ? value : null;
}
