using Microsoft.JSInterop;
using PreApproval.Hazards.Vessels;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Screenings;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>
/// Drawing waits for a place, and more may be asked for meanwhile: what waits is kept here, and whichever drawing gets the place does all of it.
/// What is shown, its version and its numbers change in one go.
/// </summary>
public sealed partial class Explorer
{
    /// <summary>How often a place is waited for, some 7 s each time.</summary>
    private const int MostTries = 12;

    /// <summary>The document that the numbers on the page are of.</summary>
    private DraftView? _shown;

    /// <summary>What the next drawing begins with; null: nothing new.</summary>
    private Beginning? _next;

    /// <summary>What the address asked for and did not get, until something else is chosen.</summary>
    private IReadOnlyList<string> _leftOut = [];

    private bool _busy;
    private bool _gaveUp;

    /// <summary>True once what the address asks for was shown.</summary>
    private bool _opened;

    /// <summary>Counts loads and resets: fields begin anew with each.</summary>
    private int _round;

    /// <summary>Counts what was asked for: only the newest is drawn.</summary>
    private long _asked;

    /// <summary>A document or step to begin with.</summary>
    /// <param name="Values">What is tried on it.</param>
    private sealed record Beginning(DraftView Document, ExploredPlan Plan, GroupGround Ground, string? Step, Func<Exploration, ExploredValues> Values);

    private string BusyWords => _gaveUp
        ? "Too many calculations are running: what you tried last could not be drawn. Load the page again in a minute; its address keeps what you try."
        : "Many calculations are running at the moment: what you try is drawn in a few seconds.";

    private Beginning Next(DraftView document, GroupGround ground, string? step, Func<Exploration, ExploredValues> values) =>
        new(document, ExploredPlan.Read(DocumentText.Parse(document.Document), Screener, ground), ground, step, values);

    /// <summary>True when it was drawn; false: something newer will be, or no place came free.</summary>
    private Task<bool> BeginAsync(Beginning next)
    {
        _next = next;
        return ComputeAsync(++_asked, Draw);
    }

    /// <summary>Another document, or the same one by other thresholds, with the values that were tried.</summary>
    private async Task ShowAgainAsync(DraftView document, GroupGround ground)
    {
        _carried = null;
        if (await BeginAsync(Next(document, ground, _next?.Step ?? _at?.Step.Key, _next?.Values ?? Kept)))
        {
            await ScreenAsync();
        }
    }

    /// <summary>The values that are tried, on another document.</summary>
    private ExploredValues Kept(Exploration begun)
    {
        string? liquid = _at is null || _wanted.Solvent is null ? null : Liquid.Id;
        ExchangeableLiquid? same = begun.Liquids.FirstOrDefault(l => string.Equals(l.Id, liquid, StringComparison.Ordinal));
        return _wanted with { Solvent = same is null || _wanted.Solvent is null ? null : _wanted.Solvent with { Material = same.Material } };
    }

    private async Task ChooseStepAsync(string? step)
    {
        _carried = null;
        if (await BeginAsync(AsPlanned(step)))
        {
            await ScreenAsync();
        }
    }

    private Beginning AsPlanned(string? step) =>
        (_next ?? new Beginning(_shown!, _at!.Plan, _ground, step, static _ => ExploredValues.AsPlanned)) with { Step = step, Values = static _ => ExploredValues.AsPlanned };

    private async Task ResetAsync()
    {
        bool drawn = await BeginAsync(AsPlanned(_at!.Step.Key));
        _focus = FocusAfter.Reset;
        await Js.InvokeVoidAsync("preapprovalExplorer.clear", _gone.Token);
        if (drawn)
        {
            await ScreenAsync();
        }
    }

    private Task ChooseThresholdsAsync(string? which)
    {
        _today = which is RevisionThresholds.Today;
        return ShowAgainAsync(_shown!, _ground with { Policy = _thresholds!.Choose(_today) });
    }

    private Task ChangeAsync(Func<ExploredValues, ExploredValues> change)
    {
        _wanted = change(_wanted);
        return DrawNewestAsync();
    }

    private async Task DrawNewestAsync()
    {
        long mine = ++_asked;
        await Task.Yield();
        if (mine != _asked || _gone.IsCancellationRequested)
        {
            return;
        }

        _carried = null;
        if (!await ComputeAsync(mine, Draw))
        {
            return;
        }

        StateHasChanged();

        // The charts come first: while the slider moves, no screening takes their place.
        await Task.Delay(Quiet, Clock, _gone.Token);
        if (mine == _asked)
        {
            await ScreenAsync();
        }
    }

    private void Draw()
    {
        if (_next is { } next)
        {
            Take(next, Exploration.Begin(next.Plan, next.Step, Screener, next.Ground));
        }

        _at?.Try(_wanted);
        _typical = _wanted.Kind is { } kind ? VesselKinds.Typical.FirstOrDefault(t => string.Equals(t.Kind, kind, StringComparison.Ordinal)) : null;
        _edits = _at?.ToKeep().Edits ?? [];
        _drawn++;
    }

    private void Take(Beginning next, Exploration? begun)
    {
        _wanted = begun is null ? ExploredValues.AsPlanned : next.Values(begun);
        _material = _wanted.Solvent?.Material;
        _solvent = _wanted.Solvent?.Instead.Identity.Name ?? "";
        _solventFault = null;
        _faulty.Clear();
        _found = [];
        _round++;
        if (!ReferenceEquals(_plan, next.Plan))
        {
            _before = ExploredVerdict.NotYet;
            _beforeReport = null;
        }

        _leftOut = !_opened && begun is not null ? Query.LeftOut(begun, _wanted) : [];
        _opened = _opened || begun is not null;
        (_shown, _plan, _ground, _at, _next) = (next.Document, next.Plan, next.Ground, begun, null);
        _steps = [.. next.Plan.Explorable.Select(ExploredStep.Of)];
    }

    /// <summary>
    /// Curves compute like a screening and take a place like one; where none comes free, it is said and, once the page is open, tried again. Nothing that
    /// is not the newest any more is computed. True when it was computed.
    /// </summary>
    private async Task<bool> ComputeAsync(long mine, Action compute)
    {
        CancellationToken gone = _gone.Token;
        for (int tries = 1; mine == _asked; tries++)
        {
            try
            {
                return await Limiter.RunAsync(
                    () =>
                    {
                        if (mine != _asked || gone.IsCancellationRequested)
                        {
                            return false;
                        }

                        compute();
                        (_busy, _gaveUp) = (false, false);
                        return true;
                    },
                    gone);
            }
            catch (ScreeningBusyException)
            {
                if (mine != _asked)
                {
                    return false;
                }

                (_busy, _gaveUp) = (true, tries == MostTries);
                if (_gaveUp || !RendererInfo.IsInteractive)
                {
                    StateHasChanged();
                    return false;
                }
            }

            StateHasChanged();
            await Task.Delay(ScreeningLimiter.RetryAfter, Clock, gone);
        }

        return false;
    }
}
