using System.Text.Json.Nodes;

namespace PreApproval.Cli.Tests;

public sealed class VesselCommandTests
{
    private const string Toluene = """{"vesselVolumeMl":20,"fillTemperatureC":20,"fillPressureBarAbs":1.01325,"headspace":"air","contents":[{"substance":"108-88-3","mol":0.05}],"gasEvolvedMol":0,"temperaturesC":[25,80,110],"ratingBarGauge":10}""";

    /// <summary>
    /// Toluene, 0.05 mol in 20 mL. Vapour pressure 0.9949 bar at 110 °C (Perry's, 8th ed., table 2-8, by hand 0.994) and air: 20 − 5.33 mL free
    /// at 20 °C (0.867 g/mL), 20 − 5.90 hot (0.781 g/mL): 1.01325 · (14.69/14.10) · (383.15/293.15) = 1.380; in all 2.37 bar.
    /// </summary>
    [Fact]
    public void Vessel_ModifiedRaoultOfTheContractsExample_AgreesWithTheHandCalculation()
    {
        Run run = Run.WithInput($"[{Toluene}]", "vessel", "-", "--json");

        Assert.Equal(0, run.ExitCode);
        JsonNode hot = run.Json[0]!["states"]![2]!;
        Assert.Equal(110, hot["temperatureC"]!.GetValue<double>());
        JsonNode raoult = hot["models"]!.AsArray().Single(model => model!["model"]!.GetValue<string>() is "modified-raoult")!;
        Assert.InRange(raoult["pressureBarAbs"]!.GetValue<double>(), 2.37 * 0.99, 2.37 * 1.01);
        Assert.Equal("modified-raoult", hot["governing"]!["model"]!.GetValue<string>());
        Assert.InRange(hot["governing"]!["pressureBarAbs"]!.GetValue<double>(), 2.37 * 0.99, 2.37 * 1.01);
    }

    [Fact]
    public void Vessel_Output_HasEveryModelAndKeysAsGiven()
    {
        Run run = Run.WithInput($"[{Toluene.Replace("108-88-3", "toluene", StringComparison.Ordinal)}]", "vessel", "-", "--json");

        JsonNode state = run.Json[0]!["states"]![0]!;
        Assert.Equal("modified-raoult peng-robinson psrk immiscible-bound", string.Join(' ', state["models"]!.AsArray().Select(model => model!["model"]!.GetValue<string>())));
        JsonNode raoult = state["models"]![0]!;
        Assert.Equal("two-phase", raoult["phase"]!.GetValue<string>());
        Assert.Equal("headspace toluene", string.Join(' ', raoult["partialPressuresBar"]!.AsObject().Select(member => member.Key).Order(StringComparer.Ordinal)));
        Assert.Equal(1, raoult["liquidMoleFractions"]!["toluene"]!.GetValue<double>());
        Assert.True(run.Json[0]!["maximumTemperatureC"]!.GetValue<double>() > 110);
    }

    [Fact]
    public void Vessel_WithoutRating_HasNoMaximumTemperature()
    {
        Run run = Run.WithInput("""[{"vesselVolumeMl":20,"contents":[{"substance":"water","g":5}],"temperaturesC":[50]}]""", "vessel", "-", "--json");

        Assert.Equal(0, run.ExitCode);
        Assert.Null(run.Json[0]!["maximumTemperatureC"]);
    }

    /// <summary>Water at 200 °C: 15.55 bar (IAPWS-IF97 saturation table), far above 5 bar(g).</summary>
    [Fact]
    public void Vessel_AboveItsRating_IsFlagged()
    {
        Run run = Run.WithInput("""[{"vesselVolumeMl":10,"contents":[{"substance":"7732-18-5","mL":5}],"temperaturesC":[200],"ratingBarGauge":5}]""", "vessel", "-", "--json");

        Assert.Equal(3, run.ExitCode);
        Assert.InRange(run.Json[0]!["states"]![0]!["models"]![0]!["partialPressuresBar"]!["7732-18-5"]!.GetValue<double>(), 15.55 * 0.99, 15.55 * 1.01);
    }

