using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// Undeclared gas beside declared gas of the same kind. What loses it in both loses it once, so that the larger counts; what the declared reactions do not use up gives its gas besides, as far as the other
/// partner reaches after them. docs/methods/gas.md.
/// </summary>
internal static class BesideDeclared
{
    /// <summary>Materials that the declared reactions of a step which make a gas use up; empty where they name none.</summary>
    public static string[] UsedFor(PlanSubstance gas, StepState state) =>
        [.. state.Reactions.Where(reaction => reaction.Produces.Any(made => string.Equals(made.Substance.Key, gas.Key, StringComparison.Ordinal))).SelectMany(static reaction => reaction.Consumes).Select(static one => one.MaterialId).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];

    /// <summary>True where the encounter's gas may be the declared one: the declared reactions use up what loses it, or name no partners.</summary>
    /// <param name="meeting">The encounter.</param>
    /// <param name="used">Materials that make the declared gas.</param>
    public static bool IsTheSame(Meeting meeting, IReadOnlyList<string> used) => used.Count == 0 || meeting.Gassing.Any(content => content.MaterialId is { } id && used.Contains(id, StringComparer.Ordinal));

    /// <summary>Equivalents of the other partner in mol that the declared reactions of the step leave; infinite where it is none that is used up or its amount is not known.</summary>
    public static double Left(Meeting meeting, StepState state)
    {
        if (meeting.Encounter.FirstLimits || meeting.Encounter.SecondLimits || meeting.BEquivalents is not { } all)
        {
            return double.PositiveInfinity;
        }

        var used = meeting.B.Sum(content => UsedUp(content, state) * FamilyTable.Default.Equivalents(content.Substance, meeting.Encounter.B));
        return Math.Max(0, all - (used / meeting.Encounter.SecondPerFirst));
    }

    private static double UsedUp(Content content, StepState state) =>
        state.Reactions.Any(reaction => reaction.Consumes.Any(one => string.Equals(one.MaterialId, content.MaterialId, StringComparison.Ordinal)))
            ? Math.Max(0, content.Mol!.Value - state.Remaining.Where(left => string.Equals(left.MaterialId, content.MaterialId, StringComparison.Ordinal) && string.Equals(left.Substance.Key, content.Substance.Key, StringComparison.Ordinal)).Sum(static left => left.Mol ?? 0))
            : 0;
}
