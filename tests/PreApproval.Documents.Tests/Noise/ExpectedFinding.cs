using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Tests.Noise;

/// <summary>One row of tests/Procedures/deadly/expected.tsv: what a deadly variant must show, reasoned out from the chemistry before it was screened.</summary>
internal sealed record ExpectedFinding
{
    private const string InWaste = "waste";
    private const string Anywhere = "*";
    private const string Nothing = "-";

    public required string File { get; init; }

    /// <summary>The everyday procedure it comes from.</summary>
    public required string After { get; init; }

    public required string Change { get; init; }

    /// <summary>The finding is of one of these.</summary>
    public required IReadOnlyList<Hazard> Hazards { get; init; }

    public required Severity AtLeast { get; init; }

    /// <summary>The finding names one of these steps.</summary>
    public required IReadOnlyList<string> Steps { get; init; }

    /// <summary>The finding names all of these.</summary>
    public required IReadOnlyList<string> Materials { get; init; }

    /// <summary>One of these stands in its sentence.</summary>
    public required IReadOnlyList<string> Words { get; init; }

    public required string Reason { get; init; }

    public required string Source { get; init; }

    public static IReadOnlyList<ExpectedFinding> All { get; } =
    [
        .. System.IO.File.ReadLines(Path.Combine(Folders.Procedures, "deadly", "expected.tsv"))
            .Where(static line => !line.StartsWith('#'))
            .Skip(1)
            .Select(static line => Read(line.Split('\t'))),
    ];

    public bool IsMetBy(Finding finding) =>
        Hazards.Contains(finding.Hazard)
        && finding.Severity <= AtLeast
        && IsAtTheStep(finding)
        && Materials.All(material => finding.Materials.Contains(material, StringComparer.Ordinal))
        && Words.Any(word => finding.Statement.Contains(word, StringComparison.OrdinalIgnoreCase));

    private bool IsAtTheStep(Finding finding) => Steps[0] switch
    {
        Anywhere => true,
        InWaste => finding.Steps.Count == 0,
        _ => Steps.Any(step => finding.Steps.Contains(step, StringComparer.Ordinal)),
    };

    private static ExpectedFinding Read(string[] cells) => new()
    {
        File = cells[0],
        After = cells[1],
        Change = cells[2],
        Hazards = [.. cells[3].Split('|').Select(static word => Enum.Parse<Hazard>(word, ignoreCase: true))],
        AtLeast = Enum.Parse<Severity>(cells[4], ignoreCase: true),
        Steps = cells[5].Split('|'),
        Materials = cells[6] is Nothing ? [] : cells[6].Split(','),
        Words = cells[7].Split('|'),
        Reason = cells[8],
        Source = cells[9],
    };
}
