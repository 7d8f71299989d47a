using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents.Reading;

namespace PreApproval.Documents.Inventory;

/// <summary>Vessels as a table: one on each line, units in the header. Columns that are not there leave what is known as it is.</summary>
public sealed class VesselTable
{
    /// <summary>Most vessels of a file.</summary>
    public const int MostLines = 2_000;

    private const string Label = "label";

    private const string Missing = "is missing: ";

    private readonly IReadOnlyList<VesselColumn> _columns;

    private VesselTable(IReadOnlyList<VesselColumn> columns, IReadOnlyList<CsvRecord> lines) => (_columns, Lines) = (columns, lines);

    /// <summary>One for each vessel.</summary>
    public IReadOnlyList<CsvRecord> Lines { get; }

    /// <summary>All members of the vessels, numbers in mL, bar(g) and °C.</summary>
    public static string Write(IReadOnlyList<InventoryVessel> vessels)
    {
        ArgumentNullException.ThrowIfNull(vessels);
        IReadOnlyList<VesselColumn> columns = VesselColumn.All(vessels.Select(static vessel => vessel.Vessel.Parts?.Count ?? 0).Append(1).Max());
        return CsvText.Write(vessels.Select(vessel => (IReadOnlyList<string>)[.. columns.Select(column => VesselCell.Write(column, vessel))]).Prepend([.. columns.Select(static column => column.Header)]));
    }

    /// <summary>The table of a file, its header and its shape judged; the vessels are judged one by one by <see cref="Read(CsvRecord, InventoryVessel?)"/>.</summary>
    public static Result<VesselTable, DocumentRefusal> Read(ReadOnlyMemory<byte> utf8)
    {
        string text;
        try
        {
            text = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true).GetString(utf8.Span);
        }
        catch (DecoderFallbackException)
        {
            return Refuse(DocumentRefusalKind.NotJson, [new Fault("", "The file is not text in UTF-8. Save it as “CSV UTF-8”.")]);
        }

        Result<IReadOnlyList<CsvRecord>, Fault> records = CsvText.Read(text.TrimStart('\uFEFF'));
        if (!records.IsOk)
        {
            return Refuse(DocumentRefusalKind.NotJson, [records.Error]);
        }

        if ((CsvRecord[])[.. records.Value] is not [var header, .. var lines])
        {
            return Refuse(DocumentRefusalKind.Invalid, [new Fault("", "The file is empty: the first line names the columns, label among them.")]);
        }

        List<Fault> faults = [];
        List<VesselColumn> columns = [];
        if (header.Fields is [var only] && only.IndexOfAny([';', '\t']) is var apart and >= 0)
        {
            return Refuse(DocumentRefusalKind.Invalid, [FaultAt(header.Line, "", $"has its columns apart by {(only[apart] is ';' ? "semicolons" : "tabs")}; save the file with commas")]);
        }

        foreach (string field in header.Fields)
        {
            Result<VesselColumn, string> column = VesselColumn.Read(field);
            if (!column.IsOk)
            {
                faults.Add(FaultAt(header.Line, field, column.Error));
            }
            else if (columns.Exists(other => string.Equals(other.Member, column.Value.Member, StringComparison.Ordinal) && other.Part == column.Value.Part))
            {
                faults.Add(FaultAt(header.Line, field, "is there twice"));
            }
            else
            {
                columns.Add(column.Value);
            }
        }

        if (!columns.Exists(static column => column.Part is null && column.Member is Label))
        {
            faults.Add(FaultAt(header.Line, Label, "is missing: each line names a vessel by its label"));
        }

        if (lines.Length > MostLines)
        {
            faults.Add(new Fault("", string.Create(CultureInfo.InvariantCulture, $"The file has {lines.Length} vessels; at most {MostLines} can be read at once.")));
        }

