namespace PreApproval.Hazards.Screening;

/// <summary>What is known of one threshold of the <see cref="Policy"/>.</summary>
/// <param name="Member">Name of the member.</param>
/// <param name="Default">Default value.</param>
/// <param name="Unit">Unit of the member; <c>fraction</c> for shares.</param>
/// <param name="Lowest">Lowest value a group may set.</param>
/// <param name="Highest">Highest value a group may set.</param>
/// <param name="Source">Published source, or that it is common practice.</param>
public sealed record PolicyThreshold(string Member, double Default, string Unit, double Lowest, double Highest, string Source)
{
    private const string Practice = "common practice, no source";
    private const string Makers = "vessel makers' guidance, common practice";

    /// <summary>Every number of the policy, in its order. <see cref="Policy.ReviewFrom"/> is a severity and stands apart.</summary>
    public static IReadOnlyList<PolicyThreshold> All { get; } =
    [
        Of(nameof(Policy.OvershootK), Policy.Default.OvershootK, "K", 0, 100, Practice),
        Of(nameof(Policy.OvershootWithCutOutK), Policy.Default.OvershootWithCutOutK, "K", 0, 50, Practice),
        Of(nameof(Policy.WarningShareGlass), Policy.Default.WarningShareGlass, "fraction", 0.1, 0.9, Practice),
        Of(nameof(Policy.WarningShareMetal), Policy.Default.WarningShareMetal, "fraction", 0.1, 0.9, Practice),
        Of(nameof(Policy.DangerShare), Policy.Default.DangerShare, "fraction", 0.1, 1, Practice),
        Of(nameof(Policy.UnratedNothingPa), Policy.Default.UnratedNothingPa, "Pa", 0, 0.3e5, "common practice (ground joints lift at 0.1 to 0.3 bar)"),
        Of(nameof(Policy.UnratedCautionPa), Policy.Default.UnratedCautionPa, "Pa", 0, 0.5e5, "scope of Directive 2014/68/EU"),
        Of(nameof(Policy.HotSurfaceShare), Policy.Default.HotSurfaceShare, "fraction", 0.5, 0.9, "TRGS 723, 5.2.3"),
        Of(nameof(Policy.FlashMarginK), Policy.Default.FlashMarginK, "K", 0, 50, "BG RCI on TRGS 721"),
        Of(nameof(Policy.FlashMarginMixtureK), Policy.Default.FlashMarginMixtureK, "K", 0, 50, "BG RCI on TRGS 721"),
        Of(nameof(Policy.FillGlass), Policy.Default.FillGlass, "fraction", 0.1, 0.75, Makers),
        Of(nameof(Policy.FillMetal), Policy.Default.FillMetal, "fraction", 0.1, 0.75, Makers),
        Of(nameof(Policy.FillCeiling), Policy.Default.FillCeiling, "fraction", 0.1, 0.9, Makers),
        Of(nameof(Policy.FillLow), Policy.Default.FillLow, "fraction", 0, 0.3, Practice),
        Of(nameof(Policy.FillWaterMargin), Policy.Default.FillWaterMargin, "fraction", 0, 0.3, Practice),
        Of(nameof(Policy.InspectionMonths), Policy.Default.InspectionMonths, "months", 1, 120, Practice),
        Of(nameof(Policy.ShieldFromJ), Policy.Default.ShieldFromJ, "J", 0, 500, Practice),
        Of(nameof(Policy.CellFromJ), Policy.Default.CellFromJ, "J", 0, 5000, Practice),
        Of(nameof(Policy.EngineeredFromJ), Policy.Default.EngineeredFromJ, "J", 0, 50_000, Practice),
        Of(nameof(Policy.GassedOutS), Policy.Default.GassedOutS, "s", 60, 86_400, Practice),
    ];

    /// <summary>Members of a policy outside their range, in words; empty when it may be used.</summary>
    public static IReadOnlyList<string> Refusals(Policy policy)
    {
        ArgumentNullException.ThrowIfNull(policy);
        return
        [
            .. All.Select(threshold => (Threshold: threshold, Value: (double)typeof(Policy).GetProperty(threshold.Member)!.GetValue(policy)!))
                .Where(static pair => !(pair.Value >= pair.Threshold.Lowest && pair.Value <= pair.Threshold.Highest))
                .Select(static pair => FormattableString.Invariant($"{pair.Threshold.Member} is {pair.Value} {pair.Threshold.Unit}; {pair.Threshold.Lowest} to {pair.Threshold.Highest} is allowed.")),
        ];
    }

    private static PolicyThreshold Of(string member, double value, string unit, double lowest, double highest, string source) => new(member, value, unit, lowest, highest, source);
}
