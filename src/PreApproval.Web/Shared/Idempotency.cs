using System.Globalization;
using System.Security.Claims;
using System.Security.Cryptography;
using System.Text;
using Microsoft.Net.Http.Headers;
using PreApproval.Documents;
using PreApproval.Procedures.Idempotency;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared;

/// <summary>Marks an endpoint that takes the header Idempotency-Key.</summary>
public sealed record TakesIdempotencyKey;

/// <summary>
/// Idempotency-Key (draft-ietf-httpapi-idempotency-key-header): a repeat gets the first answer, byte for byte; the same key
/// with another request gets 422. Claim, effect and stored answer are one transaction, so that there is no moment at which
/// one exists without the other. Refusals are answers too; a server fault is none: it undoes everything and may be tried again.
/// </summary>
public sealed class IdempotencyFilter(IUnitOfWork unit, IIdempotencyStore store) : IEndpointFilter
{
    public const string HeaderName = "Idempotency-Key";

    private const int LongestKey = 255;

    private static readonly string[] KeptHeaders = [HeaderNames.ContentType, HeaderNames.ETag, HeaderNames.Location];

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
        if (key.Length is 0 or > LongestKey || key.Any(c => c is < '!' or > '~'))
        {
            return Problems.Make(http, StatusCodes.Status400BadRequest, "malformed", $"{HeaderName} must be one value of 1 to {LongestKey} visible ASCII characters.");
        }

        Result<ReadOnlyMemory<byte>, Refusal> body = await RequestBody.ReadAsync(http.Request, http.RequestAborted);
        if (!body.IsOk)
        {
            return Problems.From(http, body.Error);
        }

        http.Request.Body = new MemoryStream(body.Value.ToArray(), writable: false);
        Guid account = Guid.Parse(http.User.FindFirstValue(ClaimTypes.NameIdentifier)!, CultureInfo.InvariantCulture);
        byte[] hash = HashOf(http.Request, body.Value.Span);

        await using IUnitScope scope = await unit.BeginAsync(http.RequestAborted);
        switch (await store.ClaimAsync(account, key, hash, http.RequestAborted))
        {
            case KeyClaim.Replay replay:
                return new StoredAnswerResult(replay.Answer);
            case KeyClaim.OtherRequest:
                return Problems.Make(http, StatusCodes.Status422UnprocessableEntity, "key-used",
                    $"This {HeaderName} was used with another request. Use a new key for a new request.");
            default:
                StoredAnswer answer = await CaptureAsync(http, await next(context));
                if (answer.Status < 500)
                {
                    await store.CompleteAsync(account, key, answer, http.RequestAborted);
                    await scope.CommitAsync(http.RequestAborted);
                }

                return new StoredAnswerResult(answer);
        }
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

    private static byte[] HashOf(HttpRequest request, ReadOnlySpan<byte> body)
    {
        using var sha = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        sha.AppendData(Encoding.UTF8.GetBytes($"{request.Method}\n{request.Path}{request.QueryString}\n"));
        sha.AppendData(body);
        return sha.GetHashAndReset();
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
