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

    public static void Read(SortedDictionary<string, string> files, Dictionary<string, SubstanceDraft> drafts, Dictionary<string, string> references, List<string> faults)
    {
        var statements = HazardStatementTable.Read(files.GetValueOrDefault(HazardStatementTable.File, ""), faults);
        foreach (var (file, text) in files)
        {
            if (file.StartsWith(LimitPrefix, StringComparison.Ordinal))
            {
                ExposureLimitRows.Read(file, text, drafts, references, faults);
            }
        }

        foreach (var row in Rows(Statements, files, faults))
        {
            ReadStatements(row, statements, drafts, references, faults);
        }

        foreach (var row in Rows(Idlh, files, faults))
        {
            ReadIdlh(row, drafts, references, faults);
        }

        foreach (var row in Rows(Carcinogens, files, faults))
        {
            ReadCarcinogen(row, drafts, references, faults);
        }
    }

    private static IEnumerable<TsvRow> Rows(string file, SortedDictionary<string, string> files, List<string> faults) =>
        TsvRow.Read(file, files.GetValueOrDefault(file, ""), faults);

    private static void ReadStatements(TsvRow row, Dictionary<string, HazardStatement> table, Dictionary<string, SubstanceDraft> drafts, Dictionary<string, string> references, List<string> faults)
    {
        if (!row.TryDraft(drafts, faults, out var draft) || !row.TrySource(references, faults, out var source) || !row.TryQuality(faults, out var quality))
        {
            return;
        }

        var words = row["statements"];
        var note = row.Optional("note");
        var found = new List<HazardStatement>();
        if (string.Equals(words, "none", StringComparison.Ordinal))
        {
            if (note is null)
            {
                faults.Add(row.Fault("'none' without its basis"));
                return;
            }
        }
        else
        {
            foreach (var word in words.Split(' '))
            {
                if (!table.TryGetValue(word, out var statement))
                {
                    faults.Add(row.Fault($"'{word}' is no hazard statement on file"));
                    return;
                }

                if (found.Contains(statement))
                {
                    faults.Add(row.Fault($"'{word}' is given twice"));
                }

                found.Add(statement);
            }
        }

        if (draft.Health.Statements is not null)
        {
            faults.Add(row.Fault($"{row["cas"]} already has its hazard statements"));
            return;
        }

        draft.Health.Statements = new Sourced<IReadOnlyList<HazardStatement>>(found, quality, [source]) { Note = note };
    }

    private static void ReadIdlh(TsvRow row, Dictionary<string, SubstanceDraft> drafts, Dictionary<string, string> references, List<string> faults)
    {
        if (!row.TryDraft(drafts, faults, out var draft) || !row.TrySource(references, faults, out var source) || !row.TryQuality(faults, out var quality)
            || !ExposureLimitRows.TryYear(row, faults, out var year)
            || !ExposureLimitRows.TryConcentration(row, draft, AirborneForm.Vapour, faults, out var air))
        {
            return;
        }

        if (draft.Health.Idlh is not null)
        {
            faults.Add(row.Fault($"{row["cas"]} already has its IDLH"));
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
            Source = source,
            Note = row.Optional("note"),
        };
    }

    private static void ReadCarcinogen(TsvRow row, Dictionary<string, SubstanceDraft> drafts, Dictionary<string, string> references, List<string> faults)
    {
        if (!row.TryDraft(drafts, faults, out var draft) || !row.TrySource(references, faults, out var source) || !row.TryQuality(faults, out var quality)
            || !ExposureLimitRows.TryYear(row, faults, out var year))
        {
            return;
        }

        CarcinogenGroup? group = row["group"] switch
        {
            "1" => CarcinogenGroup.Carcinogenic,
            "2A" => CarcinogenGroup.Probably,
            "2B" => CarcinogenGroup.Possibly,
            "3" => CarcinogenGroup.NotClassifiable,
            _ => null,
        };
        if (group is null || draft.Health.Carcinogen is not null)
        {
            faults.Add(row.Fault(group is null ? $"'{row["group"]}' is no group of the Monographs" : $"{row["cas"]} already has its group"));
            return;
        }

        draft.Health.Carcinogen = new CarcinogenNote(group.Value, year, quality, source, row.Optional("note"));
    }
}