    /// <summary>Toluene, 17 mL in 20 mL, is full near 150 °C: density 0.867 g/mL at 20 °C and 0.737 at 150 °C (Perry's, 8th ed., table 2-32).</summary>
    [Fact]
    public void Vessel_FullOfLiquid_IsFlaggedWithoutARating()
    {
        Run run = Run.WithInput("""[{"vesselVolumeMl":20,"contents":[{"substance":"toluene","mL":17}],"temperaturesC":[170]}]""", "vessel", "-", "--json");

        Assert.Equal(3, run.ExitCode);
        Assert.Equal("liquid-full", run.Json[0]!["states"]![0]!["governing"]!["phase"]!.GetValue<string>());
    }

    /// <summary>0.01 mol in 10 mL at 25 °C under vacuum: nothing but the vapour pressure of water, 3.17 kPa (IAPWS-IF97).</summary>
    [Fact]
    public void Vessel_Vacuum_LeavesTheVapourAlone()
    {
        Run run = Run.WithInput("""[{"vesselVolumeMl":10,"headspace":"vacuum","contents":[{"substance":"water","mol":0.01}],"temperaturesC":[25]}]""", "vessel", "-", "--json");

        Assert.InRange(run.Json[0]!["states"]![0]!["governing"]!["pressureBarAbs"]!.GetValue<double>(), 0.0317 * 0.99, 0.0317 * 1.01);
    }

    public static TheoryData<string, string, string> Faults => new()
    {
        { "\"vesselVolumeMl\":20", "\"vesselVolumeMl\":-20", "/0/vesselVolumeMl" },
        { "\"vesselVolumeMl\":20,", "", "/0/vesselVolumeMl" },
        { "\"mol\":0.05", "\"mol\":0", "/0/contents/0/mol" },
        { "\"mol\":0.05", "\"mol\":0.05,\"g\":5", "/0/contents/0" },
        { ",\"mol\":0.05", "", "/0/contents/0" },
        { "108-88-3", "108-88-4", "/0/contents/0/substance" },
        { "\"temperaturesC\":[25", "\"temperaturesC\":[-300", "/0/temperaturesC/0" },
        { "\"temperaturesC\":[25", "\"temperaturesC\":[\"25\"", "/0/temperaturesC/0" },
        { "\"headspace\":\"air\"", "\"headspace\":\"phlogiston\"", "/0/headspace" },
        { "\"headspace\":\"air\"", "\"headspace\":\"vacuum\"", "/0/fillPressureBarAbs" },
        { "\"gasEvolvedMol\":0", "\"gasEvolvedMol\":-1", "/0/gasEvolvedMol" },
        { "\"ratingBarGauge\":10", "\"ratingBarg\":10", "/0/ratingBarg" },
        { "{\"substance\":\"108-88-3\",\"mol\":0.05}", "{\"substance\":\"nitrogen\",\"mL\":5}", "/0/contents/0/mL" },
    };

