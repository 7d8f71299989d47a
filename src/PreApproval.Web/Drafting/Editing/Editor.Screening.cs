using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;
using PreApproval.Web.Screenings;
using PreApproval.Web.Shared.Charts;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>Screening as the draft is written.</summary>
public sealed partial class Editor
{
    private void Rescreen()
    {
        if (!_gone.IsCancellationRequested)
        {
            Screen();
            StateHasChanged();
        }
    }

    private void Screen()
    {
        if (_document is null)
        {
            return;
        }

        Result<ProcedureDocument, DocumentRefusal> read = Screener.Read(_document.ToUtf8());
        _document.Faults = read.IsOk ? [] : read.Error.Faults;
        _screening = null;
        _curves = [];
        _screeningFailed = false;
        _screeningBusy = false;
        if (!read.IsOk)
        {
            return;
        }

        try
        {
            _screening = ScreeningView.Read(Screener.Screen(read.Value, Policy.Default).Json);
            _curves = PressureCurve.From(Root, _screening);
        }
        catch (ScreeningBusyException)
        {
            _screeningBusy = true;
            _screenTimer?.Change(ScreeningLimiter.RetryAfter, Timeout.InfiniteTimeSpan);
        }
#pragma warning disable CA1031 // a fault of the engine must not take the draft with it
        catch (Exception exception)
#pragma warning restore CA1031
        {
            ScreeningFailed(Logger, ProcedureId, exception);
            _screeningFailed = true;
        }
    }

    private Severity? WorstAt(JsonObject step)
    {
        string id = DocumentText.Text(step, "id");
        List<Severity> all = [.. (_screening?.Findings ?? []).Where(f => f.Steps.Contains(id, StringComparer.Ordinal)).Select(f => f.Severity)];
        return all.Count == 0 ? null : all.Min();
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "Screening the draft of {ProcedureId} failed")]
    private static partial void ScreeningFailed(ILogger logger, Guid procedureId, Exception exception);
}
