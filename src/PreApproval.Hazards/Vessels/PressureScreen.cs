using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// Every closed step against the weakest rating, at the set and at the worst credible temperature. Thresholds and their
/// grounds: docs/methods/pressure-screen.md.
/// </summary>
public sealed class PressureScreen : IScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context) => Find(context, withClearings: true);

    /// <param name="context">What is screened.</param>
    /// <param name="withClearings">False for the trial of a change: pressures only.</param>
    /// <param name="only">For a trial: looks at the vessel and the steps of this finding alone.</param>
    internal static IEnumerable<Finding> Find(ScreeningContext context, bool withClearings, Finding? only = null)
    {
        IReadOnlyList<StepState> states = only is null
            ? context.Walk.States
            : [.. context.Walk.States.Where(state => string.Equals(state.Vessel.Id, only.Vessel, StringComparison.Ordinal) && only.Steps.Contains(state.Step.Id, StringComparer.Ordinal))];
        var groups = Closed(states);
        // closings whose results a finding carries
        var carried = new bool[groups.Length];
        for (var index = 0; index < groups.Length; index++)
        {
            var group = groups[index];
            if (group[0].Vessel.VolumeM3 is null)
            {
                yield return VolumeMissing(group);
                if (UnknownVolume.Of(group, context.Policy) is { } unbounded)
                {
                    yield return unbounded;
                }

                continue;
            }

            foreach (var finding in OfGroup(group, context, withClearings))
            {
                carried[index] |= finding.Hazard == Hazard.Pressure;
                yield return finding;
            }
        }

        for (var index = 0; withClearings && index < groups.Length; index++)
        {
            if (groups[index][0].Vessel.VolumeM3 is not null && PressureResults.For(groups, index, carried, context) is { } results)
            {
                yield return results;
            }
        }

        foreach (var state in states)
        {
            if (OpeningPressure.Opened(state, context, withClearings) is { } opened)
            {
                yield return opened;
            }

            if (Vented(state) is { } vented)
            {
                yield return vented;
            }

            if (withClearings && OpeningPressure.ClosedWhileGassing(state, context.Policy) is { } gassing)
            {
                yield return gassing;
            }

            if (withClearings && OpeningPressure.OpenedAfterGassing(state, context) is { } gassedIn)
            {
                yield return gassedIn;
            }
        }
    }

    /// <summary>The closed steps, those of one vessel, closing and setting of the temperature together.</summary>
    private static StepState[][] Closed(IReadOnlyList<StepState> states) =>
        Grouping.Of(states, static state => state.Sealed, AreOneMatter);

    private static bool AreOneMatter(StepState one, StepState other) =>
        string.Equals(one.Vessel.Id, other.Vessel.Id, StringComparison.Ordinal) && one.Closing!.StepIndex == other.Closing!.StepIndex && one.TemperatureStep == other.TemperatureStep;

    private static IEnumerable<Finding> OfGroup(StepState[] states, ScreeningContext context, bool withClearings)
    {
        var first = states[0];
        var assessed = new ClosedAssessment[states.Length];
        for (var index = 0; index < assessed.Length; index++)
        {
            assessed[index] = context.Closed(states[index])!;
        }

        // trials of a change ask for pressures only
        var rating = GoverningRating.For(first.Vessel, first.VesselIndex, Hottest(states), Array.Exists(states, GoverningRating.IsOutsideCavity));
        var undone = withClearings ? Undone(states, assessed, rating, context.Policy) : null;
        return Judged(assessed, rating, context.Policy) is { } judged ? [.. undone is null ? [] : (Finding[])[undone], .. Told(judged, first.Vessel, rating, context, withClearings)]
            : undone is null ? [] : [undone];
    }

    private static IEnumerable<Finding> Told(
        List<(ClosedAssessment Assessment, (string Code, Severity Severity) Verdict)> judged, Vessel vessel, GoverningRating rating, ScreeningContext context, bool withClearings)
    {
        foreach (var code in judged.GroupBy(static pair => pair.Verdict.Code, StringComparer.Ordinal))
        {
            var worst = code.MaxBy(static pair => (pair.Assessment.LiquidFull ? double.MaxValue : pair.Assessment.WorstPaGauge ?? 0, -pair.Assessment.State.Index))!;
            var severity = code.Min(static pair => pair.Verdict.Severity);
            var finding = Describe(worst.Assessment, rating, code.Key, severity, [.. code.Select(static pair => pair.Assessment.State.Step.Id).Distinct(StringComparer.Ordinal)], context);
            if (!withClearings)
            {
                yield return finding;
                continue;
            }

            var result = ClosedResult.Of(worst.Assessment, rating, context.Policy);
            yield return finding with
            {
                Evidence = [.. finding.Evidence, .. ResultEvidence.For(worst.Assessment, result, rating)],
                ClearedBy = PressureClearings.For(finding, [.. code.Select(static pair => pair.Assessment)], rating, context),
                Controls = ShieldControls.InsteadOfShield(result.Shield, finding, context),
            };
        }
    }

    /// <summary>The assessments that come to a verdict; null: none does.</summary>
    private static List<(ClosedAssessment Assessment, (string Code, Severity Severity) Verdict)>? Judged(ClosedAssessment[] assessed, GoverningRating rating, Policy policy)
    {
        List<(ClosedAssessment Assessment, (string Code, Severity Severity) Verdict)>? judged = null;
        foreach (var one in assessed)
        {
            if (Judge(one, rating, policy) is { } verdict)
            {
                (judged ??= []).Add((one, verdict));
            }
        }

        return judged;
    }

    private static double Hottest(StepState[] states)
    {
        double hottest = 0;
        foreach (var state in states)
        {
            hottest = Math.Max(hottest, state.WorstTemperatureK);
        }

        return hottest;
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
    internal static string[] Volatiles(StepState state) =>
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
            Steps = StepIds.Of(states),
            Vessel = states[0].Vessel.Id,
            Statement = $"“{states[0].Vessel.Id}” is closed but its volume is not stated, so its pressure cannot be computed.",
            LeavesCheckUndone = hazardous,
        };
    }

    private static Finding? Undone(StepState[] states, ClosedAssessment[] assessed, GoverningRating rating, Policy policy)
    {
        // the usual case, at little cost: everything is counted
        if (Array.TrueForAll(assessed, static one => one.LeftOut.Count == 0 && (one.LiquidFull || one.UnknownBecause is null)))
        {
            return null;
        }

        return WhatIsMissing(states, assessed, rating, policy);
    }

    private static Finding WhatIsMissing(StepState[] states, ClosedAssessment[] assessed, GoverningRating rating, Policy policy)
    {
        var missing = assessed.SelectMany(static one => one.LeftOut)
            .Concat(assessed.Where(static one => !one.LiquidFull).Select(static one => one.UnknownBecause).OfType<string>())
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal)
            .ToArray();
        var hazardous = Array.Exists(states, static state => state.Heated || state.GasEvolvedMol is null or > 0) || Array.Exists(assessed, static one => one.UndeclaredGas is not null || one.LeavesOutGas);
        UnlistedBound?[] bounds = [.. assessed.Where(static one => one.LeftOut.Count > 0).Select(one => UnlistedBound.Of(one, rating, policy))];
        var bound = bounds.Length > 0 && Array.TrueForAll(bounds, static one => one is not null) ? bounds.MaxBy(static one => one!.SumPaGauge) : null;
        hazardous &= bound is null;
        var pure = bound is null ? HeldBound(assessed) : null;
        // not even the pure gas would take it to a finding
        hazardous &= !(pure <= rating.QuietLimitPaGauge(states[0].Vessel, policy));
        return new Finding
        {
            Code = "data.pressure-incomplete",
            Hazard = Hazard.Data,
            Severity = hazardous ? Severity.Warning : Severity.Notice,
            Steps = StepIds.Of(states),
            Vessel = states[0].Vessel.Id,
            Statement = $"The pressure in “{states[0].Vessel.Id}” leaves out {Wording.List(missing)}; it may be higher than computed{(bound is null ? "" : $", by at most {Wording.Figures(bound.AddedPa / 1e5)} bar were all of it gas, and stays below {Wording.BarGauge(bound.LimitPaGauge)}")}{(pure is { } most ? $", up to {Wording.BarGauge(most)} if the gas pressed as it does pure" : "")}.",
            Evidence = pure is { } pressed ? [Confinement.Findings.Number("pressure with the gas as if pure", pressed / 1e5, "bar(g)", rating.QuietLimitPaGauge(states[0].Vessel, policy) / 1e5, "sum of the vapour pressures of the pure contents and of the trapped gas: no solution presses more", Quality.Estimated, "common-practice")]
                : bound is null ? [] : [Confinement.Findings.Number("pressure with all of what is left out as gas", bound.SumPaGauge / 1e5, "bar(g)", bound.LimitPaGauge / 1e5, "worst-case pressure of the rest and n R T/V of what is left out, in the room that the contents leave", Quality.Estimated, "ideal-gas", "common-practice")],
            LeavesCheckUndone = hazardous,
        };
    }

    /// <summary>The highest bound of the steps that leave out a held gas alone; null where there is none, or anything else is left out.</summary>
    private static double? HeldBound(ClosedAssessment[] assessed)
    {
        double? highest = null;
        foreach (var one in assessed)
        {
            if (one.LeftOut.Count > 0 && (one.HeldBoundPaGauge is not { } bound || one.LeftOut.Count > one.Whole.Input.Contents.Count - one.Charge.Input.Contents.Count))
            {
                return null;
            }

            highest = one.HeldBoundPaGauge > (highest ?? double.MinValue) ? one.HeldBoundPaGauge : highest;
        }

        return highest;
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
