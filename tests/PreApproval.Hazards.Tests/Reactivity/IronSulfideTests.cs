using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

public sealed class IronSulfideTests
{
    /// <summary>FeS + 2 HCl → FeCl2 + H2S (inorganic textbooks): 20 g of 87.91 g/mol are 0.2275 mol, 5.6 L at 25 °C (24.47 L/mol). With more acid than that the sulfide limits.</summary>
    [Fact]
    public void Screen_IronSulfideInAcid_GivesItsHydrogenSulfide()
    {
        var plan = new Plan
        {
            Materials = [Of("fes", "iron(II) sulfide", G(20)), Of("acid", "hydrogen chloride", Mmol(600)), Of("water", "water", ML(100))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "fes", "water"), Step("2", StepAction.Add, "flask", 20, "acid") with { OverS = 3600 }],
        };

        var findings = Screener.Screen(plan, Policy.Default).Findings;

        Assert.Contains("5.6 L", Assert.Single(findings, static finding => finding.Code.EndsWith("acid-with-sulfide", StringComparison.Ordinal)).Statement, StringComparison.Ordinal);
        Assert.DoesNotContain(findings, static finding => finding.Code is "data.unknown-substance");
    }
}
