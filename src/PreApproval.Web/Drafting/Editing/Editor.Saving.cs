using Microsoft.JSInterop;
using PreApproval.Documents;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Drafting.Editing;

/// <summary>Saving: with the version that was read, never over one that was not seen, and tried again until it works.</summary>
public sealed partial class Editor
{
    private async Task SaveAsync()
    {
        if (_saving || _document is null || _dirtySince is null || _conflict is not null || _gone.IsCancellationRequested)
        {
            return;
        }

        _saving = true;
        _dirtySince = null;
        long sequence = _received;
        byte[] bytes = _document.ToUtf8();
        TimeSpan? again = null;
        try
        {
            Result<DraftView, Refusal> saved = await WithDraftsAsync((drafts, actor, cancel) => drafts.SaveAsync(actor, ProcedureId, _version, bytes, cancel));
            if (saved.IsOk)
            {
                _version = saved.Value.Version;
                _savedAt = saved.Value.SavedAt;
                _problem = null;
                await ConfirmAsync(sequence);
                await ReadOwnAsync();
            }
            else
            {
                await RefuseSaveAsync(saved.Error);
            }
        }
        catch (OperationCanceledException)
        {
            return;
        }
        catch (JSDisconnectedException)
        {
            return;
        }
#pragma warning disable CA1031 // whatever fails here must not end the circuit: the typing is still in it
        catch (Exception exception)
#pragma warning restore CA1031
        {
            SaveFailed(Logger, ProcedureId, exception);
            _problem = "The draft could not be saved. What you typed is kept here and on this device; saving is tried again every few seconds.";
            _dirtySince ??= Clock.GetUtcNow();
            again = Retry;
        }
        finally
        {
            _saving = false;
        }

        if (again is not null || _dirtySince is not null)
        {
            _saveTimer?.Change(again ?? Pause, Timeout.InfiniteTimeSpan);
        }

        StateHasChanged();
        try
        {
            await ConfirmRestAsync();
        }
        catch (Exception gone) when (gone is JSDisconnectedException or OperationCanceledException)
        {
            // The page was closed: what it has not confirmed it offers again.
        }
    }

    private async Task ConfirmAsync(long sequence)
    {
        _confirmed = Math.Max(_confirmed, sequence);
        await Js.InvokeVoidAsync("preapprovalEditor.saved", _gone.Token, _version, _confirmed);
    }

    /// <summary>While nothing waits to be saved, the saved draft holds every input that has arrived.</summary>
    private async Task ConfirmRestAsync()
    {
        if (_dirtySince is null && !_saving && _conflict is null && _problem is null && _received > _confirmed)
        {
            await ConfirmAsync(_received);
        }
    }

    private async Task RefuseSaveAsync(Refusal refusal)
    {
        if (refusal.Kind == RefusalKind.Stale)
        {
            Result<DraftView, Refusal> other = await WithDraftsAsync((drafts, actor, cancel) => drafts.ReadAsync(actor, ProcedureId, cancel));
            if (other.IsOk)
            {
                _conflict = other.Value;
                _dirtySince ??= Clock.GetUtcNow();
                return;
            }
        }

        _problem = $"The draft was not saved: {refusal.Message} {string.Join(' ', refusal.Faults.Select(f => $"{f.Path} {f.Message}."))}".TrimEnd();
    }

    private async Task LoadOtherAsync()
    {
        Result<DraftView, Refusal> other = await WithDraftsAsync((drafts, actor, cancel) => drafts.ReadAsync(actor, ProcedureId, cancel));
        _conflict = null;
        if (other.IsOk)
        {
            Show(other.Value);
            await ConfirmAsync(_received);
        }
    }

    private async Task KeepMineAsync()
    {
        if (_conflict is { } other)
        {
            _version = other.Version;
            _conflict = null;
            _dirtySince ??= Clock.GetUtcNow();
            await SaveAsync();
        }
    }

    private async Task PutBackAsync()
    {
        _kept = [];
        await Js.InvokeVoidAsync("preapprovalEditor.putBack", _gone.Token);
    }

    private async Task DropKeptAsync()
    {
        _kept = [];
        await Js.InvokeVoidAsync("preapprovalEditor.discard", _gone.Token);
    }

    private async Task<Result<DraftView, Refusal>> WithDraftsAsync(Func<DraftHandler, Actor, CancellationToken, Task<Result<DraftView, Refusal>>> work) =>
        await Work.RunAsync((await Authentication).User, ProcedureId, (services, actor, cancel) => work(services.GetRequiredService<DraftHandler>(), actor, cancel), _gone.Token);

    [LoggerMessage(Level = LogLevel.Error, Message = "Saving the draft of {ProcedureId} failed")]
    private static partial void SaveFailed(ILogger logger, Guid procedureId, Exception exception);
}
