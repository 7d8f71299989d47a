using System.Text.Json.Nodes;
using PreApproval.Audit;

namespace PreApproval.Cli.Tests;

public sealed class ScreenCommandTests
{
    private static string Example(string name) => Path.Combine(Run.Examples, name);

    [Theory]
    [InlineData("recrystallisation.json", 0, "clear")]
    [InlineData("ether-extraction.json", 3, "review")]
    public void Screen_OneFile_GivesOneReport(string file, int exitCode, string verdict)
    {
        Run run = Run.Of("screen", Example(file), "--json");

        Assert.Equal(exitCode, run.ExitCode);
        Assert.Equal(verdict, run.Json["verdict"]!.GetValue<string>());
        Assert.Equal("", run.Error);
    }

    /// <summary>Every member of the contract's report.</summary>
    [Fact]
    public void Screen_Report_HasTheMembersOfTheContract()
    {
        JsonNode report = Run.Of("screen", Example("closed-tube-amination.json"), "--json").Json;

        Assert.Equal("1.0.0", report["engine"]!["version"]!.GetValue<string>());
        Assert.Matches("^sha256:[0-9a-f]{64}$", report["engine"]!["data"]!.GetValue<string>());
        Assert.Matches("^sha256:[0-9a-f]{64}$", report["engine"]!["policy"]!.GetValue<string>());
        Assert.Equal("Amination of chlorobenzene in a closed tube", report["procedure"]!["title"]!.GetValue<string>());
        JsonNode finding = report["findings"]!.AsArray().First(entry => entry!["code"]!.GetValue<string>() is "pressure.exceeds-rating")!;
        Assert.Equal("pressure.exceeds-rating/tube/4", finding["id"]!.GetValue<string>());
        Assert.Equal("pressure", finding["hazard"]!.GetValue<string>());
        Assert.Equal("danger", finding["severity"]!.GetValue<string>());
        Assert.Equal("4", finding["steps"]![0]!.GetValue<string>());
        Assert.Contains("bar(g)", finding["statement"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Equal("bar(g)", finding["evidence"]!.AsArray().First(entry => entry!["name"]!.GetValue<string>() is "worst-case pressure")!["unit"]!.GetValue<string>());
        Assert.Equal("°C", finding["clearedBy"]![0]!["to"]!["unit"]!.GetValue<string>());
        Assert.Equal("/steps/3/temperature", finding["clearedBy"]![0]!["path"]!.GetValue<string>());
        JsonNode heated = report["timeline"]!.AsArray().First(entry => entry!["step"]!.GetValue<string>() is "4")!;
        Assert.Equal(110, heated["temperatureC"]!.GetValue<double>());
        Assert.True(heated["sealed"]!.GetValue<bool>());
        Assert.True(heated["pressureBarAbs"]!["bound"]!.GetValue<double>() >= heated["pressureBarAbs"]!["expected"]!.GetValue<double>());
        Assert.NotEmpty(report["coverage"]!.AsArray());
    }

    /// <summary>A hydride under an ether: class D powder and dry sand serve both; never water or carbon dioxide (Prudent Practices, NFPA 484; from memory).</summary>
    [Fact]
    public void Screen_HydrideUnderEther_SaysWhatToDoFirstInAFire()
    {
        JsonNode action = Run.Of("screen", Example("hydride-quench.json"), "--json").Json["fireActions"]!.AsArray()
            .First(one => one!["classes"]!["EN 2"]!.AsArray().Any(static letter => letter!.GetValue<string>() is "D"))!;

        Assert.Contains("dry sand", action["fit"]!.AsArray().Select(static agent => agent!.GetValue<string>()), StringComparer.Ordinal);
        Assert.Contains("D", action["classes"]!["NFPA 10"]!.AsArray().Select(static letter => letter!.GetValue<string>()), StringComparer.Ordinal);
        Assert.Contains("Never water, foam, carbon dioxide", action["firstAction"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.Contains("IF IT BURNS  EN 2 class", Run.Of("screen", Example("hydride-quench.json")).Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_Digest_IsThatOfTheCanonicalFile()
    {
        string file = Example("hydride-quench.json");
        Assert.True(CanonicalJson.TryCanonicalize(File.ReadAllBytes(file), out byte[] canonical, out string error), error);

        JsonNode report = Run.Of("screen", file, "--json").Json;

        Assert.Equal(CanonicalJson.Digest(canonical), report["procedure"]!["digest"]!.GetValue<string>());
    }

    [Fact]
    public void Screen_SeveralFiles_GivesAnArrayAndTheWorstExitCode()
    {
        Run run = Run.Of("screen", Example("recrystallisation.json"), Example("ether-extraction.json"), "--json");

        Assert.Equal(3, run.ExitCode);
        Assert.Equal("clear review", string.Join(' ', run.Json.AsArray().Select(report => report!["verdict"]!.GetValue<string>())));
    }

    [Fact]
    public void Screen_BadElementOnStandardInput_HoldsItsProblemInPlace()
    {
        string good = File.ReadAllText(Example("recrystallisation.json"));

        Run run = Run.WithInput($"[{good}, {{\"schema\": \"preapproval/procedure/1\", \"titel\": 1}}, {good}]", "screen", "-", "--json");

        Assert.Equal(2, run.ExitCode);
        JsonArray answers = run.Json.AsArray();
        Assert.Equal(3, answers.Count);
        Assert.Equal("clear", answers[0]!["verdict"]!.GetValue<string>());
        Assert.Contains(answers[1]!["errors"]!.AsArray(), error => error!["path"]!.GetValue<string>() is "/titel");
        Assert.Equal("clear", answers[2]!["verdict"]!.GetValue<string>());
        Assert.Contains(run.Problem["errors"]!.AsArray(), error => error!["path"]!.GetValue<string>() is "/1/titel");
    }

    [Fact]
    public void Screen_MissingFile_IsUnusable()
    {
        Run run = Run.Of("screen", "/nowhere/at-all.json", "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.Equal("", run.Output);
        Assert.Contains("no such file", run.Problem["detail"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("")]
    [InlineData("[{}")]
    [InlineData("[] []")]
    public void Screen_StandardInputThatIsNoArray_IsUnusable(string input)
    {
        Run run = Run.WithInput(input, "screen", "-", "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.Equal("", run.Output);
        Assert.StartsWith("Standard input", run.Problem["detail"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_WithoutJson_IsReadable()
    {
        Run run = Run.Of("screen", Example("ether-extraction.json"));

        Assert.Equal(3, run.ExitCode);
        Assert.Contains("Verdict: review", run.Output, StringComparison.Ordinal);
        Assert.Contains("DANGER  fire.hot-surface  (step 6, vessel still)", run.Output, StringComparison.Ordinal);
        Assert.Contains("128", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_FaultsWithoutJson_AreListedWithTheirPlaces()
    {
        Run run = Run.WithInput("[{}]", "screen", "-");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("  /title: is missing", run.Error, StringComparison.Ordinal);
    }
}