    [Theory]
    [MemberData(nameof(Faults))]
    public void Vessel_Fault_IsReportedWithItsPath(string old, string replacement, string path)
    {
        Assert.Contains(old, Toluene, StringComparison.Ordinal);

        Run run = Run.WithInput($"[{Toluene.Replace(old, replacement, StringComparison.Ordinal)}]", "vessel", "-", "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.Equal(path, Assert.Single(run.Problem["errors"]!.AsArray())!["path"]!.GetValue<string>());
        Assert.NotNull(run.Json[0]!["errors"]);
    }

    [Fact]
    public void Vessel_WithoutJson_IsATable()
    {
        Run run = Run.WithInput($"[{Toluene}]", "vessel", "-");

        Assert.StartsWith("°C ", run.Output, StringComparison.Ordinal);
        Assert.Contains("Highest temperature within 10 bar(g):", run.Output, StringComparison.Ordinal);
    }

    /// <summary>Air alone, 1.01325 bar at 20 °C, and 2.437 bar from 0.01 mol (n·R·T/V at 20 °C in 100 mL): ideal gas law.</summary>
    [Fact]
    public void Vessel_NothingShutInButGas_IsTheGasAlone()
    {
        Run run = Run.WithInput("""[{"vesselVolumeMl":100,"contents":[],"gasEvolvedMol":0.01,"temperaturesC":[20],"ratingBarGauge":10}]""", "vessel", "-", "--json");

        Assert.Equal(0, run.ExitCode);
        Assert.Equal(1.01325 + 2.437, run.Json[0]!["states"]![0]!["governing"]!["pressureBarAbs"]!.GetValue<double>(), 0.002);
    }

    /// <summary>Hydrogen chloride in water: no pressure is known, so nothing may pass against a rating.</summary>
    [Fact]
    public void Vessel_NoPressureKnownWithARating_IsFlaggedWithAWarning()
    {
        const string unknown = """{"vesselVolumeMl":20,"contents":[{"substance":"7664-41-7","mol":0.05},{"substance":"68-12-2","mL":5}],"temperaturesC":[50]}""";
        Run rated = Run.WithInput($"[{unknown.Replace("[50]", "[50],\"ratingBarGauge\":100", StringComparison.Ordinal)}]", "vessel", "-", "--json");
        Run unrated = Run.WithInput($"[{unknown}]", "vessel", "-", "--json");

        Assert.Equal(3, rated.ExitCode);
        Assert.Contains(rated.Json[0]!["warnings"]!.AsArray(), static warning => warning!.GetValue<string>().Contains("not compared with the rating", StringComparison.Ordinal));
        Assert.Equal(0, unrated.ExitCode);
    }

    /// <summary>19.5 mL of toluene at 20 °C in 20 mL, at 300 °C: a liquid squeezed far beyond what the equation describes.</summary>
    [Fact]
    public void Vessel_CompressedLiquidBeyondSense_HasNoPengRobinsonPressure()
    {
        Run run = Run.WithInput("""[{"vesselVolumeMl":20,"contents":[{"substance":"108-88-3","mL":19.5}],"temperaturesC":[300]}]""", "vessel", "-", "--json");

        var equation = run.Json[0]!["states"]![0]!["models"]![1]!;
        Assert.Null(equation["pressureBarAbs"]);
        Assert.False(string.IsNullOrEmpty(equation["because"]!.GetValue<string>()));
        Assert.Equal("liquid-full", run.Json[0]!["states"]![0]!["governing"]!["phase"]!.GetValue<string>());
    }

    [Theory]
    [InlineData("""{"vesselVolumeMl":0,"contents":[],"temperaturesC":[20]}""", "/vesselVolumeMl: must be above 0")]
    [InlineData("""{"vesselVolumeMl":-5,"contents":[],"temperaturesC":[20]}""", "/vesselVolumeMl: must be above 0")]
    [InlineData("""{"vesselVolumeMl":10,"contents":[{"substance":"acetone","mL":20}],"temperaturesC":[20]}""", "/contents: take 20 mL at 20 °C, more than the 10 mL of the vessel")]
    [InlineData("""{"vesselVolumeMl":10,"contents":[{"substance":"no such thing","mL":2}],"temperaturesC":[20]}""", "/contents/0/substance: no substance \"no such thing\" is on file")]
    [InlineData("""{"vesselVolumeMl":10,"contents":[{"substance":"acetone","mL":2},{"substance":"67-64-1","mL":1}],"temperaturesC":[20]}""", "/contents/1/substance: is acetone, which /contents/0 lists already")]
    [InlineData("""{"vesselVolumeMl":10,"contents":[{"substance":"acetone","mL":2}],"temperaturesC":[-300]}""", "/temperaturesC/0: is at or below absolute zero")]
    [InlineData("""{"vesselVolumeMl":10,"contents":[{"substance":"nitrogen","mL":2}],"temperaturesC":[20]}""", "/contents/0/mL: nitrogen is a gas at the fill temperature")]
    public void Vessel_BadInput_IsRefusedWithItsPlaceAndReason(string input, string expected)
    {
        Run run = Run.WithInput($"[{input}]", "vessel", "-");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains(expected, run.Error, StringComparison.Ordinal);
    }
}
