using System.Text;

namespace PreApproval.Cli.Output;

/// <summary>Columns of text under headings, two spaces apart.</summary>
internal sealed class TextTable(params string[] headings)
{
    private readonly List<string[]> _rows = [headings];

    public void Add(params string[] cells) => _rows.Add(cells);

    public override string ToString()
    {
        int[] widths = [.. Enumerable.Range(0, _rows[0].Length).Select(column => _rows.Max(row => row[column].Length))];
        var text = new StringBuilder();
        foreach (string[] row in _rows)
        {
            text.AppendLine(string.Join("  ", row.Select((cell, column) => cell.PadRight(widths[column]))).TrimEnd());
        }

        return text.ToString();
    }
}
