using System.Security.Claims;
using Serilog;
using Serilog.Events;
using Serilog.Formatting.Compact;

namespace PreApproval.Web.Shared;

/// <summary>Structured log, one JSON object per line on standard output, times in UTC.</summary>
public static class Logging
{
    public static IServiceCollection AddLog(this IServiceCollection services, IConfiguration configuration, bool quiet) => services.AddSerilog(log =>
    {
        log.ReadFrom.Configuration(configuration).Enrich.FromLogContext().WriteTo.Console(new CompactJsonFormatter());
        if (quiet)
        {
            // Somebody reads this console: the sign-ins of the demo must not scroll away.
            log.MinimumLevel.Is(LogEventLevel.Warning);
        }
    });

    /// <summary>One line per request: method, path, status, time, account. No query, no header, no body: that is where secrets are.</summary>
    public static IApplicationBuilder UseRequestLog(this IApplicationBuilder app) => app.UseSerilogRequestLogging(o =>
    {
        o.IncludeQueryInRequestPath = false;
        o.GetLevel = (context, _, error) => error is not null || context.Response.StatusCode >= 500 ? LogEventLevel.Error
            : context.Request.Path.StartsWithSegments("/health", StringComparison.Ordinal) ? LogEventLevel.Debug : LogEventLevel.Information;
        o.EnrichDiagnosticContext = (diagnostic, context) =>
        {
            diagnostic.Set("RequestId", context.TraceIdentifier);
            if (context.User.FindFirstValue(ClaimTypes.NameIdentifier) is { } account)
            {
                diagnostic.Set("AccountId", account);
            }
        };
    });
}
