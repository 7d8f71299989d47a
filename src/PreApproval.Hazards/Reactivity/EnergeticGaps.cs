using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// Energetic families that are heated hard, heated while closed, or concentrated, where no row of the table says what
/// happens: the check is undone, and that is a finding.
/// </summary>
internal static class EnergeticGaps
{
    /// <summary>Contents above this are heated hard, in K (100 °C). Common practice, no source.</summary>
    private const double HardK = 373.15;

    public static IEnumerable<Finding> Find(ScreeningContext context) =>
        context.Walk.States
            .Where(static state => state.WorstTemperatureK > HardK || (state.Sealed && state.Heated) || state.Step.Action is StepAction.Concentrate or StepAction.Distil)
            .Where(static state => state.Contents.Any(IsEnergetic))
            .SelectMany(static state => state.Contents
                .Where(static content => !content.Spent && content.Mol is null or > 0 && IsEnergetic(content))
                .SelectMany(content => FamilyTable.Default.Of(content.Substance, content.MassFraction).Where(FamilyTable.Default.IsEnergetic)
                    .Where(family => !IsAssessed(family, state) && !(Meeting.Reducible.Contains(family, StringComparer.Ordinal) && state.Contents.Any(static other => FamilyTable.Default.Of(other.Substance, other.MassFraction).Contains(Meeting.Reductants, StringComparer.Ordinal)))).Select(family => (State: state, Content: content, Family: family))))
            .GroupBy(static entry => (entry.State.Vessel.Id, entry.Content.Substance.Key))
            .Select(static group =>
            {
                var first = group.First();
                string[] steps = [.. group.Select(static entry => entry.State.Step.Id).Distinct(StringComparer.Ordinal)];
                return new Finding
                {
                    Code = "data.energetic-not-assessed",
                    Hazard = Hazard.Data,
                    Severity = Severity.Caution,
                    Steps = steps,
                    Vessel = first.State.Vessel.Id,
                    Materials = first.Content.MaterialId is { } id ? [id] : [],
                    Statement = $"{Wording.Capital(first.Content.Substance.Name)} belongs to the {first.Family}, which can decompose with much heat; whether it does so in {Wording.Steps(steps)} is not assessed. State what is known of its decomposition.",
                    LeavesCheckUndone = true,
                };
            });

    private static bool IsEnergetic(Content content)
    {
        var families = FamilyTable.Default.Of(content.Substance, content.MassFraction);
        for (var index = 0; index < families.Count; index++)
        {
            if (FamilyTable.Default.IsEnergetic(families[index]))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>A row of the table covers what is done to the family here, whether it fires or not.</summary>
    private static bool IsAssessed(string family, StepState state) =>
        EncounterTable.All.Any(row => string.Equals(row.A, family, StringComparison.Ordinal)
            && (string.Equals(row.B, EncounterTable.Heat, StringComparison.Ordinal)
                || (state.Step.Action is StepAction.Concentrate or StepAction.Distil && string.Equals(row.B, EncounterTable.Concentrating, StringComparison.Ordinal))));
}
