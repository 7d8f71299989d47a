using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Screenings;

/// <summary>
/// Lets only so many screenings run at once that a core is left for everything else; a few more wait for a moment, the rest are told to come
/// back. A screening computes without waiting, so more of them at once would only make all of them slow. What computes like one takes a place too.
/// </summary>
public sealed class ScreeningLimiter : IDisposable
{
    /// <summary>When to come back.</summary>
    public static readonly TimeSpan RetryAfter = TimeSpan.FromSeconds(5);

    private const int WaitingPerRunning = 4;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2);

    private readonly int _most = Math.Max(1, Environment.ProcessorCount - 1);
    private readonly SemaphoreSlim _running;
    private int _present;

    public ScreeningLimiter() => _running = new SemaphoreSlim(_most);

    /// <summary>The same screener, limited.</summary>
    public DocumentScreener Around(DocumentScreener screener)
    {
        ArgumentNullException.ThrowIfNull(screener);
        return screener with
        {
            Screen = (document, policy) => Run(() => screener.Screen(document, policy)),

            // Two screenings one after the other: one place.
            Compare = (before, after, policy) => Run(() => screener.Compare(before, after, policy)),
        };
    }

    /// <summary>Runs what computes for as long as a screening may; <see cref="ScreeningBusyException"/> where no place comes free.</summary>
    public T Run<T>(Func<T> screen)
    {
        ArgumentNullException.ThrowIfNull(screen);
        bool entered = false;
        try
        {
            if (Interlocked.Increment(ref _present) > _most * (1 + WaitingPerRunning) || !(entered = _running.Wait(Patience)))
            {
                throw new ScreeningBusyException();
            }

            return screen();
        }
        finally
        {
            if (entered)
            {
                _running.Release();
            }

            Interlocked.Decrement(ref _present);
        }
    }

    /// <summary>The same, but waits for its place without holding the thread; the work itself runs where it was called from.</summary>
    public async Task<T> RunAsync<T>(Func<T> screen, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(screen);
        bool entered = false;
        try
        {
            if (Interlocked.Increment(ref _present) > _most * (1 + WaitingPerRunning) || !(entered = await _running.WaitAsync(Patience, cancellationToken)))
            {
                throw new ScreeningBusyException();
            }

            return screen();
        }
        finally
        {
            if (entered)
            {
                _running.Release();
            }

            Interlocked.Decrement(ref _present);
        }
    }

    public void Dispose() => _running.Dispose();
}

/// <summary>Too many screenings at once. An exception, because it can come up wherever a handler screens; answered with 503.</summary>
public sealed class ScreeningBusyException : Exception
{
    public ScreeningBusyException()
        : base("Too many screenings are running at the moment.")
    {
    }

    public ScreeningBusyException(string message)
        : base(message)
    {
    }

    public ScreeningBusyException(string message, Exception innerException)
        : base(message, innerException)
    {
    }
}
