using System.Text.Json.Nodes;

namespace PreApproval.Cli.Tests;

/// <summary>What pairs do by general chemistry (Chemistry of the Elements; Bretherick's Handbook), from memory.</summary>
public sealed class PairCommandTests
{
    /// <summary>One mole of hydrogen for each hydride: inorganic textbooks.</summary>
    [Fact]
    public void Pair_SodiumHydrideAndWater_IsAHazardWithItsHydrogen()
    {
        Run run = Run.Of("pair", "sodium hydride", "water", "--json");

        Assert.Equal(3, run.ExitCode);
        JsonNode pair = Assert.Single(run.Json["pairs"]!.AsArray())!;
        Assert.Equal("hazard", Text(pair, "assessment"));
        Assert.Equal("danger", Text(pair, "severity"));
        Assert.Equal(1, pair["gas"]![0]!["molPerEquivalent"]!.GetValue<double>());
        Assert.Equal("hydrogen", Text(pair["gas"]![0]!, "name"));
        Assert.NotEmpty(pair["source"]!.AsArray());
    }

    [Fact]
    public void Pair_HexaneAndEthylAcetate_IsNoneKnownWithABasisAndClear()
    {
        Run run = Run.Of("pair", "110-54-3", "ethyl acetate", "--json");

        Assert.Equal(0, run.ExitCode);
        JsonNode pair = Assert.Single(run.Json["pairs"]!.AsArray())!;
        Assert.Equal("none known", Text(pair, "assessment"));
        Assert.Null(pair["severity"]);
        Assert.False(string.IsNullOrEmpty(Text(pair, "reason")));
        Assert.NotEmpty(pair["source"]!.AsArray());
    }

    [Fact]
    public void Pair_ThreeNames_GiveEveryPairInTheirOrder()
    {
        Run run = Run.Of("pair", "acetone", "chloroform", "potassium hydroxide", "--json");

        Assert.Equal(3, run.ExitCode);
        Assert.Equal(["acetone+chloroform", "acetone+potassium hydroxide", "chloroform+potassium hydroxide"], run.Json["pairs"]!.AsArray().Select(static pair => $"{Text(pair!, "a")}+{Text(pair!, "b")}"), StringComparer.Ordinal);
    }

    [Fact]
    public void Pair_NamedSolutionsAndSurroundings_AreUnderstood()
    {
        Assert.Equal("hazard", Text(Run.Of("pair", "bleach", "hydrochloric acid", "--json").Json["pairs"]![0]!, "assessment"));
        Assert.Equal("hazard", Text(Run.Of("pair", "hydrofluoric acid", "glass", "--json").Json["pairs"]![0]!, "assessment"));
        Assert.Equal("danger", Text(Run.Of("pair", "tert-butyllithium", "air", "--json").Json["pairs"]![0]!, "severity"));
    }

    [Fact]
    public void Pair_NothingKnown_IsNotAssessedAndNeverCompatible()
    {
        Run run = Run.Of("pair", "vinyl acetate", "borane dimethyl sulfide");

        Assert.Equal(0, run.ExitCode);
        Assert.Contains("not assessed", run.Output, StringComparison.Ordinal);
        Assert.Contains("does not mean compatible", run.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Pair_UnknownName_IsUnusableWithItsPlaceAndAHint()
    {
        Run run = Run.Of("pair", "water", "tolune", "--json");

        Assert.Equal(2, run.ExitCode);
        JsonNode problem = JsonNode.Parse(run.Error)!;
        Assert.Equal("/1", Text(problem["errors"]![0]!, "path"));
        Assert.Contains("toluene", Text(problem["errors"]![0]!, "message"), StringComparison.Ordinal);
    }

    /// <summary>The bottle brings acid and peroxide, the second name the solvent.</summary>
    [Fact]
    public void Pair_BottleOfTwoPartsAndASolvent_FindsTheThreePartRow() =>
        Assert.Contains("peroxymonosulfuric-acid-with-ketone", Run.Of("pair", "piranha", "acetone", "--json").Json["pairs"]![0]!["encounters"]!.AsArray().Select(static key => key!.GetValue<string>()), StringComparer.Ordinal);

    [Fact]
    public void Pair_LiquidNitrogenAndAir_NamesCondensedOxygen() =>
        Assert.Equal("up to −183 °C", Text(Run.Of("pair", "liquid nitrogen", "air", "--json").Json["pairs"]![0]!, "conditions"));

    [Fact]
    public void Pair_BrokenStructure_NamesTheCharacter() =>
        Assert.Contains("character 2", Run.Of("pair", "C1CC", "water").Error, StringComparison.Ordinal);

    [Fact]
    public void Pair_OneName_IsUnusable() => Assert.Equal(2, Run.Of("pair", "water").ExitCode);

    private static string Text(JsonNode node, string member) => node[member]!.GetValue<string>();
}
