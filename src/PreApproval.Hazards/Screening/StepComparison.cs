using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Screening;

/// <summary>
/// The numbers of the steps of two plans against each other, whether or not they are findings: one change for each quantity, vessel and direction,
/// with the worst pair of numbers. A margin needs both numbers; a pressure that is there on one side only is introduced or removed, unless the same
/// vessel has a pressure elsewhere in the other plan.
/// </summary>
internal static class StepComparison
{
    public static IEnumerable<HazardChange> Of(ScreeningContext before, ScreeningContext after)
    {
        var (old, now) = (Figures(before), Figures(after));
        var pairs = StepAlignment.Of(before.Walk.States, after.Walk.States);
        var vessels = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (one, other) in pairs)
        {
            vessels.TryAdd(old[one].State.Vessel.Id, now[other].State.Vessel.Id);
        }

        var back = vessels.GroupBy(static pair => pair.Value, static pair => pair.Key, StringComparer.Ordinal).ToDictionary(static group => group.Key, static group => group.First(), StringComparer.Ordinal);
        var lines = new List<Line>();
        foreach (var (one, other) in pairs)
        {
            foreach (var quantity in Enum.GetValues<StepQuantity>())
            {
                Add(Both(quantity, old[one], now[other], after.Policy));
            }

            if (old[one][StepQuantity.Pressure] is null && !old[one].PressureUnknown)
            {
                Add(Come(now[other], InOld(now[other]), after.Policy));
            }

            if (now[other][StepQuantity.Pressure] is null && !now[other].PressureUnknown)
            {
                Add(Gone(old[one], InNow(old[one]), before.Policy));
            }
        }

        foreach (var one in Enumerable.Range(0, old.Length).Except(pairs.Select(static pair => pair.Before)))
        {
            Add(Gone(old[one], InNow(old[one]), before.Policy));
        }

        foreach (var other in Enumerable.Range(0, now.Length).Except(pairs.Select(static pair => pair.After)))
        {
            Add(Come(now[other], InOld(now[other]), after.Policy));
        }

        return lines.GroupBy(static line => (line.Quantity, line.Effect, line.Vessel)).Select(static group => Change([.. group]));

        StepFigures[] InNow(StepFigures one) => Of(now, vessels.GetValueOrDefault(one.State.Vessel.Id, one.State.Vessel.Id));

        StepFigures[] InOld(StepFigures one) => Of(old, back.GetValueOrDefault(one.State.Vessel.Id, one.State.Vessel.Id));

        void Add(Line? line)
        {
            if (line is not null)
            {
                lines.Add(line);
            }
        }
    }

    private static StepFigures[] Figures(ScreeningContext context) => [.. context.Walk.States.Select(state => StepFigures.Of(state, context))];

    private static StepFigures[] Of(StepFigures[] all, string vessel) => Array.FindAll(all, figures => string.Equals(figures.State.Vessel.Id, vessel, StringComparison.Ordinal));

    private static Line? Both(StepQuantity quantity, StepFigures old, StepFigures now, Policy policy)
    {
        if (old[quantity] is not { } was || now[quantity] is not { } becomes || Comparison.Alike(was.Value, becomes.Value, becomes.Unit))
        {
            return null;
        }

        var worse = becomes.Value > was.Value == (becomes.Worse == WorseWhen.Higher);
        if (StepFigures.HazardOf(quantity) == Hazard.Pressure
            && (!(IsPressure(old, policy) || IsPressure(now, policy))
                // a lower bound does not show that anything is better
                || (!worse && now.PressureAtLeast)
                // the pressure tells it, as long as the rating is the same
                || (quantity == StepQuantity.ShareOfRating && Comparison.Same(old.RatingPaGauge!.Value, now.RatingPaGauge!.Value))))
        {
            return null;
        }

        return new Line(quantity, worse ? ChangeEffect.Raised : ChangeEffect.Lowered, now.State, was, becomes);
    }

    /// <summary>What even an unrated vessel may hold is no pressure.</summary>
    private static bool IsPressure(StepFigures figures, Policy policy) => figures[StepQuantity.Pressure]?.Value > policy.UnratedNothingPa / 1e5;

    private static Line? Come(StepFigures now, StepFigures[] elsewhere, Policy policy)
    {
        if (now[StepQuantity.Pressure] is not { } pressure || !IsPressure(now, policy) || Array.Exists(elsewhere, static one => one.PressureUnknown))
        {
            return null;
        }

        return Highest(elsewhere) is not { } was || was.Value <= policy.UnratedNothingPa / 1e5 ? new Line(StepQuantity.Pressure, ChangeEffect.Introduced, now.State, null, pressure)
            : was.Value < pressure.Value && !Comparison.Alike(was.Value, pressure.Value, pressure.Unit) ? new Line(StepQuantity.Pressure, ChangeEffect.Raised, now.State, was, pressure)
            : null;
    }

    private static Line? Gone(StepFigures old, StepFigures[] elsewhere, Policy policy)
    {
        if (old[StepQuantity.Pressure] is not { } pressure || !IsPressure(old, policy) || Array.Exists(elsewhere, static one => one.PressureUnknown || one.PressureAtLeast))
        {
            return null;
        }

        return Highest(elsewhere) is not { } becomes || becomes.Value <= policy.UnratedNothingPa / 1e5 ? new Line(StepQuantity.Pressure, ChangeEffect.Removed, old.State, pressure, null)
            : becomes.Value < pressure.Value && !Comparison.Alike(becomes.Value, pressure.Value, pressure.Unit) ? new Line(StepQuantity.Pressure, ChangeEffect.Lowered, old.State, pressure, becomes)
            : null;
    }

    private static Evidence? Highest(StepFigures[] figures) => figures.Select(static one => one[StepQuantity.Pressure]).OfType<Evidence>().MaxBy(static one => one.Value);

    private static HazardChange Change(Line[] lines)
    {
        // the number that is worst: now where it got worse, before where it got better
        var higher = (lines[0].After ?? lines[0].Before)!.Worse == WorseWhen.Higher;
        var worst = lines.MaxBy(line => (higher ? 1 : -1) * Counted(line).Value)!;
        return new HazardChange
        {
            Hazard = StepFigures.HazardOf(worst.Quantity),
            Quantity = Counted(worst).Name,
            Effect = worst.Effect,
            Before = worst.Before,
            After = worst.After,
            Vessel = worst.Vessel,
            Steps = StepIds.Of(lines, static line => line.State),
            Of = worst.Quantity,
        };
    }

    private static Evidence Counted(Line line) => (line.Effect is ChangeEffect.Introduced or ChangeEffect.Raised ? line.After : line.Before)!;

    private sealed record Line(StepQuantity Quantity, ChangeEffect Effect, StepState State, Evidence? Before, Evidence? After)
    {
        public string Vessel => State.Vessel.Id;
    }
}
