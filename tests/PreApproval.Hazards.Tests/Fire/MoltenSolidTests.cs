using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

public sealed class MoltenSolidTests
{
    /// <summary>
    /// EN 2: liquids and liquefiable solids are class B. Melting points of the CRC Handbook: tert-butanol 25.7, phenol 40.9, naphthalene 80.3, cyclohexanol 25.9, benzoic acid 122.4 °C:
    /// the last is class A until it is molten.
    /// </summary>
    [Theory]
    [InlineData("tert-butanol", 20, Burning.Liquid)]
    [InlineData("phenol", 60, Burning.Liquid)]
    [InlineData("naphthalene", 90, Burning.Liquid)]
    [InlineData("cyclohexanol", 20, Burning.Liquid)]
    [InlineData("benzoic acid", 20, Burning.Solid)]
    [InlineData("benzoic acid", 130, Burning.Liquid)]
    public void Of_Contents_BurnAsTheyMelt(string substance, double celsius, Burning expected) =>
        Assert.Equal([expected], BurningMaterials.Of([new Content(Substance(substance), "a", 1, null)], celsius + 273.15));

    [Fact]
    public void Screen_SolidThatMeltsInAStep_ChangesItsClassThere()
    {
        var plan = new Plan
        {
            Materials = [Of("acid", "benzoic acid", G(5))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "acid"), Step("2", StepAction.Heat, "flask", 130), Step("3", StepAction.Heat, "flask", 131)],
            FireResponse = Agents(Agent.DryPowder),
        };

        var classes = Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "fire.class").ToArray();

        Assert.Contains("EN 2 class A", Assert.Single(classes, static finding => finding.Steps is ["1"]).Statement, StringComparison.Ordinal);
        Assert.Contains("EN 2 class B", Assert.Single(classes, static finding => finding.Steps.Contains("2", StringComparer.Ordinal)).Statement, StringComparison.Ordinal);
    }

    /// <summary>Water on potassium makes hydrogen and lights it (NFPA 484, Bretherick's Handbook, from memory): what the next step forbids is no answer for the step before.</summary>
    [Theory]
    [InlineData("benzoic acid", null)]
    [InlineData("tert-butanol", "dry sand")]
    public void Screen_NoAgentFits_OffersNothingThatANextStepForbids(string substance, string? offered)
    {
        var plan = new Plan
        {
            Materials = [Of("a", substance, G(50)), Of("potassium", "potassium", G(2))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "a"), Step("2", StepAction.Add, "flask", 20, "potassium")],
            FireResponse = Agents(Agent.ClassDPowder),
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.no-agent-fits" && finding.Steps.Contains("1", StringComparer.Ordinal));

        Assert.Equal(offered, finding.ClearedBy.Count == 0 ? null : Assert.Single(finding.ClearedBy).Text);
    }
}
