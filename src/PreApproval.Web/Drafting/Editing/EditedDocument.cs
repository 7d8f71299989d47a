using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>What of a row the focus goes to: its first field, the row that is nearest to where it was, or its button for moving.</summary>
public enum RowFocus
{
    First,
    Near,
    Up,
    Down,
}

/// <summary>A row of a list and what of it the focus goes to.</summary>
/// <param name="List">JSON Pointer of the list.</param>
/// <param name="Index">Place in the list, from 0.</param>
public sealed record FocusedRow(string List, int Index, RowFocus On);

/// <summary>A row that was removed.</summary>
/// <param name="Row">Where it was.</param>
/// <param name="Name">What it was called on the page.</param>
/// <param name="Before">The whole document before.</param>
public sealed record RemovedRow(FocusedRow Row, string Name, JsonObject Before);

/// <summary>
/// The document under the editor's hands: a JSON tree, so that members the editor does not show, and values that are not
/// right yet, survive. Fields name their place by an object of the tree and a path below it.
/// </summary>
public sealed partial class EditedDocument
{
    private static readonly JsonSerializerOptions Indented = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private RowNames _names = new();

    private EditedDocument(JsonObject root)
    {
        Root = root;
        Changed += (_, _) => Removed = null;
    }

    /// <summary>A value was typed or chosen.</summary>
    public event EventHandler? Changed;

    /// <summary>A row was added, removed or moved: identifiers of fields have shifted.</summary>
    public event EventHandler? Restructured;

    public JsonObject Root { get; private set; }

    /// <summary>The row that was removed last, until anything else is changed: it can be put back.</summary>
    public RemovedRow? Removed { get; private set; }

    /// <summary>Where the focus belongs once the change is shown; null: it stays.</summary>
    public FocusedRow? Focus { get; set; }

    /// <summary>What keeps the document from being submitted.</summary>
    public IReadOnlyList<Fault> Faults { get; set; } = [];

    /// <summary>The group's own substances, for suggestions and for what is known of a substance.</summary>
    public IReadOnlyList<PreApproval.Documents.Substances.ListedGroupSubstance> Own { get; set; } = [];

    /// <summary>The group's vessels and places, for choosing and for what is known of those that the draft names.</summary>
    public GroupInventory Inventory { get; set; } = GroupInventory.Empty;

    public static EditedDocument Read(ReadOnlyMemory<byte> utf8) => new(DocumentText.Parse(utf8));

    public byte[] ToUtf8() => Encoding.UTF8.GetBytes(Root.ToJsonString(DocumentText.Compact));

    public string ToText() => Root.ToJsonString(Indented);

    /// <summary>Puts another document in the place of this one.</summary>
    public void Replace(JsonObject root)
    {
        Root = root;
        Removed = null;
        _names = new RowNames();
        Restructured?.Invoke(this, EventArgs.Empty);
    }

    /// <summary>Gives a row another short name, with all that refers to it.</summary>
    public void Name(string list, JsonObject row, string name)
    {
        Removed = null;
        _names.Rename(Root, list, row, name);
    }

    /// <summary>JSON Pointer (RFC 6901) of a node of this tree.</summary>
    public static string PointerOf(JsonNode node)
    {
        ArgumentNullException.ThrowIfNull(node);
        return node.Parent switch
        {
            JsonArray array => string.Create(CultureInfo.InvariantCulture, $"{PointerOf(array)}/{array.IndexOf(node)}"),
            JsonObject parent => $"{PointerOf(parent)}/{Escape(parent.First(p => ReferenceEquals(p.Value, node)).Key)}",
            _ => "",
        };
    }

    /// <summary>Faults of a field and of what is inside it.</summary>
    public IEnumerable<Fault> FaultsAt(string path) => Faults.Where(f =>
        string.Equals(f.Path, path, StringComparison.Ordinal) || f.Path.StartsWith(path + "/", StringComparison.Ordinal));

    public void SetText(JsonObject on, string path, string? text) =>
        Set(on, path, string.IsNullOrEmpty(text) ? null : JsonValue.Create(text));

