using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Screening;

/// <summary>What following the contents found odd or missing, and materials no step uses.</summary>
public sealed class WalkScreen : IScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var group in context.Walk.Issues.GroupBy(static issue => (issue.Kind, issue.StepIndex)))
        {
            yield return OfIssues([.. group], context);
        }

        foreach (var material in context.Plan.Materials.Where(material => material.Role != Role.Product && !context.Walk.UsedMaterials.Contains(material.Id)))
        {
            yield return new Finding
            {
                Code = "data.material-unused",
                Hazard = Hazard.Data,
                Severity = Severity.Notice,
                Materials = [material.Id],
                Statement = $"No step uses “{material.Id}”.",
            };
        }
    }

    private static Finding OfIssues(WalkIssue[] issues, ScreeningContext context)
    {
        var step = context.Plan.Steps[issues[0].StepIndex];
        var details = Wording.List(issues.Select(static issue => issue.Detail).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
        var (code, severity, undone, words) = issues[0].Kind switch
        {
            WalkIssueKind.AmountUnknown => ("data.amount-unknown", Severity.Caution, false, $"In step {step.Id} an amount cannot be converted: missing {details}."),
            WalkIssueKind.AmountNotStated => ("data.amount-not-stated", Severity.Caution, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.MoreThanAvailable => ("data.more-than-available", Array.Exists(issues, static issue => issue.IsFar) ? Severity.Warning : Severity.Caution, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.HeatedEmpty => ("data.heated-empty", Severity.Caution, false, $"In step {step.Id}, {details}; is a charge missing?"),
            WalkIssueKind.AlreadyOpen => ("data.already-open", Severity.Notice, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.AlreadySealed => ("data.already-sealed", Severity.Notice, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.TemperatureNotStated => ("data.temperature-not-stated", Severity.Caution, step.Action is StepAction.Heat, $"In step {step.Id}, {details}."),
            WalkIssueKind.ReactionExtentUnknown => ("data.reaction-extent", Severity.Caution, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.NothingToMove => ("data.nothing-to-move", Severity.Notice, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.PressureNotStated => ("data.pressure-not-stated", Severity.Warning, true, $"In step {step.Id}, {details}."),
            WalkIssueKind.TakenAsGas => ("data.taken-as-gas", Severity.Notice, false, $"In step {step.Id}, the volume is read of {details}; state the mass if a liquid is meant."),
            WalkIssueKind.TakenAsLiquid => ("data.taken-as-liquid", Severity.Notice, false, $"In step {step.Id}, the volume is read of {details}; state the mass if a gas is meant."),
            WalkIssueKind.Frozen => ("data.frozen", Severity.Caution, false, $"In step {step.Id}, {details}: what is added then does not mix and reacts at once on thawing."),
            WalkIssueKind.NothingToConcentrate => ("data.nothing-to-concentrate", Severity.Notice, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.ReactionPartnerAbsent => ("data.reaction-partner-absent", Severity.Caution, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.TargetNotStated => ("data.target-not-stated", Severity.Notice, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.AddedWhileClosed => ("data.added-while-closed", Severity.Notice, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.AlreadyEvacuated => ("data.already-evacuated", Severity.Notice, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.DriedEmpty => ("data.dried-empty", Severity.Notice, false, $"In step {step.Id}, {details}; let it cool before anything that burns or boils comes in."),
            WalkIssueKind.CooledToHotter => ("data.cooled-to-hotter", Severity.Notice, false, $"In step {step.Id}, {details}"),
            WalkIssueKind.VentedTwice => ("data.already-vented", Severity.Notice, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.PressureNotRaised => ("data.pressure-not-raised", Severity.Caution, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.ArrivesHot => ("data.arrives-hot", Severity.Notice, false, $"In step {step.Id}, {details}."),
            WalkIssueKind.GasNotStated => ("data.gas-not-stated", Severity.Caution, true, $"In step {step.Id}, {details}."),
        };
        return new Finding
        {
            Code = code,
            Hazard = Hazard.Data,
            Severity = severity,
            Steps = [step.Id],
            Vessel = step.Vessel,
            Materials = [.. issues.Select(static issue => issue.MaterialId).OfType<string>().Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Statement = words,
            LeavesCheckUndone = undone,
        };
    }
}
