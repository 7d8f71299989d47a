using System.Globalization;
using PreApproval.Documents.Policies;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Web.Drafting.Editing;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Thresholds;

/// <summary>A heading of the thresholds with the members under it.</summary>
public sealed record ThresholdSection(string Heading, IReadOnlyList<string> Members);

/// <summary>The form of the thresholds: a policy to fields, fields back to a policy. Numbers in the units that people read.</summary>
public static class ThresholdForm
{
    /// <summary>Name of the field that is no number.</summary>
    public static string ReviewFrom { get; } = PolicyWriter.NameOf(nameof(Policy.ReviewFrom));

    public static IReadOnlyList<ThresholdSection> Sections { get; } =
    [
        Section("Temperature of a heated step", nameof(Policy.OvershootK), nameof(Policy.OvershootWithCutOutK)),
        Section("Pressure", nameof(Policy.WarningShareGlass), nameof(Policy.WarningShareMetal), nameof(Policy.DangerShare), nameof(Policy.UnratedNothingPa), nameof(Policy.UnratedCautionPa), nameof(Policy.GassedOutS)),
        Section("Fire", nameof(Policy.HotSurfaceShare), nameof(Policy.FlashMarginK), nameof(Policy.FlashMarginMixtureK)),
        Section("Fill of closed vessels", nameof(Policy.FillGlass), nameof(Policy.FillMetal), nameof(Policy.FillCeiling), nameof(Policy.FillLow), nameof(Policy.FillWaterMargin)),
        Section("Inspection and shields", nameof(Policy.InspectionMonths), nameof(Policy.ShieldFromJ), nameof(Policy.CellFromJ), nameof(Policy.EngineeredFromJ)),
        Section("Review", nameof(Policy.ReviewFrom)),
    ];

    public static IReadOnlyList<string> Severities { get; } = [.. Enum.GetValues<Severity>().Select(ReportWords.Of)];

    /// <summary>The threshold of a field; null for <see cref="ReviewFrom"/>.</summary>
    public static PolicyThreshold? ThresholdOf(string field) => PolicyThreshold.All.FirstOrDefault(threshold => string.Equals(PolicyWriter.NameOf(threshold.Member), field, StringComparison.Ordinal));

    /// <summary>What is written beside a field: the unit is part of it.</summary>
    public static string LabelOf(PolicyLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        return Words.Capital(ThresholdOf(line.Member) is { } threshold ? $"{threshold.Name}, in {threshold.ShownUnit}" : line.Name);
    }

    /// <summary>Which way a threshold finds less, with default, range and source.</summary>
    public static string HintOf(PolicyLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        string looser = ThresholdOf(line.Member) switch
        {
            { Stricter: Stricter.Higher } => "lower finds less",
            { Stricter: Stricter.Lower } => "higher finds less",
            _ => "a graver one sends less to review",
        };
        return $"Default {line.Default}; allowed {line.Allowed}; {looser}. Source: {line.Source}.";
    }

    /// <summary>The fields of a policy.</summary>
    public static IReadOnlyDictionary<string, string> Filled(Policy policy)
    {
        ArgumentNullException.ThrowIfNull(policy);
        var fields = PolicyThreshold.All.ToDictionary(threshold => PolicyWriter.NameOf(threshold.Member), threshold => threshold.Number(threshold.In(policy)), StringComparer.Ordinal);
        fields[ReviewFrom] = ReportWords.Of(policy.ReviewFrom);
        return fields;
    }

    /// <summary>
    /// The policy that was sent; null after a fault. A field that shows what is there, or the default, means exactly that: two thirds are
    /// shown as 66.6667 %.
    /// </summary>
    public static Policy? Read(Func<string, string> posted, Policy current, ICollection<FormError> faults)
    {
        ArgumentNullException.ThrowIfNull(posted);
        ArgumentNullException.ThrowIfNull(current);
        ArgumentNullException.ThrowIfNull(faults);
        int before = faults.Count;
        Policy policy = current;
        List<string> unread = [];
        foreach (PolicyThreshold threshold in PolicyThreshold.All)
        {
            string field = PolicyWriter.NameOf(threshold.Member);
            if (Number(threshold, posted(field), threshold.In(current), fault => faults.Add(new FormError(field, fault))) is { } value)
            {
                policy = threshold.Set(policy, value);
            }
            else
            {
                unread.Add(threshold.Member);
            }
        }

        int from = Severities.ToList().IndexOf(posted(ReviewFrom));
        if (from < 0)
        {
            faults.Add(new FormError(ReviewFrom, "Findings that go to review: choose a severity."));
        }
        else
        {
            policy = policy with { ReviewFrom = Enum.GetValues<Severity>()[from] };
        }

        // all that can be said of what was read, beside what was not: one round of mending, not two
        foreach (PolicyFault fault in PolicyRules.Faults(policy, unread))
        {
            faults.Add(new FormError(PolicyWriter.NameOf(fault.Member), fault.Message));
        }

        return faults.Count > before ? null : policy;
    }

    private static double? Number(PolicyThreshold threshold, string text, double current, Action<string> fault)
    {
        string name = Words.Capital(threshold.Name);
        string number = TypedNumber.Read(text, [threshold.ShownUnit]).Number;
        if (number.Length == 0)
        {
            fault($"{name}: enter a number; the default is {threshold.Words(threshold.Default)}.");
            return null;
        }

        foreach (double known in (double[])[current, threshold.Default])
        {
            if (string.Equals(number, threshold.Number(known), StringComparison.Ordinal))
            {
                return known;
            }
        }

        if (decimal.TryParse(number, NumberStyles.Float, CultureInfo.InvariantCulture, out decimal value) && Math.Abs(value) < 1e12m)
        {
            // decimal, so that 7 % is 0.07 and nothing beside it
            return (double)(value * (decimal)threshold.PerShownUnit);
        }

        fault($"{name}: “{(text.Length > 40 ? text[..40] + "…" : text)}” is not a number; write for instance {threshold.Number(threshold.Default)}.");
        return null;
    }

    private static ThresholdSection Section(string heading, params IReadOnlyList<string> members) => new(heading, [.. members.Select(PolicyWriter.NameOf)]);
}