        faults.AddRange(lines.Where(line => line.Fields.Count != header.Fields.Count)
            .Select(line => FaultAt(line.Line, "", string.Create(CultureInfo.InvariantCulture, $"has {line.Fields.Count} fields, the header {header.Fields.Count}"))));
        return faults.Count > 0 ? Refuse(DocumentRefusalKind.Invalid, faults) : new VesselTable(columns, lines);
    }

    /// <summary>A fault of a line, and of one of its fields where it has a name.</summary>
    public static Fault FaultAt(int line, string column, string message)
    {
        string place = string.Create(CultureInfo.InvariantCulture, $"line {line}{(column.Length > 0 ? $", {Shown.Text(column)}" : "")}");
        string path = JsonPointer.Item("", line);
        string said = message.StartsWith(Missing, StringComparison.Ordinal) ? message[Missing.Length..] : message;
        return new Fault(column.Length > 0 ? JsonPointer.Member(path, column) : path, $"{place}: {said}");
    }

    /// <summary>The label that a line is about.</summary>
    public string LabelOf(CsvRecord line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return CsvText.Unguarded(line.Fields[_columns.Index().First(static column => column.Item is { Part: null, Member: Label }).Index]).Trim();
    }

    /// <summary>A fault of the label of a line.</summary>
    public Fault FaultOfLabel(CsvRecord line, string message)
    {
        ArgumentNullException.ThrowIfNull(line);
        return FaultAt(line.Line, HeaderOf(Label, null), message);
    }

    /// <summary>The vessel of a line: what the columns say, and the rest as <paramref name="before"/> has it. A number that is the same in another unit stays as it was typed.</summary>
    public Result<InventoryVessel, DocumentRefusal> Read(CsvRecord line, InventoryVessel? before)
    {
        ArgumentNullException.ThrowIfNull(line);
        List<Fault> faults = [];
        JsonObject vessel = before is null ? [] : DocumentWriter.ToJson(before);
        foreach ((int index, VesselColumn column) in _columns.Index().Where(static column => column.Item.Part is null))
        {
            Put(vessel, column, line.Fields[index], before is null ? null : VesselCell.Known(column, before.Vessel), line, faults);
        }

        int[] parts = PutParts(vessel, before, line, faults);
        Result<InventoryContent, DocumentRefusal> read = InventoryDocument.Read(InventoryKind.Vessel, Encoding.UTF8.GetBytes(vessel.ToJsonString()));
        if (read.IsOk)
        {
            return faults.Count > 0 ? Refuse(DocumentRefusalKind.Invalid, faults) : (InventoryVessel)read.Value;
        }

        // All of a line at once: whoever mends a file does not want it back for each number.
        faults.AddRange(read.Error.Faults.Select(fault => FaultAt(line.Line, ColumnOf(fault.Path, parts), fault.Message))
            .Where(rule => !faults.Exists(number => string.Equals(number.Path, rule.Path, StringComparison.Ordinal))).ToArray());
        return Refuse(DocumentRefusalKind.Invalid, faults);
    }

    /// <summary>Numbers of the parts that the line has, in order; what a file without columns for parts says of them is nothing.</summary>
    private int[] PutParts(JsonObject vessel, InventoryVessel? before, CsvRecord line, List<Fault> faults)
    {
        List<int> numbers = [];
        JsonArray parts = [];
        foreach (IGrouping<int, (int Index, VesselColumn Item)> columns in _columns.Index().Where(static column => column.Item.Part is not null).GroupBy(static column => column.Item.Part!.Value).OrderBy(static group => group.Key))
        {
            if (columns.All(column => string.IsNullOrWhiteSpace(line.Fields[column.Index])))
            {
                continue;
            }

            VesselPartEntry? known = before?.Vessel.Parts is { } old && parts.Count < old.Count ? old[parts.Count] : null;
            var part = new JsonObject();
            foreach ((int index, VesselColumn column) in columns)
            {
                Put(part, column, line.Fields[index], column.Member is "rating" ? known?.Rating : known?.MaximumTemperature, line, faults);
            }

            parts.Add((JsonNode)part);
            numbers.Add(columns.Key);
        }

        if (_columns.Any(static column => column.Part is not null))
        {
            vessel.Remove("parts");
            if (parts.Count > 0)
            {
                vessel["parts"] = parts;
            }
        }

        return [.. numbers];
    }

    private static void Put(JsonObject on, VesselColumn column, string cell, Quantity? known, CsvRecord line, List<Fault> faults)
    {
        if (column.Member.Split('/') is [var around, var inner])
        {
            // What the other columns of the pair say, or what is known of them where they are not there, stays beside it.
            JsonObject within = on[around]?.DeepClone() as JsonObject ?? [];
            Put(within, column with { Member = inner }, cell, known, line, faults);
            on.Remove(around);
            if (within.Count > 0)
            {
                on[around] = within;
            }
        }
        else if (string.IsNullOrWhiteSpace(cell))
        {
            on.Remove(column.Member);
        }
        else
        {
            Result<JsonNode, string> read = VesselCell.Read(column, cell, on[column.Member], known);
            if (read.IsOk)
            {
                on[column.Member] = read.Value;
            }
            else
            {
                faults.Add(FaultAt(line.Line, column.Header, read.Error));
            }
        }
    }

    private string ColumnOf(string path, int[] parts) => path.Split('/', StringSplitOptions.RemoveEmptyEntries) switch
    {
        ["parts", var index, var member, ..] when int.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out int at) && at < parts.Length => HeaderOf(member, parts[at]),
        [("relief" or "glassTube") and var around, var member, ..] => HeaderOf($"{around}/{member}", null),
        [var member, ..] => HeaderOf(member, null),
        [] => "",
    };

    private string HeaderOf(string member, int? part) =>
        _columns.Concat(VesselColumn.All(InventoryVessel.MostParts)).FirstOrDefault(column => string.Equals(column.Member, member, StringComparison.Ordinal) && column.Part == part)?.Header ?? member;

    private static DocumentRefusal Refuse(DocumentRefusalKind kind, IReadOnlyList<Fault> faults) => new(kind, [.. faults.Take(FaultList.Most)]);
}
