using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;

namespace PreApproval.Hazards.Tests.Safeguards;

public sealed class MakeshiftDetailTests
{
    /// <summary>
    /// A blast shield is a rated sheet of plastic that stands by itself (Prudent Practices 2011, 7.F, from memory): a beaker, foil, a towel, a box or what is taped together in its place is none, however it is described; a real one
    /// beside a beaker is one.
    /// </summary>
    [Theory]
    [InlineData("inverted beaker", Recognition.Improvised)]
    [InlineData("an inverted glass beaker and tape", Recognition.Improvised)]
    [InlineData("made of an inverted beaker", Recognition.Improvised)]
    [InlineData("two boxes of gloves", Recognition.Improvised)]
    [InlineData("aluminium foil", Recognition.Improvised)]
    [InlineData("thick folded towel in front", Recognition.Improvised)]
    [InlineData("taped acrylic sheet", Recognition.Improvised)]
    [InlineData("free-standing, polycarbonate, weighted", Recognition.Recognised)]
    [InlineData("polycarbonate, around the beaker of the oil bath", Recognition.Recognised)]
    [InlineData("polycarbonate sheet with the beaker behind it", Recognition.Recognised)]
    [InlineData("in front of the beaker", Recognition.Recognised)]
    [InlineData(null, Recognition.Recognised)]
    public void Judge_BlastShieldWithDetail_ReadsWhatItIs(string? detail, Recognition expected) =>
        Assert.Equal(expected, ControlList.Judge(new Safeguard("blast shield", [], detail)));

    /// <summary>Foil against light makes no hood improvised, and a beaker of ice no cooling.</summary>
    [Theory]
    [InlineData("fume hood", "flask in aluminium foil against light")]
    [InlineData("cooling", "beaker of ice water")]
    public void Judge_OtherControls_KeepTheirDetail(string control, string detail) =>
        Assert.Equal(Recognition.Recognised, ControlList.Judge(new Safeguard(control, [], detail)));
}
