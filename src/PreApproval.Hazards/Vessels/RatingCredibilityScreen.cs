using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>Whether the rating that a closed step relies on can be believed of such a vessel, closed in such a way. Grounds: docs/methods/ratings.md.</summary>
public sealed class RatingCredibilityScreen : IScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        // a rating that is not stated counts as zero, and needs no belief
        foreach (var group in Grouping.Of(context.Walk.States, static state => state is { Sealed: true, Vessel.RatingPaGauge: > 0 }, static (one, other) => one.VesselIndex == other.VesselIndex && one.Closing!.StepIndex == other.Closing!.StepIndex))
        {
            var pressed = group.Chosen(state => PressureOf(state, context) > context.Policy.UnratedNothingPa);
            // what is not all counted may press as much
            var doubted = pressed.Length > 0 ? pressed : group.Chosen(state => context.Closed(state) is { LeftOut.Count: > 0 });
            if (doubted.Length > 0 && OfKind(doubted, Worst(doubted, context), context) is { } kind)
            {
                yield return kind;
            }

            if (pressed.Length == 0)
            {
                continue;
            }

            var worst = Worst(pressed, context);

            if (OfClosure(pressed, worst, context) is { } closure)
            {
                yield return closure;
            }
        }
    }

    private static StepState Worst(StepState[] states, ScreeningContext context)
    {
        var worst = states[0];
        for (var index = 1; index < states.Length; index++)
        {
            worst = PressureOf(states[index], context) > PressureOf(worst, context) ? states[index] : worst;
        }

        return worst;
    }

    // what fills with liquid bursts whatever the rating, and is a finding of its own
    private static double PressureOf(StepState state, ScreeningContext context) => context.Closed(state)?.WorstPaGauge ?? 0;

    private static Finding? OfKind(StepState[] pressed, StepState worst, ScreeningContext context)
    {
        var vessel = worst.Vessel;
        var rated = vessel.RatingPaGauge!.Value;
        if (RatingCredibility.UsualPaGauge(vessel.Kind) is not { } usual || rated <= usual * RatingCredibility.BelievedTimesUsual)
        {
            return null;
        }

        var pressure = PressureOf(worst, context);
        // what the usual vessel of the kind would hold as well does not rest on the number
        var reliesOnIt = pressure > usual * GoverningRating.WarningShare(vessel, context.Policy);
        if (!reliesOnIt && GoverningRating.For(worst).Part is not null)
        {
            // the weaker part is what it is judged by
            return null;
        }

        var kind = VesselKinds.TypicalOf(vessel.Kind)?.Kind;
        var usually = usual > 0
            ? kind is null
                ? $"no vessel of such a kind is on file, and the strongest of its material is commonly taken for {Wording.BarGauge(usual)}; more than {Wording.Text(RatingCredibility.BelievedTimesUsual)} times that is not believed unseen"
                : $"such a vessel ({kind}) is commonly taken for {Wording.BarGauge(usual)}, and more than {Wording.Text(RatingCredibility.BelievedTimesUsual)} times that is not believed unseen"
            : $"such a vessel ({kind ?? vessel.Kind}) is commonly made for no pressure at all";
        var known = pressure > context.Policy.UnratedNothingPa;
        return new Finding
        {
            Code = "pressure.rating-doubtful",
            Hazard = Hazard.Pressure,
            Severity = reliesOnIt ? Severity.Warning : Severity.Notice,
            Steps = StepIds.Of(pressed),
            Vessel = vessel.Id,
            Statement = $"“{vessel.Id}” is stated to hold {Wording.BarGauge(rated)} and {(known ? $"may reach {AtLeast(worst, context)}{Wording.BarGauge(pressure)}" : "what presses in it is not all known")}, but {usually}. {(reliesOnIt ? "A photograph of the pressure marked on this very vessel, or its certificate, settles it" : known ? "The step would be within the usual rating as well; the number wants checking" : "The number wants checking")}.",
            Evidence =
            [
                Confinement.Findings.Number("rating as stated", rated / 1e5, "bar(g)", usual * RatingCredibility.BelievedTimesUsual / 1e5, "usual rating of the kind times what is believed", Quality.Assumed, "common-practice"),
                .. known ? [Pressure(pressure, context)] : Array.Empty<Evidence>(),
            ],
        };
    }

    private static Finding? OfClosure(StepState[] pressed, StepState worst, ScreeningContext context)
    {
        if (RatingCredibility.LooseClosure(worst, context.Plan.Steps) is not { } closure)
        {
            return null;
        }

        var pressure = PressureOf(worst, context);
        return new Finding
        {
            Code = "pressure.closure-doubtful",
            Hazard = Hazard.Pressure,
            Severity = Severity.Warning,
            Steps = StepIds.Of(pressed),
            Vessel = worst.Vessel.Id,
            Statement = $"“{worst.Vessel.Id}” is closed with {closure} and may reach {AtLeast(worst, context)}{Wording.BarGauge(pressure)}: such a closure lifts or flies off at 0.1 to 0.3 bar(g), whatever the vessel itself is rated for. A closure that belongs to the rated vessel, shown by its mark or by the maker's data for the two together, settles it.",
            Evidence = [Pressure(pressure, context)],
        };
    }

    /// <summary>Where something is left out of the pressure it is a lower bound.</summary>
    private static string AtLeast(StepState worst, ScreeningContext context) => context.Closed(worst) is { LeftOut.Count: > 0 } ? "at least " : "";

    private static Evidence Pressure(double pressurePaGauge, ScreeningContext context) =>
        Confinement.Findings.Number("worst-case pressure", pressurePaGauge / 1e5, "bar(g)", context.Policy.UnratedNothingPa / 1e5, "highest governing pressure while it is closed, against what an unrated vessel may have", Quality.Estimated, "common-practice");
}
