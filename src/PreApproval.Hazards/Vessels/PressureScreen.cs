using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// Every closed step against the weakest rating, at the set and at the worst credible temperature. Thresholds and their
/// grounds: docs/methods/pressure-screen.md.
/// </summary>
public sealed class PressureScreen : IScreen
{
    /// <summary>Contents above this scald, in K (60 °C). Common practice, no source.</summary>
    private const double HotK = 333.15;

    private const string ShareSource = "common-practice";

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context) => Find(context, withClearings: true);

    /// <param name="context">What is screened.</param>
    /// <param name="withClearings">False for the trial of a change: pressures only.</param>
    /// <param name="only">For a trial: looks at the vessel and the steps of this finding alone.</param>
    internal static IEnumerable<Finding> Find(ScreeningContext context, bool withClearings, Finding? only = null)
    {
        var states = context.Walk.States.Where(state => only is null
            || (string.Equals(state.Vessel.Id, only.Vessel, StringComparison.Ordinal) && only.Steps.Contains(state.Step.Id, StringComparer.Ordinal))).ToArray();
        var closed = Array.FindAll(states, static state => state.Closing is not null);
        foreach (var unsized in closed.Where(static state => state.Vessel.VolumeM3 is null).GroupBy(static state => (state.Vessel.Id, state.Closing!.StepIndex, state.TemperatureStep)))
        {
            yield return VolumeMissing([.. unsized]);
        }

        var groups = closed.Where(static state => state.Vessel.VolumeM3 is not null)
            .GroupBy(static state => (state.Vessel.Id, state.Closing!.StepIndex, state.TemperatureStep));
        foreach (var group in groups)
        {
            foreach (var finding in OfGroup([.. group], context, withClearings))
            {
                yield return finding;
            }
        }

        foreach (var state in states)
        {
            if (Opened(state, context) is { } opened)
            {
                yield return opened;
            }

            if (Vented(state) is { } vented)
            {
                yield return vented;
            }

            if (withClearings && ClosedWhileGassing(state, context.Policy) is { } gassing)
            {
                yield return gassing;
            }
        }
    }

    private static IEnumerable<Finding> OfGroup(StepState[] states, ScreeningContext context, bool withClearings)
    {
        var first = states[0];
        var assessed = states.Select(state => context.Closed(state)!).ToArray();
        // trials of a change ask for pressures only
        if (withClearings && Undone(states, assessed) is { } undone)
        {
            yield return undone;
        }

        var rating = GoverningRating.For(first.Vessel, first.VesselIndex);
        var judged = assessed.Select(one => (Assessment: one, Verdict: Judge(one, rating, context.Policy)))
            .Where(static pair => pair.Verdict is not null)
            .GroupBy(static pair => pair.Verdict!.Value.Code, StringComparer.Ordinal);
        foreach (var code in judged)
        {
            var worst = code.MaxBy(static pair => (pair.Assessment.LiquidFull ? double.MaxValue : pair.Assessment.WorstPaGauge ?? 0, -pair.Assessment.State.Index))!;
            var severity = code.Min(static pair => pair.Verdict!.Value.Severity);
            var finding = Describe(worst.Assessment, rating, code.Key, severity, [.. code.Select(static pair => pair.Assessment.State.Step.Id).Distinct(StringComparer.Ordinal)], context);
            yield return withClearings
                ? finding with { Evidence = [.. finding.Evidence, .. ResultEvidence.For(worst.Assessment, rating, context.Policy)], ClearedBy = PressureClearings.For(finding, [.. code.Select(static pair => pair.Assessment)], rating, context) }
                : finding;
        }
    }

    internal static (string Code, Severity Severity)? Judge(ClosedAssessment assessment, GoverningRating rating, Policy policy)
    {
        if (assessment.LiquidFull)
        {
            return ("pressure.liquid-full", Severity.Danger);
        }

        if (assessment.WorstPaGauge is not { } pressure)
        {
            return null;
        }

        if (rating.PaGauge is not { } rated || rated <= 0)
        {
            var unheated = !assessment.State.Heated && assessment.UndeclaredGas is null && assessment.State.GasEvolvedMol is 0;
            return pressure <= policy.UnratedNothingPa ? null
                : unheated && pressure <= policy.UnratedCautionPa ? ("pressure.unknown-rating", Severity.Caution)
                : ("pressure.unknown-rating", Severity.Danger);
        }

        return pressure > rated ? ("pressure.exceeds-rating", Severity.Danger)
            : pressure > rated * policy.DangerShare ? ("pressure.near-rating", Severity.Danger)
            : pressure > rated * GoverningRating.WarningShare(assessment.State.Vessel, policy) ? ("pressure.near-rating", Severity.Warning)
            : null;
    }

    private static Finding Describe(ClosedAssessment worst, GoverningRating rating, string code, Severity severity, IReadOnlyList<string> steps, ScreeningContext context)
    {
        var state = worst.State;
        return new Finding
        {
            Code = code,
            Hazard = Hazard.Pressure,
            Severity = severity,
            Steps = steps,
            Vessel = state.Vessel.Id,
            Materials = [.. Volatiles(state).Concat(worst.GasMakers).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Statement = PressureSentences.For(worst, rating, code, severity, steps, context.Policy),
            Evidence = PressureEvidence.For(worst, rating, context.Policy),
        };
    }

    /// <summary>Materials that can go into the gas, sorted.</summary>
    private static string[] Volatiles(StepState state) =>
    [
        .. state.Contents.Where(static content => content is { MaterialId: not null, Substance.Known: not { Involatile: true } and not { PhaseAt298K: Phase.Solid } })
            .Select(static content => content.MaterialId!)
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal),
    ];

    private static Finding VolumeMissing(StepState[] states)
    {
        var hazardous = Array.Exists(states, static state => state.Heated || state.GasEvolvedMol is null or > 0 || state.Closing is { AtAtmosphere: false, Gases.Count: > 0 });
        return new Finding
        {
            Code = "data.vessel-volume",
            Hazard = Hazard.Data,
            Severity = hazardous ? Severity.Warning : Severity.Caution,
            Steps = [.. states.Select(static state => state.Step.Id).Distinct(StringComparer.Ordinal)],
            Vessel = states[0].Vessel.Id,
            Statement = $"“{states[0].Vessel.Id}” is closed but its volume is not stated, so its pressure cannot be computed.",
            LeavesCheckUndone = hazardous,
        };
    }

    private static Finding? Undone(StepState[] states, ClosedAssessment[] assessed)
    {
        var missing = assessed.SelectMany(static one => one.LeftOut)
            .Concat(assessed.Where(static one => !one.LiquidFull).Select(static one => one.UnknownBecause).OfType<string>())
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal)
            .ToArray();
        if (missing.Length == 0)
        {
            return null;
        }

        var hazardous = Array.Exists(states, static state => state.Heated || state.GasEvolvedMol is null or > 0) || Array.Exists(assessed, static one => one.UndeclaredGas is not null || one.LeavesOutGas);
        return new Finding
        {
            Code = "data.pressure-incomplete",
            Hazard = Hazard.Data,
            Severity = hazardous ? Severity.Warning : Severity.Notice,
            Steps = [.. states.Select(static state => state.Step.Id).Distinct(StringComparer.Ordinal)],
            Vessel = states[0].Vessel.Id,
            Statement = $"The pressure in “{states[0].Vessel.Id}” leaves out {Wording.List(missing)}; it may be higher than computed.",
            LeavesCheckUndone = hazardous,
        };
    }

    private static Finding? Opened(StepState state, ScreeningContext context)
    {
        if (state.ClosedBefore is not { Closing: { } closing } before)
        {
            return null;
        }

        if (state.Vessel.VolumeM3 is not { } volume)
        {
            return new Finding
            {
                Code = "data.opening-pressure",
                Hazard = Hazard.Data,
                Severity = Severity.Caution,
                Steps = [state.Step.Id],
                Vessel = state.Vessel.Id,
                Statement = $"What pressure “{state.Vessel.Id}” still holds when step {state.Step.Id} opens it cannot be computed without its volume.",
            };
        }

        // what matters on opening is what is in there now: the likely pressure, with the gas saturated when it was shut in
        var atOpening = before with { TemperatureK = state.TemperatureK, Contents = before.ContentsAfter };
        var input = ClosedAssessment.InputOf(atOpening, volume, saturated: true, []) with { GasEvolvedMol = before.GasEvolvedMol ?? 0 };
        var opened = new SealedCharge(input, context.ChargeOf(before)).GoverningAt(state.TemperatureK);
        var pressure = opened.PressurePaAbs - AtmospherePa;
        if (closing is { AtAtmosphere: false, PressurePaAbs: < AtmospherePa } || pressure is null || pressure <= context.Policy.UnratedNothingPa)
        {
            return null;
        }

        var byValve = state.Step.Action == StepAction.Vent;
        var high = pressure > context.Policy.UnratedCautionPa;
        return new Finding
        {
            Code = "pressure.opened-under-pressure",
            Hazard = Hazard.Pressure,
            Severity = (byValve, high) switch
            {
                (true, true) => Severity.Caution,
                (true, false) => Severity.Notice,
                // what is hot under pressure boils over the hand that opens it
                (false, true) => state.TemperatureK > HotK ? Severity.Danger : Severity.Warning,
                (false, false) => Severity.Caution,
            },
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Statement = byValve
                ? $"Step {state.Step.Id} vents “{state.Vessel.Id}” at about {Wording.BarGauge(pressure.Value)}; let it down slowly into the hood."
                : $"Step {state.Step.Id} opens “{state.Vessel.Id}” at {Wording.Celsius(state.TemperatureK)} with about {Wording.BarGauge(pressure.Value)} still in it; vent or cool it first.",
            Evidence =
            [
                new Evidence
                {
                    Name = "pressure at opening",
                    Value = pressure.Value / 1e5,
                    Unit = "bar(g)",
                    Limit = context.Policy.UnratedNothingPa / 1e5,
                    Model = PressureSentences.ModelWords(opened.Model),
                    Sources = References.Full([.. opened.Sources, ShareSource]),
                    Quality = opened.Quality,
                },
            ],
        };
    }

    /// <summary>Partners that react at once were mixed in the open: closed before the gas has stopped, it is shut in after all.</summary>
    private static Finding? ClosedWhileGassing(StepState state, Policy policy)
    {
        if (state.Closing is not { } closing || closing.StepIndex != state.Index || closing.OpenTogetherS >= policy.GassedOutS
            || GasEvolution.GivenOffOpen(state) is not { } gas)
        {
            return null;
        }

        var pressure = gas.Mol * GasConstant * state.TemperatureK / state.Vessel.VolumeM3;
        if (pressure <= policy.UnratedNothingPa)
        {
            return null;
        }

        return new Finding
        {
            Code = "gas.closed-while-gassing",
            Hazard = Hazard.Gas,
            Severity = Severity.Warning,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Statement = $"Step {state.Step.Id} closes “{state.Vessel.Id}” over {gas.Words} mixed in the open, and the plan does not let it stand open for {Wording.Text(policy.GassedOutS / 60)} min: has the gas stopped{(pressure is { } all ? $" (all of it would make at least {Wording.Figures(all / 1e5)} bar)" : "")}?",
            Evidence = pressure is null ? [] :
            [
                new Evidence
                {
                    Name = "pressure of the gas, if all of it is shut in",
                    Value = pressure.Value / 1e5,
                    Unit = "bar",
                    Model = "ideal gas in the empty vessel",
                    Sources = References.Full([ShareSource]),
                    Quality = Quality.Assumed,
                },
            ],
        };
    }

    private static Finding? Vented(StepState state)
    {
        if (state.Step.Action != StepAction.Seal || state.Vent is not { } vent || vent == Closure.Bubbler)
        {
            return null;
        }

        var name = vent == Closure.Balloon ? "balloon" : "needle";
        return new Finding
        {
            Code = "pressure.vent-can-block",
            Hazard = Hazard.Pressure,
            Severity = Severity.Notice,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Statement = $"“{state.Vessel.Id}” is open through a {name} from step {state.Step.Id} on; its bore is narrow and may block, so it is no relief for gas made quickly.",
        };
    }
}
