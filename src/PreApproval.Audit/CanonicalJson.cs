using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;

namespace PreApproval.Audit;

/// <summary>The JSON Canonicalization Scheme of RFC 8785: one value, one sequence of bytes.</summary>
/// <remarks>
/// Numbers are IEEE 754 doubles (RFC 8785 section 3.2.2.3): an integer beyond 2^53 or a decimal with more than 17 digits
/// becomes the nearest double, so what must stay exact travels as a string (RFC 8785 appendix D). Strings are kept as
/// they are: no Unicode normalisation (section 3.1).
/// </remarks>
public static class CanonicalJson
{
    /// <summary>Deepest nesting of arrays and objects that is read or written.</summary>
    public const int LargestDepth = 64;

    private static readonly UTF8Encoding StrictUtf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    private static readonly JsonDocumentOptions StrictReading = new()
    {
        AllowDuplicateProperties = false,
        AllowTrailingCommas = false,
        CommentHandling = JsonCommentHandling.Disallow,
        MaxDepth = LargestDepth,
    };

    /// <summary>Canonical UTF-8 bytes of a JSON value.</summary>
    /// <exception cref="FormatException">NaN, an infinity, a lone surrogate, duplicate member names, or nesting deeper than <see cref="LargestDepth"/>.</exception>
    public static byte[] Serialize(JsonNode? value)
    {
        var text = new StringBuilder();
        try
        {
            Write(value, text, LargestDepth);
            return StrictUtf8.GetBytes(text.ToString());
        }
        catch (EncoderFallbackException e)
        {
            throw new FormatException("A string has a lone surrogate, which no UTF-8 can carry.", e);
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or JsonException)
        {
            // what JsonNode answers when it first touches escaped lone surrogates, duplicate names and non-finite numbers
            throw new FormatException($"Not I-JSON: {e.Message}", e);
        }
    }

    /// <summary>
    /// Parses strictly (RFC 8259 grammar, I-JSON of RFC 7493: no duplicate member names, no invalid UTF-8, no lone surrogates,
    /// no number beyond the range of a double) and canonicalises. False with the reason otherwise, and empty bytes.
    /// </summary>
    public static bool TryCanonicalize(ReadOnlySpan<byte> json, out byte[] canonical, out string error)
    {
        canonical = [];
        if (!Utf8.IsValid(json))
        {
            error = "The bytes are not valid UTF-8.";
            return false;
        }

        try
        {
            canonical = Serialize(JsonNode.Parse(json, nodeOptions: null, StrictReading));
            error = string.Empty;
            return true;
        }
        catch (Exception e) when (e is JsonException or FormatException or InvalidOperationException)
        {
            error = e.Message;
            return false;
        }
    }

    /// <summary><c>sha256:</c> and 64 lower-case hexadecimal digits of the SHA-256 of the bytes.</summary>
    public static string Digest(ReadOnlySpan<byte> bytes) => "sha256:" + Convert.ToHexStringLower(SHA256.HashData(bytes));

    private static void Write(JsonNode? node, StringBuilder text, int depthLeft)
    {
        switch (node)
        {
            case null:
                text.Append("null");
                break;
            case JsonObject members:
                WriteObject(members, text, Deeper(depthLeft));
                break;
            case JsonArray items:
                WriteArray(items, text, Deeper(depthLeft));
                break;
            default:
                WriteValue(node.AsValue(), text, depthLeft);
                break;
        }
    }

    private static int Deeper(int depthLeft) =>
        depthLeft > 0 ? depthLeft - 1 : throw new FormatException($"Nested deeper than {LargestDepth.ToString(CultureInfo.InvariantCulture)}.");

    private static void WriteObject(JsonObject members, StringBuilder text, int depthLeft)
    {
        text.Append('{');
        string separator = string.Empty;

        // RFC 8785 section 3.2.3: by UTF-16 code units, which is what ordinal comparison of .NET strings does
        foreach ((string name, JsonNode? value) in members.OrderBy(member => member.Key, StringComparer.Ordinal))
        {
            text.Append(separator);
            WriteString(name, text);
            text.Append(':');
            Write(value, text, depthLeft);
            separator = ",";
        }

        text.Append('}');
    }

    private static void WriteArray(JsonArray items, StringBuilder text, int depthLeft)
    {
        text.Append('[');
        string separator = string.Empty;
        foreach (JsonNode? item in items)
        {
            text.Append(separator);
            Write(item, text, depthLeft);
            separator = ",";
        }

        text.Append(']');
    }

    private static void WriteValue(JsonValue value, StringBuilder text, int depthLeft)
    {
        if (value.TryGetValue(out string? characters))
        {
            WriteString(characters, text);
        }
        else if (value.TryGetValue(out double number))
        {
            text.Append(EcmaScriptNumber.Format(number));
        }
        else if (value.TryGetValue(out bool truth))
        {
            text.Append(truth ? "true" : "false");
        }
        else
        {
            // other CLR types (long, decimal, Guid …) through their own JSON text
            Write(JsonNode.Parse(value.ToJsonString()), text, depthLeft);
        }
    }

    /// <summary>RFC 8785 section 3.2.2.2.</summary>
    private static void WriteString(string characters, StringBuilder text)
    {
        text.Append('"');
        foreach (char character in characters)
        {
            _ = character switch
            {
                '"' => text.Append("\\\""),
                '\\' => text.Append(@"\\"),
                '\b' => text.Append("\\b"),
                '\t' => text.Append("\\t"),
                '\n' => text.Append("\\n"),
                '\f' => text.Append("\\f"),
                '\r' => text.Append("\\r"),
                < ' ' => text.Append(CultureInfo.InvariantCulture, $"\\u{(int)character:x4}"),
                _ => text.Append(character),
            };
        }

        text.Append('"');
    }
}
