using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Screening;

/// <summary>The contents of every vessel after every step.</summary>
internal static class Timeline
{
    public static IReadOnlyList<TimelineEntry> Of(ScreeningContext context)
    {
        var states = context.Walk.States;
        var entries = new TimelineEntry[states.Count];
        for (var index = 0; index < entries.Length; index++)
        {
            // as long as nothing changes, the entries share one list
            var contents = index > 0 && ReferenceEquals(states[index - 1].ContentsAfter, states[index].ContentsAfter) ? entries[index - 1].Contents : Contents(states[index].ContentsAfter);
            entries[index] = Entry(states[index], contents, context);
        }

        return entries;
    }

    private static TimelineEntry Entry(StepState state, IReadOnlyList<(string Substance, double Mol)> contents, ScreeningContext context)
    {
        // without a gas that the liquids hold the number would be too low, and a timeline has no words to say so
        var closed = context.Closed(state) is { LeavesOutHeldGas: false } whole ? whole : null;
        return new TimelineEntry
        {
            Step = state.Step.Id,
            Vessel = state.Vessel.Id,
            TemperatureK = state.TemperatureK,
            Sealed = state.Sealed,
            Contents = contents,
            ExpectedPressurePa = closed?.SetPaAbs,
            BoundPressurePa = closed?.BoundPaAtSet,
        };
    }

    /// <summary>Mol by substance, without what a quench has destroyed; a substance of which an amount is not known is left out.</summary>
    private static (string Substance, double Mol)[] Contents(IReadOnlyList<Content> all)
    {
        // what a quench has destroyed is in the vessel no more
        var contents = all;
        for (var index = 0; index < all.Count; index++)
        {
            if (all[index].Spent)
            {
                contents = [.. all.Where(static content => !content.Spent)];
                break;
            }
        }

        var sums = new (string Substance, double Mol)[contents.Count];
        var count = 0;
        for (var index = 0; index < contents.Count; index++)
        {
            var key = contents[index].Substance.Key;
            if (IndexOf(contents, key, 0) == index && Sum(contents, key, index) is { } mol)
            {
                sums[count++] = (key, mol);
            }
        }

        return count == sums.Length ? sums : sums[..count];
    }

    private static double? Sum(IReadOnlyList<Content> contents, string key, int first) =>
        IndexOf(contents, key, first + 1) < 0 ? contents[first].Mol : SumOfAll(contents, key);

    private static double? SumOfAll(IReadOnlyList<Content> contents, string key)
    {
        // in a fixed order, so that the order of materials does not show in the last digit
        var all = contents.Where(content => string.Equals(content.Substance.Key, key, StringComparison.Ordinal)).OrderBy(static content => content.MaterialId, StringComparer.Ordinal).ToArray();
        return Array.TrueForAll(all, static content => content.Mol is not null) ? all.Sum(static content => content.Mol!.Value) : null;
    }

    private static int IndexOf(IReadOnlyList<Content> contents, string key, int from)
    {
        for (var index = from; index < contents.Count; index++)
        {
            if (string.Equals(contents[index].Substance.Key, key, StringComparison.Ordinal))
            {
                return index;
            }
        }

        return -1;
    }
}
