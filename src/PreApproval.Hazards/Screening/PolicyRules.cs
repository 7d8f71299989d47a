namespace PreApproval.Hazards.Screening;

/// <summary>A value that a policy may not have.</summary>
/// <param name="Member">Name of the member.</param>
/// <param name="Message">What is wrong, as a sentence that names the threshold.</param>
public sealed record PolicyFault(string Member, string Message);

/// <summary>What a policy may be: every number in its range, and none that another one makes meaningless.</summary>
public static class PolicyRules
{
    /// <summary>The first may not be above the second: it would be a setting that changes nothing.</summary>
    private static readonly (string Lower, string Upper)[] Orders =
    [
        (nameof(Policy.OvershootWithCutOutK), nameof(Policy.OvershootK)),
        (nameof(Policy.WarningShareGlass), nameof(Policy.DangerShare)),
        (nameof(Policy.WarningShareMetal), nameof(Policy.DangerShare)),
        (nameof(Policy.UnratedNothingPa), nameof(Policy.UnratedCautionPa)),
        (nameof(Policy.FlashMarginK), nameof(Policy.FlashMarginMixtureK)),
        (nameof(Policy.FillGlass), nameof(Policy.FillCeiling)),
        (nameof(Policy.FillMetal), nameof(Policy.FillCeiling)),
        (nameof(Policy.FillLow), nameof(Policy.FillGlass)),
        (nameof(Policy.FillLow), nameof(Policy.FillMetal)),
        (nameof(Policy.ShieldFromJ), nameof(Policy.CellFromJ)),
        (nameof(Policy.CellFromJ), nameof(Policy.EngineeredFromJ)),
    ];

    private static readonly Dictionary<string, PolicyThreshold> ByMember = PolicyThreshold.All.ToDictionary(static threshold => threshold.Member, StringComparer.Ordinal);

    /// <summary>Empty when the policy may be used.</summary>
    /// <param name="policy">What is judged.</param>
    /// <param name="unread">Members that could not be read and stand at some other value: nothing is said of them, nor of another against them.</param>
    public static IReadOnlyList<PolicyFault> Faults(Policy policy, params IReadOnlyList<string> unread)
    {
        ArgumentNullException.ThrowIfNull(policy);
        PolicyFault[] outside = [.. PolicyThreshold.All.Where(threshold => !unread.Contains(threshold.Member, StringComparer.Ordinal)).Select(threshold => OutOfRange(threshold, threshold.In(policy))).OfType<PolicyFault>()];
        // of two faults about one member the range explains the other
        string[] set = [.. outside.Select(static fault => fault.Member), .. unread];
        return
        [
            .. outside,
            .. Orders.Where(order => !set.Contains(order.Lower, StringComparer.Ordinal) && !set.Contains(order.Upper, StringComparer.Ordinal))
                .Select(order => OutOfOrder(ByMember[order.Lower], ByMember[order.Upper], policy)).OfType<PolicyFault>().DistinctBy(static fault => fault.Member, StringComparer.Ordinal),
            .. Enum.IsDefined(policy.ReviewFrom) ? Array.Empty<PolicyFault>() : [new PolicyFault(nameof(Policy.ReviewFrom), "Findings that go to review: a severity is needed.")],
        ];
    }

    private static PolicyFault? OutOfRange(PolicyThreshold threshold, double value) =>
        !(value >= threshold.Lowest && value <= threshold.Highest)
            ? new PolicyFault(threshold.Member, $"{Wording.Capital(threshold.Name)}: {threshold.Words(value)} is outside the allowed {threshold.Range}.")
        : threshold.Unit is "months" && value != Math.Floor(value)
            ? new PolicyFault(threshold.Member, $"{Wording.Capital(threshold.Name)}: {threshold.Words(value)} is no whole number of months.")
        : null;

    private static PolicyFault? OutOfOrder(PolicyThreshold lower, PolicyThreshold upper, Policy policy) =>
        lower.In(policy) > upper.In(policy)
            ? new PolicyFault(lower.Member, $"{Wording.Capital(lower.Name)}: {lower.Words(lower.In(policy))} may not be above {upper.Words(upper.In(policy))}, which is set for “{upper.Name}”.")
            : null;
}
