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
    /// <summary>Fields that hold something else than what is drawn, by name: nothing is carried back before they are mended.</summary>
    private readonly Dictionary<string, string> _faulty = new(StringComparer.Ordinal);

    /// <summary>Those of them that are on the page.</summary>
    private IReadOnlyList<string> Faulty => _at is not { } at ? [] :
        [.. _faulty.Where(wrong => wrong.Key switch
            {
                "temperature" => true,
                "fill" => at.Planned.State.Sealed && at.Tried.Fill is not null,
                "amounts" => at.Planned.State.Sealed && at.Tried.Fill is null,
                _ => at.Planned.State.Sealed,
            }).Select(static wrong => wrong.Value), .. _solventFault is null || at.Liquids.Count == 0 ? [] : (string[])["the liquid to exchange"]];

    private void Note(string name, string label, bool faulty)
    {
        if (faulty)
        {
            _faulty[name] = label;
        }
        else
        {
            _faulty.Remove(name);
        }
    }

    /// <summary>True while what is on the page is not yet what was asked for.</summary>
    private bool Pending => _next is not null || _busy;

    private Task CarryBackAsync() => _at is null || Pending || Faulty.Count > 0 ? Task.CompletedTask : SaveAsync(_shown!.Version, _at.ToKeep().Root);

    private Task CarryOntoNewerAsync()
    {
        if (_conflict is not { } other || _at is null || Pending || Faulty.Count > 0)
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

    private Task ExploreNewerAsync()
    {
        if (_conflict is not { } other)
        {
            return Task.CompletedTask;
        }

        _conflict = null;
        _different = null;
        return ShowAgainAsync(other, _ground);
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
        string changes = string.Join("; ", DraftEdit.Lines(_edits).Select(static line => $"{line.Label}: {line.Before} → {line.After}"));
        try
        {
            Result<DraftView, Refusal> saved = await DraftAsync((drafts, actor, cancel) => drafts.SaveAsync(actor, Source.ProcedureId, version, Bytes(document), cancel));
            if (saved.IsOk)
            {
                _conflict = null;
                _different = null;
                await BeginAsync(Next(saved.Value, _ground, _at.Step.Key, static _ => ExploredValues.AsPlanned));
                _carried = $"Saved in the draft at {saved.Value.SavedAt.UtcDateTime.ToString("HH:mm:ss", CultureInfo.InvariantCulture)} UTC: {changes}.";
                _focus = FocusAfter.Carried;
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
