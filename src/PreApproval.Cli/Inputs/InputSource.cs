using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Documents;

namespace PreApproval.Cli.Inputs;

/// <summary>Where inputs come from: files, words of the command line, or a JSON array on standard input (<c>-</c>).</summary>
internal static class InputSource
{
    private const string StandardInput = "-";
    private const int LargestStandardInput = 200_000_000;

    public static Result<Batch, Problem> Files(string[] names, Stream standardInput) =>
        IsStandardInput(names) ? Elements(standardInput)
        : names.Contains(StandardInput, StringComparer.Ordinal) ? Mixed()
        : new Batch([.. names.Select(File)], names.Length > 1);

    /// <summary>A CAS number, a name or a SMILES each; the command finds out which.</summary>
    public static Result<Batch, Problem> Words(string[] words, Stream standardInput) =>
        IsStandardInput(words) ? Elements(standardInput)
        : words.Contains(StandardInput, StringComparer.Ordinal) ? Mixed()
        : new Batch([.. words.Select(word => new Input(word, JsonSerializer.SerializeToUtf8Bytes(JsonValue.Create(word)), null))], words.Length > 1);

    private static bool IsStandardInput(string[] names) => names is [StandardInput];

    private static Problem Mixed() => new("Unusable input", "Standard input (-) is read alone, not beside other inputs.", []);

    /// <summary>One file by its name.</summary>
    public static Input File(string name)
    {
        try
        {
            var file = new FileInfo(name);
            return file.Exists && file.Length > DocumentReader.LargestBytes
                ? new Input(name, default, new Problem("Unusable input", $"{name} is larger than 1 MB.", [new Fault("", "is larger than 1 MB")]))
                : new Input(name, System.IO.File.ReadAllBytes(name), null);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
        {
            string reason = e is FileNotFoundException or DirectoryNotFoundException ? "there is no such file" : "it cannot be read";
            return new Input(name, default, new Problem("Unusable input", $"{name}: {reason}.", []));
        }
    }

    /// <summary>Cuts the array into the bytes of its elements, so that each is judged as a file of its own would be.</summary>
    private static Result<Batch, Problem> Elements(Stream standardInput)
    {
        using var buffer = new MemoryStream();
        byte[] piece = new byte[81_920];
        int read;
        while (buffer.Length <= LargestStandardInput && (read = standardInput.Read(piece)) > 0)
        {
            buffer.Write(piece, 0, read);
        }

        if (buffer.Length > LargestStandardInput)
        {
            return new Problem("Unusable input", "Standard input is larger than 200 MB.", []);
        }

        ReadOnlyMemory<byte> bytes = buffer.ToArray();
        List<Input> inputs = [];
        var reader = new Utf8JsonReader(bytes.Span, new JsonReaderOptions { MaxDepth = 1_000 });
        try
        {
            if (!reader.Read() || reader.TokenType != JsonTokenType.StartArray)
            {
                return new Problem("Unusable input", "Standard input must be a JSON array.", [new Fault("", "must be a JSON array")]);
            }

            while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
            {
                int start = (int)reader.TokenStartIndex;
                reader.Skip();
                inputs.Add(new Input(string.Create(CultureInfo.InvariantCulture, $"element {inputs.Count}"), bytes[start..(int)reader.BytesConsumed], null));
            }

            // Anything but white space after the array makes this throw.
            reader.Read();
        }
        catch (JsonException e)
        {
            string where = string.Create(CultureInfo.InvariantCulture, $"line {e.LineNumber + 1}, byte {e.BytePositionInLine + 1}: not JSON here");
            return new Problem("Unusable input", "Standard input is not JSON.", [new Fault(string.Create(CultureInfo.InvariantCulture, $"/{inputs.Count}"), where)]);
        }

        return new Batch(inputs, true);
    }
}
