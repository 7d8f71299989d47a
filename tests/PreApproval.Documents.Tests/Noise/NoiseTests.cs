using System.Globalization;
using System.Text;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Tests.Noise;

/// <summary>
/// The noise budget: everyday procedures without a danger and at most 15 % of them in review; every deadly variant flagged for the right
/// reason at the right step. Both were written before any of them was screened. PREAPPROVAL_WRITE_NOISE=1 writes docs/noise.md anew and fails.
/// </summary>
public sealed class NoiseTests(ITestOutputHelper output)
{
    /// <summary>Share of everyday procedures that may go to review.</summary>
    private const double MostInReview = 0.15;

    private const int Fewest = 60;

    private static readonly string Page = Path.Combine(Folders.Docs, "noise.md");

    public static TheoryData<string> Everyday => [.. Names("everyday")];

    public static TheoryData<string> Deadly => [.. ExpectedFinding.All.Select(static row => row.File)];

    [Theory]
    [MemberData(nameof(Everyday))]
    public void Screen_EverydayProcedure_ShowsNoDanger(string file)
    {
        Report report = Screened("everyday", file);

        Assert.DoesNotContain(report.Findings, static finding => finding.Severity == Severity.Danger);
    }

    [Fact]
    public void Screen_EverydayProcedures_GoToReviewSeldom()
    {
        string[] names = Names("everyday");
        string[] reviewed = [.. names.Where(static name => Screened("everyday", name).Verdict == Verdict.Review)];
        output.WriteLine($"{reviewed.Length} of {names.Length} everyday procedures go to review: {string.Join(", ", reviewed)}");

        Assert.True(names.Length >= Fewest);
        Assert.InRange(reviewed.Length, 0, (int)(MostInReview * names.Length));
    }

    [Theory]
    [MemberData(nameof(Deadly))]
    public void Screen_DeadlyVariant_ShowsTheReasonAtTheStep(string file)
    {
        ExpectedFinding expected = ExpectedFinding.All.Single(row => string.Equals(row.File, file, StringComparison.Ordinal));
        Report report = Screened("deadly", file);

        Assert.Equal(Verdict.Review, report.Verdict);
        Assert.True(report.Findings.Any(expected.IsMetBy), $"{expected.Reason}\nFound:\n{string.Join('\n', report.Findings.Where(static finding => finding.Severity < Severity.Notice).Select(static finding => $"{finding.Severity} {finding.Code} {string.Join(',', finding.Steps)} {string.Join(',', finding.Materials)}: {finding.Statement}"))}");
    }

    /// <summary>The finding is news of the variant: the everyday procedure it comes from does not show it.</summary>
    [Theory]
    [MemberData(nameof(Deadly))]
    public void Screen_ProcedureBeforeTheChange_DoesNotShowIt(string file)
    {
        ExpectedFinding expected = ExpectedFinding.All.Single(row => string.Equals(row.File, file, StringComparison.Ordinal));

        Assert.DoesNotContain(Screened("everyday", expected.After).Findings, expected.IsMetBy);
    }

    [Fact]
    public void Table_OfExpectedFindings_HasEveryFileWithReasonAndSource()
    {
        Assert.True(ExpectedFinding.All.Count >= Fewest);
        Assert.Equal(Names("deadly"), ExpectedFinding.All.Select(static row => row.File).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.All(ExpectedFinding.All, static row =>
        {
            Assert.False(string.IsNullOrWhiteSpace(row.Reason));
            Assert.False(string.IsNullOrWhiteSpace(row.Source));
        });
    }

    [Fact]
    public async Task Page_InDocs_IsCurrent()
    {
        string page = Write();
        output.WriteLine(page);
        if (string.Equals(Environment.GetEnvironmentVariable("PREAPPROVAL_WRITE_NOISE"), "1", StringComparison.Ordinal))
        {
            await File.WriteAllTextAsync(Page, page, TestContext.Current.CancellationToken);
            Assert.Fail("docs/noise.md was written anew: read the difference, and run again without PREAPPROVAL_WRITE_NOISE.");
        }

        Assert.Equal(page, await File.ReadAllTextAsync(Page, TestContext.Current.CancellationToken));
    }

    private static string Write()
    {
        (string Name, Report Report)[] everyday = [.. Names("everyday").Select(static name => (name, Screened("everyday", name)))];
        var reviewed = everyday.Where(static one => one.Report.Verdict == Verdict.Review).ToArray();
        int found = ExpectedFinding.All.Count(static row => Screened("deadly", row.File) is { Verdict: Verdict.Review } report && report.Findings.Any(row.IsMetBy));
        var text = new StringBuilder()
            .Append("# The noise budget\n\n")
            .Append("Whoever cries wolf is not heard. `tests/Procedures` holds invented everyday procedures after common textbook types and deadly\n")
            .Append("variants of them, usually by one change, both written before any of them was screened. A test keeps this page current.\n\n")
            .Append("The first screening, before any rule was mended for them: 25 of 76 everyday procedures to review, 2 of them with a danger, and 55 of 85\n")
            .Append("variants found. No procedure was changed afterwards. Two rows of the expectations were: a wrong step number, and a material named in addition.\n\n")
            .Append("| set | procedures | result | limit |\n|---|---:|---|---|\n")
            .Append(CultureInfo.InvariantCulture, $"| everyday | {everyday.Length} | {everyday.Count(static one => one.Report.Findings.Any(static finding => finding.Severity == Severity.Danger))} with a danger | 0 |\n")
            .Append(CultureInfo.InvariantCulture, $"| everyday | {everyday.Length} | {reviewed.Length} to review ({100.0 * reviewed.Length / everyday.Length:0.0} %) | {MostInReview * 100:0} % |\n")
            .Append(CultureInfo.InvariantCulture, $"| deadly | {ExpectedFinding.All.Count} | {found} flagged for the right reason at the right step | all |\n\n")
            .Append("## Everyday procedures that go to review\n\n| procedure | because of |\n|---|---|\n");
        foreach (var (name, report) in reviewed)
        {
            var codes = report.Findings.Where(static finding => finding.Severity <= Severity.Warning || finding.LeavesCheckUndone).Select(static finding => $"`{finding.Code}`").Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);
            text.Append(CultureInfo.InvariantCulture, $"| {name} | {string.Join(", ", codes)} |\n");
        }

        text.Append("\n## Deadly variants\n\n| after | change | found as | step |\n|---|---|---|---|\n");
        foreach (ExpectedFinding row in ExpectedFinding.All)
        {
            var findings = Screened("deadly", row.File).Findings.Where(row.IsMetBy).Select(static finding => $"`{finding.Code}` ({finding.Severity.ToString().ToLowerInvariant()})").Distinct(StringComparer.Ordinal);
            text.Append(CultureInfo.InvariantCulture, $"| {row.After} | {row.Change} | {string.Join(", ", findings)} | {string.Join(" or ", row.Steps).Replace("*", "any", StringComparison.Ordinal)} |\n");
        }

        return text.ToString();
    }

    private static string[] Names(string set) =>
        [.. Directory.GetFiles(Path.Combine(Folders.Procedures, set), "*.json").Select(static file => Path.GetFileNameWithoutExtension(file)).Order(StringComparer.Ordinal)];

    private static Report Screened(string set, string name)
    {
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(File.ReadAllBytes(Path.Combine(Folders.Procedures, set, name + ".json")));
        Assert.True(read.IsOk, string.Join('\n', read.Error?.Faults ?? []));
        return DocumentScreening.Screen(read.Value, Policy.Default).Report;
    }
}
