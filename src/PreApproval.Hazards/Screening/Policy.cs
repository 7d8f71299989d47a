namespace PreApproval.Hazards.Screening;

/// <summary>
/// The group's thresholds. Shares are fractions, temperatures differences in K. Defaults are common practice unless a
/// source is named beside them in <c>docs/</c>.
/// </summary>
public sealed record Policy
{
    public static Policy Default { get; } = new();

    /// <summary>Overshoot of a block or bath without independent cut-out, in K. Common practice, no source.</summary>
    public double OvershootK { get; init; } = 15;

    /// <summary>Overshoot with an independent cut-out, in K. Common practice, no source.</summary>
    public double OvershootWithCutOutK { get; init; } = 5;

    /// <summary>Share of the rating above which a glass vessel is a warning. Common practice, no source.</summary>
    public double WarningShareGlass { get; init; } = 0.5;

    /// <summary>Share of the rating above which a metal vessel is a warning. Common practice, no source.</summary>
    public double WarningShareMetal { get; init; } = 0.75;

    /// <summary>Share of the rating above which any vessel is a danger. Common practice, no source.</summary>
    public double DangerShare { get; init; } = 0.9;

    /// <summary>Gauge pressure up to which an unrated closed vessel is no finding, in Pa. Common practice, no source.</summary>
    public double UnratedNothingPa { get; init; } = 0.1e5;

    /// <summary>Gauge pressure up to which an unrated, unheated closed vessel is a caution, in Pa (0.5 bar: scope of Directive 2014/68/EU).</summary>
    public double UnratedCautionPa { get; init; } = 0.5e5;

    /// <summary>Share of the autoignition temperature in °C that a surface may reach (TRGS 723, 5.2.3).</summary>
    public double HotSurfaceShare { get; init; } = 0.8;

    /// <summary>Distance below its flash point at which a pure liquid counts as safe, in K (BG RCI on TRGS 721).</summary>
    public double FlashMarginK { get; init; } = 5;

    /// <summary>The same for a mixture, in K (BG RCI on TRGS 721).</summary>
    public double FlashMarginMixtureK { get; init; } = 15;

    /// <summary>Fill of a heated, closed glass or plastic vessel, as a fraction. Vessel makers' guidance, common practice.</summary>
    public double FillGlass { get; init; } = 0.5;

    /// <summary>Fill of a heated, closed metal vessel, as a fraction. Vessel makers' guidance, common practice.</summary>
    public double FillMetal { get; init; } = 2.0 / 3;

    /// <summary>Fill that no heated, closed vessel may pass, as a fraction. Vessel makers' guidance, common practice.</summary>
    public double FillCeiling { get; init; } = 0.75;

    /// <summary>Fill below which a heated, closed vessel is noted: a dry hot wall, a solvent all vapour. Common practice, no source.</summary>
    public double FillLow { get; init; } = 0.05;

    /// <summary>Distance in points of fill kept from the fill at which water would fill the vessel, as a fraction. Common practice, no source.</summary>
    public double FillWaterMargin { get; init; } = 0.1;

    /// <summary>Age of an inspection in months from which it counts as expired. Common practice (yearly), no source.</summary>
    public double InspectionMonths { get; init; } = 12;

    /// <summary>Stored energy in J from which a vessel needs a blast shield. Common practice, no source.</summary>
    public double ShieldFromJ { get; init; } = 50;

    /// <summary>Stored energy in J from which it needs a fixed shield or cell. Common practice, no source.</summary>
    public double CellFromJ { get; init; } = 500;

    /// <summary>Stored energy in J above which it needs an engineered cell. Common practice, no source.</summary>
    public double EngineeredFromJ { get; init; } = 5000;

    /// <summary>Stated time in the open after which partners that react at once count as gassed out, in s. Common practice, no source.</summary>
    public double GassedOutS { get; init; } = 600;

    /// <summary>Severities that go to review, by the signal word.</summary>
    public Severity ReviewFrom { get; init; } = Severity.Warning;
}
