using System.Globalization;
using System.Security.Claims;
using Microsoft.Net.Http.Headers;
using PreApproval.Documents;
using PreApproval.Procedures.Idempotency;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared;

/// <summary>Marks an endpoint that takes the header Idempotency-Key.</summary>
public sealed record TakesIdempotencyKey;

/// <summary>Set by an earlier filter: what stands for the body when requests with a key are compared.</summary>
/// <param name="Content">The body without its secrets.</param>
/// <param name="Keeps">False: the answer does not belong to the key and is not kept.</param>
public sealed record KeyedContent(ReadOnlyMemory<byte> Content, bool Keeps);

/// <summary>
/// Idempotency-Key (draft-ietf-httpapi-idempotency-key-header): a repeat gets the first answer, byte for byte; the same key
/// with another request gets 422.
/// </summary>
public sealed class IdempotencyFilter(KeyedRequests requests) : IEndpointFilter
{
    public const string HeaderName = "Idempotency-Key";

    private const int LongestKey = 255;

    private static readonly string[] KeptHeaders = [HeaderNames.ContentType, HeaderNames.ETag, HeaderNames.Location];

    /// <summary>1 to 255 visible ASCII characters.</summary>
    public static bool IsKey(string? key) => key is { Length: > 0 and <= LongestKey } && key.All(c => c is >= '!' and <= '~');

    public async ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(next);
        HttpContext http = context.HttpContext;
        if (http.Request.Headers[HeaderName] is not { Count: > 0 } header)
        {
            return await next(context);
        }

        string key = header.Count == 1 ? header[0] ?? "" : "";
        if (!IsKey(key))
        {
            return Problems.Make(http, StatusCodes.Status400BadRequest, "malformed", $"{HeaderName} must be one value of 1 to {LongestKey} visible ASCII characters.");
        }

        if (http.Features.Get<KeyedContent>() is not { } keyed)
        {
            Result<ReadOnlyMemory<byte>, Refusal> body = await RequestBody.ReadAsync(http.Request, http.RequestAborted);
            if (!body.IsOk)
            {
                return Problems.From(http, body.Error);
            }

            http.Request.Body = new MemoryStream(body.Value.ToArray(), writable: false);
            keyed = new KeyedContent(body.Value, Keeps: true);
        }

        if (!keyed.Keeps)
        {
            return await next(context);
        }

        Guid account = Guid.Parse(http.User.FindFirstValue(ClaimTypes.NameIdentifier)!, CultureInfo.InvariantCulture);
        byte[] hash = requests.HashOf(http.Request, keyed.Content.Span);
        return await requests.RunAsync(account, key, hash, async () => await CaptureAsync(http, await next(context)), http.RequestAborted) is { } answer
            ? new StoredAnswerResult(answer)
            : Problems.Make(http, StatusCodes.Status422UnprocessableEntity, "key-used", $"This {HeaderName} was used with another request. Use a new key for a new request.");
    }

    /// <summary>Lets the endpoint write its answer into memory; what goes out is what was stored.</summary>
    private static async Task<StoredAnswer> CaptureAsync(HttpContext http, object? result)
    {
        Stream wire = http.Response.Body;
        using var memory = new MemoryStream();
        http.Response.Body = memory;
        try
        {
            await (result as IResult ?? throw new InvalidOperationException("An endpoint with an idempotency key must return an IResult.")).ExecuteAsync(http);
        }
        finally
        {
            http.Response.Body = wire;
        }

        return new StoredAnswer(http.Response.StatusCode,
            KeptHeaders.Where(h => http.Response.Headers.ContainsKey(h)).ToDictionary(h => h, h => http.Response.Headers[h].ToString(), StringComparer.OrdinalIgnoreCase),
            memory.ToArray());
    }

    private sealed class StoredAnswerResult(StoredAnswer answer) : IResult
    {
        public async Task ExecuteAsync(HttpContext httpContext)
        {
            HttpResponse response = httpContext.Response;
            response.StatusCode = answer.Status;
            foreach ((string name, string value) in answer.Headers)
            {
                response.Headers[name] = value;
            }

            response.ContentLength = answer.Body.Length;
            await response.Body.WriteAsync(answer.Body, httpContext.RequestAborted);
        }
    }
}
