using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Documents.Reporting;

/// <summary>The words of the report for the engine's enumerations.</summary>
public static class ReportWords
{
    public static string Of(Hazard hazard) => hazard switch
    {
        Hazard.Pressure => "pressure",
        Hazard.Incompatibility => "incompatibility",
        Hazard.Fire => "fire",
        Hazard.Energetic => "energetic",
        Hazard.Gas => "gas",
        Hazard.Heat => "heat",
        Hazard.Toxicity => "toxicity",
        Hazard.Peroxide => "peroxide",
        Hazard.Temperature => "temperature",
        Hazard.Safeguard => "safeguard",
        Hazard.Data => "data",
    };

    public static string Of(Severity severity) => severity switch
    {
        Severity.Danger => "danger",
        Severity.Warning => "warning",
        Severity.Caution => "caution",
        Severity.Notice => "notice",
    };

    public static string Of(Assessment assessment) => assessment switch
    {
        Assessment.Hazard => "hazard",
        Assessment.NoneKnown => "none known",
        Assessment.NotAssessed => "not assessed",
    };

    public static string Of(StripPlace place) => place switch
    {
        StripPlace.Vessel => "vessel",
        StripPlace.Waste => "waste",
        StripPlace.Agent => "agent",
    };

    public static string Of(Verdict verdict) => verdict switch
    {
        Verdict.Clear => "clear",
        Verdict.Review => "review",
    };

    public static string Of(ControlStatus status) => status switch
    {
        ControlStatus.Present => "present",
        ControlStatus.Missing => "missing",
        ControlStatus.Improvised => "improvised",
    };

    public static string Of(CoverageStatus status) => status switch
    {
        CoverageStatus.Measured => "measured",
        CoverageStatus.Correlated => "correlated",
        CoverageStatus.Estimated => "estimated",
        CoverageStatus.Assumed => "assumed",
        CoverageStatus.Missing => "missing",
    };

    public static string Of(Quality quality) => quality switch
    {
        Quality.Measured => "measured",
        Quality.Correlated => "correlated",
        Quality.Estimated => "estimated",
        Quality.Assumed => "assumed",
    };
}
