using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Components;
using PreApproval.Documents;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>One field of the editor: a place in the document, a label, and what is wrong there. Its element is identified by its JSON Pointer.</summary>
public abstract class FieldBase : ComponentBase
{
    [CascadingParameter]
    protected EditedDocument Document { get; set; } = null!;

    /// <summary>The object of the document that the field belongs to.</summary>
    [Parameter, EditorRequired]
    public JsonObject On { get; set; } = null!;

    /// <summary>Path of the value below it, for instance <c>source/citation</c>.</summary>
    [Parameter, EditorRequired]
    public string Path { get; set; } = "";

    [Parameter, EditorRequired]
    public string Label { get; set; } = "";

    [Parameter]
    public string? Hint { get; set; }

    protected string Id => $"{EditedDocument.PointerOf(On)}/{Path}";

    protected virtual IReadOnlyList<Fault> Faults => [.. Document.FaultsAt(Id)];

    protected string? DescribedBy
    {
        get
        {
            string ids = $"{(Hint is null ? "" : Id + "-hint")} {(Faults.Count == 0 ? "" : Id + "-fault")}".Trim();
            return ids.Length == 0 ? null : ids;
        }
    }

    protected string? Invalid => Faults.Count == 0 ? null : "true";

    protected string Css => Faults.Count == 0 ? "field" : "field wrong";

    /// <summary>A word as a part of an identifier, which holds no spaces.</summary>
    protected static string Slug(string word)
    {
        ArgumentNullException.ThrowIfNull(word);
        return word.Replace(' ', '-');
    }

    protected string Text => DocumentText.Text(On, Path);
}
