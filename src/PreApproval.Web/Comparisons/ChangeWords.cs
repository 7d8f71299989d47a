using System.Globalization;
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
        return $"{Words.Capital(ComparisonWriter.Of(change.Effect))}: {ReportWords.Of(change.Hazard)}, {ComparisonWriter.QuantityOf(change)}{Sentence(Numbers(change), UnitOf(change))}; {Severities(change)}.";
    }

    /// <summary>What the finding is about: its materials by name; empty: none in particular.</summary>
    public static string Materials(HazardChange change, IReadOnlyDictionary<string, string> names)
    {
        ArgumentNullException.ThrowIfNull(change);
        ArgumentNullException.ThrowIfNull(names);
        return string.Join(", ", (change.FindingAfter ?? change.FindingBefore)?.Materials.Select(id => names.GetValueOrDefault(id, id)).Distinct(StringComparer.Ordinal) ?? []);
    }

    public static string Before(HazardChange change) => Cell(Numbers(change).Before, Numbers(change).LimitBefore, UnitOf(change));

    /// <summary>Says so where the number is the same and its severity is what changed.</summary>
    public static string After(HazardChange change) => Numbers(change) is { IsStill: true, LimitAfter: null } ? "the same" : Cell(Numbers(change).After, Numbers(change).LimitAfter, UnitOf(change));

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

    private static string Sentence(ChangedNumbers numbers, string unit) => numbers switch
    {
        { IsStill: true, LimitAfter: null } => $", still {numbers.After} {unit}",
        { Before: { } before, After: { } after } => $", from {Cell(before, numbers.LimitBefore, unit)} to {Cell(after, numbers.LimitAfter, unit)}",
        { Before: { } before } => $", was {before} {unit}",
        { After: { } after } => $", now {after} {unit}",
        _ => "",
    };

    private static ChangedNumbers Numbers(HazardChange change) => ChangedNumbers.Of(change, Figures, digits: 3);

    private static string Cell(string? number, string? limit, string unit) => number is null ? "–" : limit is null ? $"{number} {unit}" : $"{number} {unit} (limit {limit})";

    private static string UnitOf(HazardChange change) => (change.After ?? change.Before)?.Unit ?? "";

    /// <summary>Plain to four digits, as the other numbers of the pages; more only where fewer would hide a difference.</summary>
    private static string Figures(double value, int digits)
    {
        double rounded = value == 0 ? 0 : Math.Round(value, Math.Clamp(digits - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 15), MidpointRounding.AwayFromZero);
        return digits <= 4 ? Words.Number(rounded) : rounded.ToString("0.##########", CultureInfo.InvariantCulture).Replace("-", "−", StringComparison.Ordinal);
    }
}
