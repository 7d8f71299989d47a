using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace PreApproval.Web.Shared;

/// <summary><c>/health/live</c>: the process answers, whatever the database does. <c>/health/ready</c>: it can also do its work.</summary>
public static class Health
{
    /// <summary>Mark of the checks that decide about readiness.</summary>
    public const string Ready = "ready";

    public static void MapHealth(this WebApplication app)
    {
        app.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = _ => false, ResponseWriter = WriteAsync }).AllowAnonymous();
        app.MapHealthChecks("/health/ready", new HealthCheckOptions { Predicate = c => c.Tags.Contains(Ready), ResponseWriter = WriteAsync }).AllowAnonymous();
    }

    /// <summary>A schema that lacks a migration of this program cannot be worked with.</summary>
    public static HealthCheckResult Schema(bool behind) => behind ? HealthCheckResult.Unhealthy("The schema is behind: run migrate.") : HealthCheckResult.Healthy();

    /// <summary>The word only: why it is not ready stands in the log, not on the open network.</summary>
    private static Task WriteAsync(HttpContext context, HealthReport report) =>
        context.Response.WriteAsJsonAsync(new { status = report.Status.ToString().ToLowerInvariant() }, context.RequestAborted);
}

/// <summary>Not ready from the moment the application is asked to stop, so that no new work is sent to it.</summary>
public sealed class NotStopping(IHostApplicationLifetime lifetime) : IHealthCheck
{
    public Task<HealthCheckResult> CheckHealthAsync(HealthCheckContext context, CancellationToken cancellationToken = default) =>
        Task.FromResult(lifetime.ApplicationStopping.IsCancellationRequested ? HealthCheckResult.Unhealthy("Stopping.") : HealthCheckResult.Healthy());
}
