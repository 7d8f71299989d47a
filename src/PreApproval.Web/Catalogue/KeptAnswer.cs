using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.Net.Http.Headers;
using PreApproval.Web.Shared;

namespace PreApproval.Web.Catalogue;

/// <summary>
/// An answer that a client may keep and must ask about before it uses it again: with an entity tag, and 304 where If-None-Match names it
/// (RFC 9110, 13.1.2). Without a given tag it is the SHA-256 of the content.
/// </summary>
public sealed class KeptAnswer<T>(T value, string? tag = null) : IResult, IEndpointMetadataProvider
    where T : notnull
{
    public static void PopulateMetadata(System.Reflection.MethodInfo method, EndpointBuilder builder)
    {
        ArgumentNullException.ThrowIfNull(builder);
        builder.Metadata.Add(new ProducesResponseTypeMetadata(StatusCodes.Status200OK, typeof(T), ["application/json"]));
        builder.Metadata.Add(new ProducesResponseTypeMetadata(StatusCodes.Status304NotModified));
        builder.Metadata.Add(new MayBeKept());
    }

    public async Task ExecuteAsync(HttpContext httpContext)
    {
        ArgumentNullException.ThrowIfNull(httpContext);
        byte[] body = JsonSerializer.SerializeToUtf8Bytes(value, ApiJson.Options);
        string etag = tag ?? $"\"{Convert.ToHexStringLower(SHA256.HashData(body).AsSpan(0, 16))}\"";
        HttpResponse response = httpContext.Response;
        response.Headers.ETag = etag;
        if (Names(httpContext.Request, etag))
        {
            response.StatusCode = StatusCodes.Status304NotModified;
            return;
        }

        response.ContentType = "application/json; charset=utf-8";
        response.ContentLength = body.Length;
        await response.Body.WriteAsync(body, httpContext.RequestAborted);
    }

    /// <summary>Compared weakly, as the standard says for If-None-Match.</summary>
    private static bool Names(HttpRequest request, string etag) =>
        EntityTagHeaderValue.TryParseList([.. request.Headers.IfNoneMatch.OfType<string>()], out IList<EntityTagHeaderValue>? tags)
        && tags.Any(known => known.Equals(EntityTagHeaderValue.Any) || string.Equals(known.Tag.Value, etag, StringComparison.Ordinal));
}
