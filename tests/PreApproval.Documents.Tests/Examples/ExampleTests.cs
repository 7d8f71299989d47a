using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Hazards.Screening;

namespace PreApproval.Documents.Tests.Examples;

/// <summary>The published examples: verdicts and findings reasoned out beforehand, numbers from the hand calculations of their README.</summary>
public sealed class ExampleTests
{
    public static TheoryData<string> Files => [.. Directory.GetFiles(Folders.Examples, "*.json").Select(file => Path.GetFileName(file)).Order(StringComparer.Ordinal)];

    [Fact]
    public void Examples_AreAtLeastSeven() => Assert.True(Files.Count >= 7);

    [Theory]
    [MemberData(nameof(Files))]
    public void Example_SaysThatItIsInvented(string file)
    {
        ProcedureDocument document = Read(file);

        Assert.StartsWith("Invented for demonstration.", document.Purpose, StringComparison.Ordinal);
        Assert.Contains($"({file})", File.ReadAllText(Path.Combine(Folders.Examples, "README.md")), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("closed-tube-amination.json", "pressure.exceeds-rating", "4")]
    [InlineData("stoppered-azide-reduction.json", "pressure.unknown-rating", "3")]
    [InlineData("ether-extraction.json", "fire.hot-surface", "6")]
    [InlineData("hydride-quench.json", "incompatibility.aluminium-hydride-with-water", "4")]
    [InlineData("hydride-quench.json", "fire.agent-forbidden", "1")]
    [InlineData("peroxide-epoxidation.json", "incompatibility.peroxide-with-ketone", null)]
    public void Screen_FlawedExample_IsADangerAtItsStep(string file, string code, string? step)
    {
        Report report = Screened(file).Report;

        Assert.Equal(Verdict.Review, report.Verdict);
        Assert.Contains(report.Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal)
            && finding.Severity == Severity.Danger
            && (step is null ? finding.Steps.Count == 0 : finding.Steps.Contains(step, StringComparer.Ordinal)));
    }

    [Theory]
    [InlineData("aqueous-work-up.json")]
    [InlineData("recrystallisation.json")]
    public void Screen_EverydayExample_IsClear(string file)
    {
        Report report = Screened(file).Report;

        Assert.Equal(Verdict.Clear, report.Verdict);
        Assert.All(report.Findings, finding => Assert.Equal(Severity.Notice, finding.Severity));
    }

    [Fact]
    public void Screen_AzideReduction_IsOpenedUnderPressure()
    {
        Report report = Screened("stoppered-azide-reduction.json").Report;

        Assert.Contains(report.Findings, finding => finding is { Code: "pressure.opened-under-pressure" } && finding.Steps.Contains("5", StringComparer.Ordinal));
    }

    /// <summary>Values and tolerances of docs/examples/README.md, worked out by hand from the sources named there.</summary>
    [Theory]
    [InlineData("closed-tube-amination.json", "pressure.exceeds-rating", "worst-case pressure", 5.38, 0.05)]
    [InlineData("stoppered-azide-reduction.json", "pressure.unknown-rating", "worst-case pressure", 6.49, 0.05)]
    [InlineData("hydride-quench.json", "incompatibility.aluminium-hydride-with-water", "hydrogen, at most", 0.1054, 0.01)]
    public void Screen_Example_AgreesWithTheHandCalculation(string file, string code, string evidence, double expected, double tolerance)
    {
        double value = Screened(file).Report.Findings.Where(finding => string.Equals(finding.Code, code, StringComparison.Ordinal))
            .Max(finding => finding.Evidence.First(entry => string.Equals(entry.Name, evidence, StringComparison.Ordinal)).Value);

        Assert.InRange(value, expected * (1 - tolerance), expected * (1 + tolerance));
    }

    /// <summary>80 % of 160 °C (TRGS 723, 5.2.3; NFPA 497:2008): 128 °C, exactly.</summary>
    [Fact]
    public void Screen_EtherExtraction_LimitsTheSurfaceTo128Celsius()
    {
        Finding finding = Screened("ether-extraction.json").Report.Findings.Single(finding => finding is { Code: "fire.hot-surface" });

        Evidence surface = finding.Evidence.Single(entry => entry is { Name: "surface temperature" });

        Assert.Equal(180, surface.Value, 6);
        Assert.Equal(128, surface.Limit!.Value, 6);
    }

    /// <summary>Amounts of docs/examples/README.md.</summary>
    [Theory]
    [InlineData("peroxide-epoxidation.json", "2", "7722-84-1", 0.166, 0.03)]
    [InlineData("aqueous-work-up.json", "2", "141-78-6", 0.511, 0.02)]
    [InlineData("aqueous-work-up.json", "2", "7732-18-5", 1.66, 0.02)]
    [InlineData("recrystallisation.json", "2", "65-85-0", 0.0409, 0.01)]
    [InlineData("recrystallisation.json", "2", "7732-18-5", 6.65, 0.01)]
    public void Screen_Example_ContainsTheAmountOfTheHandCalculation(string file, string step, string substance, double mol, double tolerance)
    {
        TimelineEntry entry = Screened(file).Report.Timeline.First(entry => string.Equals(entry.Step, step, StringComparison.Ordinal));

        double screened = entry.Contents.Where(content => string.Equals(content.Substance, substance, StringComparison.Ordinal)).Sum(content => content.Mol);

        Assert.InRange(screened, mol * (1 - tolerance), mol * (1 + tolerance));
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void Screen_TwiceAndWithMembersInAnotherOrder_GivesTheSameBytes(string file)
    {
        byte[] bytes = File.ReadAllBytes(Path.Combine(Folders.Examples, file));
        byte[] reversed = Encoding.UTF8.GetBytes(Reversed(JsonNode.Parse(bytes)!).ToJsonString());

        ReadOnlyMemory<byte> first = Screen(bytes).Json;

        Assert.Equal(first.ToArray(), Screen(bytes).Json.ToArray());
        Assert.Equal(first.ToArray(), Screen(reversed).Json.ToArray());
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void ClearedBy_AppliedToTheJson_ClearsTheFinding(string file) => ClearedByTests.CheckEveryOffer(File.ReadAllBytes(Path.Combine(Folders.Examples, file)));

    private static JsonNode Reversed(JsonNode node) => node switch
    {
        JsonObject record => new JsonObject(record.Reverse().Select(member => KeyValuePair.Create(member.Key, member.Value is null ? null : (JsonNode?)Reversed(member.Value)))),
        JsonArray list => new JsonArray([.. list.Select(item => item is null ? null : Reversed(item))]),
        _ => node.DeepClone(),
    };

    private static ScreenedDocument Screened(string file) => Screen(File.ReadAllBytes(Path.Combine(Folders.Examples, file)));

    private static ScreenedDocument Screen(byte[] bytes)
    {
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(bytes);
        Assert.True(read.IsOk, string.Join('\n', read.Error?.Faults ?? []));
        return DocumentScreening.Screen(read.Value, Policy.Default);
    }

    private static ProcedureDocument Read(string file)
    {
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(File.ReadAllBytes(Path.Combine(Folders.Examples, file)));
        Assert.True(read.IsOk, string.Join('\n', read.Error?.Faults ?? []));
        return read.Value;
    }
}
