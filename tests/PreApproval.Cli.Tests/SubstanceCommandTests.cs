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

    [Theory]
    [InlineData("OC(C)=O", "64-19-7")]
    [InlineData("c1ccccc1C", "108-88-3")]
    [InlineData("[Na]O", "1310-73-2")]
    public void Substance_AnySpellingOfAListedStructure_IsTheListedSubstance(string smiles, string cas) =>
        Assert.Equal(cas, Run.Of("substance", smiles, "--json").Json["identity"]!["cas"]!.GetValue<string>());

    /// <summary>4-(Azidomethyl)aniline: C7H8N4, 148.17 g/mol (IUPAC weights of 2021, by hand). It holds an azide: no measured value is on file.</summary>
    [Fact]
    public void Substance_UnlistedStructure_GivesCompositionFamiliesAndWhatIsNotKnown()
    {
        Run run = Run.Of("substance", "Nc1ccc(CN=[N+]=[N-])cc1", "--json");

        Assert.Equal(0, run.ExitCode);
        JsonNode identity = run.Json["identity"]!;
        Assert.Equal(("C7H8N4", false), (identity["formula"]!.GetValue<string>(), identity["listed"]!.GetValue<bool>()));
        Assert.Equal(148.17, identity["molarMass"]!.GetValue<double>(), 2);
        Assert.Contains("organic azides", identity["groups"]!.AsArray().Select(group => group!.GetValue<string>()), StringComparer.Ordinal);
        Assert.Contains("organic azide", run.Json["structure"]!["energeticGroups"]!.AsArray().Select(group => group!.GetValue<string>()), StringComparer.Ordinal);
        Assert.Equal("not on file", run.Json["hazardStatements"]!["status"]!.GetValue<string>());
        JsonNode boiling = run.Json["values"]!.AsArray().First(value => value!["name"]!.GetValue<string>() is "boiling point")!;
        Assert.Null(boiling["value"]);
        Assert.Contains("no group for", boiling["because"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    /// <summary>Joback and Reid 1987, by hand: 4-ethylacetophenone: 2 CH3, CH2, C=O, 4 ring =CH, 2 ring =C: 198 + 315.73 = 513.73 K.</summary>
    [Fact]
    public void Substance_UnlistedStructure_GivesEstimatesWithErrorModelAndSource()
    {
        JsonNode json = Run.Of("substance", "CCc1ccc(cc1)C(C)=O", "--json").Json;

        JsonNode boiling = json["values"]!.AsArray().First(value => value!["name"]!.GetValue<string>() is "boiling point")!;
        Assert.Equal(198 + (2 * 23.58) + 22.88 + 76.75 + (4 * 26.73) + (2 * 31.01) - 273.15, boiling["value"]!.GetValue<double>(), 6);
        Assert.Equal((45.0, "estimated"), (boiling["error"]!.GetValue<double>(), boiling["quality"]!.GetValue<string>()));
        Assert.Contains("Joback", boiling["model"]!.GetValue<string>(), StringComparison.Ordinal);
        Assert.NotEmpty(boiling["source"]!.AsArray());
    }

    [Theory]
    [InlineData("C[C@H](O)CC", "stereoisomer of ")]
    [InlineData("[13CH3]I", "isotopologue of ")]
    [InlineData("CC(=O)[O-]", "another charge form of ")]
    public void Substance_KinOfAListedSubstance_TakesNoValuesAndSaysSo(string smiles, string words)
    {
        Run run = Run.Of("substance", smiles);

        Assert.Equal(0, run.ExitCode);
        Assert.Contains(words, run.Output, StringComparison.Ordinal);
        Assert.Contains("values not taken", run.Output, StringComparison.Ordinal);
        Assert.Contains("not in the catalogue", run.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("CC(C", "character 3: this parenthesis is never closed")]
    [InlineData("C1CC=", "character 5: the bond leads to no atom")]
    [InlineData("C1CC", "character 2: ring 1 is opened here and never closed")]
    public void Substance_UnreadableStructure_IsRefusedWithTheCharacter(string smiles, string words)
    {
        Run run = Run.Of("substance", smiles, "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains(words, run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Substance_TenThousandCharacters_AreRefused() =>
        Assert.Equal(2, Run.WithInput($$"""[{"smiles":"{{new string('C', 10_000)}}"}]""", "substance", "-", "--json").ExitCode);

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
        Assert.Contains("did you mean \"acetone\"", run.Problem["errors"]![0]!["message"]!.GetValue<string>(), StringComparison.Ordinal);
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

    /// <summary>Benzene: H350 carcinogenicity 1A (Regulation (EC) No 1272/2008, Annex VI); 1 ppm (29 CFR 1910.1028); IDLH 500 ppm (NIOSH 1994); group 1 (IARC volume 120).</summary>
    [Fact]
    public void Substance_HealthValues_AreInTheJson()
    {
        JsonNode json = Run.Of("substance", "benzene", "--json").Json;

        JsonNode statement = Assert.Single(json["hazardStatements"]!["statements"]!.AsArray(), entry => entry!["code"]!.GetValue<string>() is "H350")!;
        Assert.Equal("carcinogenicity", statement["class"]!.GetValue<string>());
        Assert.Equal("1A", statement["category"]!.GetValue<string>());
        Assert.Equal("assumed", json["hazardStatements"]!["quality"]!.GetValue<string>());
        Assert.NotEmpty(json["hazardStatements"]!["source"]!.AsArray());
        JsonNode permissible = Assert.Single(json["exposureLimits"]!["limits"]!.AsArray(), entry => entry!["kind"]!.GetValue<string>() is "TWA" && entry["jurisdiction"]!.GetValue<string>() is "United States, OSHA (permissible)")!;
        Assert.Equal(1, permissible["ppm"]!.GetValue<double>());
        Assert.Equal(3.19, permissible["mgPerM3"]!.GetValue<double>(), 0.005);
        Assert.Equal("mgPerM3", permissible["converted"]!.GetValue<string>());
        Assert.Equal(1987, permissible["year"]!.GetValue<int>());
        Assert.Single(json["exposureLimits"]!["limits"]!.AsArray(), entry => entry!["kind"]!.GetValue<string>() is "TWA" && entry["governs"]!.GetValue<bool>());
        Assert.True(json["exposureLimits"]!["skin"]!.GetValue<bool>());
        Assert.Equal(500, json["idlh"]!["ppm"]!.GetValue<double>());
        Assert.Equal("1", json["carcinogen"]!["iarcGroup"]!.GetValue<string>());
    }

    [Fact]
    public void Substance_NothingOnFile_SaysSoAndNotThatThereIsNoHazard()
    {
        JsonNode json = Run.Of("substance", "hydrazoic acid", "--json").Json;
        Run table = Run.Of("substance", "hydrazoic acid");

        foreach (string member in (string[])["hazardStatements", "exposureLimits", "idlh", "carcinogen"])
        {
            Assert.Equal("not on file", json[member]!["status"]!.GetValue<string>());
        }

        Assert.Contains("Hazard statements: not on file (this does not mean: no hazard)", table.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Substance_NotClassified_NamesTheBasis()
    {
        JsonNode json = Run.Of("substance", "sucrose", "--json").Json["hazardStatements"]!;

        Assert.Equal("not classified", json["status"]!.GetValue<string>());
        Assert.Empty(json["statements"]!.AsArray());
        Assert.NotEmpty(json["note"]!.GetValue<string>());
    }

    [Fact]
    public void Substance_HealthValuesInTheTable_NameWhoAndWhenAndWhatGoverns()
    {
        string output = Run.Of("substance", "nitrogen dioxide").Output;

        Assert.Contains("H330  acute toxicity, inhalation 2", output, StringComparison.Ordinal);
        Assert.Contains("TWA (governs)", output, StringComparison.Ordinal);
        Assert.Contains("Canada, Ontario", output, StringComparison.Ordinal);
        Assert.Contains("IDLH: 13.0 ppm", output, StringComparison.Ordinal);
        Assert.Contains("safety data sheet", output, StringComparison.Ordinal);
    }

    [Fact]
    public void Substance_Correlations_CarryTheirRanges()
    {
        JsonNode json = Run.Of("substance", "toluene", "--at", "100", "--json").Json;

        Assert.All(json["correlations"]!.AsArray(), correlation =>
        {
            Assert.True(correlation!["range"]!["minimumC"]!.GetValue<double>() < correlation["range"]!["maximumC"]!.GetValue<double>());
            Assert.NotEmpty(correlation["source"]!.AsArray());
        });
        Assert.Single(json["correlations"]!.AsArray(), correlation => correlation!["quantity"]!.GetValue<string>() is "vapour pressure" && correlation["governs"]!.GetValue<bool>());
        JsonNode pressure = Assert.Single(json["values"]!.AsArray(), entry => entry!["name"]!.GetValue<string>() is "vapour pressure")!;
        Assert.InRange(100, pressure["range"]!["minimumC"]!.GetValue<double>(), pressure["range"]!["maximumC"]!.GetValue<double>());
    }

    /// <summary>Critical temperature of propane: 96.7 °C (CRC Handbook).</summary>
    [Fact]
    public void Substance_AboveTheCriticalTemperature_IsAGasWithoutANumber()
    {
        JsonNode json = Run.Of("substance", "propane", "--at", "100", "--json").Json;

        JsonNode pressure = Assert.Single(json["values"]!.AsArray(), entry => entry!["name"]!.GetValue<string>() is "vapour pressure")!;
        Assert.Null(pressure["value"]);
        Assert.StartsWith("gas: above its critical temperature of 96.7 °C", pressure["because"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("67-64-2", "its check digit is wrong")]
    [InlineData("chlorob", "\"chlorobenzene\"")]
    [InlineData("ethil acetate", "did you mean \"ethyl acetate\"?")]
    public void Substance_NotFound_SaysWhatIsWrongOrNear(string word, string expected)
    {
        Run run = Run.Of("substance", word, "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains(expected, run.Problem["errors"]![0]!["message"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("25,5")]
    [InlineData("warm")]
    [InlineData("298 K")]
    public void Substance_TemperatureThatIsNoNumber_SaysHowToWriteIt(string temperature)
    {
        Run run = Run.Of("substance", "acetone", "--at", temperature, "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains($"not '{temperature}'", run.Problem["detail"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("NaN")]
    [InlineData("-273.15")]
    [InlineData("1e9")]
    public void Substance_TemperatureOutOfReason_IsUnusable(string temperature)
    {
        Run run = Run.Of("substance", "acetone", "--at", temperature, "--json");

        Assert.Equal(2, run.ExitCode);
        Assert.Contains("-273.15 (excluded) to 2726.85", run.Problem["detail"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    private static double Value(JsonNode json, string name, string unit)
    {
        JsonNode value = Assert.Single(json["values"]!.AsArray(), entry => string.Equals(entry!["name"]!.GetValue<string>(), name, StringComparison.Ordinal))!;
        Assert.Equal(unit, value["unit"]!.GetValue<string>());
        return value["value"]!.GetValue<double>();
    }
}
