using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Screening;

/// <summary>What a step is known by in another plan.</summary>
/// <param name="Action">What is done.</param>
/// <param name="Vessel">Identifier of its vessel.</param>
/// <param name="VesselKind">Kind of its vessel, as typed.</param>
/// <param name="Id">Its own identifier.</param>
public sealed record StepTraits(StepAction Action, string Vessel, string VesselKind, string Id);

/// <summary>
/// Which step of one plan is which of another: in order, the same kind of action, most alike in all (longest common subsequence with weights).
/// Names of steps and vessels help but do not decide.
/// </summary>
public static class StepAlignment
{
    /// <summary>Pairs of places in the two lists, both rising. <paramref name="likeness"/> is null where two cannot stand for each other.</summary>
    public static IReadOnlyList<(int Before, int After)> Of<T>(IReadOnlyList<T> before, IReadOnlyList<T> after, Func<T, T, int?> likeness)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        ArgumentNullException.ThrowIfNull(likeness);
        var best = new int[before.Count + 1, after.Count + 1];
        for (var i = before.Count - 1; i >= 0; i--)
        {
            for (var j = after.Count - 1; j >= 0; j--)
            {
                var alike = likeness(before[i], after[j]);
                best[i, j] = Math.Max(Math.Max(best[i + 1, j], best[i, j + 1]), alike is { } weight ? weight + best[i + 1, j + 1] : 0);
            }
        }

        var pairs = new List<(int Before, int After)>();
        for (int i = 0, j = 0; i < before.Count && j < after.Count;)
        {
            if (likeness(before[i], after[j]) is { } weight && best[i, j] == weight + best[i + 1, j + 1])
            {
                pairs.Add((i++, j++));
            }
            else if (best[i + 1, j] >= best[i, j + 1])
            {
                i++;
            }
            else
            {
                j++;
            }
        }

        return pairs;
    }

    /// <summary>How much two steps have in common, 4 to 13; null: not the same kind of action.</summary>
    public static int? Likeness(StepTraits one, StepTraits other)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(other);
        var action = one.Action == other.Action ? 8 : KindOf(one.Action) == KindOf(other.Action) ? 4 : 0;
        if (action == 0)
        {
            return null;
        }

        var vessel = string.Equals(one.Vessel, other.Vessel, StringComparison.Ordinal) ? 4
            : string.Equals(one.VesselKind, other.VesselKind, StringComparison.OrdinalIgnoreCase) ? 3
            : 0;
        return action + vessel + (string.Equals(one.Id, other.Id, StringComparison.Ordinal) ? 1 : 0);
    }

    internal static IReadOnlyList<(int Before, int After)> Of(IReadOnlyList<StepState> before, IReadOnlyList<StepState> after) =>
        Of([.. before.Select(TraitsOf)], [.. after.Select(TraitsOf)], Likeness);

    private static StepTraits TraitsOf(StepState state) => new(state.Step.Action, state.Vessel.Id, state.Vessel.Kind, state.Step.Id);

    /// <summary>What may stand for each other: a reflux that becomes a heating in a closed tube is still the step that heats.</summary>
    private static Kind KindOf(StepAction action) => action switch
    {
        StepAction.Charge or StepAction.Add or StepAction.Quench => Kind.PuttingIn,
        StepAction.Heat or StepAction.Hold or StepAction.Stir or StepAction.Reflux or StepAction.Irradiate => Kind.Reacting,
        StepAction.Distil or StepAction.Concentrate or StepAction.Dry => Kind.Boiling,
        StepAction.Extract or StepAction.Wash => Kind.Washing,
        StepAction.Transfer or StepAction.Filter or StepAction.Discard or StepAction.Chromatograph => Kind.Moving,
        StepAction.Seal or StepAction.Pressurise => Kind.Closing,
        StepAction.Open or StepAction.Vent => Kind.Opening,
        StepAction.Purge or StepAction.Evacuate or StepAction.Degas => Kind.Gas,
        StepAction.Cool => Kind.Cooling,
        StepAction.Store => Kind.Keeping,
        StepAction.Grind => Kind.Grinding,
    };

    private enum Kind
    {
        PuttingIn,
        Reacting,
        Boiling,
        Washing,
        Moving,
        Closing,
        Opening,
        Gas,
        Cooling,
        Keeping,
        Grinding,
    }
}
