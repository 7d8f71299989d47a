using System.Text.Json.Nodes;

namespace PreApproval.Cli.Tests;

public sealed class MixtureCommandTests
{
    private const string Spirit = """{"contents":[{"substance":"64-17-5","x":0.2},{"substance":"7732-18-5","x":0.8}],"temperatureC":25}""";

    /// <summary>
    /// thermo 0.6.1 and chemicals 1.5.2, original UNIFAC at 298.15 K: 2-propanol in water at x = 0.25 (values of the reference set, six figures), and the
    /// bubble pressure by hand from x γ Psat with 6.03 and 3.17 kPa at 25 °C (Perry's Handbook; IAPWS-IF97).
    /// </summary>
    [Fact]
    public void Mixture_ActivityCoefficientsAndBubblePressure_AgreeWithTheReference()
    {
        JsonNode answer = Of("""{"contents":[{"substance":"67-63-0","x":0.25},{"substance":"7732-18-5","x":0.75}],"temperatureC":25}""");

        double first = answer["activityCoefficients"]!["67-63-0"]!.GetValue<double>();
        double second = answer["activityCoefficients"]!["7732-18-5"]!.GetValue<double>();
        Assert.Equal(2.122311, first, 1e-5);
        Assert.Equal(1.276059, second, 1e-5);
        double bar = (0.25 * 2.122311 * 0.0603) + (0.75 * 1.276059 * 0.0317);
        Assert.InRange(answer["bubblePressureBarAbs"]!.GetValue<double>(), bar * 0.99, bar * 1.01);
    }

    /// <summary>Ethanol, x = 0.2 in water (39 wt%): flash point 26 °C at 40 % (handbook), limits of ethanol 3.1 and 19 % at 25 °C (IEC 60079-20-1).</summary>
    [Fact]
    public void Mixture_AqueousEthanol_HasEveryMemberOfTheAnswer()
    {
        Run run = Run.WithInput($"[{Spirit}]", "mixture", "-", "--json");
        JsonNode answer = run.Json[0]!;

        Assert.Equal(0, run.ExitCode);
        Assert.Equal(
            "activityCoefficients bubblePressureBarAbs flashPointC lowerFlammableLimitFraction models upperFlammableLimitFraction vapourMoleFractions warnings",
            string.Join(' ', answer.AsObject().Select(member => member.Key).Order(StringComparer.Ordinal)));
        Assert.Equal(26, answer["flashPointC"]!.GetValue<double>(), 2.0);
        Assert.Equal(0.031, answer["lowerFlammableLimitFraction"]!.GetValue<double>(), 1e-9);
        Assert.Equal(0.19, answer["upperFlammableLimitFraction"]!.GetValue<double>(), 1e-9);
        Assert.Equal(1, answer["vapourMoleFractions"]!.AsObject().Sum(member => member.Value!.GetValue<double>()), 1e-12);
    }

