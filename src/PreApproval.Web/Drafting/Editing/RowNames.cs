using System.Text.Json.Nodes;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>
/// Short names of the rows as they are typed. What refers to a row follows to a name that no other row goes by; while the name is
/// missing or another row's, it stays with the last name that was the row's own, so that the rows are never mixed up.
/// </summary>
public sealed class RowNames
{
    /// <summary>Rows whose name is missing or another's, with the name under which the document still refers to them.</summary>
    private readonly Dictionary<JsonObject, string> _owned = [];

    /// <summary>Gives a row of a list (<c>materials</c>, <c>vessels</c>, <c>steps</c>) another name.</summary>
    public void Rename(JsonObject root, string list, JsonObject row, string to)
    {
        ArgumentNullException.ThrowIfNull(row);
        string before = DocumentText.Text(row, "id");
        if (!_owned.ContainsKey(row) && before.Length > 0)
        {
            _owned[row] = before;
        }

        row["id"] = to;
        Settle(root, list);
    }

    /// <summary>All names that have become a row's own are followed at once: two rows that exchange their names keep what is theirs.</summary>
    private void Settle(JsonObject root, string list)
    {
        IReadOnlyList<JsonObject> rows = DocumentText.Rows(root, list);
        Dictionary<string, string> renamed = new(StringComparer.Ordinal);
        List<JsonObject> settled = [.. rows.Where(row => _owned.ContainsKey(row) && IsFree(row, rows))];

        // A name that another row is still referred to by is not free, unless that row leaves it at the same moment.
        while (settled.Find(row => rows.Any(other => !ReferenceEquals(other, row) && !settled.Contains(other)
            && string.Equals(Owned(other), DocumentText.Text(row, "id"), StringComparison.Ordinal))) is { } unsettled)
        {
            settled.Remove(unsettled);
        }

        foreach (JsonObject row in settled)
        {
            // Of two rows that began with one name, nobody can say whose the references are: they stay.
            if (!rows.Any(other => !ReferenceEquals(other, row) && string.Equals(Owned(other), _owned[row], StringComparison.Ordinal)))
            {
                renamed[_owned[row]] = DocumentText.Text(row, "id");
            }
        }

        settled.ForEach(row => _owned.Remove(row));
        References.Rename(root, list, renamed);
    }

    private string Owned(JsonObject row) => _owned.GetValueOrDefault(row) ?? DocumentText.Text(row, "id");

    private static bool IsFree(JsonObject row, IReadOnlyList<JsonObject> rows) =>
        DocumentText.Text(row, "id") is { Length: > 0 } id
        && !rows.Any(other => !ReferenceEquals(other, row) && string.Equals(DocumentText.Text(other, "id"), id, StringComparison.Ordinal));
}
