using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Web.Comparisons;
using PreApproval.Web.Screenings;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>A screening, or why there is none.</summary>
internal sealed record ExploredVerdict(ScreeningView? View, string? Why)
{
    public static ExploredVerdict NotYet { get; } = new(null, "not screened yet");

    public static ExploredVerdict Busy { get; } = new(null, "Many screenings are running at the moment; tried again in a few seconds.");

    public static ExploredVerdict Failed { get; } = new(null, "The screening failed here; nothing was changed.");

    public static ExploredVerdict Faulty { get; } = new(null, "It cannot be screened with these values.");
}

/// <summary>The verdict of the whole procedure, after the charts and off their thread.</summary>
public sealed partial class Explorer
{
    private ExploredVerdict _before = ExploredVerdict.NotYet;
    private ExploredVerdict _after = ExploredVerdict.NotYet;
    private Report? _beforeReport;
    private HazardComparison? _hazards;
    private long _drawn;
    private long _screened;
    private bool _screening;

    /// <summary>Screens what was drawn last. While one screening runs no second one begins: the newest is next.</summary>
    private async Task ScreenAsync()
    {
        if (_screening)
        {
            return;
        }

        _screening = true;
        try
        {
            while (_screened != _drawn && _at is not null && !_gone.IsCancellationRequested)
            {
                (long of, ProcedureDocument planned, ProcedureDocument tried, bool same, bool faulty, Report? known) = (_drawn, _at.Plan.Document!, _at.Document, _at.Draft.Edits.Count == 0, _at.Faults.Count > 0, _beforeReport);
                ExploredVerdict before = _before;
                ExploredVerdict after = ExploredVerdict.Faulty;
                HazardComparison? hazards = null;
                await Task.Run(() =>
                {
                    (before, Report? was) = known is null ? Screen(planned) : (before, known);
                    known = was;
                    if (faulty || was is null)
                    {
                        after = was is null ? before : after;
                        return;
                    }

                    (after, Report? now) = same ? (before, was) : Screen(tried);
                    hazards = now is null ? null : HazardComparison.Between(planned, was, tried, now, _ground.Policy, fault => ScreeningFailed(Logger, Source.ProcedureId, fault));
                });
                _screened = of;
                if (of == _drawn && !_gone.IsCancellationRequested)
                {
                    (_before, _after, _hazards, _beforeReport) = (before, after, hazards, known);
                    StateHasChanged();
                }
            }
        }
        finally
        {
            _screening = false;
        }

        if (RendererInfo.IsInteractive && (_before == ExploredVerdict.Busy || _after == ExploredVerdict.Busy))
        {
            _ = InvokeAsync(TryAgainAsync);
        }
    }

    private async Task TryAgainAsync()
    {
        try
        {
            await Task.Delay(ScreeningLimiter.RetryAfter, Clock, _gone.Token);
        }
        catch (OperationCanceledException)
        {
            return;
        }

        _screened = -1;
        await ScreenAsync();
    }

    private (ExploredVerdict Verdict, Report? Report) Screen(ProcedureDocument document)
    {
        try
        {
            ScreenedDocument screened = Screener.Screen(document, _ground.Policy);
            return (new ExploredVerdict(ScreeningView.Read(screened.Json), null), screened.Report);
        }
        catch (ScreeningBusyException)
        {
            return (ExploredVerdict.Busy, null);
        }
#pragma warning disable CA1031 // a fault of the engine must not take the page with it
        catch (Exception exception)
#pragma warning restore CA1031
        {
            ScreeningFailed(Logger, Source.ProcedureId, exception);
            return (ExploredVerdict.Failed, null);
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "Screening {ProcedureId} as explored failed")]
    private static partial void ScreeningFailed(ILogger logger, Guid procedureId, Exception exception);
}
