using PreApproval.Cli.Inputs;
using PreApproval.Cli.Output;
using PreApproval.Documents;
using PreApproval.Documents.Comparing;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Screening;

namespace PreApproval.Cli.Comparing;

/// <summary><c>compare</c>: two procedure documents to the changes between their hazards, under the default policy.</summary>
internal static class CompareCommand
{
    public static Answer Answer(Input before, Input after)
    {
        Result<ProcedureDocument, Problem> old = Read(before, "/before");
        Result<ProcedureDocument, Problem> now = Read(after, "/after");
        if (!old.IsOk || !now.IsOk)
        {
            Problem[] problems = [.. new[] { old, now }.Where(result => !result.IsOk).Select(result => result.Error!)];
            return new Problem("Unusable procedure document", string.Join(' ', problems.Select(problem => problem.Detail)), [.. problems.SelectMany(problem => problem.Faults)]);
        }

        IReadOnlyList<HazardChange> changes = DocumentComparison.Compare(old.Value, now.Value, Policy.Default);
        IReadOnlyList<PlanChange> plan = PlanComparison.Between(old.Value, now.Value);
        string text = $"{old.Value.Title} → {now.Value.Title}{Environment.NewLine}{Text(changes)}{Environment.NewLine}{Text(plan)}";
        return Output.Answer.Of(ComparisonWriter.ToJson(changes, plan), text, changes.Any(change => change.IsWorse));
    }

    private static Result<ProcedureDocument, Problem> Read(Input input, string place)
    {
        if (input.Problem is { } problem)
        {
            return problem with { Faults = [new Fault(place, problem.Detail)] };
        }

        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(input.Bytes);
        return read.IsOk
            ? read.Value
            : new Problem("Unusable procedure document", $"{input.Name} cannot be used.", [.. read.Error.Faults.Select(fault => fault with { Path = place + fault.Path })]);
    }

    private static string Text(IReadOnlyList<HazardChange> changes)
    {
        if (changes.Count == 0)
        {
            return "No hazard is introduced, removed, raised or lowered." + Environment.NewLine;
        }

        var table = new TextTable("effect", "hazard", "quantity", "before", "after", "unit", "severity", "where");
        foreach (HazardChange change in changes)
        {
            var numbers = ChangedNumbers.Of(change, static (number, digits) => Rounded.Significant(number, digits), digits: 4);
            table.Add(
                ComparisonWriter.Of(change.Effect),
                ReportWords.Of(change.Hazard),
                ComparisonWriter.QuantityOf(change),
                Number(numbers.Before, numbers.LimitBefore),
                numbers is { IsStill: true, LimitAfter: null } ? "the same" : Number(numbers.After, numbers.LimitAfter),
                (change.After ?? change.Before)?.Unit ?? "",
                $"{Severity(change.FindingBefore)} → {Severity(change.FindingAfter)}",
                $"{change.Vessel ?? "-"} {string.Join(", ", change.Steps)}".TrimEnd());
        }

        return table.ToString();
    }

    private static string Text(IReadOnlyList<PlanChange> plan)
    {
        if (plan.Count == 0)
        {
            return "The plan is the same.";
        }

        var table = new TextTable("plan", "where", "before", "after");
        foreach (PlanChange change in plan)
        {
            table.Add(PlanChange.WordOf(change.Effect), change.Where, OneLine(change.Before), OneLine(change.After));
        }

        return table.ToString();
    }

    /// <summary>A long text may have line breaks, which would break the table.</summary>
    private static string OneLine(string? text) => text is null ? "-" : string.Join(' ', text.Split(['\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries));

    private static string Number(string? number, string? limit) => number is null ? "-" : limit is null ? number : $"{number} (limit {limit})";

    private static string Severity(Finding? finding) => finding is null ? "none" : ReportWords.Of(finding.Severity);
}
