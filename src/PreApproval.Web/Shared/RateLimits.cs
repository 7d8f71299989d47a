using System.Globalization;
using System.Net;
using System.Threading.RateLimiting;
using PreApproval.Web.Identity;

namespace PreApproval.Web.Shared;

/// <summary>Slows down guessing: sign-ins and token requests per address, beside the lockout per account.</summary>
public static class RateLimits
{
    /// <summary>Setting: attempts per minute and address.</summary>
    public const string SignInsPerMinute = "RateLimits:SignInsPerMinute";

    private const int DefaultSignInsPerMinute = 20;

    public static IServiceCollection AddRateLimits(this IServiceCollection services, IConfiguration configuration)
    {
        int perMinute = configuration.GetValue(SignInsPerMinute, DefaultSignInsPerMinute);
        return services.AddRateLimiter(o =>
        {
            o.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
            o.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, IPAddress>(context => IsSignIn(context.Request)
                ? RateLimitPartition.GetFixedWindowLimiter(context.Connection.RemoteIpAddress ?? IPAddress.None, _ => new FixedWindowRateLimiterOptions
                {
                    PermitLimit = perMinute,
                    Window = TimeSpan.FromMinutes(1),
                    QueueLimit = 0,
                })
                : RateLimitPartition.GetNoLimiter(IPAddress.Any));
            o.OnRejected = async (context, _) =>
            {
                if (context.Lease.TryGetMetadata(MetadataName.RetryAfter, out TimeSpan wait))
                {
                    context.HttpContext.Response.Headers.RetryAfter = ((int)Math.Ceiling(wait.TotalSeconds)).ToString(CultureInfo.InvariantCulture);
                }

                // People get the error page of this status.
                if (ApiPaths.IsApi(context.HttpContext.Request.Path))
                {
                    await Problems.FromStatus(context.HttpContext, StatusCodes.Status429TooManyRequests).ExecuteAsync(context.HttpContext);
                }
            };
        });
    }

    private static bool IsSignIn(HttpRequest request) =>
        HttpMethods.IsPost(request.Method)
        && (request.Path.StartsWithSegments(ApiPaths.Root + "/tokens", StringComparison.OrdinalIgnoreCase)
            || request.Path.StartsWithSegments(IdentitySetup.SignInPath, StringComparison.OrdinalIgnoreCase));
}
