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

    // GHS hazard statements, annex 3: what each number says, and nothing beyond it
    [Theory]
    [InlineData("sulfur dioxide", "toxicity.acute", "is toxic when breathed")]
    [InlineData("sodium azide", "toxicity.acute", "is fatal when swallowed")]
    [InlineData("phenol", "toxicity.acute", "is toxic when swallowed, on the skin or breathed")]
    [InlineData("N,N-dimethylformamide", "toxicity.cmr", "causes harm to reproduction (category 1)")]
    [InlineData("formaldehyde", "toxicity.cmr", "causes cancer (category 1)")]
    [InlineData("sulfuric acid", "toxicity.corrosive", "burns skin and eyes")]
    [InlineData("1-butanol", "toxicity.corrosive", "damages the eyes for good")]
    public void Screen_Statement_SaysWhatTheNumbersSay(string name, string code, string words)
    {
        var plan = new Plan { Materials = [Of("a", name, G(1))], Vessels = [Flask()], Steps = [Step("1", StepAction.Charge, "flask", 20, "a")] };

        Assert.Contains($") {words}", Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal)).Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_StatementOfSeveral_NamesEveryWay()
    {
        var plan = new Plan { Materials = [Of("a", "sulfur dioxide", G(1)), Of("b", "potassium cyanide", G(1))], Vessels = [Flask()], Steps = [Step("1", StepAction.Charge, "flask", 20, "a", "b")] };

        Assert.Contains(") are fatal or toxic when swallowed, on the skin or breathed", Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "toxicity.acute").Statement, StringComparison.Ordinal);
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
