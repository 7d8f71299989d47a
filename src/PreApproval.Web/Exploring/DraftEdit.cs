using System.Text.Json.Nodes;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>One value of a document that is changed.</summary>
/// <param name="Row">JSON Pointer of the object it belongs to.</param>
/// <param name="Member">Name of the value in it.</param>
/// <param name="Label">What it is, for the list of changes.</param>
/// <param name="Before">As the document has it; null: nothing.</param>
/// <param name="After">As it becomes; null: removed.</param>
public sealed record DraftEdit(string Row, string Member, string Label, JsonNode? Before, JsonNode? After)
{
    public string BeforeWords => WordsOf(Before);

    public string AfterWords => After is null ? "removed" : WordsOf(After);

    private static string WordsOf(JsonNode? node) => node switch
    {
        null => "nothing",
        JsonObject o when o.ContainsKey("unit") => $"{DocumentText.Text(o, "value")} {DocumentText.Text(o, "unit")}",
        JsonObject o when o.ContainsKey("ppm") || o.ContainsKey("on") => $"{DocumentText.Text(o, "ppm")} ppm on {DocumentText.Text(o, "on")}".Trim(),
        JsonObject o => DocumentText.Substance(o),
        JsonArray a => Words.Count(a.Count, "part", "parts"),
        JsonNode value => DocumentText.Text(value),
    };
}
