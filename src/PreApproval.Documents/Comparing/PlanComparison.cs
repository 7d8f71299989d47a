using System.Globalization;

namespace PreApproval.Documents.Comparing;

/// <summary>
/// What two valid documents state otherwise of the work itself: materials, vessels, steps, reactions, safeguards, what is at hand for a fire, waste and
/// circumstances. Another name of the same part, and the same quantity in another unit, is no change. Title, purpose and source are words about the
/// plan and not compared. Pure.
/// </summary>
public static class PlanComparison
{
    /// <summary>In the order in which a document is read.</summary>
    public static IReadOnlyList<PlanChange> Between(ProcedureDocument before, ProcedureDocument after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        var materials = PartNames.Matching(before.Materials, after.Materials, static material => material.Id, MaterialStatements.KeyOf);
        StepMatches matches = StepMatches.Of(before, after, materials);
        PartNames vessels = Vessels(before, after, matches);
        PartNames steps = Steps(before, after, matches);
        return
        [
            .. Parts(PlanPart.Material, before.Materials, after.Materials, static one => one.Id, materials, MaterialStatements.Of, MaterialStatements.Of),
            .. Parts(PlanPart.Vessel, before.Vessels, after.Vessels, static one => one.Id, vessels, VesselStatements.Of, VesselStatements.Of),
            .. Steps(before, after, matches, materials, vessels),
            .. OtherParts.Reactions(before, after, materials, steps),
            .. OtherParts.Safeguards(before, after, steps),
            .. OtherParts.Waste(before, after, materials),
            .. OtherParts.Single(PlanPart.FireResponse, OtherParts.FireResponse(before), OtherParts.FireResponse(after)),
            .. OtherParts.Single(PlanPart.Circumstance, OtherParts.Circumstances(before, materials), OtherParts.Circumstances(after, new PartNames())),
        ];
    }

    /// <summary>Parts with a name of their own: the later ones in their order, then those that are gone.</summary>
    internal static IEnumerable<PlanChange> Parts<T>(PlanPart part, IReadOnlyList<T> before, IReadOnlyList<T> after, Func<T, string> name, PartNames names, Func<T, Statements> old, Func<T, Statements> now)
    {
        foreach (T other in after)
        {
            T[] was = [.. before.Where(one => names.Knows(name(one)) && string.Equals(names.Of(name(one)), name(other), StringComparison.Ordinal))];
            var place = new PlanChange { Part = part, Name = name(other), NameBefore = was.Length == 0 ? null : Otherwise(name(was[0]), name(other)), Effect = PlanEffect.Added };
            foreach (PlanChange change in was.Length == 0 ? [place with { After = now(other).Words }] : Changes(place, old(was[0]), now(other)))
            {
                yield return change;
            }
        }

        foreach (T one in before.Where(one => !names.Knows(name(one))))
        {
            yield return new PlanChange { Part = part, Name = name(one), Effect = PlanEffect.Removed, Before = old(one).Words };
        }
    }

    internal static IEnumerable<PlanChange> Changes(PlanChange place, Statements before, Statements after) =>
        Statements.Differences(before, after).Select(one => place with { Effect = PlanEffect.Changed, What = one.Name, Before = one.Before, After = one.After });

    /// <summary>A vessel under another name is the one that the same steps happen in, else the one of its kind.</summary>
    private static PartNames Vessels(ProcedureDocument before, ProcedureDocument after, StepMatches matches)
    {
        var names = PartNames.Matching(before.Vessels, after.Vessels, static vessel => vessel.Id, static vessel => $"{vessel.Kind} {PlanWords.KeyOf(vessel.Volume)}");
        foreach ((int one, int other) in matches.InOrder.Concat(matches.Moved))
        {
            if (!names.Knows(before.Steps[one].Vessel) && !names.IsTaken(after.Steps[other].Vessel))
            {
                names.Add(before.Steps[one].Vessel, after.Steps[other].Vessel);
            }
        }

        names.AddFree(before.Vessels, after.Vessels, static vessel => vessel.Id, static vessel => vessel.Kind);
        return names;
    }

    private static PartNames Steps(ProcedureDocument before, ProcedureDocument after, StepMatches matches)
    {
        var names = new PartNames();
        foreach ((int one, int other) in matches.InOrder.Concat(matches.Moved))
        {
            names.Add(before.Steps[one].Id, after.Steps[other].Id);
        }

        return names;
    }

    private static IEnumerable<PlanChange> Steps(ProcedureDocument before, ProcedureDocument after, StepMatches matches, PartNames materials, PartNames vessels)
    {
        var was = matches.InOrder.Concat(matches.Moved).ToDictionary(static pair => pair.After, static pair => pair.Before);
        var moved = matches.Moved.Select(static pair => pair.After).ToHashSet();
        for (int other = -1; other < after.Steps.Count; other++)
        {
            if (other >= 0)
            {
                foreach (PlanChange change in Step(other))
                {
                    yield return change;
                }
            }

            foreach (StepEntry gone in Gone(other))
            {
                yield return new PlanChange { Part = PlanPart.Step, Name = gone.Id, Action = StepStatements.ActionOf(gone), Effect = PlanEffect.Removed, Before = Old(gone).Words };
            }
        }

        IEnumerable<PlanChange> Step(int other)
        {
            StepEntry now = after.Steps[other];
            var place = new PlanChange { Part = PlanPart.Step, Name = now.Id, Action = StepStatements.ActionOf(now), Effect = PlanEffect.Added };
            if (!was.TryGetValue(other, out int one))
            {
                return [place with { After = StepStatements.Of(now, new PartNames(), new PartNames()).Words }];
            }

            place = place with { NameBefore = Otherwise(before.Steps[one].Id, now.Id) };
            PlanChange[] order = moved.Contains(other) ? [place with { Effect = PlanEffect.Moved, What = "place in the order", Before = Place(one, before), After = Place(other, after) }] : [];
            return order.Concat(Changes(place, Old(before.Steps[one]), StepStatements.Of(now, new PartNames(), new PartNames())));
        }

        // those that stood after the step that became this one, up to the next that is still there
        IEnumerable<StepEntry> Gone(int other)
        {
            if (other >= 0 && (!was.ContainsKey(other) || moved.Contains(other)))
            {
                yield break;
            }

            for (int one = other < 0 ? 0 : was[other] + 1; one < before.Steps.Count && !matches.InOrder.Any(pair => pair.Before == one); one++)
            {
                if (!matches.Moved.Any(pair => pair.Before == one))
                {
                    yield return before.Steps[one];
                }
            }
        }

        Statements Old(StepEntry step) => StepStatements.Of(step, materials, vessels);
    }

    private static string? Otherwise(string before, string after) => string.Equals(before, after, StringComparison.Ordinal) ? null : before;

    private static string Place(int index, ProcedureDocument document) => string.Create(CultureInfo.InvariantCulture, $"{index + 1} of {document.Steps.Count}");
}
