namespace PreApproval.Hazards.Screening;

/// <summary>Reads the engine's own tab-separated tables: a header line, then one row a line; lines beginning with # are comments.</summary>
internal static class EmbeddedTable
{
    /// <summary>All rows; a wrong number of columns is a fault of the build and throws.</summary>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(string file)
    {
        using var stream = typeof(EmbeddedTable).Assembly.GetManifestResourceStream("Data/" + file)
            ?? throw new InvalidOperationException($"Table {file} is not embedded.");
        using var reader = new StreamReader(stream);
        string[]? header = null;
        var rows = new List<IReadOnlyDictionary<string, string>>();
        while (reader.ReadLine() is { } line)
        {
            if (line.Length == 0 || line[0] == '#')
            {
                continue;
            }

            var cells = line.Split('\t');
            if (header is null)
            {
                header = cells;
                continue;
            }

            if (cells.Length != header.Length)
            {
                throw new InvalidOperationException($"Table {file} has {cells.Length} columns instead of {header.Length} in: {line}");
            }

            rows.Add(header.Zip(cells).ToDictionary(static pair => pair.First, static pair => pair.Second.Trim(), StringComparer.Ordinal));
        }

        return rows;
    }

    /// <summary>Entries of a cell separated by semicolons.</summary>
    public static IReadOnlyList<string> Entries(string cell) =>
        cell.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
}
