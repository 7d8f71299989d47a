namespace PreApproval.Web.Shared;

/// <summary>Which paths answer programs and which answer people.</summary>
public static class ApiPaths
{
    public const string Root = "/api/v1";

    /// <summary>True where errors are problem documents and sign-in is never a redirect.</summary>
    public static bool IsApi(PathString path) =>
        path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase)
        || path.StartsWithSegments("/openapi", StringComparison.OrdinalIgnoreCase)
        || path.StartsWithSegments("/health", StringComparison.OrdinalIgnoreCase);
}
