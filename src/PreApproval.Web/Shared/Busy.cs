using System.Globalization;
using Npgsql;
using PreApproval.Web.Screenings;

namespace PreApproval.Web.Shared;

/// <summary>Failures that pass by themselves: too many screenings, no connection free, a statement or a lock that took too long.</summary>
public static class Busy
{
    /// <summary>The states of the PostgreSQL manual, appendix A: too_many_connections, query_canceled, lock_not_available.</summary>
    private static readonly string[] States = ["53300", "57014", "55P03"];

    /// <summary>True where the same request may work in a few seconds.</summary>
    public static bool Is(Exception? error)
    {
        for (Exception? e = error; e is not null; e = e.InnerException)
        {
            if (e is ScreeningBusyException
                || (e is PostgresException { SqlState: { } state } && States.Contains(state, StringComparer.Ordinal))
                || e is NpgsqlException { InnerException: TimeoutException })
            {
                return true;
            }
        }

        return false;
    }

    public static void SayWhenToComeBack(HttpResponse response)
    {
        ArgumentNullException.ThrowIfNull(response);
        response.Headers.RetryAfter = ((int)ScreeningLimiter.RetryAfter.TotalSeconds).ToString(CultureInfo.InvariantCulture);
    }
}
