using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Components.Authorization;
using PreApproval.Documents;
using PreApproval.Documents.Inventory;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Inventory;
using PreApproval.Procedures.Substances;
using PreApproval.Procedures.Thresholds;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Exploring;
using PreApproval.Web.Identity;
using PreApproval.Web.Screenings;
using PreApproval.Web.Shared.Charts;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>Screening as the draft is written.</summary>
public sealed partial class Editor
{
    private readonly SemaphoreSlim _reading = new(1);

    /// <summary>The group's thresholds; null until they are read, and nothing is screened before.</summary>
    private Policy? _thresholds;

    /// <summary>The sources behind the findings, numbered; null: not screened.</summary>
    private SourceNumbers? _sources;

    /// <summary>Which state of the inventory was read; null: none yet.</summary>
    private long? _stamp;

    /// <summary>What the group says, read when the editor opens and with each save: values and thresholds that were changed meanwhile show with the next change of the draft.</summary>
    private async Task ReadOwnAsync()
    {
        CancellationToken gone = _gone.Token;

        // One after the other: of two at once the one that began earlier could answer last, with the older state.
        await _reading.WaitAsync(gone);
        try
        {
            await ReadOwnNowAsync(gone);
        }
        finally
        {
            _reading.Release();
        }
    }

    private async Task ReadOwnNowAsync(CancellationToken gone)
    {
        AuthenticationState state = await Authentication;
        await using AsyncServiceScope scope = Scopes.CreateAsyncScope();
        Actor? actor = await scope.ServiceProvider.GetRequiredService<ActorProvider>().ForProcedureAsync(state.User, ProcedureId, gone);
        IReadOnlyList<ListedGroupSubstance> own = await scope.ServiceProvider.GetRequiredService<OwnValues>().ListAsync(actor, gone);
        Policy thresholds = await scope.ServiceProvider.GetRequiredService<PolicyInUse>().OfAsync(actor, gone);
        InventoryLookup lookup = scope.ServiceProvider.GetRequiredService<InventoryLookup>();
        long stamp = await lookup.StampAsync(actor, gone);
        if (_document is null)
        {
            return;
        }

        // Thousands of entries are read only where one was changed; the stamp first, so that a change in between is read again.
        GroupInventory inventory = stamp == _stamp
            ? _document.Inventory with { InspectionMonths = thresholds.InspectionMonths }
            : await lookup.AllAsync(actor, gone);
        _stamp = stamp;
        if (_document is null
            || (thresholds == _thresholds && own.Select(static o => (o.Id, o.Version)).SequenceEqual(_document.Own.Select(static o => (o.Id, o.Version))) && Same(inventory, _document.Inventory)))
        {
            return;
        }

        _document.Own = own;
        _thresholds = thresholds;
        Offer(inventory);
        Screen();
    }

    private static bool Same(GroupInventory one, GroupInventory other) =>
        one.Vessels.Select(static vessel => (vessel.Id, vessel.Version)).SequenceEqual(other.Vessels.Select(static vessel => (vessel.Id, vessel.Version)))
        && one.Places.Select(static place => (place.Id, place.Version)).SequenceEqual(other.Places.Select(static place => (place.Id, place.Version)))
        && one.Places.SelectMany(static place => place.Agents).SequenceEqual(other.Places.SelectMany(static place => place.Agents));

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
        if (_document is null || _thresholds is null)
        {
            return;
        }

        Result<UnfinishedReading, DocumentRefusal> read = Screener.ReadUnfinished(_document.ToUtf8());
        _document.Faults = read.IsOk ? read.Value.Faults : read.Error.Faults;
        _screening = null;
        _sources = null;
        _curves = [];
        _explorable = [];
        _screeningFailed = false;
        _screeningBusy = false;
        if (!read.IsOk)
        {
            return;
        }

        try
        {
            InventoryCompletion stocked = InventoryUse.Complete(GroupSubstanceUse.Complete(read.Value.Document, _document.Own), _document.Inventory, DateOnly.FromDateTime(Clock.GetUtcNow().UtcDateTime));
            _document.Faults = [.. read.Value.Faults, .. stocked.Faults];
            if (stocked.Faults.Any(fault => !IsAbout(fault, read.Value.Unnamed)))
            {
                return;
            }

            ProcedureDocument completed = stocked.Document;
            _screening = ScreeningView.Read(Screener.Screen(completed, _thresholds).Json);
            _sources = SourceNumbers.Of(_screening);
            _explorable = [.. ExploredPlan.Of(Root, completed, _thresholds).Explorable.Select(ExploredStep.Of)];
            _curves = PressureCurve.From(ReferenceEquals(completed, read.Value.Document) ? Root : DocumentWriter.ToJson(completed), _screening);
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

    /// <summary>What is wrong with a vessel that no step names says nothing of what happens in the others.</summary>
    private static bool IsAbout(Fault fault, IReadOnlyList<int> vessels) =>
        vessels.Any(index => $"/vessels/{index.ToString(CultureInfo.InvariantCulture)}" is var row && (string.Equals(fault.Path, row, StringComparison.Ordinal) || fault.Path.StartsWith(row + "/", StringComparison.Ordinal)));

    private Severity? WorstAt(JsonObject step)
    {
        string id = DocumentText.Text(step, "id");
        List<Severity> all = [.. (_screening?.Findings ?? []).Where(f => f.Steps.Contains(id, StringComparer.Ordinal)).Select(f => f.Severity)];
        return all.Count == 0 ? null : all.Min();
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "Screening the draft of {ProcedureId} failed")]
    private static partial void ScreeningFailed(ILogger logger, Guid procedureId, Exception exception);
}
