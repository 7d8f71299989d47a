using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Confinement;

public sealed class CondenserTests
{
    /// <summary>Under refluxing toluene (boils at 111 °C) benzoic acid (boils at 249 °C, CRC Handbook) makes up a hundredth of the vapour, whether the amount of toluene is stated or not; alone it does freeze.</summary>
    [Theory]
    [InlineData(true, true, false)]
    [InlineData(true, false, false)]
    [InlineData(false, false, true)]
    public void Screen_RefluxWithASolid_FreezesOnlyWhatIsAlone(bool solvent, bool stated, bool freezes)
    {
        var acid = Of("acid", "benzoic acid", G(5));
        var plan = new Plan
        {
            Materials = solvent ? [acid, Of("toluene", "toluene", stated ? ML(50) : null, Role.Solvent)] : [acid],
            Vessels = [Flask()],
            Steps = [solvent ? Step("1", StepAction.Charge, "flask", 20, "acid", "toluene") : Step("1", StepAction.Charge, "flask", 20, "acid"), Step("2", StepAction.Reflux, "flask", solvent ? 111 : 249)],
        };

        Assert.Equal(freezes, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "pressure.condenser-freezes"));
    }

    /// <summary>EDC is both 1,2-dichloroethane (ethylene dichloride) and the carbodiimide hydrochloride, a solid (reagent catalogues, from memory): 40 mL of the solid is asked about, and freezes nothing.</summary>
    [Fact]
    public void Screen_SolidMeasuredByVolume_IsAskedAbout()
    {
        var plan = new Plan
        {
            Materials = [Of("acid", "benzoic acid", G(5)), Of("edc", "EDC", ML(40), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "acid", "edc"), Step("2", StepAction.Reflux, "flask", 84)],
        };

        var findings = Screener.Screen(plan, Policy.Default).Findings;

        Assert.Contains("a solid: is another substance meant?", Assert.Single(findings, static finding => finding.Code is "data.amount-unknown").Statement, StringComparison.Ordinal);
        Assert.DoesNotContain(findings, static finding => finding.Code is "pressure.condenser-freezes");
    }
}
