using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Comparing;

/// <summary>Which step of the earlier document is which of the later one: those in order, and those that only stand elsewhere.</summary>
/// <param name="InOrder">Pairs of places, both rising.</param>
/// <param name="Moved">Pairs of places out of that order.</param>
internal sealed record StepMatches(IReadOnlyList<(int Before, int After)> InOrder, IReadOnlyList<(int Before, int After)> Moved)
{
    public static StepMatches Of(ProcedureDocument before, ProcedureDocument after, PartNames materials)
    {
        Placed[] old = [.. before.Steps.Select(step => new Placed(step, before, materials.Of))];
        Placed[] now = [.. after.Steps.Select(step => new Placed(step, after, static name => name))];
        IReadOnlyList<(int Before, int After)> inOrder = StepAlignment.Of(old, now, Likeness);
        var moved = new List<(int Before, int After)>();
        int[] free = [.. Enumerable.Range(0, now.Length).Except(inOrder.Select(static pair => pair.After))];
        foreach (int one in Enumerable.Range(0, old.Length).Except(inOrder.Select(static pair => pair.Before)))
        {
            int[] alike = [.. free.Where(other => !moved.Exists(pair => pair.After == other) && IsTheSame(old[one], now[other]))];
            if (alike.Length > 0)
            {
                moved.Add((one, alike[0]));
            }
        }

        return new StepMatches(inOrder, moved);
    }

    /// <summary>What goes in tells one charge from another better than its number does.</summary>
    private static int? Likeness(Placed one, Placed other) => StepAlignment.Likeness(one.Traits, other.Traits) is not { } common ? null
        : common
            + (one.Materials.SetEquals(other.Materials) ? 6 : one.Materials.Overlaps(other.Materials) ? 3 : 0)
            + (string.Equals(one.Temperature, other.Temperature, StringComparison.Ordinal) ? 2 : 0);

    private static bool IsTheSame(Placed one, Placed other) => one.Traits.Action == other.Traits.Action
        && string.Equals(one.Traits.Vessel, other.Traits.Vessel, StringComparison.Ordinal)
        && one.Materials.SetEquals(other.Materials)
        && (string.Equals(one.Traits.Id, other.Traits.Id, StringComparison.Ordinal) || string.Equals(one.Temperature, other.Temperature, StringComparison.Ordinal));

    private sealed class Placed(StepEntry step, ProcedureDocument document, Func<string, string> later)
    {
        public StepTraits Traits { get; } = new(step.Action ?? default, step.Vessel, document.Vessels.FirstOrDefault(vessel => string.Equals(vessel.Id, step.Vessel, StringComparison.Ordinal))?.Kind ?? "", step.Id);

        public HashSet<string> Materials { get; } = (step.Materials ?? []).Select(use => later(use.Id)).ToHashSet(StringComparer.Ordinal);

        public string? Temperature { get; } = PlanWords.KeyOf(step.Temperature);
    }
}
