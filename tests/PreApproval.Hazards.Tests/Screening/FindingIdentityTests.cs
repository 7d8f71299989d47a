using CsCheck;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Tests.Screening;

public sealed class FindingIdentityTests
{
    // few letters, and those that identifiers are put together with, so that two often agree for a while
    private static readonly Gen<string> Word = Gen.OneOf("", "a", "b", "a/b", "a+b", "-", "/", "+");

    private static readonly Gen<string?> WordOrNone = Gen.OneOf<string?>(null, "", "a", "b", "a/b", "-", "/");

    private static readonly Gen<Finding> Findings = Gen.Select(Word, WordOrNone, Word.Array[0, 3], Word.Array[0, 2], WordOrNone)
        .Select(static (code, vessel, steps, materials, about) =>
            new Finding { Code = code, Vessel = vessel, Steps = steps, Materials = materials, About = about, Hazard = Hazard.Data, Severity = Severity.Notice, Statement = "" });

    [Fact]
    public void Compare_AnyTwo_IsTheOrdinalOrderOfTheirIdentifiers() =>
        Gen.Select(Findings, Findings).Sample(
            static (one, other) => Math.Sign(FindingIdentity.Compare(one, other)) == Math.Sign(string.CompareOrdinal(one.Id, other.Id)), iter: 20_000);

    [Fact]
    public void Compare_VesselOfThatNameAndNoVessel_IsOneIdentifier()
    {
        // an identifier shows no vessel as a hyphen
        var none = new Finding { Code = "fire.class", Hazard = Hazard.Fire, Severity = Severity.Notice, Statement = "", Steps = ["1"] };

        Assert.Equal("fire.class/-/1", none.Id);
        Assert.Equal(0, FindingIdentity.Compare(none, none with { Vessel = "-" }));
    }
}
