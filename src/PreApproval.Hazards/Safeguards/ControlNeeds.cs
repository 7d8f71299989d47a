using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Safeguards;

/// <summary>The controls a finding needs, and whether the plan has them (Data/control-needs.tsv).</summary>
internal static class ControlNeeds
{
    /// <summary>An addition counts as slow from ten minutes. Common practice, no source.</summary>
    public const double DosedFromS = 600;

    private static readonly (string Code, Severity From, IReadOnlyList<string> Controls)[] Needs =
    [
        .. EmbeddedTable.Rows("control-needs.tsv")
            .Select(static row => (row["code"], Enum.Parse<Severity>(row["from"], ignoreCase: true), EmbeddedTable.Entries(row["controls"]))),
    ];

    public static Finding Attach(Finding finding, ScreeningContext context)
    {
        var need = Array.Find(Needs, entry => finding.Code.StartsWith(entry.Code, StringComparison.Ordinal) && finding.Severity <= entry.From);
        return need.Controls is null || finding.Controls.Count > 0
            ? finding
            : finding with { Controls = [.. need.Controls.Select(control => new NeededControl(control, Status(control, finding, context.Plan)))] };
    }

    private static ControlStatus Status(string control, Finding finding, Plan plan)
    {
        var offered = plan.Safeguards.Where(safeguard => Covers(safeguard, finding)).ToArray();
        if (BuiltIn(control, finding, plan)
            || Array.Exists(offered, safeguard => ControlList.Judge(safeguard) == Recognition.Recognised && string.Equals(ControlList.Find(safeguard.Control), control, StringComparison.Ordinal)))
        {
            return ControlStatus.Present;
        }

        return Array.Exists(offered, safeguard => ControlList.Improvised(safeguard) == finding.Hazard && string.Equals(control, "blast shield", StringComparison.Ordinal))
            ? ControlStatus.Improvised
            : ControlStatus.Missing;
    }

    /// <summary>Controls the plan states elsewhere than among its safeguards.</summary>
    private static bool BuiltIn(string control, Finding finding, Plan plan) => control switch
    {
        "fume hood" => plan.Place?.Kind is PlaceKind.Hood or PlaceKind.HoodWithScrubber,
        "scrubber" => plan.Place?.Kind is PlaceKind.HoodWithScrubber,
        "independent cut-out" => plan.Steps.Any(step => step.IndependentCutOut && finding.Steps.Contains(step.Id, StringComparer.Ordinal)),
        "slow addition" => plan.Steps.Any(step => step.OverS >= DosedFromS && finding.Steps.Contains(step.Id, StringComparer.Ordinal)),
        _ => false,
    };

    internal static bool Covers(Safeguard safeguard, Finding finding) =>
        safeguard.Steps.Count == 0 || finding.Steps.Count == 0 || safeguard.Steps.Any(step => finding.Steps.Contains(step, StringComparer.Ordinal));
}
