using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Safeguards;

/// <summary>Lone, unattended and overnight work where something else is already a danger or a warning.</summary>
public sealed class AttendanceScreen : IFollowUpScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context, IReadOnlyList<Finding> findings)
    {
        var grave = findings.Where(static finding => finding.Severity <= Severity.Warning && finding.Hazard is not (Hazard.Data or Hazard.Safeguard)).ToArray();
        if (grave.Length == 0)
        {
            yield break;
        }

        var steps = StepsOf(grave, context.Plan);
        if (context.Plan.Lone)
        {
            yield return new Finding
            {
                Code = "safeguard.lone-work",
                Hazard = Hazard.Safeguard,
                Severity = Severity.Warning,
                Steps = steps,
                Statement = $"Nobody is within call during {(steps.Length == 0 ? "this procedure" : Wording.Steps(steps))}, which {(grave.Length == 1 ? "holds a grave finding" : "hold grave findings")}; do it with a second person.",
                Controls = [new NeededControl("second person", HasSecondPerson(context.Plan) ? ControlStatus.Present : ControlStatus.Missing)],
            };
        }

        // unattended heating says so itself
        grave = Array.FindAll(grave, static finding => finding.Code is not UnattendedHeatingScreen.Code);
        if (context.Plan.Attendance is not Attendance.Attended && grave.Length > 0)
        {
            steps = StepsOf(grave, context.Plan);
            yield return new Finding
            {
                Code = "safeguard.unattended",
                Hazard = Hazard.Safeguard,
                Severity = Severity.Warning,
                Steps = steps,
                Statement = $"The procedure runs {(context.Plan.Attendance == Attendance.Overnight ? "overnight" : "unattended")} although {(steps.Length == 0 ? "it" : Wording.Steps(steps))} {(steps.Length > 1 ? "hold" : "holds")} grave findings.",
                ClearedBy = [new Clearing("attendance", "/attendance", null, null, "attended")],
            };
        }
    }

    private static string[] StepsOf(Finding[] findings, Plan plan) =>
        [.. plan.Steps.Select(static step => step.Id).Where(step => Array.Exists(findings, finding => finding.Steps.Contains(step, StringComparer.Ordinal)))];

    private static bool HasSecondPerson(Plan plan) =>
        plan.Safeguards.Any(static safeguard => string.Equals(ControlList.Find(safeguard.Control), "second person", StringComparison.Ordinal));
}
