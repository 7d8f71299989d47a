using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// The results of a closed vessel that no finding about its pressure carries: one notice for each closing that comes above the pressure of no finding. A caution where its stored energy asks for
/// more than stands before it. docs/methods/pressure-screen.md.
/// </summary>
internal static class PressureResults
{
    public const string Code = "pressure.results";

    /// <summary>The results of the closing that begins with this group, unless a finding carries them.</summary>
    public static Finding? For(StepState[][] groups, int first, bool[] carried, ScreeningContext context)
    {
        ClosedAssessment? worst = null;
        for (var index = 0; index < groups.Length; index++)
        {
            if (!IsOfClosing(groups[index], groups[first]))
            {
                continue;
            }

            if (index < first || carried[index])
            {
                return null;
            }

            worst = Worst(worst, groups[index], context);
        }

        if (worst is null)
        {
            return null;
        }

        var steps = new List<string>();
        for (var index = first; index < groups.Length; index++)
        {
            if (IsOfClosing(groups[index], groups[first]))
            {
                steps.AddRange(StepIds.Of(groups[index]));
            }
        }

        return Of(worst, GoverningRating.For(worst.State), steps, context);
    }

    private static bool IsOfClosing(StepState[] group, StepState[] other) =>
        group[0].VesselIndex == other[0].VesselIndex && group[0].Closing!.StepIndex == other[0].Closing!.StepIndex;

    /// <summary>Of the worst so far and the closed steps the one with the highest pressure; those count whose pressure is known and more than nothing.</summary>
    private static ClosedAssessment? Worst(ClosedAssessment? worst, StepState[] states, ScreeningContext context)
    {
        foreach (var state in states)
        {
            if (context.Closed(state) is { } one && IsPressed(one, context.Policy) && (worst is null || one.WorstPaGauge > worst.WorstPaGauge))
            {
                worst = one;
            }
        }

        return worst;
    }

    private static Finding Of(ClosedAssessment worst, GoverningRating rating, IReadOnlyList<string> steps, ScreeningContext context)
    {
        var result = ClosedResult.Of(worst, rating, context.Policy);
        var finding = new Finding
        {
            Code = Code,
            Hazard = Hazard.Pressure,
            Severity = Severity.Notice,
            Steps = steps,
            Vessel = worst.State.Vessel.Id,
            Statement = "",
            Evidence = [.. PressureEvidence.For(worst, rating, context.Policy), .. ResultEvidence.For(worst, result, rating)],
        };
        var needed = ShieldControls.Needed(result.Shield, finding, context);
        var unanswered = needed is { Status: not ControlStatus.Present } && !ShieldControls.IsCodedWithRelief(worst.State.Vessel, finding, context);
        return finding with
        {
            // up to a blast shield it is a reminder; what takes a fixed shield or a cell is somebody's to look at
            Severity = unanswered && result.Shield is ShieldClass.Cell or ShieldClass.Engineered ? Severity.Caution : Severity.Notice,
            Statement = Statement(worst, result, rating) + Energy(result, unanswered, worst.LeftOut.Count > 0 ? "at least" : "about"),
            Controls = needed is null ? [] : [needed],
        };
    }

    // without a gas that the liquids hold the number would be too low, and no result
    private static bool IsPressed(ClosedAssessment one, Policy policy) => !one.LeavesOutHeldGas && one.WorstPaGauge > policy.UnratedNothingPa;

    private static string Statement(ClosedAssessment worst, ClosedResult result, GoverningRating rating)
    {
        var atLeast = worst.LeftOut.Count > 0 ? "at least " : "";
        var share = result.ShareOfRating is { } of ? $", {atLeast}{Wording.Text(Math.Floor(Math.Max(0, 100 * of)))} % of the {Wording.BarGauge(rating.PaGauge!.Value)} that {rating.Of} is rated for{rating.Note}" : "";
        return $"“{worst.State.Vessel.Id}” comes to {atLeast}{Wording.BarGauge(worst.WorstPaGauge!.Value)} at {Wording.Celsius(worst.Peak.TemperatureK)} at worst{share}";
    }

    private static string Energy(ClosedResult result, bool unanswered, string about) => result switch
    {
        { Energy: { } energy, Shield: { } shield } when shield != ShieldClass.Sash =>
            $"; it holds {about} {Joule(energy.TotalJ)}, which asks for {ShieldClasses.Words(shield)}{(unanswered ? ", and the plan names none" : "")}.",
        { Energy: { } energy } => $"; it holds {about} {Joule(energy.TotalJ)}.",
        _ => ".",
    };

    private static string Joule(double energyJ) => energyJ < 1000 ? $"{Wording.Figures(energyJ)} J" : $"{Wording.Figures(energyJ / 1000)} kJ";
}
