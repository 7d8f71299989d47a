using System.Diagnostics.CodeAnalysis;
using System.Globalization;

namespace PreApproval.Hazards.Substances;

/// <summary>One line of a tab-separated data file with its column names, file and line number.</summary>
internal sealed class TsvRow
{
    private readonly Dictionary<string, int> _columns;
    private readonly string[] _cells;
    private readonly string _file;
    private readonly int _line;

    private TsvRow(Dictionary<string, int> columns, string[] cells, string file, int line)
    {
        _columns = columns;
        _cells = cells;
        _file = file;
        _line = line;
    }

    public string this[string column] => _columns.TryGetValue(column, out var i) ? _cells[i] : "";

    /// <summary>The rows below the heading; a row with another number of cells is a fault.</summary>
    public static IEnumerable<TsvRow> Read(string file, string text, List<string> faults)
    {
        var lines = text.Split('\n');
        var columns = lines[0].TrimEnd('\r').Split('\t').Select((name, index) => (name, index)).ToDictionary(c => c.name, c => c.index, StringComparer.Ordinal);
        for (var i = 1; i < lines.Length; i++)
        {
            if (lines[i].Length == 0)
            {
                continue;
            }

            var cells = lines[i].TrimEnd('\r').Split('\t');
            if (cells.Length != columns.Count)
            {
                faults.Add($"{file}, line {i + 1}: {cells.Length} cells, {columns.Count} columns");
                continue;
            }

            yield return new TsvRow(columns, cells, file, i + 1);
        }
    }

    public string? Optional(string column) => this[column] is { Length: > 0 } text ? text : null;

    public string Fault(string what) => $"{_file}, line {_line}: {what}";

    public double Number(string column, List<string> faults)
    {
        if (double.TryParse(this[column], NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value))
        {
            return value;
        }

        faults.Add(Fault($"{column} is no number: '{this[column]}'"));
        return double.NaN;
    }

    public bool TryDraft(Dictionary<string, SubstanceDraft> drafts, List<string> faults, [NotNullWhen(true)] out SubstanceDraft? draft)
    {
        if (drafts.TryGetValue(this["cas"], out draft))
        {
            return true;
        }

        faults.Add(Fault($"'{this["cas"]}' is not among the identities"));
        return false;
    }

    public bool TrySource(Dictionary<string, string> references, List<string> faults, out string source)
    {
        source = this["source"];
        if (references.ContainsKey(source))
        {
            return true;
        }

        faults.Add(Fault($"source '{source}' is blank or has no reference"));
        return false;
    }

    public bool TryQuality(List<string> faults, out Quality quality)
    {
        if (Enum.TryParse(this["quality"], ignoreCase: true, out quality) && Enum.IsDefined(quality))
        {
            return true;
        }

        faults.Add(Fault($"quality '{this["quality"]}' is not measured, correlated, estimated or assumed"));
        return false;
    }
}
