using System.Globalization;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;

namespace PreApproval.Web.Shared.Components;

/// <summary>The words that people read for the values of the program.</summary>
public static class Words
{
    public static string Of(ProcedureState state) => state switch
    {
        ProcedureState.Draft => "Draft",
        ProcedureState.Cleared => "Cleared",
        ProcedureState.InReview => "In review",
        ProcedureState.Approved => "Approved",
        ProcedureState.ChangesRequested => "Changes requested",
        ProcedureState.Declined => "Declined",
        ProcedureState.Withdrawn => "Withdrawn",
        ProcedureState.Expired => "Expired",
        ProcedureState.Superseded => "Superseded",
        ProcedureState.Suspended => "Suspended",
    };

    /// <summary>The word of a state in addresses, as in the API.</summary>
    public static string Slug(ProcedureState state) => Of(state).ToLowerInvariant().Replace(' ', '-');

    public static string Class(ProcedureState state) => state switch
    {
        ProcedureState.Cleared or ProcedureState.Approved => "ok",
        ProcedureState.InReview or ProcedureState.ChangesRequested => "wait",
        ProcedureState.Declined or ProcedureState.Suspended => "stop",
        ProcedureState.Draft or ProcedureState.Withdrawn or ProcedureState.Expired or ProcedureState.Superseded => "",
    };

    public static string Of(GroupRole role) => role switch
    {
        GroupRole.Member => "member",
        GroupRole.Reviewer => "reviewer",
        GroupRole.Lead => "group lead",
        GroupRole.Administrator => "administrator",
        GroupRole.Auditor => "auditor",
    };

    public static string Of(Severity severity) => severity switch
    {
        Severity.Danger => "Danger",
        Severity.Warning => "Warning",
        Severity.Caution => "Caution",
        Severity.Notice => "Notice",
    };

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
        Hazard.Data => "missing data",
    };

    public static string Of(DecisionKind decision) => decision switch
    {
        DecisionKind.Approve => "Approved",
        DecisionKind.RequestChanges => "Requested changes",
        DecisionKind.Decline => "Declined",
    };

    public static string Of(AnswerKind answer) => answer switch
    {
        AnswerKind.Accept => "Accepted, because",
        AnswerKind.Condition => "Condition",
        AnswerKind.SendBack => "Sent back",
    };

    /// <summary>A number for people: four significant digits, no exponent in the usual range.</summary>
    public static string Number(double value)
    {
        if (value == 0)
        {
            return "0";
        }

        double size = Math.Abs(value);
        if (size is >= 1e6 or < 1e-4)
        {
            return value.ToString("0.###e+0", CultureInfo.InvariantCulture).Replace("-", "−", StringComparison.Ordinal);
        }

        int decimals = Math.Clamp(3 - (int)Math.Floor(Math.Log10(size)), 0, 7);
        string text = Math.Round(value, decimals).ToString("0.#######", CultureInfo.InvariantCulture);
        return text.Replace("-", "−", StringComparison.Ordinal);
    }

    public static string Count(int count, string one, string many) => count == 1 ? $"1 {one}" : $"{count.ToString(CultureInfo.InvariantCulture)} {many}";

    /// <summary>A word with its first letter in upper case.</summary>
    public static string Capital(string text) => string.IsNullOrEmpty(text) ? "" : char.ToUpperInvariant(text[0]) + text[1..];
}
