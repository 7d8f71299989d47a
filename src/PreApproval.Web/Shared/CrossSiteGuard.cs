using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http.Extensions;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;

namespace PreApproval.Web.Shared;

/// <summary>
/// Refuses what another site makes a browser send (ASVS 5.0.0, 3.5). The framework checks forms only; this covers every
/// unsafe method, JSON and DELETE included, and web sockets. A request with an Authorization header is no browser's doing.
/// </summary>
public static class CrossSiteGuard
{
    /// <summary>Goes after authentication.</summary>
    public static IApplicationBuilder UseCrossSiteGuard(this IApplicationBuilder app) => app.Use(async (context, next) =>
    {
        if (await IsAcceptableAsync(context))
        {
            await next(context);
            return;
        }

        await Problems.From(context, Refusal.Because(RefusalKind.Forbidden,
            "This request came from another site, or without the token of one of our pages.")).ExecuteAsync(context);
    });

    private static async Task<bool> IsAcceptableAsync(HttpContext context)
    {
        HttpRequest request = context.Request;
        bool safe = HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method) || HttpMethods.IsOptions(request.Method) || HttpMethods.IsTrace(request.Method);
        bool socket = context.WebSockets.IsWebSocketRequest || string.Equals(request.Headers.Upgrade, "websocket", StringComparison.OrdinalIgnoreCase);
        if ((safe && !socket) || request.Headers.Authorization.Count > 0)
        {
            return true;
        }

        // Neither header: an old browser or no browser. With a cookie it needs the token; without one there is nothing to abuse.
        return Told(request)
            ?? (!CookieNames.HasSignIn(request) || await context.RequestServices.GetRequiredService<IAntiforgery>().IsRequestValidAsync(context));
    }

    /// <summary>True where the browser says that one of our own pages sent it.</summary>
    public static bool IsFromUs(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return Told(request) == true;
    }

    /// <summary>What the browser says of where it comes from; null: nothing.</summary>
    private static bool? Told(HttpRequest request)
    {
        if (request.Headers["Sec-Fetch-Site"] is [{ Length: > 0 } site])
        {
            return string.Equals(site, "same-origin", StringComparison.Ordinal);
        }

        return request.Headers.Origin is [{ Length: > 0 } origin]
            ? string.Equals(origin, UriHelper.BuildAbsolute(request.Scheme, request.Host).TrimEnd('/'), StringComparison.OrdinalIgnoreCase)
            : null;
    }
}
