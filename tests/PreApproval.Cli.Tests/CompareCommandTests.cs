using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace PreApproval.Cli.Tests;

public sealed class CompareCommandTests : IDisposable
{
    private static readonly string[] StepLists = ["reactions", "safeguards"];

    private static readonly JsonSerializerOptions Readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private static readonly string Source = Path.Combine(Run.Examples, "closed-tube-amination.json");
    private readonly string _changed = Path.GetTempFileName();

    public void Dispose() => File.Delete(_changed);

    /// <summary>Diethyl ether boils 32 K below tetrahydrofuran (34.5 and 66 °C), so the closed tube carries more.</summary>
    [Fact]
    public void Compare_SolventOfLowerBoilingPoint_RaisesThePressure()
    {
        Change(document => document["materials"]![0]!["substance"] = new JsonObject { ["cas"] = "60-29-7", ["name"] = "diethyl ether" });

        Run run = Run.Of("compare", Source, _changed, "--json");

        Assert.Equal(3, run.ExitCode);
        JsonNode change = Assert.Single(run.Json["changes"]!.AsArray(), static change => change!["quantity"]!.GetValue<string>() is "worst-case pressure")!;
        Assert.Equal("pressure", change["hazard"]!.GetValue<string>());
        Assert.Equal("worst-case pressure", change["quantity"]!.GetValue<string>());
        Assert.Equal("raised", change["effect"]!.GetValue<string>());
        Assert.Equal("bar(g)", change["unit"]!.GetValue<string>());
        Assert.Equal(WorstPressure(Source), change["before"]!.GetValue<double>());
        Assert.Equal(WorstPressure(_changed), change["after"]!.GetValue<double>());
        Assert.True(change["after"]!.GetValue<double>() > change["before"]!.GetValue<double>());
    }

    [Fact]
    public void Compare_RenamedSteps_IsNoChange()
    {
        Change(document =>
        {
            foreach (JsonNode? step in document["steps"]!.AsArray())
            {
                step!["id"] = "step-" + step["id"]!.GetValue<string>();
            }

            foreach (JsonNode? entry in StepLists.SelectMany(name => document[name]?.AsArray() ?? []))
            {
                if (entry!["step"]?.GetValue<string>() is { } one)
                {
                    entry["step"] = "step-" + one;
                }

                if (entry["steps"] is JsonArray several)
                {
                    entry["steps"] = new JsonArray([.. several.Select(step => JsonValue.Create("step-" + step!.GetValue<string>()))]);
                }
            }
        });

        Run run = Run.Of("compare", Source, _changed, "--json");

        Assert.Equal(0, run.ExitCode);
        Assert.Equal("""{"changes":[]}""", run.Output.Trim());
    }

    [Theory]
    // 20 bar(g) are believed of such a tube, more than three times its usual rating would not be
    [InlineData(false, 0, "removed")]
    [InlineData(true, 3, "introduced")]
    public void Compare_StrongerTube_RemovesThePressureAndBackIntroducesIt(bool back, int exitCode, string effect)
    {
        Change(document => document["vessels"]![0]!["rating"]!["value"] = 20);

        Run run = back ? Run.Of("compare", _changed, Source, "--json") : Run.Of("compare", Source, _changed, "--json");

        Assert.Equal(exitCode, run.ExitCode);
        Assert.Contains(run.Json["changes"]!.AsArray(), change => change!["hazard"]!.GetValue<string>() is "pressure" && change["effect"]!.GetValue<string>().Equals(effect, StringComparison.Ordinal));
    }

    /// <summary>The same pressure against 4 and against 6 bar(g): the share falls to two thirds.</summary>
    [Fact]
    public void Compare_OtherRating_TellsTheShareOfItOnce()
    {
        Change(document => document["vessels"]![0]!["rating"]!["value"] = 6);

        JsonNode change = Assert.Single(Run.Of("compare", Source, _changed, "--json").Json["changes"]!.AsArray(), static one => one!["hazard"]!.GetValue<string>() is "pressure")!;

        Assert.Equal(("share of the rating", "lowered", "fraction"), (change["quantity"]!.GetValue<string>(), change["effect"]!.GetValue<string>(), change["unit"]!.GetValue<string>()));
        Assert.Equal(0.6667, change["after"]!.GetValue<double>() / change["before"]!.GetValue<double>(), 4);
    }

    [Fact]
    public void Compare_ReliefDeviceGone_IsFlagged()
    {
        Change(document => document["vessels"]![0]!["relief"] = JsonNode.Parse("""{ "device": "valve", "set": { "value": 3.9, "unit": "bar(g)" } }"""));

        Run run = Run.Of("compare", _changed, Source, "--json");

        Assert.Equal(3, run.ExitCode);
        JsonNode change = Assert.Single(run.Json["changes"]!.AsArray(), static one => one!["quantity"]!.GetValue<string>() is "missing relief device")!;
        Assert.Equal(("pressure", "introduced", "tube"), (change["hazard"]!.GetValue<string>(), change["effect"]!.GetValue<string>(), change["vessel"]!.GetValue<string>()));
        Assert.Equal((3.9, null), (change["before"]!.GetValue<double>(), change["after"]));
    }

    [Fact]
    public void Compare_BothUnusable_TellsBothInPlace()
    {
        File.WriteAllText(_changed, """{"titel": 1}""");

        Run run = Run.Of("compare", "nowhere.json", _changed, "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.Equal("", run.Output);
        Assert.Contains(run.Problem["errors"]!.AsArray(), error => error!["path"]!.GetValue<string>() is "/before");
        Assert.Contains(run.Problem["errors"]!.AsArray(), error => error!["path"]!.GetValue<string>() is "/after/titel");
    }

    [Fact]
    public void Compare_HotterStep_IsALineOfThePlan()
    {
        Change(document => document["steps"]![3]!["temperature"]!["value"] = 99);

        Run json = Run.Of("compare", Source, _changed, "--json");
        Run text = Run.Of("compare", Source, _changed);

        JsonNode line = Assert.Single(json.Json["plan"]!.AsArray())!;
        Assert.Equal("""{"after":"99 °C","before":"110 °C","effect":"changed","name":"4","nameBefore":null,"part":"step","what":"temperature"}""", line.ToJsonString(Readable));
        Assert.Matches(@"plan +where +before +after\s+changed +step 4 \(heat\), temperature +110 °C +99 °C", text.Output);
        Assert.Contains("The plan is the same.", Run.Of("compare", Source, Source).Output, StringComparison.Ordinal);
    }

    private static double WorstPressure(string file) => Run.Of("screen", file, "--json").Json["findings"]!.AsArray()
        .SelectMany(finding => finding!["evidence"]!.AsArray())
        .First(evidence => evidence!["name"]!.GetValue<string>() is "worst-case pressure")!["value"]!.GetValue<double>();

    private void Change(Action<JsonNode> change)
    {
        JsonNode document = JsonNode.Parse(File.ReadAllBytes(Source))!;
        change(document);
        File.WriteAllText(_changed, document.ToJsonString());
    }
}
