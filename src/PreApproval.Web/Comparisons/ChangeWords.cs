using PreApproval.Documents;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Comparisons;

/// <summary>Changes of hazards in words, for the pages.</summary>
public static class ChangeWords
{
    /// <summary>For instance <c>Raised: worst-case pressure, 5.39 → 16.2 bar(g)</c>.</summary>
    public static string Sentence(HazardChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return $"{Words.Capital(ComparisonWriter.Of(change.Effect))}: {ReportWords.Of(change.Hazard)}, {change.Quantity}{Numbers(change)}.";
    }

    public static string Number(Evidence? evidence) => evidence is { Value: var value } && double.IsFinite(value) ? $"{Words.Number(Rounded(value))} {evidence.Unit}" : "–";

    public static string Severity(Finding? finding) => finding is null ? "none" : ReportWords.Of(finding.Severity);

    /// <summary>The revision to compare with: the last approved or cleared one before it, else the one before; null: it is the first.</summary>
    public static int? EarlierThan(ProcedureView procedure, int number)
    {
        ArgumentNullException.ThrowIfNull(procedure);
        (int Number, ProcedureState State, DateTimeOffset SubmittedAt)[] earlier = [.. procedure.Revisions.Where(r => r.Number < number).OrderByDescending(r => r.Number)];
        return earlier.Length == 0 ? null
            : Array.Find(earlier, static r => r.State is ProcedureState.Approved or ProcedureState.Cleared or ProcedureState.Superseded) is { Number: > 0 } approved ? approved.Number
            : earlier[0].Number;
    }

    private static string Numbers(HazardChange change) => change switch
    {
        { Before: { }, After: { } } => $", from {Number(change.Before)} to {Number(change.After)}",
        { Before: { } before } => $", was {Number(before)}",
        { After: { } after } => $", now {Number(after)}",
        _ => "",
    };

    private static double Rounded(double value) => value == 0 ? 0 : Math.Round(value, Math.Clamp(2 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 15), MidpointRounding.AwayFromZero);
}
