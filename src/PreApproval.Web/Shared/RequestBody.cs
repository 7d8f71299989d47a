using System.IO.Pipelines;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.Features;
using PreApproval.Documents;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared;

/// <summary>Reads the body of a call, at most <see cref="LargestBytes"/>.</summary>
public static class RequestBody
{
    /// <summary>1 MiB: a document of the largest size and its envelope.</summary>
    public const int LargestBytes = 1 << 20;

    /// <summary>8 MiB: a form with two documents of the largest size, pasted ones with every byte escaped, and room to say of a larger file that it is too large.</summary>
    public const int LargestForm = 8 << 20;

    /// <summary>Up to here a body that is too large is read and thrown away; beyond, the connection is closed.</summary>
    public const int LargestDiscarded = 16 << 20;

    private static readonly TimeSpan LongestDiscarding = TimeSpan.FromSeconds(5);

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
        if (request.HttpContext.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
        {
            limit.MaxRequestBodySize = LargestDiscarded;
        }

        using var bytes = new MemoryStream((int)Math.Min(request.ContentLength ?? 4096, LargestBytes));
        byte[] buffer = new byte[16 * 1024];
        long total = 0;
        int read;
        while ((read = await request.Body.ReadAsync(buffer, cancellationToken)) > 0)
        {
            total += read;
            if (total <= LargestBytes)
            {
                bytes.Write(buffer, 0, read);
            }
        }

        return total > LargestBytes ? TooLarge : new ReadOnlyMemory<byte>(bytes.ToArray());
    }

    /// <summary>For calls that take no body: empty and <c>{}</c> are accepted, anything else would be ignored unseen.</summary>
    public static async Task<Refusal?> MustSayNothingAsync(HttpRequest request, CancellationToken cancellationToken)
    {
        Result<ReadOnlyMemory<byte>, Refusal> body = await ReadAsync(request, cancellationToken);
        if (!body.IsOk)
        {
            return body.Error;
        }

        return string.Concat(Encoding.UTF8.GetString(body.Value.Span).Where(c => !char.IsWhiteSpace(c))) is "" or "{}"
            ? null
            : new Refusal(RefusalKind.Malformed, "This call takes no body.", [new Fault("", "Send nothing, or {}.")]);
    }

    /// <summary>
    /// Reads what is too large to its end, for a few seconds, before refusing it: a connection closed in the middle of sending shows most clients a
    /// broken pipe instead of the answer. Goes before authentication, so that nobody waits for a password check to learn it.
    /// </summary>
    public static IApplicationBuilder UseBodyLimit(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        if (context.Request.ContentLength is > LargestBytes and <= LargestDiscarded && ApiPaths.IsApi(context.Request.Path))
        {
            await DiscardAsync(context);
            await Problems.From(context, TooLarge).ExecuteAsync(context);
            return;
        }

        if (context.Request.ContentLength is > LargestBytes and <= LargestForm && !ApiPaths.IsApi(context.Request.Path) && context.Request.HasFormContentType)
        {
            // The page itself says which file is too large, and keeps what else was typed.
            if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
            {
                limit.MaxRequestBodySize = LargestForm;
            }
        }
        else if (context.Request.ContentLength is > LargestBytes && !ApiPaths.IsApi(context.Request.Path) && context.Features.Get<IStatusCodeReExecuteFeature>() is null)
        {
            // Otherwise the form can't be read, which the check of its token takes for a form without one.
            if (context.Request.ContentLength <= LargestDiscarded)
            {
                await DiscardAsync(context);
            }

            context.Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
            return;
        }

        await next(context);
    });

    private static async Task DiscardAsync(HttpContext context)
    {
        if (context.Features.Get<IHttpMaxRequestBodySizeFeature>() is { IsReadOnly: false } limit)
        {
            limit.MaxRequestBodySize = LargestDiscarded;
        }

        PipeReader body = context.Request.BodyReader;
        using var patience = new CancellationTokenSource(LongestDiscarding);
        await using CancellationTokenRegistration enough = patience.Token.Register(body.CancelPendingRead);
        ReadResult read;
        do
        {
            read = await body.ReadAsync(context.RequestAborted);
            body.AdvanceTo(read.Buffer.End);
        }
        while (read is { IsCompleted: false, IsCanceled: false });
        if (read.IsCanceled)
        {
            context.Response.Headers.Connection = "close";
        }
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
    public static bool IsJson(HttpRequest request) => IsUtf8(request, "application/json");

    /// <summary>True for <c>text/csv</c>, with no character set or UTF-8.</summary>
    public static bool IsCsv(HttpRequest request) => IsUtf8(request, "text/csv");

    private static bool IsUtf8(HttpRequest request, string mediaType)
    {
        ArgumentNullException.ThrowIfNull(request);
        return MediaTypeHeaderValue.TryParse(request.ContentType, out MediaTypeHeaderValue? type)
            && string.Equals(type.MediaType, mediaType, StringComparison.OrdinalIgnoreCase)
            && (type.CharSet is null || string.Equals(type.CharSet.Trim('"'), "utf-8", StringComparison.OrdinalIgnoreCase));
    }

    private static Refusal TooLarge { get; } = new(RefusalKind.TooLarge, "The body is larger than 1 MB.",
        [new Fault("", $"At most {DocumentReader.LargestBytes} bytes of document.")]);
}
