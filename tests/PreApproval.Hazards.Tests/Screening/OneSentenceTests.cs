using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Screening;

public sealed class OneSentenceTests
{
    /// <summary>Two nitro compounds, two salts: what collides under one code keeps a sentence and an identifier of its own.</summary>
    [Fact]
    public void Screen_TwoFindingsOfOneCodeAndStep_StayTwo()
    {
        var plan = new Plan
        {
            Materials = [Of("a", "compound one", G(1)), Of("b", "compound two", G(1)), Of("water", "water", ML(20))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", null, "a", "b", "water")],
        };

        var unknown = Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "data.unknown-substance").ToArray();

        Assert.Equal(2, unknown.Length);
        Assert.All(unknown, static finding => Assert.Single(finding.Materials));
        Assert.Equal(2, unknown.Select(static finding => finding.Id).Distinct(StringComparer.Ordinal).Count);
    }

    [Theory]
    [InlineData("glass cylinder", VesselMaterial.Glass)]
    [InlineData("measuring cylinder", VesselMaterial.Glass)]
    [InlineData("steel cylinder", VesselMaterial.Metal)]
    [InlineData("gas cylinder", VesselMaterial.Metal)]
    [InlineData("glass-lined steel autoclave", VesselMaterial.Metal)]
    public void MaterialOf_Words_AsSaid(string kind, VesselMaterial material) => Assert.Equal(material, VesselKinds.MaterialOf(kind));
}
