using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.JSInterop;
using PreApproval.Documents;
using PreApproval.Procedures.Drafting;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>Carrying back: one save of the draft with the version that was read, never over one that was not seen.</summary>
public sealed partial class Explorer
{
    private Task CarryBackAsync() => _at is null ? Task.CompletedTask : SaveAsync(_version, _at.ToKeep().Root);

    private Task CarryOntoNewerAsync()
    {
        if (_conflict is not { } other || _at is null)
        {
            return Task.CompletedTask;
        }

        Result<JsonObject, string> changed = _at.ToKeep().Onto(DocumentText.Parse(other.Document));
        if (!changed.IsOk)
        {
            _different = changed.Error;
            return Task.CompletedTask;
        }

        return SaveAsync(other.Version, changed.Value);
    }

    private Task ExploreNewer()
    {
        if (_conflict is not { } other || _at is null)
        {
            return Task.CompletedTask;
        }

        (ExploredValues wanted, string step, string? liquid) = (_wanted, _at.Step.Key, _wanted.Solvent is null ? null : Liquid.Id);
        _conflict = null;
        _different = null;
        Show(other, step);
        ExchangeableLiquid? same = _at?.Liquids.FirstOrDefault(l => string.Equals(l.Id, liquid, StringComparison.Ordinal));
        _material = same?.Material;
        _solvent = same is null ? "" : wanted.Solvent?.Instead.Identity.Name ?? "";
        _wanted = wanted with { Solvent = same is null || wanted.Solvent is null ? null : wanted.Solvent with { Material = same.Material } };
        return DrawNewestAsync();
    }

    private async Task SaveAsync(int version, JsonObject document)
    {
        if (_carrying || _at is null)
        {
            return;
        }

        _carrying = true;
        _problem = null;
        _carried = null;
        string changes = string.Join("; ", _edits.Select(e => $"{e.Label} {e.BeforeWords} → {e.AfterWords}"));
        try
        {
            Result<DraftView, Refusal> saved = await DraftAsync((drafts, actor, cancel) => drafts.SaveAsync(actor, Source.ProcedureId, version, Bytes(document), cancel));
            if (saved.IsOk)
            {
                _conflict = null;
                _different = null;
                Show(saved.Value, _at.Step.Key);
                _carried = $"Saved in the draft at {saved.Value.SavedAt.UtcDateTime.ToString("HH:mm:ss", CultureInfo.InvariantCulture)} UTC: {changes}.";
                await Js.InvokeVoidAsync("preapprovalExplorer.clear", _gone.Token);
            }
            else if (saved.Error.Kind == RefusalKind.Stale && await DraftAsync((drafts, actor, cancel) => drafts.ReadAsync(actor, Source.ProcedureId, cancel)) is { IsOk: true } other)
            {
                _conflict = other.Value;
                Result<JsonObject, string> onto = _at.ToKeep().Onto(DocumentText.Parse(other.Value.Document));
                _different = onto.IsOk ? null : onto.Error;
            }
            else
            {
                _problem = $"The draft was not changed: {saved.Error.Message} {string.Join(' ', saved.Error.Faults.Select(f => $"{f.Path} {f.Message}."))}".TrimEnd();
            }
        }
        catch (Exception gone) when (gone is JSDisconnectedException or OperationCanceledException)
        {
            return;
        }
#pragma warning disable CA1031 // whatever fails here must not end the page: what was tried is still in it
        catch (Exception exception)
#pragma warning restore CA1031
        {
            SaveFailed(Logger, Source.ProcedureId, exception);
            _problem = "The draft could not be saved. What you tried is kept on this page: carry it back again in a few seconds.";
        }
        finally
        {
            _carrying = false;
        }

        StateHasChanged();
        await ScreenAsync();
    }

    private async Task<Result<DraftView, Refusal>> DraftAsync(Func<DraftHandler, Actor, CancellationToken, Task<Result<DraftView, Refusal>>> work) =>
        await Work.RunAsync((await Authentication).User, Source.ProcedureId, (services, actor, cancel) => work(services.GetRequiredService<DraftHandler>(), actor, cancel), _gone.Token);

    [LoggerMessage(Level = LogLevel.Error, Message = "Carrying back into the draft of {ProcedureId} failed")]
    private static partial void SaveFailed(ILogger logger, Guid procedureId, Exception exception);
}
