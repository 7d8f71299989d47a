using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Screening;

/// <summary>
/// Which step of one plan is which of another: in order, the same kind of action, most alike in all (longest common subsequence with weights).
/// Names of steps and vessels help but do not decide.
/// </summary>
internal static class StepAlignment
{
    /// <summary>Pairs of places in the two lists, both rising.</summary>
    public static IReadOnlyList<(int Before, int After)> Of(IReadOnlyList<StepState> before, IReadOnlyList<StepState> after)
    {
        var best = new int[before.Count + 1, after.Count + 1];
        for (var i = before.Count - 1; i >= 0; i--)
        {
            for (var j = after.Count - 1; j >= 0; j--)
            {
                var alike = Likeness(before[i], after[j]);
                best[i, j] = Math.Max(Math.Max(best[i + 1, j], best[i, j + 1]), alike is { } weight ? weight + best[i + 1, j + 1] : 0);
            }
        }

        var pairs = new List<(int Before, int After)>();
        for (int i = 0, j = 0; i < before.Count && j < after.Count;)
        {
            if (Likeness(before[i], after[j]) is { } weight && best[i, j] == weight + best[i + 1, j + 1])
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

    /// <summary>Null: not the same kind of action.</summary>
    private static int? Likeness(StepState one, StepState other)
    {
        var action = one.Step.Action == other.Step.Action ? 8 : KindOf(one.Step.Action) == KindOf(other.Step.Action) ? 4 : 0;
        if (action == 0)
        {
            return null;
        }

        var vessel = string.Equals(one.Vessel.Id, other.Vessel.Id, StringComparison.Ordinal) ? 4
            : string.Equals(one.Vessel.Kind, other.Vessel.Kind, StringComparison.OrdinalIgnoreCase) ? 3
            : 0;
        return action + vessel + (string.Equals(one.Step.Id, other.Step.Id, StringComparison.Ordinal) ? 1 : 0);
    }

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
