using System.Text.Json.Nodes;

namespace PreApproval.Cli.Tests;

public sealed class SubstanceCommandTests
{
    /// <summary>Acetone: C3H6O, 58.08 g/mol; boiling point 56.1 °C (CRC Handbook); 3.72 bar at 100 °C (McGarry 1983); autoignition 465 °C (NFPA 497:2008).</summary>
    [Theory]
    [InlineData("67-64-1")]
    [InlineData("Acetone")]
    [InlineData("propan-2-one")]
    public void Substance_KnownByAnyName_GivesIdentityAndValues(string word)
    {
        Run run = Run.Of("substance", word, "--at", "100", "--json");

        Assert.Equal(0, run.ExitCode);
        JsonNode identity = run.Json["identity"]!;
        Assert.Equal("67-64-1", identity["cas"]!.GetValue<string>());
        Assert.Equal("C3H6O", identity["formula"]!.GetValue<string>());
        Assert.Equal(58.08, identity["molarMass"]!.GetValue<double>(), 2);
        Assert.InRange(Value(run.Json, "boiling point", "°C"), 55.6, 56.6);
        Assert.InRange(Value(run.Json, "vapour pressure", "bar"), 3.72 * 0.98, 3.72 * 1.02);
        Assert.Equal(465, Value(run.Json, "autoignition temperature", "°C"));
        Assert.Equal(-20, Value(run.Json, "flash point", "°C"));
        Assert.Equal(0.025, Value(run.Json, "lower flammable limit", "fraction"));
        Assert.InRange(Value(run.Json, "density", "kg/m³"), 780, 795);
    }

    [Fact]
    public void Substance_EveryValue_NamesItsSourceAndQuality()
    {
        JsonNode json = Run.Of("substance", "toluene", "--json").Json;

        Assert.All(json["values"]!.AsArray(), value =>
        {
            Assert.NotEmpty(value!["source"]!.AsArray());
            Assert.Matches("^(measured|correlated|estimated|assumed)$", value["quality"]!.GetValue<string>());
        });
    }

    [Fact]
    public void Substance_NegativeTemperature_IsTaken()
    {
        Run run = Run.Of("substance", "acetone", "--at", "-20", "--json");

        Assert.Equal(0, run.ExitCode);
        Assert.InRange(Value(run.Json, "vapour pressure", "bar"), 0.025, 0.035);
    }

    [Fact]
    public void Substance_Salt_HasNoVapourPressureAndSaysWhy()
    {
        JsonNode json = Run.Of("substance", "sodium chloride", "--json").Json;

        JsonNode value = json["values"]!.AsArray().First(entry => entry!["name"]!.GetValue<string>() is "vapour pressure")!;
        Assert.Null(value["value"]);
        Assert.NotEmpty(value["because"]!.GetValue<string>());
    }

    [Fact]
    public void Substance_StandardInput_AnswersInPlace()
    {
        Run run = Run.WithInput("""[{"cas":"108-88-3"},{"name":"no such stuff"},{"smiles":"CCO"},7]""", "substance", "-", "--json");

        Assert.Equal(2, run.ExitCode);
        JsonArray answers = run.Json.AsArray();
        Assert.Equal("toluene", answers[0]!["identity"]!["name"]!.GetValue<string>());
        Assert.Equal("/name", answers[1]!["errors"]![0]!["path"]!.GetValue<string>());
        Assert.Equal("64-17-5", answers[2]!["identity"]!["cas"]!.GetValue<string>());
        Assert.NotNull(answers[3]!["errors"]);
    }

    [Fact]
    public void Substance_Unknown_SuggestsANearName()
    {
        Run run = Run.Of("substance", "acetoen", "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.Equal("", run.Output);
        Assert.Contains("did you mean \"acetone\"?", run.Problem["errors"]![0]!["message"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Fact]
    public void Substance_TemperatureBelowAbsoluteZero_IsUnusable() =>
        Assert.Equal(2, Run.Of("substance", "acetone", "--at", "-300", "--json").ExitCode);

    [Fact]
    public void Substance_WithoutJson_IsATable()
    {
        Run run = Run.Of("substance", "acetone");

        Assert.StartsWith("acetone  CAS 67-64-1  C3H6O  58.08", run.Output, StringComparison.Ordinal);
        Assert.Contains("also published", run.Output, StringComparison.Ordinal);
    }

    private static double Value(JsonNode json, string name, string unit)
    {
        JsonNode value = Assert.Single(json["values"]!.AsArray(), entry => string.Equals(entry!["name"]!.GetValue<string>(), name, StringComparison.Ordinal))!;
        Assert.Equal(unit, value["unit"]!.GetValue<string>());
        return value["value"]!.GetValue<double>();
    }
}
