using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Safeguards;

/// <summary>
/// Judges the safeguards as typed. An improvised safeguard is itself a finding: whoever offers it expects the failure.
/// </summary>
public sealed class SafeguardScreen : IFollowUpScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context, IReadOnlyList<Finding> findings) =>
        [.. Judged(context), .. Standards(context), .. SafeguardReach.Find(context, findings)];

    private static IEnumerable<Finding> Judged(ScreeningContext context)
    {
        foreach (var group in context.Plan.Safeguards.GroupBy(static safeguard => (Judged: ControlList.Judge(safeguard), Steps: string.Join('+', safeguard.Steps))))
        {
            var words = Wording.List(group.Select(static safeguard => $"“{safeguard.Control}”").Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
            var steps = group.First().Steps;
            if (group.Key.Judged == Recognition.Improvised)
            {
                yield return new Finding
                {
                    Code = "safeguard.improvised",
                    Hazard = Hazard.Safeguard,
                    Severity = Severity.Warning,
                    Steps = steps,
                    Statement = $"{words} is improvised, no rated means against the hazard; it tells that the failure is expected. Name a real control or remove the hazard.",
                };
            }
            else if (group.Key.Judged == Recognition.NotRecognised)
            {
                yield return new Finding
                {
                    Code = "safeguard.not-recognised",
                    Hazard = Hazard.Safeguard,
                    Severity = Severity.Notice,
                    Steps = steps,
                    Statement = $"{words} is not on the list of recognised controls and counts as absent.",
                };
            }
        }
    }

    private static IEnumerable<Finding> Standards(ScreeningContext context)
    {
        var quoted = context.Plan.Safeguards.SelectMany(static safeguard => SafeguardStandards.QuotedBy(safeguard).Select(standard => (Safeguard: safeguard, Standard: standard)));
        foreach (var group in quoted.GroupBy(static pair => (pair.Standard.Standard, Steps: string.Join('+', pair.Safeguard.Steps), pair.Safeguard.Control)))
        {
            var (safeguard, standard) = group.First();
            yield return new Finding
            {
                Code = standard.Rejected ? "safeguard.wrong-standard" : "safeguard.standard-noted",
                Hazard = Hazard.Safeguard,
                Severity = standard.Rejected ? Severity.Caution : Severity.Notice,
                Steps = safeguard.Steps,
                Statement = $"{standard.Standard}, quoted for “{safeguard.Control}”, {standard.Words}{(standard.Rejected ? ": the control counts as missing until it is described by what it is" : "")}.",
            };
        }
    }
}
