using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Health;

/// <summary>Classes of pure substances: Regulation (EC) No 1272/2008, Annex VI, Table 3, from memory.</summary>
public sealed class HealthScreenTests
{
    // toxic, not fatal, when breathed; potassium cyanide is the one that is fatal by every way
    [Theory]
    [InlineData("phenol", "H301, H311, H331")]
    [InlineData("potassium fluoride", "H301, H311, H331")]
    [InlineData("4-chloroaniline", "H301, H311, H331")]
    [InlineData("potassium cyanide", "H300, H310, H330")]
    public void Screen_PureSubstance_KeepsItsOwnClasses(string name, string codes)
    {
        var plan = new Plan { Materials = [Of("a", name, G(1))], Vessels = [Flask()], Steps = [Step("1", StepAction.Charge, "flask", 20, "a")] };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "toxicity.acute");

        Assert.Contains($"“a” ({codes})", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>The rules of Annex I for mixtures say nothing about a substance as it is; of a solution they are the source.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Screen_Evidence_CitesTheRulesForMixturesOfMixturesOnly(bool solution)
    {
        var material = solution ? WeightPercent("a", "phenol", "water", 50, G(1)) : Of("a", "phenol", G(1));
        var plan = new Plan { Materials = [material], Vessels = [Flask()], Steps = [Step("1", StepAction.Charge, "flask", 20, "a")] };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "toxicity.acute");

        Assert.All(finding.Evidence, evidence => Assert.Equal(solution, evidence.Sources.Any(static source => source.Contains("Annex I,", StringComparison.Ordinal))));
    }
}
