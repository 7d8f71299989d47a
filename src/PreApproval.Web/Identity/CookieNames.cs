using Microsoft.AspNetCore.Authentication.Cookies;

namespace PreApproval.Web.Identity;

/// <summary>Names of our cookies. Over https they carry the prefix <c>__Host-</c>, which binds them to this very host.</summary>
public static class CookieNames
{
    public const string SignIn = "preapproval";

    public const string Antiforgery = "preapproval-form";

    private const string HostPrefix = "__Host-";

    public static string For(HttpRequest request, string name)
    {
        ArgumentNullException.ThrowIfNull(request);
        return request.IsHttps ? HostPrefix + name : name;
    }

    public static bool HasSignIn(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return request.Cookies.ContainsKey(For(request, SignIn));
    }
}

/// <summary>
/// Chooses the name by the scheme of the request: a browser refuses <c>__Host-</c> without Secure, and a cookie with Secure
/// does not survive plain http, which is how a single machine is used on its loopback address.
/// </summary>
public sealed class SchemeCookieManager : ICookieManager
{
    private readonly ChunkingCookieManager _inner = new();

    public string? GetRequestCookie(HttpContext context, string key)
    {
        ArgumentNullException.ThrowIfNull(context);
        return _inner.GetRequestCookie(context, CookieNames.For(context.Request, key));
    }

    public void AppendResponseCookie(HttpContext context, string key, string? value, CookieOptions options)
    {
        ArgumentNullException.ThrowIfNull(context);
        _inner.AppendResponseCookie(context, CookieNames.For(context.Request, key), value, options);
    }

    public void DeleteCookie(HttpContext context, string key, CookieOptions options)
    {
        ArgumentNullException.ThrowIfNull(context);
        _inner.DeleteCookie(context, CookieNames.For(context.Request, key), options);
    }
}
