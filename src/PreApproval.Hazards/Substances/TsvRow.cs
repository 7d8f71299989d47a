using System.Globalization;

namespace PreApproval.Hazards.Substances;

/// <summary>One line of a tab-separated data file with its column names, file and line number. Cells are cut out when asked for.</summary>
internal sealed class TsvRow
{
    private readonly string[] _columns;
    private readonly string _text;
    private readonly int[] _bounds;

    private TsvRow(string[] columns, string text, int[] bounds, string file, int line)
    {
        _columns = columns;
        _text = text;
        _bounds = bounds;
        File = file;
        Line = line;
    }

    public string File { get; }

    public int Line { get; }

    /// <summary>The cell below a column's name; empty where there is no such column.</summary>
    public string this[string column] => Array.IndexOf(_columns, column) is var i and >= 0 ? Cell(i).ToString() : "";

    /// <summary>
    /// The rows below the heading; a row with another number of cells is a fault. With <paramref name="heading"/> the first line
    /// must be exactly that, so that cells can be taken by their position.
    /// </summary>
    public static IEnumerable<TsvRow> Read(string file, string text, List<string> faults, string? heading = null)
    {
        var end = EndOfLine(text, 0);
        var first = text[..Trimmed(text, 0, end)];
        if (heading is not null && !string.Equals(first, heading, StringComparison.Ordinal))
        {
            faults.Add($"{file}, line 1: the heading must be '{heading.Replace('\t', '|')}' (| is a tab)");
            yield break;
        }

        var columns = first.Split('\t');
        var line = 1;
        for (var start = end + 1; start < text.Length; start = end + 1)
        {
            line++;
            end = EndOfLine(text, start);
            var stop = Trimmed(text, start, end);
            if (stop == start)
            {
                continue;
            }

            if (Bounds(text.AsSpan(start, stop - start), start, columns.Length, out var cells) is { } bounds)
            {
                yield return new TsvRow(columns, text, bounds, file, line);
            }
            else
            {
                faults.Add($"{file}, line {line}: {cells} cells, {columns.Length} columns");
            }
        }
    }

    public ReadOnlySpan<char> Cell(int column) => _text.AsSpan(_bounds[column], _bounds[column + 1] - _bounds[column] - 1);

    public string? Optional(int column) => Cell(column) is { Length: > 0 } cell ? cell.ToString() : null;

    public string? Optional(string column) => this[column] is { Length: > 0 } text ? text : null;

    public string Fault(string what) => $"{File}, line {Line}: {what}";

    /// <summary>A fault of one cell: what stands there and what would be right.</summary>
    public string Fault(int column, string what) => $"{File}, line {Line}, column {_columns[column]}: {(Cell(column).IsEmpty ? "blank" : $"'{Cell(column)}'")}; {what}";

    public double Number(string column, List<string> faults) => Number(Array.IndexOf(_columns, column), column, faults);

    /// <summary>The number in a cell; NaN and a fault where there is none.</summary>
    public double Number(int column, List<string> faults) => Number(column, _columns[column], faults);

    /// <summary>The finite number in a cell.</summary>
    public bool TryNumber(int column, out double value) => TryNumber(Cell(column), out value);

    internal static bool TryNumber(ReadOnlySpan<char> cell, out double value) =>
        double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out value) && double.IsFinite(value);

    private double Number(int column, string name, List<string> faults)
    {
        if (column >= 0 && TryNumber(column, out var value))
        {
            return value;
        }

        faults.Add(column < 0 ? Fault($"there is no column {name}") : Fault(column, "give a number with a decimal point"));
        return double.NaN;
    }

    private static int EndOfLine(string text, int start) => text.IndexOf('\n', start) is var end and >= 0 ? end : text.Length;

    private static int Trimmed(string text, int start, int end) => end > start && text[end - 1] == '\r' ? end - 1 : end;

    // Where each cell starts; the last bound is one past the end, as if a tab stood there.
    private static int[]? Bounds(ReadOnlySpan<char> line, int offset, int columns, out int cells)
    {
        var bounds = new int[columns + 1];
        cells = 1;
        bounds[0] = offset;
        var at = 0;
        while (line[at..].IndexOf('\t') is var tab and >= 0)
        {
            at += tab + 1;
            if (cells < columns)
            {
                bounds[cells] = offset + at;
            }

            cells++;
        }

        bounds[columns] = offset + line.Length + 1;
        return cells == columns ? bounds : null;
    }
}