    [Fact]
    public void Mixture_KeysOfTheAnswer_AreTheIdentifiersAsGiven()
    {
        JsonNode answer = Of("""{"contents":[{"substance":"ethanol","x":0.5},{"substance":"O","x":0.5}],"temperatureC":25}""");

        Assert.Equal("O ethanol", string.Join(' ', answer["activityCoefficients"]!.AsObject().Select(member => member.Key).Order(StringComparer.Ordinal)));
        Assert.Equal("O ethanol", string.Join(' ', answer["vapourMoleFractions"]!.AsObject().Select(member => member.Key).Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void Mixture_OneSubstance_IsPure()
    {
        JsonNode answer = Of("""{"contents":[{"substance":"toluene","x":1}],"temperatureC":25}""");

        Assert.Equal(1, answer["activityCoefficients"]!["toluene"]!.GetValue<double>());
        Assert.Equal(4, answer["flashPointC"]!.GetValue<double>(), 0.01);
        Assert.InRange(answer["bubblePressureBarAbs"]!.GetValue<double>(), 0.038 * 0.99, 0.038 * 1.01);
    }

    public static TheoryData<string, string, string, string> Faults => new()
    {
        { "\"64-17-5\"", "\"ethanool\"", "/0/contents/0/substance", "near names: ethanol" },
        { "\"x\":0.2", "\"x\":0.1", "/0/contents", "sum to 0.9; they must sum to 1 within 0.001" },
        { "\"x\":0.2", "\"x\":-0.2", "/0/contents/0/x", "negative" },
        { "\"x\":0.2", "\"x\":20", "/0/contents/0/x", "not a percentage" },
        { "\"x\":0.2", "\"x\":\"0.2\"", "/0/contents/0/x", "without quotes" },
        { ",\"x\":0.2", "", "/0/contents/0/x", "is missing" },
        { "\"substance\":\"64-17-5\",", "", "/0/contents/0/substance", "is missing" },
        { "7732-18-5", "ethanol", "/0/contents/1/substance", "names ethanol again" },
        { "\"temperatureC\":25", "\"temperatureC\":-300", "/0/temperatureC", "absolute zero" },
        { "\"temperatureC\":25", "\"temperatureC\":5000", "/0/temperatureC", "2726.85" },
        { "\"temperatureC\":25", "\"temperatureC\":300", "/0/temperatureC", "critical temperature of ethanol" },
        { ",\"temperatureC\":25", "", "/0/temperatureC", "is missing" },
        { "\"temperatureC\":25", "\"temperatureC\":25,\"pressureBar\":1", "/0/pressureBar", "not a known member" },
        { "\"x\":0.2", "\"x\":0.2,\"mol\":1", "/0/contents/0/mol", "not a known member" },
        { "[{\"substance\":\"64-17-5\",\"x\":0.2},{\"substance\":\"7732-18-5\",\"x\":0.8}]", "{}", "/0/contents", "must be an array" },
        { "{\"substance\":\"64-17-5\",\"x\":0.2}", "\"64-17-5\"", "/0/contents/0", "must be a component as an object" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Mixture_Fault_IsReportedWithItsPathAndReason(string old, string replacement, string path, string reason)
    {
        Assert.Contains(old, Spirit, StringComparison.Ordinal);

        Run run = Run.WithInput($"[{Spirit.Replace(old, replacement, StringComparison.Ordinal)}]", "mixture", "-", "--json");

        Assert.Equal(2, run.ExitCode);
        JsonNode fault = Assert.Single(run.Problem["errors"]!.AsArray())!;
        Assert.Equal(path, fault["path"]!.GetValue<string>());
        Assert.Contains(reason, fault["message"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public void Mixture_EmptyContents_IsUnusable() =>
        Assert.Equal(2, Run.WithInput("""[{"contents":[],"temperatureC":25}]""", "mixture", "-", "--json").ExitCode);

    [Fact]
    public void Mixture_BadElementOfAnArray_HoldsItsProblemInPlace()
    {
        Run run = Run.WithInput($$"""[{"contents":[]},{{Spirit}}]""", "mixture", "-", "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.NotNull(run.Json[0]!["errors"]);
        Assert.NotNull(run.Json[1]!["bubblePressureBarAbs"]);
    }

    [Fact]
    public void Mixture_SeveralFiles_GiveAnArray()
    {
        string folder = Directory.CreateTempSubdirectory().FullName;
        string file = Path.Combine(folder, "spirit.json");
        File.WriteAllText(file, Spirit);

        Run one = Run.Of("mixture", file, "--json");
        Run two = Run.Of("mixture", file, file, "--json");

        Assert.IsType<JsonObject>(one.Json);
        Assert.Equal(2, two.Json.AsArray().Count);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public void Mixture_FractionsThatMissOneByRounding_AreTakenAndSaid()
    {
        JsonNode answer = Of("""{"contents":[{"substance":"ethanol","x":0.333},{"substance":"water","x":0.333},{"substance":"acetone","x":0.333}],"temperatureC":25}""");

        Assert.Contains(answer["warnings"]!.AsArray(), static warning => warning!.GetValue<string>().Contains("sum to 0.999", StringComparison.Ordinal));
    }

    [Fact]
    public void Mixture_WithDichloromethane_HasNoFlashPointAndSaysWhy()
    {
        JsonNode answer = Of("""{"contents":[{"substance":"DCM","x":0.5},{"substance":"methanol","x":0.5}],"temperatureC":25}""");

        Assert.Null(answer["flashPointC"]);
        Assert.Contains(answer["warnings"]!.AsArray(), static warning => warning!.GetValue<string>().Contains("no flash point is a valid margin", StringComparison.Ordinal));
    }

    [Fact]
    public void Mixture_WithoutParameters_IsTheBoundWithNullsAndWarnings()
    {
        JsonNode answer = Of("""{"contents":[{"substance":"NMP","x":0.5},{"substance":"dimethyl sulfide","x":0.5}],"temperatureC":25}""");

        Assert.Equal("immiscible-bound", answer["models"]!["bubblePressure"]!["model"]!.GetValue<string>());
        Assert.Null(answer["vapourMoleFractions"]);
        Assert.Null(answer["activityCoefficients"]!["NMP"]);
        Assert.Contains(answer["warnings"]!.AsArray(), static warning => warning!.GetValue<string>().Contains("NMP with CH2S", StringComparison.Ordinal));
    }

    [Fact]
    public void Mixture_Water_HasNothingThatBurns()
    {
        JsonNode answer = Of("""{"contents":[{"substance":"water","x":1}],"temperatureC":25}""");

        Assert.Null(answer["flashPointC"]);
        Assert.Null(answer["lowerFlammableLimitFraction"]);
        Assert.NotEmpty(answer["warnings"]!.AsArray());
    }

    [Fact]
    public void Mixture_WithoutJson_IsATable()
    {
        Run run = Run.WithInput($"[{Spirit}]", "mixture", "-");

        Assert.StartsWith("component", run.Output, StringComparison.Ordinal);
        Assert.Contains("Flash point:", run.Output, StringComparison.Ordinal);
    }

    private static JsonNode Of(string mixture)
    {
        Run run = Run.WithInput($"[{mixture}]", "mixture", "-", "--json");
        Assert.Equal(0, run.ExitCode);
        return run.Json[0]!;
    }
}
