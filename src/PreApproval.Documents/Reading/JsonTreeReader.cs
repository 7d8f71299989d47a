using System.Globalization;
using System.Text.Json;

namespace PreApproval.Documents.Reading;

/// <summary>
/// Strict JSON (RFC 8259): UTF-8 without errors, no comments, no trailing commas, no duplicate member names, no lone
/// surrogates, at most <see cref="DeepestNesting"/> levels. Every fault has the pointer of the value it stands in.
/// </summary>
internal static class JsonTreeReader
{
    /// <summary>The contract needs eight levels.</summary>
    public const int DeepestNesting = 32;

    /// <summary>Parses; null when there is a fault.</summary>
    public static JsonTree? Read(ReadOnlySpan<byte> utf8, FaultList faults)
    {
        if (utf8.StartsWith("\uFEFF"u8))
        {
            faults.Add(DocumentRefusalKind.NotJson, "", "begins with a byte order mark; save it as UTF-8 without one");
            return null;
        }

        if (utf8.IsEmpty)
        {
            faults.Add(DocumentRefusalKind.NotJson, "", "is empty: a procedure document is a JSON object");
            return null;
        }

        var reader = new Utf8JsonReader(utf8, new JsonReaderOptions { MaxDepth = DeepestNesting });
        var position = new Position();
        int faultsBefore = faults.All.Count;
        try
        {
            reader.Read();
            JsonTree value = ReadValue(ref reader, "", position, faults);
            position.Path = "";

            // Anything but white space after the value makes this throw.
            reader.Read();
            return faults.All.Count == faultsBefore ? value : null;
        }
        catch (JsonException e)
        {
            faults.Add(DocumentRefusalKind.NotJson, position.Path, SyntaxMessage(e));
            return null;
        }
    }

    private static JsonTree ReadValue(ref Utf8JsonReader reader, string path, Position position, FaultList faults)
    {
        position.Path = path;
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject:
                return ReadObject(ref reader, path, position, faults);
            case JsonTokenType.StartArray:
                return ReadArray(ref reader, path, position, faults);
            case JsonTokenType.String:
                return new JsonTree.Text(TextOf(ref reader, path, faults));
            case JsonTokenType.Number:
                // Out of range gives an infinity, refused where a number is wanted.
                return new JsonTree.Number(reader.TryGetDouble(out double number) ? number : double.PositiveInfinity);
            case JsonTokenType.True:
            case JsonTokenType.False:
                return new JsonTree.Truth(reader.GetBoolean());
            case JsonTokenType.Null:
                return new JsonTree.Null();
            case JsonTokenType.None:
            case JsonTokenType.EndObject:
            case JsonTokenType.EndArray:
            case JsonTokenType.PropertyName:
            case JsonTokenType.Comment:
                break;
        }

        throw new JsonException("a value is missing");
    }

    private static JsonTree.Record ReadObject(ref Utf8JsonReader reader, string path, Position position, FaultList faults)
    {
        List<KeyValuePair<string, JsonTree>> members = [];
        HashSet<string> names = new(StringComparer.Ordinal);
        while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
        {
            string name = TextOf(ref reader, path, faults);
            string memberPath = JsonPointer.Member(path, name);
            if (!names.Add(name))
            {
                faults.Add(DocumentRefusalKind.NotJson, memberPath, $"the member \"{Shown.Text(name)}\" is written twice; keep one of them");
            }

            position.Path = memberPath;
            reader.Read();
            members.Add(new(name, ReadValue(ref reader, memberPath, position, faults)));
            position.Path = path;
        }

        return new JsonTree.Record(members);
    }

    private static JsonTree.List ReadArray(ref Utf8JsonReader reader, string path, Position position, FaultList faults)
    {
        List<JsonTree> items = [];
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            items.Add(ReadValue(ref reader, JsonPointer.Item(path, items.Count), position, faults));
            position.Path = path;
        }

        return new JsonTree.List(items);
    }

    private static string TextOf(ref Utf8JsonReader reader, string path, FaultList faults)
    {
        try
        {
            return reader.GetString() ?? "";
        }
        catch (InvalidOperationException)
        {
            // The only reasons of Utf8JsonReader: bytes that are no UTF-8, and escapes that are half a surrogate pair.
            faults.Add(DocumentRefusalKind.NotJson, path, "holds text that is no Unicode: either invalid UTF-8 bytes or a lone surrogate (\\ud800 to \\udfff without its partner)");
            return "";
        }
    }

    private static string SyntaxMessage(JsonException e)
    {
        string where = e.LineNumber is { } line
            ? string.Create(CultureInfo.InvariantCulture, $"line {line + 1}, byte {(e.BytePositionInLine ?? 0) + 1}: ")
            : "";
        if (e.Message.Contains("maximum configured depth", StringComparison.OrdinalIgnoreCase))
        {
            return string.Create(CultureInfo.InvariantCulture, $"{where}nested deeper than {DeepestNesting} levels; a procedure document needs eight");
        }

        string reason = e.Message.Contains("trailing comma", StringComparison.OrdinalIgnoreCase)
            ? "a comma with nothing after it; remove the comma"
            : "not JSON here; check for a missing quote, comma or bracket, and for words such as NaN, which JSON does not have";
        return where + reason;
    }

    /// <summary>Where the reader is, for the fault that ends the reading.</summary>
    private sealed class Position
    {
        public string Path { get; set; } = "";
    }
}
