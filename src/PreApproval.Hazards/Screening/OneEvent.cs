using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Screening;

/// <summary>What several findings and numbers say of one event, told once.</summary>
internal static class OneEvent
{
    /// <summary>Relative difference of two pressures that the figures of a table do not show.</summary>
    private const double ToldShare = 1e-3;

    /// <summary>The same for small pressures, in bar: half of the last hundredth told.</summary>
    private const double ToldBar = 0.005;

    /// <summary>The changes of findings, completed with the numbers of the steps, and the numbers that none of them tells.</summary>
    public static IEnumerable<HazardChange> Of(HazardChange[] findings, IEnumerable<HazardChange> numbers)
    {
        var told = findings.ToArray();
        var left = new List<HazardChange>();
        foreach (var number in numbers)
        {
            if (Array.Exists(findings, finding => Tells(finding, number)))
            {
                continue;
            }

            var found = false;
            for (var i = 0; i < findings.Length; i++)
            {
                if (Completed(findings[i], number) is { } whole)
                {
                    told[i] = whole;
                    found = true;
                }
            }

            if (!found)
            {
                left.Add(number);
            }
        }

        return told.Concat(left);
    }

    /// <summary>One line for what has the same pressure in the same vessel: absolute and gauge, expected and at worst, in one step and in the next. The first of each is the one that stays.</summary>
    public static IReadOnlyList<HazardChange> Merged(IEnumerable<HazardChange> ordered, Plan before, Plan after)
    {
        var lines = new List<HazardChange>();
        foreach (var change in ordered)
        {
            var same = lines.FindIndex(line => IsTheSame(line, change));
            if (same < 0)
            {
                lines.Add(change);
            }
            else
            {
                lines[same] = lines[same] with { Steps = InOrder(lines[same].Steps.Union(change.Steps, StringComparer.Ordinal), change.Effect is ChangeEffect.Removed ? before : after), Also = [.. lines[same].Also, change] };
            }
        }

        return lines;
    }

    private static string[] InOrder(IEnumerable<string> steps, Plan plan)
    {
        var there = steps.ToHashSet(StringComparer.Ordinal);
        return [.. plan.Steps.Select(static step => step.Id).Where(there.Contains)];
    }

    /// <summary>True where a change of a finding says what the change of a number would: the same way, at the same vessel, with both numbers where both are there.</summary>
    private static bool Tells(HazardChange finding, HazardChange number) => IsAbout(finding, number)
        && StepFigures.IsToldBy(number.Of!.Value, finding.Quantity)
        && ((finding.Before is not null && finding.After is not null) || number.Before is null || number.After is null);

    /// <summary>
    /// A finding that is there on one side only, with the number of the other side, where the vessel has the quantity in both plans; null: it is not about that number.
    /// Where only the rating differs, the share of it is what came or went.
    /// </summary>
    private static HazardChange? Completed(HazardChange finding, HazardChange number)
    {
        if (!IsAbout(finding, number) || number.Before is null || number.After is null || finding.FindingBefore is not null == finding.FindingAfter is not null)
        {
            return null;
        }

        var only = finding.FindingAfter ?? finding.FindingBefore!;
        var there = finding.FindingAfter is null ? number.Before : number.After;
        return number.Of switch
        {
            StepQuantity.ShareOfRating when finding.Quantity is PressureEvidence.Worst && only.Evidence.Any(one => one.Name is PressureEvidence.Share && Comparison.Same(one.Value, there.Value)) =>
                finding with { Quantity = number.Quantity, Before = number.Before, After = number.After },
            { } quantity when StepFigures.IsToldBy(quantity, finding.Quantity) && (finding.After ?? finding.Before) is { } own && Comparison.Same(own.Value, there.Value) =>
                finding with { Before = finding.Before ?? number.Before, After = finding.After ?? number.After },
            _ => null,
        };
    }

    private static bool IsAbout(HazardChange finding, HazardChange number) => finding.IsWorse == number.IsWorse
        && (string.Equals(finding.FindingAfter?.Vessel, number.Vessel, StringComparison.Ordinal) || string.Equals(finding.FindingBefore?.Vessel, number.Vessel, StringComparison.Ordinal));

    private static bool IsTheSame(HazardChange one, HazardChange other) => one.Effect == other.Effect
        && one.Vessel is not null && string.Equals(one.Vessel, other.Vessel, StringComparison.Ordinal)
        && (one.Before ?? one.After) is not null && IsTheSame(one.Before, other.Before) && IsTheSame(one.After, other.After);

    private static bool IsTheSame(Evidence? one, Evidence? other) => (one, other) switch
    {
        (null, null) => true,
        ({ Unit: "bar(g)" or "bar" }, { Unit: "bar(g)" or "bar" }) => IsTold(one.Value, other.Value)
            || (!string.Equals(one.Unit, other.Unit, StringComparison.Ordinal) && IsTold(Gauge(one), Gauge(other))),
        _ => false,
    };

    private static double Gauge(Evidence pressure) => pressure.Unit is "bar" ? Wording.InBarGauge(pressure.Value * 1e5) : pressure.Value;

    private static bool IsTold(double one, double other) => Math.Abs(one - other) <= Math.Max(ToldBar, ToldShare * Math.Max(Math.Abs(one), Math.Abs(other)));
}
