using PreApproval.Hazards.Screening;

namespace PreApproval.Web.Shared.Components;

/// <summary>Findings that say the same of one vessel in several steps: the worst of them is shown, the others are a click away.</summary>
/// <param name="First">The one to show.</param>
/// <param name="Others">The rest; empty for a finding that stands alone.</param>
public sealed record FindingGroup(FindingView First, IReadOnlyList<FindingView> Others)
{
    /// <summary>For instance <c>Also in steps 3, 4</c>.</summary>
    public string Also
    {
        get
        {
            string[] steps = [.. Others.SelectMany(f => f.Steps).Except(First.Steps, StringComparer.Ordinal)];
            string where = steps.Length switch { 0 => "once more", 1 => "in step " + steps[0], _ => "in steps " + string.Join(", ", steps) };
            Severity worst = Others.Min(f => f.Severity);
            return worst == First.Severity ? $"Also {where}" : $"Also {where}, as {Words.Of(worst).ToLowerInvariant()}";
        }
    }

    /// <summary>
    /// Groups in the order of their first members. Pressure, temperature and heat of one vessel change from step to step and stay one
    /// matter; of other hazards only equal sentences are, because each pair of materials is a danger of its own.
    /// </summary>
    public static IReadOnlyList<FindingGroup> Of(IReadOnlyList<FindingView> findings) =>
        [.. findings.GroupBy(Key).Select(g => Of([.. g.OrderBy(f => f.Severity)]))];

    private static FindingGroup Of(FindingView[] same) => new(same[0], same[1..]);

    private static (string Code, string? Vessel, string Same) Key(FindingView finding) =>
        (finding.Code, finding.Vessel, finding.Hazard is Hazard.Pressure or Hazard.Temperature or Hazard.Heat && !string.IsNullOrEmpty(finding.Vessel) ? "" : finding.Statement);
}
