using PreApproval.Procedures.Workflow;

namespace PreApproval.Procedures.Tests;

/// <summary>Unicode category Cf holds the direction marks (The Unicode Standard, chapter 23.2 and UAX #9); U+200D joins.</summary>
public sealed class TypedTextTests
{
    [Theory]
    [InlineData("a\u202Eb")]
    [InlineData("a\uFEFFb")]
    [InlineData("a\u200Bb")]
    [InlineData("a\u0007b")]
    public void Fault_HiddenCharacter_IsRefused(string text) => Assert.Equal("It has characters that can't be shown.", TypedText.Fault(text));

    [Theory]
    [InlineData("two\nlines")]
    [InlineData("क्\u200Dष")]
    [InlineData("25 °C, ΔT 3 K")]
    public void Fault_OrdinaryText_IsTaken(string text) => Assert.Null(TypedText.Fault(text));

    [Fact]
    public void Title_HiddenCharacter_BecomesASpace() => Assert.Equal("a b", TypedText.Title("a\u202Eb"));
}
