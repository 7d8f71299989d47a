using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Idempotency;
using PreApproval.Web.Identity;

namespace PreApproval.Web.Administration;

/// <summary>Once a day forgets idempotency keys and sessions that no longer serve anybody.</summary>
public sealed partial class Pruning(IServiceScopeFactory scopes, TimeProvider clock, ILogger<Pruning> logger) : BackgroundService
{
    private static readonly TimeSpan Every = TimeSpan.FromDays(1);

    /// <summary>One round: the numbers of keys and sessions that went.</summary>
    public async Task<(int Keys, int Sessions)> PruneAsync(CancellationToken cancellationToken)
    {
        await using AsyncServiceScope scope = scopes.CreateAsyncScope();
        DateTimeOffset now = clock.GetUtcNow();
        int keys = await scope.ServiceProvider.GetRequiredService<IIdempotencyStore>().PruneAsync(now - IIdempotencyStore.Kept, cancellationToken);
        int sessions = await scope.ServiceProvider.GetRequiredService<Sessions>().PruneAsync(now - SessionCheck.Longest - SessionCheck.Longest, cancellationToken);
        return (keys, sessions);
    }

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(Every, clock);
        do
        {
            try
            {
                (int keys, int sessions) = await PruneAsync(stoppingToken);
                Pruned(logger, keys, sessions);
            }
            catch (OperationCanceledException) when (stoppingToken.IsCancellationRequested)
            {
                return;
            }
#pragma warning disable CA1031 // a database that is away today must not end the application; tomorrow is another round
            catch (Exception exception)
#pragma warning restore CA1031
            {
                Failed(logger, exception);
            }
        }
        while (await timer.WaitForNextTickAsync(stoppingToken));
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "Forgot {Keys} idempotency keys and {Sessions} sessions")]
    private static partial void Pruned(ILogger logger, int keys, int sessions);

    [LoggerMessage(Level = LogLevel.Warning, Message = "Old keys and sessions could not be removed")]
    private static partial void Failed(ILogger logger, Exception exception);
}
