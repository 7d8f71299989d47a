using PreApproval.Documents;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Comparisons;

/// <summary>Changes of hazards in words, for the pages.</summary>
public static class ChangeWords
{
    /// <summary>For instance <c>Raised: pressure, worst-case pressure, from 5.39 bar(g) to 16.2 bar(g); now danger (was warning)</c>.</summary>
    public static string Sentence(HazardChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return $"{Words.Capital(ComparisonWriter.Of(change.Effect))}: {ReportWords.Of(change.Hazard)}, {change.Quantity}{Numbers(change)}; {Severities(change)}.";
    }

    /// <summary>What the finding is about: its materials by name; empty: none in particular.</summary>
    public static string Materials(HazardChange change, IReadOnlyDictionary<string, string> names)
    {
        ArgumentNullException.ThrowIfNull(change);
        ArgumentNullException.ThrowIfNull(names);
        return string.Join(", ", (change.FindingAfter ?? change.FindingBefore)?.Materials.Select(id => names.GetValueOrDefault(id, id)).Distinct(StringComparer.Ordinal) ?? []);
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

    private static string Severities(HazardChange change) => (change.FindingBefore?.Severity, change.FindingAfter?.Severity) switch
    {
        ({ } was, null) => $"was {ReportWords.Of(was)}",
        ({ } was, { } now) when was != now => $"now {ReportWords.Of(now)} (was {ReportWords.Of(was)})",
        ({ } was, _) => ReportWords.Of(was),
        (null, { } now) => ReportWords.Of(now),
        (null, null) => "no finding" + (change is { Vessel: { } vessel, Steps.Count: > 0 } ? $", “{vessel}” in step {string.Join(", ", change.Steps)}" : ""),
    };

    private static string Numbers(HazardChange change) => change switch
    {
        { Before.Limit: { } old, After.Limit: { } now } when Math.Abs(old - now) > 1e-5 * Math.Abs(old) => $", from {Number(change.Before)} (limit {Words.Number(Rounded(old))}) to {Number(change.After)} (limit {Words.Number(Rounded(now))})",
        { Before: { }, After: { } } => $", from {Number(change.Before)} to {Number(change.After)}",
        { Before: { } before } => $", was {Number(before)}",
        { After: { } after } => $", now {Number(after)}",
        _ => "",
    };

    private static double Rounded(double value) => value == 0 ? 0 : Math.Round(value, Math.Clamp(2 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 15), MidpointRounding.AwayFromZero);
}
