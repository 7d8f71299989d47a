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

        if (request.Headers["Sec-Fetch-Site"] is [{ Length: > 0 } site])
        {
            return string.Equals(site, "same-origin", StringComparison.Ordinal);
        }

        if (request.Headers.Origin is [{ Length: > 0 } origin])
        {
            return string.Equals(origin, UriHelper.BuildAbsolute(request.Scheme, request.Host).TrimEnd('/'), StringComparison.OrdinalIgnoreCase);
        }

        // Neither header: an old browser or no browser. With a cookie it needs the token; without one there is nothing to abuse.
        return !CookieNames.HasSignIn(request)
            || await context.RequestServices.GetRequiredService<IAntiforgery>().IsRequestValidAsync(context);
    }
}
