using System.Globalization;
using System.Text;
using PreApproval.Cli.Output;
using PreApproval.Documents.Reporting;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Screening;

namespace PreApproval.Cli.Screening;

/// <summary>A screening report for reading in a terminal.</summary>
internal static class ReportText
{
    private const double PaPerBar = 1e5;

    public static string Of(string title, Report report)
    {
        var text = new StringBuilder();
        text.AppendLine(title);
        text.AppendLine(CultureInfo.InvariantCulture, $"Verdict: {ReportWords.Of(report.Verdict)} ({Counts(report)})");
        if (report.ToReview.Count > 0)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"To review because of {string.Join(", ", report.Findings.Where(finding => report.ToReview.Contains(finding.Id, StringComparer.Ordinal)).Select(static finding => finding.Code).Distinct(StringComparer.Ordinal))}.");
        }

        foreach (Finding finding in report.Findings)
        {
            Append(text, finding);
        }

        foreach (FireAction action in report.FireActions)
        {
            Append(text, action);
        }

        text.AppendLine();
        var timeline = new TextTable("step", "vessel", "°C", "closed", "bar abs", "bound", "contents (mol)");
        foreach (TimelineEntry entry in report.Timeline)
        {
            timeline.Add(
                entry.Step,
                entry.Vessel,
                Rounded.Temperature(entry.TemperatureK - UnitTable.CelsiusZeroK),
                entry.Sealed ? "yes" : "no",
                Rounded.Pressure(entry.ExpectedPressurePa / PaPerBar),
                Rounded.Pressure(entry.BoundPressurePa / PaPerBar),
                string.Join(", ", entry.Contents.Select(content => $"{content.Substance} {Rounded.Significant(content.Mol, 3)}")));
        }

        return text.Append(timeline).ToString();
    }

    private static void Append(StringBuilder text, FireAction action)
    {
        text.AppendLine();
        text.AppendLine(CultureInfo.InvariantCulture, $"IF IT BURNS  {FireClass.Words(action.Burning)}  (step {string.Join(", ", action.Steps)}, vessel {action.Vessel}{(action.Sealed ? ", closed" : "")})");
        text.AppendLine(CultureInfo.InvariantCulture, $"  {action.FirstAction}");
        text.AppendLine(CultureInfo.InvariantCulture, $"  - {(action.Nearby.Count > 0 ? $"only a small fire near it: {string.Join(", ", action.Nearby)}" : $"fits: {(action.Fit.Count == 0 ? "no single agent" : string.Join(", ", action.Fit))}")}");
        foreach (string never in action.Never)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"  - not: {never}");
        }

        text.AppendLine(CultureInfo.InvariantCulture, $"  - at hand: {(action.AtHand.Count == 0 ? "not stated" : string.Join(", ", action.AtHand))}{(action.NotThere.Count == 0 ? "" : $"; listed and not there: {string.Join(", ", action.NotThere)}")}");
    }

    private static string Counts(Report report)
    {
        string[] counts = [.. Enum.GetValues<Severity>()
            .Select(severity => (severity, count: report.Findings.Count(finding => finding.Severity == severity)))
            .Where(entry => entry.count > 0)
            .Select(entry => string.Create(CultureInfo.InvariantCulture, $"{entry.count} {ReportWords.Of(entry.severity)}"))];
        return counts.Length == 0 ? "no findings" : string.Join(", ", counts);
    }

    private static void Append(StringBuilder text, Finding finding)
    {
        string where = string.Join(", ", new[]
        {
            finding.Steps.Count == 0 ? null : $"step {string.Join(", ", finding.Steps)}",
            finding.Vessel is null ? null : $"vessel {finding.Vessel}",
        }.OfType<string>());
        text.AppendLine();
        text.AppendLine(CultureInfo.InvariantCulture, $"{ReportWords.Of(finding.Severity).ToUpperInvariant()}  {finding.Code}{(where.Length == 0 ? "" : $"  ({where})")}");
        text.AppendLine(CultureInfo.InvariantCulture, $"  {finding.Statement}");
        foreach (Evidence evidence in finding.Evidence)
        {
            if (evidence.Unit is "rule")
            {
                // a rule that holds has no number to show
                text.AppendLine(CultureInfo.InvariantCulture, $"  - {evidence.Name} ({ReportWords.Of(evidence.Quality)}; {evidence.Model})");
                continue;
            }

            string limit = evidence.Limit is { } most ? $", limit {Rounded.Significant(most, 4)} {evidence.Unit}" : "";
            text.AppendLine(CultureInfo.InvariantCulture, $"  - {evidence.Name}: {Rounded.Significant(evidence.Value, 4)} {evidence.Unit}{limit} ({ReportWords.Of(evidence.Quality)}; {evidence.Model})");
        }

        foreach (Clearing clearing in finding.ClearedBy)
        {
            string to = clearing.Value is { } value ? $"{value.ToString("R", CultureInfo.InvariantCulture)} {clearing.Unit}".TrimEnd() : clearing.Text ?? "";
            text.AppendLine(CultureInfo.InvariantCulture, $"  cleared by: {clearing.Change} to {(clearing.IsYes ? "yes" : to)} at {clearing.Path}{(clearing.With is { } surface ? string.Create(CultureInfo.InvariantCulture, $", and with it the surface to {surface.Celsius:R} °C at {surface.Path}") : "")}");
        }

        foreach (NeededControl control in finding.Controls)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"  control: {control.Control}: {ReportWords.Of(control.Status)}");
        }
    }
}
