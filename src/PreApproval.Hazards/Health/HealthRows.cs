using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Health;

/// <summary>
/// Reads hazard statements, exposure limits (one file per publication), IDLH values and carcinogen groups into the drafts.
/// A blank jurisdiction, year or source, an unknown substance, code or word, and a value that cannot be right are faults.
/// </summary>
internal static class HealthRows
{
    internal const string Statements = "Data/hazard-statements.tsv";
    internal const string LimitPrefix = "Data/exposure-limits";
    internal const string Idlh = "Data/idlh.tsv";
    internal const string Carcinogens = "Data/carcinogens.tsv";
    private const string StatementHeading = "cas\tname\tstatements\tquality\tsource\tnote";
    private const string IdlhHeading = "cas\tname\tppm\tmg_per_m3\tyear\tquality\tsource\tnote";
    private const string CarcinogenHeading = "cas\tname\tgroup\tyear\tquality\tsource\tnote";
    private const int Cas = 0;

    /// <summary>True for the data files that are read here.</summary>
    public static bool IsHealthFile(string name) =>
        name is HazardStatementTable.File or Statements or Idlh or Carcinogens || name.StartsWith(LimitPrefix, StringComparison.Ordinal);

    public static void Read(Dictionary<string, string> files, CatalogDraft catalog)
    {
        var statements = files.TryGetValue(HazardStatementTable.File, out var codes) ? HazardStatementTable.Read(codes, catalog.Faults) : [];
        foreach (var (file, text) in files)
        {
            if (file.StartsWith(LimitPrefix, StringComparison.Ordinal))
            {
                ExposureLimitRows.Read(file, text, catalog);
            }
        }

        foreach (var row in Rows(Statements, StatementHeading, files, catalog))
        {
            ReadStatements(row, statements, catalog);
        }

        foreach (var row in Rows(Idlh, IdlhHeading, files, catalog))
        {
            ReadIdlh(row, catalog);
        }

        foreach (var row in Rows(Carcinogens, CarcinogenHeading, files, catalog))
        {
            ReadCarcinogen(row, catalog);
        }
    }

    private static IEnumerable<TsvRow> Rows(string file, string heading, Dictionary<string, string> files, CatalogDraft catalog) =>
        files.TryGetValue(file, out var text) ? TsvRow.Read(file, text, catalog.Faults, heading) : [];

    private static void ReadStatements(TsvRow row, Dictionary<string, HazardStatement> table, CatalogDraft catalog)
    {
        if (!catalog.TryFind(row, Cas, out var draft) || !catalog.TrySource(row, column: 4, out var source) || !catalog.TryQuality(row, column: 3, out var quality))
        {
            return;
        }

        var words = row.Cell(2).ToString();
        var note = row.Optional(column: 5);
        var found = new List<HazardStatement>();
        if (string.Equals(words, "none", StringComparison.Ordinal))
        {
            if (note is null)
            {
                catalog.Faults.Add(row.Fault("'none' without its basis"));
                return;
            }
        }
        else
        {
            foreach (var word in words.Split(' '))
            {
                if (!table.TryGetValue(word, out var statement))
                {
                    catalog.Faults.Add(row.Fault($"'{word}' is no hazard statement on file"));
                    return;
                }

                if (found.Contains(statement))
                {
                    catalog.Faults.Add(row.Fault($"'{word}' is given twice"));
                }

                found.Add(statement);
            }
        }

        if (draft.Health.Statements is not null)
        {
            catalog.Faults.Add(row.Fault($"{row.Cell(Cas)} already has its hazard statements"));
            return;
        }

        draft.Health.Statements = new Sourced<IReadOnlyList<HazardStatement>>(found, quality, source) { Note = note };
    }

    private static void ReadIdlh(TsvRow row, CatalogDraft catalog)
    {
        if (!catalog.TryFind(row, Cas, out var draft) || !catalog.TrySource(row, column: 6, out var source) || !catalog.TryQuality(row, column: 5, out var quality)
            || !ExposureLimitRows.TryYear(row, column: 4, catalog.Faults, out var year)
            || !ExposureLimitRows.TryConcentration(row, ppmColumn: 2, draft, AirborneForm.Vapour, catalog.Faults, out var air))
        {
            return;
        }

        if (draft.Health.Idlh is not null)
        {
            catalog.Faults.Add(row.Fault($"{row.Cell(Cas)} already has its IDLH"));
            return;
        }

        draft.Health.Idlh = new ImmediateDanger
        {
            Ppm = air.Ppm,
            MilligramPerM3 = air.MilligramPerM3,
            IsPpmConverted = air.IsPpmConverted,
            IsMassConverted = air.IsMassConverted,
            Year = year,
            Quality = quality,
            Source = source[0],
            Note = row.Optional(column: 7),
        };
    }

    private static void ReadCarcinogen(TsvRow row, CatalogDraft catalog)
    {
        if (!catalog.TryFind(row, Cas, out var draft) || !catalog.TrySource(row, column: 5, out var source) || !catalog.TryQuality(row, column: 4, out var quality)
            || !ExposureLimitRows.TryYear(row, column: 3, catalog.Faults, out var year))
        {
            return;
        }

        CarcinogenGroup? group = row.Cell(2) switch
        {
            "1" => CarcinogenGroup.Carcinogenic,
            "2A" => CarcinogenGroup.Probably,
            "2B" => CarcinogenGroup.Possibly,
            "3" => CarcinogenGroup.NotClassifiable,
            _ => null,
        };
        if (group is null || draft.Health.Carcinogen is not null)
        {
            catalog.Faults.Add(row.Fault(group is null ? $"'{row.Cell(2)}' is no group of the Monographs" : $"{row.Cell(Cas)} already has its group"));
            return;
        }

        draft.Health.Carcinogen = new CarcinogenNote(group.Value, year, quality, source[0], row.Optional(column: 6));
    }
}
