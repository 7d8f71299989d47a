using System.Globalization;
using System.Reflection;

namespace PreApproval.Hazards.Screening;

/// <summary>Which way a threshold makes the screening stricter.</summary>
public enum Stricter
{
    /// <summary>A higher value finds more.</summary>
    Higher,

    /// <summary>A lower value finds more.</summary>
    Lower,
}

/// <summary>A value of a policy beside its default.</summary>
public enum AgainstDefault
{
    Same,
    Stricter,
    Looser,
}

/// <summary>What is known of one threshold of the <see cref="Policy"/>.</summary>
/// <param name="Member">Name of the member.</param>
/// <param name="Name">What it is, in words.</param>
/// <param name="Default">Default value.</param>
/// <param name="Unit">Unit of the member; <c>fraction</c> for shares.</param>
/// <param name="Lowest">Lowest value a group may set.</param>
/// <param name="Highest">Highest value a group may set.</param>
/// <param name="Stricter">Which way it finds more.</param>
/// <param name="Source">Published source, or that it is common practice.</param>
public sealed record PolicyThreshold(string Member, string Name, double Default, string Unit, double Lowest, double Highest, Stricter Stricter, string Source)
{
    private const string Practice = "common practice, no source";
    private const string Makers = "vessel makers' guidance, common practice";

    /// <summary>Every number of the policy, in its order. <see cref="Policy.ReviewFrom"/> is a severity and stands apart.</summary>
    public static IReadOnlyList<PolicyThreshold> All { get; } =
    [
        Of(nameof(Policy.OvershootK), "overshoot of a heat source", "K", 0, 100, Stricter.Higher, Practice),
        Of(nameof(Policy.OvershootWithCutOutK), "overshoot with an independent cut-out", "K", 0, 50, Stricter.Higher, Practice),
        Of(nameof(Policy.WarningShareGlass), "share of the rating: warning, glass and plastic", "fraction", 0.1, 0.9, Stricter.Lower, Practice),
        Of(nameof(Policy.WarningShareMetal), "share of the rating: warning, metal", "fraction", 0.1, 0.9, Stricter.Lower, Practice),
        Of(nameof(Policy.DangerShare), "share of the rating: danger", "fraction", 0.1, 1, Stricter.Lower, Practice),
        Of(nameof(Policy.UnratedNothingPa), "unrated closed vessel: nothing up to (gauge)", "Pa", 0, 0.3e5, Stricter.Lower, "common practice (ground joints lift at 0.1 to 0.3 bar)"),
        Of(nameof(Policy.UnratedCautionPa), "unrated, unheated closed vessel: caution up to (gauge)", "Pa", 0, 0.5e5, Stricter.Lower, "scope of Directive 2014/68/EU"),
        Of(nameof(Policy.HotSurfaceShare), "share of the autoignition temperature in °C", "fraction", 0.5, 0.9, Stricter.Lower, "TRGS 723, 5.2.3"),
        Of(nameof(Policy.FlashMarginK), "margin to the flash point, pure liquid", "K", 0, 50, Stricter.Higher, "BG RCI on TRGS 721"),
        Of(nameof(Policy.FlashMarginMixtureK), "margin to the flash point, mixture", "K", 0, 50, Stricter.Higher, "BG RCI on TRGS 721"),
        Of(nameof(Policy.FillGlass), "fill of a heated closed vessel, glass and plastic", "fraction", 0.1, 0.75, Stricter.Lower, Makers),
        Of(nameof(Policy.FillMetal), "fill of a heated closed vessel, metal", "fraction", 0.1, 0.75, Stricter.Lower, Makers),
        Of(nameof(Policy.FillCeiling), "fill: warning above", "fraction", 0.1, 0.9, Stricter.Lower, Makers),
        Of(nameof(Policy.FillLow), "fill: noted below", "fraction", 0, 0.3, Stricter.Higher, Practice),
        Of(nameof(Policy.FillWaterMargin), "kept from the cold fill of water", "fraction", 0, 0.3, Stricter.Higher, Practice),
        Of(nameof(Policy.InspectionMonths), "inspection runs out after", "months", 1, 120, Stricter.Lower, Practice),
        Of(nameof(Policy.ShieldFromJ), "stored energy: blast shield from", "J", 0, 500, Stricter.Lower, Practice),
        Of(nameof(Policy.CellFromJ), "stored energy: fixed shield or cell from", "J", 0, 5000, Stricter.Lower, Practice),
        Of(nameof(Policy.EngineeredFromJ), "stored energy: engineered cell above", "J", 0, 50_000, Stricter.Lower, Practice),
        Of(nameof(Policy.GassedOutS), "at once gassing partners stand open before closing", "s", 60, 86_400, Stricter.Higher, Practice),
    ];

    /// <summary>The unit that people read and type: bar for Pa, min for s, % for a fraction; otherwise the unit of the member.</summary>
    public string ShownUnit => Unit switch
    {
        "Pa" => "bar",
        "s" => "min",
        "fraction" => "%",
        var same => same,
    };

    /// <summary>What one of the shown unit is in the unit of the member.</summary>
    public double PerShownUnit => Unit switch
    {
        "Pa" => 1e5,
        "s" => 60,
        "fraction" => 0.01,
        _ => 1,
    };

    private PropertyInfo Property => typeof(Policy).GetProperty(Member)!;

    /// <summary>The value in a policy, in <see cref="Unit"/>.</summary>
    public double In(Policy policy)
    {
        ArgumentNullException.ThrowIfNull(policy);
        return (double)Property.GetValue(policy)!;
    }

    /// <summary>The policy with another value, in <see cref="Unit"/>.</summary>
    public Policy Set(Policy policy, double value)
    {
        ArgumentNullException.ThrowIfNull(policy);
        var changed = policy with { };
        Property.SetValue(changed, value);
        return changed;
    }

    /// <summary>A value beside the default.</summary>
    public AgainstDefault Against(double value) =>
        value == Default ? AgainstDefault.Same : value > Default == (Stricter == Stricter.Higher) ? AgainstDefault.Stricter : AgainstDefault.Looser;

    /// <summary>The number in the shown unit, six significant figures.</summary>
    public string Number(double value) => (value / PerShownUnit).ToString("G6", CultureInfo.InvariantCulture);

    /// <summary>A value with the shown unit.</summary>
    public string Words(double value) => $"{Number(value)} {ShownUnit}";

    /// <summary>The allowed range with the shown unit.</summary>
    public string Range => $"{Number(Lowest)} to {Words(Highest)}";

    private static PolicyThreshold Of(string member, string name, string unit, double lowest, double highest, Stricter stricter, string source) =>
        new(member, name, (double)typeof(Policy).GetProperty(member)!.GetValue(Policy.Default)!, unit, lowest, highest, stricter, source);
}
