namespace PreApproval.Web.Shared;

/// <summary>The headers every answer carries, errors included (ASVS 5.0.0, 3.4 and 14.3).</summary>
public static class SecurityHeaders
{
    /// <summary>Everything comes from this server; nothing is framed, nothing inline is run.</summary>
    public const string ContentSecurityPolicy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; "
        + "form-action 'self'; base-uri 'self'; frame-ancestors 'none'";

    /// <summary>Must be first in the pipeline: the headers are set when the answer starts, whoever writes it.</summary>
    public static IApplicationBuilder UseSecurityHeaders(this IApplicationBuilder app) => app.Use((context, next) =>
    {
        context.Response.OnStarting(static state =>
        {
            Write((HttpContext)state);
            return Task.CompletedTask;
        }, context);
        return next(context);
    });

    private static void Write(HttpContext context)
    {
        IHeaderDictionary headers = context.Response.Headers;
        headers.ContentSecurityPolicy = ContentSecurityPolicy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), geolocation=(), microphone=(), payment=(), usb=()";
        if (context.Request.IsHttps)
        {
            headers.StrictTransportSecurity = "max-age=31536000; includeSubDomains";
        }

        if (context.User.Identity?.IsAuthenticated == true || ApiPaths.IsApi(context.Request.Path) || context.Response.StatusCode >= 400)
        {
            // What may be kept is asked about before each use, and only by the browser of the person.
            headers.CacheControl = context.Response.StatusCode < 400 && context.GetEndpoint()?.Metadata.GetMetadata<MayBeKept>() is not null ? "private, no-cache" : "no-store";
        }
    }
}

/// <summary>Marks an endpoint whose answers carry an entity tag and may be kept by the client that asked.</summary>
public sealed record MayBeKept;
