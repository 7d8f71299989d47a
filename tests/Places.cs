using PreApproval.Web.Screenings;

namespace PreApproval.Testing;

/// <summary>Holds every place of the limiter until it is disposed.</summary>
internal sealed class Places : IAsyncDisposable
{
    private readonly ManualResetEventSlim _done = new();
    private readonly Task[] _screenings;

    private Places(ScreeningLimiter limiter)
    {
        int places = Math.Max(1, Environment.ProcessorCount - 1);
        using var taken = new CountdownEvent(places);
        _screenings = [.. Enumerable.Range(0, places).Select(_ => Task.Factory.StartNew(
            () => Hold(limiter, taken),
            CancellationToken.None,
            TaskCreationOptions.LongRunning,
            TaskScheduler.Default))];
        taken.Wait();
    }

    public static Places TakeAll(ScreeningLimiter limiter) => new(limiter);

    public async ValueTask DisposeAsync()
    {
        _done.Set();
        await Task.WhenAll(_screenings);
        _done.Dispose();
    }

    // others may be before it in the queue
    private void Hold(ScreeningLimiter limiter, CountdownEvent taken)
    {
        while (true)
        {
            try
            {
                limiter.Run(() =>
                {
                    taken.Signal();
                    _done.Wait();
                    return 0;
                });
                return;
            }
            catch (ScreeningBusyException)
            {
                Thread.Sleep(100);
            }
        }
    }
}
