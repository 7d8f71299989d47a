using System.Text;

namespace PreApproval.Documents.Inventory;

/// <summary>A record of a table.</summary>
/// <param name="Line">Line of the file on which it begins, from 1.</param>
/// <param name="Fields">Without their quotation marks.</param>
public sealed record CsvRecord(int Line, IReadOnlyList<string> Fields);

/// <summary>
/// Tables as text, after RFC 4180: fields apart by commas, records by CRLF (a bare LF is read too), fields with commas, quotation marks or
/// line breaks in quotation marks, which are doubled inside.
/// </summary>
public static class CsvText
{
    /// <summary>
    /// A field that a spreadsheet would take for a formula begins with one of these. It is written behind an apostrophe, which is taken away again
    /// when it is read; a field that begins with apostrophes before such a sign gets one more, so that reading gives back what was written.
    /// </summary>
    private const string FormulaSigns = "=+-@\t\r";

    /// <summary>Every record of the text; blank lines are none.</summary>
    public static Result<IReadOnlyList<CsvRecord>, Fault> Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        List<CsvRecord> records = [];
        int at = 0;
        int line = 1;
        while (at < text.Length)
        {
            int first = line;
            List<string> fields = [];
            bool more = true;
            while (more)
            {
                Result<string, Fault> field = at < text.Length && text[at] == '"' ? Quoted(text, ref at, ref line) : Bare(text, ref at, line);
                if (!field.IsOk)
                {
                    return field.Error;
                }

                fields.Add(field.Value);
                more = at < text.Length && text[at] == ',';
                at += more ? 1 : 0;
            }

            if (at < text.Length)
            {
                at += text[at] == '\r' ? 2 : 1;
                line++;
            }

            if (fields is not [""])
            {
                records.Add(new CsvRecord(first, fields));
            }
        }

        return Result<IReadOnlyList<CsvRecord>, Fault>.Ok(records);
    }

    /// <summary>Ends with a line break, as every record does.</summary>
    public static string Write(IEnumerable<IReadOnlyList<string>> records)
    {
        ArgumentNullException.ThrowIfNull(records);
        var text = new StringBuilder();
        foreach (IReadOnlyList<string> record in records)
        {
            text.AppendJoin(',', record.Select(Field)).Append("\r\n");
        }

        return text.ToString();
    }

    /// <summary>Text for a field that no spreadsheet may compute.</summary>
    public static string Guarded(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return LooksLikeFormula(text) ? "'" + text : text;
    }

    /// <summary>The text that <see cref="Guarded"/> was given.</summary>
    public static string Unguarded(string field)
    {
        ArgumentNullException.ThrowIfNull(field);
        return field.StartsWith('\'') && LooksLikeFormula(field) ? field[1..] : field;
    }

    private static bool LooksLikeFormula(string text) => text.AsSpan().TrimStart('\'') is [var first, ..] && FormulaSigns.Contains(first, StringComparison.Ordinal);

    private static string Field(string text) =>
        text.AsSpan().IndexOfAny(",\"\r\n") >= 0 || text.StartsWith(' ') || text.EndsWith(' ') ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text;

    private static Result<string, Fault> Bare(string text, ref int at, int line)
    {
        int start = at;
        while (at < text.Length && text[at] is not (',' or '\n' or '"') && !IsBreak(text, at))
        {
            at++;
        }

        return at < text.Length && text[at] == '"'
            ? Broken(line, "has a quotation mark inside a field; put the whole field in quotation marks and double those inside")
            : text[start..at];
    }

    private static Result<string, Fault> Quoted(string text, ref int at, ref int line)
    {
        int first = line;
        var field = new StringBuilder();
        for (at++; at < text.Length; at++)
        {
            if (text[at] != '"')
            {
                line += text[at] == '\n' ? 1 : 0;
                field.Append(text[at]);
            }
            else if (at + 1 < text.Length && text[at + 1] == '"')
            {
                field.Append('"');
                at++;
            }
            else
            {
                at++;
                return at == text.Length || text[at] is ',' or '\n' || IsBreak(text, at)
                    ? field.ToString()
                    : Broken(line, "has text behind the closing quotation mark of a field");
            }
        }

        return Broken(first, "opens a quotation mark that nothing closes");
    }

    private static bool IsBreak(string text, int at) => text[at] == '\r' && at + 1 < text.Length && text[at + 1] == '\n';

    private static Fault Broken(int line, string message) => VesselTable.FaultAt(line, "", message);
}
