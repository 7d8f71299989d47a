using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Safeguards;

/// <summary>
/// Whether the safeguards reach the hazards they stand beside: one that does not act on the mechanism counts zero (a hood stops no fragments), and a danger
/// is not answered by administrative controls or protective equipment alone (hierarchy of controls; NIOSH, ISO 45001, 8.1.2).
/// </summary>
internal static class SafeguardReach
{
    public static IEnumerable<Finding> Find(ScreeningContext context, IReadOnlyList<Finding> findings)
    {
        var grave = findings.Where(static finding => finding.Severity <= Severity.Warning && finding.Hazard is not (Hazard.Data or Hazard.Safeguard)).ToArray();
        var named = context.Plan.Safeguards
            .Where(static safeguard => ControlList.Judge(safeguard) == Recognition.Recognised)
            .Select(static safeguard => (Safeguard: safeguard, Control: ControlList.Find(safeguard.Control)!))
            .ToArray();
        foreach (var (safeguard, control) in named.Where(static pair => pair.Safeguard.Steps.Count > 0).DistinctBy(static pair => (pair.Control, string.Join('+', pair.Safeguard.Steps))))
        {
            var beside = Array.FindAll(grave, finding => ControlNeeds.Covers(safeguard, finding));
            if (beside.Length > 0 && !Array.Exists(beside, finding => ControlList.ActsOn(control, finding.Hazard)))
            {
                yield return new Finding
                {
                    Code = "safeguard.wrong-mechanism",
                    Hazard = Hazard.Safeguard,
                    Severity = Severity.Notice,
                    Steps = safeguard.Steps,
                    About = control,
                    Statement = $"“{safeguard.Control}” does not act on what is grave in {Wording.Steps(safeguard.Steps)} ({Wording.List(beside.Select(static finding => Word(finding.Hazard)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal))}) and counts for nothing there.",
                };
            }
        }

        var lowOnly = grave.Where(finding => finding.Severity == Severity.Danger && OnlyLowLevels(finding, [.. named.Where(pair => ControlNeeds.Covers(pair.Safeguard, finding) && ControlList.ActsOn(pair.Control, finding.Hazard)).Select(static pair => pair.Control)])).ToArray();
        if (lowOnly.Length > 0)
        {
            yield return new Finding
            {
                Code = "safeguard.low-levels-only",
                Hazard = Hazard.Safeguard,
                Severity = Severity.Notice,
                Steps = [.. context.Plan.Steps.Select(static step => step.Id).Where(step => Array.Exists(lowOnly, finding => finding.Steps.Contains(step, StringComparer.Ordinal)))],
                Statement = $"{Wording.Capital(Wording.List(lowOnly.Select(static finding => Word(finding.Hazard)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)))}: a danger is answered here by administrative controls or protective equipment alone. Eliminate, substitute or engineer first.",
            };
        }
    }

    private static bool OnlyLowLevels(Finding finding, string[] acting) =>
        acting.Length > 0
        && !Array.Exists(acting, static control => ControlList.LevelOf(control) == ControlLevel.Engineering)
        && !finding.Controls.Any(static needed => needed.Status == ControlStatus.Present && ControlList.LevelOf(needed.Control) == ControlLevel.Engineering);

    private static string Word(Hazard hazard) => hazard switch
    {
        Hazard.Pressure => "pressure",
        Hazard.Incompatibility => "incompatibility",
        Hazard.Fire => "fire",
        Hazard.Energetic => "energetic substances",
        Hazard.Gas => "gas",
        Hazard.Heat => "heat",
        Hazard.Toxicity => "toxicity",
        Hazard.Peroxide => "peroxides",
        Hazard.Temperature => "temperature",
        Hazard.Safeguard => "safeguards",
        Hazard.Data => "missing data",
    };
}
