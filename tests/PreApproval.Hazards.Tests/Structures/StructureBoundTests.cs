using PreApproval.Hazards.Structures;

namespace PreApproval.Hazards.Tests.Structures;

/// <summary>What is too long, too entangled or too symmetrical ends after a bounded number of steps, with words. The bounds are our own, no source.</summary>
public sealed class StructureBoundTests
{
    private const string Cage = "c12c3c4c5c1c1c6c7c2c2c8c3c3c9c4c4c%10c5c5c1c1c6c6c%11c7c2c2c7c8c3c3c8c9c4c4c9c%10c5c5c1c1c6c6c%11c2c2c7c3c3c8c4c4c9c5c1c1c6c2c3c41.CCC";

    [Theory]
    [InlineData("C", 10_000)]
    [InlineData("(", 10_000)]
    [InlineData("[", 10_000)]
    [InlineData("C1", 10_000)]
    [InlineData("c1ccccc1", 10_000)]
    public void TryRead_TenThousandCharacters_AreRefused(string part, int length)
    {
        var text = string.Concat(Enumerable.Repeat(part, length))[..length];
        Assert.False(SmilesReader.TryRead(text, out _, out var error));
        Assert.Equal($"Character 2001: the text has {length} characters; structures up to 2000 are read", error.ToString());
    }

    [Fact]
    public void TryRead_FiveHundredAtoms_AreReadAndOneMoreIsRefused()
    {
        Assert.Equal("C500H1002", Structure.Of(new string('C', 500)).Formula);
        Assert.False(SmilesReader.TryRead(new string('C', 501), out _, out var error));
        Assert.Equal((500, "this is atom 501; structures up to 500 atoms are read"), (error.Position, error.Message));
    }

    [Fact]
    public void TryRead_BranchesFourHundredDeep_AreRead() =>
        Assert.Equal("C401H804", Structure.Of("C" + string.Concat(Enumerable.Repeat("(C", 400)) + new string(')', 400)).Formula);

    // 64 atoms in 8 rows of squares: 49 independent rings, whose shortest cycles are looked for within 200 000 steps
    [Fact]
    public void TryRead_AGridOfSquares_IsRefused()
    {
        Assert.False(SmilesReader.TryRead(
            "C1C2C3C4C5C6C7CC8C77C66C55C44C33C22C1C1C22C33C44C55C66C77C8C8C77C66C55C44C33C22C1C1C22C33C44C55C66C77C8C8C77C66C55C44C33C22C1C1C22C33C44C55C66C77C8CC7C6C5C4C3C2C1",
            out _,
            out var error));
        Assert.Contains("too entangled", error.Message, StringComparison.Ordinal);
        Assert.Equal(0, error.Position);
    }

    [Fact]
    public void TryRead_SixtyOneRings_AreRefused()
    {
        Assert.Equal(60, Structure.Of(string.Concat(Enumerable.Repeat("C1CC1", 60))).Rings.Independent);
        Assert.False(SmilesReader.TryRead(string.Concat(Enumerable.Repeat("C1CC1", 61)), out _, out var error));
        Assert.Contains("up to 60 are read", error.Message, StringComparison.Ordinal);
    }

    // a chain of branched atoms with 166 like ends: the search for the canonical order ends by its bound
    [Fact]
    public void Key_OfAVerySymmetricalStructure_EndsAndNamesTheSameAtoms()
    {
        var smiles = string.Concat(Enumerable.Repeat("C(C)(C)", 166));
        var key = Structure.Key(smiles);
        Assert.Equal("C498H998", Structure.Of(key.WithoutStereo).Formula);
        Assert.Equal(key, Structure.Key(smiles));
    }

    // a cage of 60 atoms has no path of 61, and far more than 200 000 shorter ones
    [Fact]
    public void Match_APatternThatFitsNearlyEverywhere_IsGivenUpAsUndecided()
    {
        var pattern = Structure.Pattern(string.Concat(Enumerable.Repeat("[#6]~", 60)) + "[#6]");
        var molecule = Structure.Of(Cage);
        Assert.Equal(PatternMatch.Undecided, pattern.Match(molecule));
    }

    // what an environment was not found in for want of steps may be there: its negation proves nothing
    [Fact]
    public void Match_ANegatedEnvironmentThatIsGivenUp_IsUndecided()
    {
        var pattern = Structure.Pattern("[#6;!$(" + string.Concat(Enumerable.Repeat("[#6]~", 60)) + "[#6])]");
        var molecule = Structure.Of(Cage);
        Assert.Equal(PatternMatch.Undecided, pattern.Match(molecule));
    }

    [Theory]
    [InlineData("", 1, "empty")]
    [InlineData("[C", 1, "never closed")]
    [InlineData("C(C", 2, "never closed")]
    [InlineData("C()C", 3, "begins with an atom")]
    [InlineData("C1CC", 2, "never closed")]
    [InlineData("C=1CC-1", 7, "another bond")]
    [InlineData("C1C1", 4, "bound already")]
    [InlineData("[C@H]", 3, "stereo")]
    [InlineData("F/C=C/F", 2, "stereo")]
    [InlineData("(C).(C)", 1, "grouping")]
    [InlineData("C>>C", 2, "reactions")]
    [InlineData("[$(C]", 3, "never closed")]
    [InlineData("[Q]", 2, "not read")]
    [InlineData("C!C", 3, "a bond is one of")]
    [InlineData("CX", 2, "no atom")]
    [InlineData("C=", 3, "missing")]
    public void TryParse_Fault_PointsAtTheCharacter(string smarts, int character, string words)
    {
        Assert.False(SubstructurePattern.TryParse(smarts, out _, out var error));
        Assert.Equal((character, true), (error.Position + 1, error.Message.Contains(words, StringComparison.Ordinal)));
    }

    [Fact]
    public void TryParse_TooLongOrTooDeep_IsRefused()
    {
        Assert.False(SubstructurePattern.TryParse(new string('C', 10_000), out _, out var length));
        Assert.Contains("up to 1000", length.Message, StringComparison.Ordinal);
        Assert.False(SubstructurePattern.TryParse(new string('C', 65), out _, out var atoms));
        Assert.Contains("up to 64 atoms", atoms.Message, StringComparison.Ordinal);
        var nested = string.Concat(Enumerable.Repeat("[$(C", 40)) + string.Concat(Enumerable.Repeat(")]", 40));
        Assert.False(SubstructurePattern.TryParse(nested, out _, out var depth));
        Assert.Contains("8 deep", depth.Message, StringComparison.Ordinal);
        Assert.True(SubstructurePattern.TryParse("C" + new string('!', 900) + "-C", out _, out _));
    }
}
