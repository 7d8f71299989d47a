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

    public static string Of(ControlStatus status) => status switch
    {
        ControlStatus.Present => "present",
        ControlStatus.Missing => "missing",
        ControlStatus.Improvised => "improvised, not a rated means",
    };

    public static string Of(RefusalKind kind) => kind switch
    {
        RefusalKind.NotFound => "Not found",
        RefusalKind.Forbidden => "You may not do this",
        RefusalKind.Conflict => "Somebody was faster",
        RefusalKind.Stale => "This has changed meanwhile",
        RefusalKind.TooLarge => "This is too large",
        RefusalKind.Malformed => "This could not be read",
        RefusalKind.Invalid => "This cannot be accepted yet",
        RefusalKind.SignInAgain => "Sign in again",
    };

    /// <summary>Who has a revision that waits for no reviewer.</summary>
    public static string HolderOf(ProcedureState state) => state switch
    {
        ProcedureState.Draft => "The author is writing it.",
        ProcedureState.Cleared => "Nobody: no finding needed a reviewer.",
        ProcedureState.InReview => "It waits for a reviewer.",
        ProcedureState.Approved => "Nobody: it is approved.",
        ProcedureState.ChangesRequested => "The author, to change it.",
        ProcedureState.Declined => "Nobody: it was declined.",
        ProcedureState.Withdrawn => "Nobody: the author took it back.",
        ProcedureState.Expired => "Nobody: the approval has expired.",
        ProcedureState.Superseded => "Nobody: a later revision has taken its place.",
        ProcedureState.Suspended => "Nobody may run it: the approval is suspended.",
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

    /// <summary>A number to three significant figures.</summary>
    public static string Figures(double value) => Number(ThreeFigures(value));

    /// <summary>Rounded to three significant figures.</summary>
    public static double ThreeFigures(double value) =>
        value == 0 ? 0 : Math.Round(value, Math.Clamp(2 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 12), MidpointRounding.AwayFromZero);

    public static string Count(int count, string one, string many) => count == 1 ? $"1 {one}" : $"{count.ToString(CultureInfo.InvariantCulture)} {many}";

    /// <summary>A word with its first letter in upper case.</summary>
    public static string Capital(string text) => string.IsNullOrEmpty(text) ? "" : char.ToUpperInvariant(text[0]) + text[1..];
}
