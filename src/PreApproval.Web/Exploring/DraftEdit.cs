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

    /// <summary>A line for each change; a vessel that has another short name is one for all its steps.</summary>
    public static IReadOnlyList<(string Label, string Before, string After)> Lines(IReadOnlyList<DraftEdit> edits)
    {
        ArgumentNullException.ThrowIfNull(edits);
        DraftEdit[] renamed = [.. edits.Where(static edit => edit.Member is "vessel" or "to")];
        return
        [
            .. edits.Where(edit => renamed.Length == 0 || !renamed.Skip(1).Contains(edit))
                .Select(edit => (edit == renamed.FirstOrDefault() && renamed.Length > 1 ? "vessel of the steps that use it" : edit.Label, edit.BeforeWords, edit.AfterWords)),
        ];
    }

    private static string WordsOf(JsonNode? node) => node switch
    {
        null => "nothing",
        JsonObject o when o.ContainsKey("unit") => $"{DocumentText.Text(o, "value")} {DocumentText.Text(o, "unit")}",
        JsonObject o when o.ContainsKey("ppm") || o.ContainsKey("on") => $"{DocumentText.Text(o, "ppm")} ppm on {DocumentText.Text(o, "on")}".Trim(),
        JsonObject o when o.ContainsKey("device") || o.ContainsKey("set") => DocumentText.Relief(o),
        JsonObject o when o.ContainsKey("outsideDiameterMm") || o.ContainsKey("wallMm") => DocumentText.GlassTube(o),
        JsonObject o => DocumentText.Substance(o),
        JsonArray a => Words.Count(a.Count, "part", "parts"),
        JsonNode value => DocumentText.Text(value),
    };
}