    /// <summary>A number keeps the digits as typed; text that is no number is kept as text, which is then a fault.</summary>
    public void SetNumber(JsonObject on, string path, string? text) => Set(on, path, NumberNode(text));

    public void SetFlag(JsonObject on, string path, bool? flag) => Set(on, path, flag is { } f ? JsonValue.Create(f) : null);

    /// <summary>A quantity without a value is no quantity.</summary>
    public void SetQuantity(JsonObject on, string path, string? value, string unit)
    {
        ArgumentNullException.ThrowIfNull(on);
        if (NumberNode(value) is not { } number)
        {
            Set(on, path, null);
        }
        else if (DocumentText.At(on, path) is JsonObject quantity)
        {
            quantity["value"] = number;
            quantity["unit"] = unit;
            Changed?.Invoke(this, EventArgs.Empty);
        }
        else
        {
            Set(on, path, new JsonObject { ["value"] = number, ["unit"] = unit });
        }
    }

    /// <summary>
    /// Sets or, with null, removes a value; objects on the way are made, and removed again when nothing is left in them. An empty
    /// solution stays: that it is one was chosen, and what is missing of it is a fault.
    /// </summary>
    public void Set(JsonObject on, string path, JsonNode? value)
    {
        ArgumentNullException.ThrowIfNull(on);
        ArgumentNullException.ThrowIfNull(path);
        string[] parts = path.Split('/');
        List<JsonObject> way = [on];
        foreach (string part in parts[..^1])
        {
            if (way[^1][part] is not JsonObject next)
            {
                if (value is null)
                {
                    return;
                }

                next = [];
                way[^1][part] = next;
            }

            way.Add(next);
        }

        if (value is not null)
        {
            way[^1][parts[^1]] = value;
        }
        else
        {
            way[^1].Remove(parts[^1]);
            for (int i = way.Count - 1; i > 0 && way[i].Count == 0 && parts[i - 1] is not "solution"; i--)
            {
                way[i - 1].Remove(parts[i - 1]);
            }
        }

        Changed?.Invoke(this, EventArgs.Empty);
    }

    /// <summary>Identifiers that rows of a list go by, in order, without empty ones.</summary>
    public IReadOnlyList<string> Ids(string list) =>
        [.. DocumentText.Rows(Root, list).Select(r => DocumentText.Text(r, "id")).Where(id => id.Length > 0).Distinct(StringComparer.Ordinal)];

    /// <summary>Puts a word into a list of words or takes it out.</summary>
    public void Toggle(JsonObject on, string path, string word, bool present)
    {
        JsonArray list = DocumentText.At(on, path) as JsonArray ?? [];
        JsonNode? found = list.FirstOrDefault(n => string.Equals(IdOfUse(n), word, StringComparison.Ordinal));
        if (present && found is null)
        {
            list.Add((JsonNode)JsonValue.Create(word));
        }
        else if (!present && found is not null)
        {
            list.Remove(found);
        }

        if (list.Count == 0)
        {
            Set(on, path, null);
        }
        else if (list.Parent is null)
        {
            Set(on, path, list);
        }
        else
        {
            Changed?.Invoke(this, EventArgs.Empty);
        }
    }

    /// <summary>The identifier of an entry of a step's materials, which is a word or an object.</summary>
    public static string IdOfUse(JsonNode? use) => use is JsonObject o ? DocumentText.Text(o, "id") : DocumentText.Text(use);

    /// <summary>A choice that shows or hides fields was made.</summary>
    public void Reshape() => Restructured?.Invoke(this, EventArgs.Empty);

    public void Touch() => Changed?.Invoke(this, EventArgs.Empty);

    private static JsonValue? NumberNode(string? text)
    {
        string trimmed = (text ?? "").Trim().Replace('−', '-');
        if (trimmed.Length == 0)
        {
            return null;
        }

        try
        {
            return JsonNode.Parse(trimmed) is JsonValue value && value.GetValueKind() == JsonValueKind.Number ? value : JsonValue.Create(trimmed);
        }
        catch (JsonException)
        {
            return JsonValue.Create(trimmed);
        }
    }

    private static string Escape(string name) => name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);
}
