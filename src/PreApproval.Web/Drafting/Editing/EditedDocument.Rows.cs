using System.Text.Json.Nodes;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>Rows of lists: added, removed and put back, moved.</summary>
public sealed partial class EditedDocument
{
    public void AddRow(JsonObject on, string list, JsonObject row)
    {
        ArgumentNullException.ThrowIfNull(on);
        if (on[list] is not JsonArray array)
        {
            array = [];
            on[list] = array;
        }

        Removed = null;
        array.Add((JsonNode)row);
        Focus = new FocusedRow(PointerOf(array), array.Count - 1, RowFocus.First);
        References.NumberSteps(Root);
        Restructured?.Invoke(this, EventArgs.Empty);
    }

    /// <param name="row">The row.</param>
    /// <param name="name">What it is called on the page.</param>
    public void RemoveRow(JsonObject row, string name)
    {
        ArgumentNullException.ThrowIfNull(row);
        if (row.Parent is not JsonArray array)
        {
            return;
        }

        Focus = new FocusedRow(PointerOf(array), array.IndexOf(row), RowFocus.Near);
        Removed = new RemovedRow(Focus with { On = RowFocus.First }, name, (JsonObject)Root.DeepClone());
        if (PointerOf(array) is "/steps")
        {
            References.Leave(Root, DocumentText.Text(row, "id"));
        }

        array.Remove(row);
        if (array.Count == 0 && array.Parent is JsonObject owner && !StaysWhenEmpty(array))
        {
            owner.Remove(owner.First(p => ReferenceEquals(p.Value, array)).Key);
        }

        References.NumberSteps(Root);
        Restructured?.Invoke(this, EventArgs.Empty);
    }

    /// <summary>Puts the row back that was removed last, with all that referred to it.</summary>
    public void PutBack()
    {
        if (Removed is { } removed)
        {
            Focus = removed.Row;
            Replace(removed.Before);
        }
    }

    /// <summary>Moves a row by one place up (-1) or down (1), where there is one.</summary>
    public void MoveRow(JsonObject row, int by)
    {
        ArgumentNullException.ThrowIfNull(row);
        if (row.Parent is not JsonArray array)
        {
            return;
        }

        int from = array.IndexOf(row);
        int to = from + by;
        if (to < 0 || to >= array.Count)
        {
            return;
        }

        Removed = null;
        array.RemoveAt(from);
        array.Insert(to, (JsonNode)row);
        Focus = new FocusedRow(PointerOf(array), to, by < 0 ? RowFocus.Up : RowFocus.Down);
        References.NumberSteps(Root);
        Restructured?.Invoke(this, EventArgs.Empty);
    }

    /// <summary>Lists that a document must have; a mixture that has lost its components is a mixture still.</summary>
    private static bool StaysWhenEmpty(JsonArray array) =>
        PointerOf(array) is var pointer && (pointer is "/materials" or "/vessels" or "/steps" || pointer.EndsWith("/mixture", StringComparison.Ordinal));
}
