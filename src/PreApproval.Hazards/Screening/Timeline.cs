using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Screening;

/// <summary>The contents of every vessel after every step.</summary>
internal static class Timeline
{
    public static IReadOnlyList<TimelineEntry> Of(ScreeningContext context) => [.. context.Walk.States.Select(state => Entry(state, context))];

    private static TimelineEntry Entry(StepState state, ScreeningContext context)
    {
        var closed = context.Closed(state);
        return new TimelineEntry
        {
            Step = state.Step.Id,
            Vessel = state.Vessel.Id,
            TemperatureK = state.TemperatureK,
            Sealed = state.Sealed,
            Contents =
            [
                .. state.ContentsAfter.GroupBy(static content => content.Substance.Key, StringComparer.Ordinal)
                    .Where(static group => group.All(static content => content.Mol is not null))
                    .Select(static group => (group.Key, group.OrderBy(static content => content.MaterialId, StringComparer.Ordinal).Sum(static content => content.Mol!.Value))),
            ],
            ExpectedPressurePa = closed?.AtSet.PressurePaAbs,
            BoundPressurePa = closed?.BoundPaAtSet,
        };
    }
}
