using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Energy;

/// <summary>An acid and a hydroxide that a step brings together, one of them in an amount nobody knows: their heat is not computed, and that is said.</summary>
internal static class NeutralisationGap
{
    /// <summary>Null where every amount is known, or where the step brings nothing of either.</summary>
    public static Finding? Of(StepState state, AcidWithBase met, ScreeningContext context)
    {
        Content[] unknown = [.. met.Acids.Unknown.Concat(met.Bases.Unknown)];
        if (unknown.Length == 0 || !met.Everyone.Any(content => IsBrought(content, state)))
        {
            return null;
        }

        var dosed = state.Step.OverS >= ControlNeeds.DosedFromS;
        return new Finding
        {
            Code = "data.neutralisation",
            Hazard = Hazard.Data,
            Severity = dosed && !state.Sealed ? Severity.Notice : Severity.Caution,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = Findings.Ids(unknown),
            Statement = $"Step {state.Step.Id} brings {First(met.Acids)} and {First(met.Bases)} together, and how hot that makes “{state.Vessel.Id}” is not computed: {Wording.List(unknown.Select(content => Why(content, context)))}."
                + (dosed ? "" : " Until then dilute and cool one, and dose the other into it."),
            LeavesCheckUndone = state.Sealed,
        };
    }

    private static string First(AcidWithBase.Side side) => side.Known.Concat(side.Unknown).First().Substance.Name;

    private static bool IsBrought(Content content, StepState state) =>
        content.MaterialId is { } id
        && (state.Step.Materials.Any(use => string.Equals(use.MaterialId, id, StringComparison.Ordinal)) || state.MovedIn.Any(moved => string.Equals(moved.MaterialId, id, StringComparison.Ordinal)));

    private static string Why(Content content, ScreeningContext context)
    {
        var name = content.MaterialId is { } id ? $"“{id}”" : content.Substance.Name;
        var missing = context.Walk.Issues.LastOrDefault(issue => issue.Kind == WalkIssueKind.AmountUnknown && string.Equals(issue.MaterialId, content.MaterialId, StringComparison.Ordinal))?.Detail;
        return missing is null
            ? $"state how much of {name} there is, in g, mL or mmol, and its strength if it is a solution"
            : $"the amount of {name} cannot be converted without the {missing}, so state it in g or mmol, or its strength in mol/L";
    }
}
