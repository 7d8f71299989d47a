using System.Net.Http.Headers;
using System.Text.Json;
using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared;

/// <summary>Reads the body of a call, at most <see cref="LargestBytes"/>.</summary>
public static class RequestBody
{
    /// <summary>1 MiB: a document of the largest size and its envelope.</summary>
    public const int LargestBytes = 1 << 20;

    private static readonly JsonDocumentOptions StrictJson = new()
    {
        AllowDuplicateProperties = false,
        AllowTrailingCommas = false,
        CommentHandling = JsonCommentHandling.Disallow,
        MaxDepth = 64,
    };

    /// <summary>The bytes as sent.</summary>
    public static async Task<Result<ReadOnlyMemory<byte>, Refusal>> ReadAsync(HttpRequest request, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(request);
        if (request.ContentLength > LargestBytes)
        {
            return TooLarge;
        }

        using var bytes = new MemoryStream((int)(request.ContentLength ?? 4096));
        byte[] buffer = new byte[16 * 1024];
        int read;
        while ((read = await request.Body.ReadAsync(buffer, cancellationToken)) > 0)
        {
            if (bytes.Length + read > LargestBytes)
            {
                return TooLarge;
            }

            bytes.Write(buffer, 0, read);
        }

        return new ReadOnlyMemory<byte>(bytes.ToArray());
    }

    /// <summary>A JSON object, strict: duplicate members, comments and trailing commas are refused.</summary>
    public static async Task<Result<ObjectReader, Refusal>> ReadObjectAsync(HttpRequest request, CancellationToken cancellationToken)
    {
        Result<ReadOnlyMemory<byte>, Refusal> body = await ReadAsync(request, cancellationToken);
        if (!body.IsOk)
        {
            return body.Error;
        }

        JsonElement root;
        try
        {
            using JsonDocument document = JsonDocument.Parse(body.Value, StrictJson);
            root = document.RootElement.Clone();
        }
        catch (JsonException e)
        {
            string where = e.LineNumber is { } line && e.BytePositionInLine is { } position ? $" (line {line + 1}, byte {position + 1})" : "";
            return new Refusal(RefusalKind.Malformed, "The body is not well-formed JSON.",
                [new Fault("", $"Send one JSON object in UTF-8 without duplicate members, comments or trailing commas{where}.")]);
        }

        return root.ValueKind == JsonValueKind.Object
            ? new ObjectReader(root, "", [])
            : new Refusal(RefusalKind.Malformed, "The body must be a JSON object.", [new Fault("", "Expected an object.")]);
    }

    /// <summary>True for <c>application/json</c>, with no character set or UTF-8.</summary>
    public static bool IsJson(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? type)
            && string.Equals(type.MediaType, "application/json", StringComparison.OrdinalIgnoreCase)
            && (type.CharSet is null || string.Equals(type.CharSet.Trim('"'), "utf-8", StringComparison.OrdinalIgnoreCase));
    }

    private static Refusal TooLarge { get; } = new(RefusalKind.TooLarge, "The body is larger than 1 MB.",
        [new Fault("", $"At most {DocumentReader.LargestBytes} bytes of document.")]);
}
