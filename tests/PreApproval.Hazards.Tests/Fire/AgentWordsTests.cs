using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Tests.Plans;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

public sealed class AgentWordsTests
{
    /// <summary>Ordinary foam collapses on liquids that mix with water (EN 1568-4 tests foams for those apart), so every finding that offers foam says which.</summary>
    [Theory]
    [InlineData("ethanol", true)]
    [InlineData("toluene", false)]
    public void Screen_FoamThatWouldServe_IsOfTheKindThatServes(string solvent, bool resistant)
    {
        var notStated = Finding(solvent, null, "fire.agents-not-stated");
        var unfit = Finding(solvent, Agents(Agent.WetChemical), "fire.no-agent-fits");

        Assert.Contains(resistant ? "alcohol-resistant foam" : "foam", notStated.Statement, StringComparison.Ordinal);
        Assert.Equal(resistant, unfit.Statement.Contains("only where it is alcohol-resistant", StringComparison.Ordinal));
        Assert.Equal(resistant, notStated.Statement.Contains("alcohol-resistant", StringComparison.Ordinal));
    }

    /// <summary>
    /// Azides decompose without air (Prudent Practices 2011, ch. 6, from memory): carbon dioxide and powder put out the solvent around them and not the azide. With nothing else
    /// at hand that is for the author to answer (common practice, no source); with an agent that cools beside them, and below 20 mg, it is a matter of knowing.
    /// </summary>
    [Theory]
    [InlineData(5.0, Severity.Caution, Agent.CarbonDioxide, Agent.DryPowder)]
    [InlineData(5.0, Severity.Notice, Agent.CarbonDioxide, Agent.Foam)]
    [InlineData(0.01, Severity.Notice, Agent.CarbonDioxide, Agent.DryPowder)]
    public void Screen_AgentsThatOnlyKeepOffAir_DoNotPutOutAnAzide(double grams, Severity severity, params Agent[] agents)
    {
        var plan = Of("tosyl azide", grams, "toluene", Agents(agents));

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.agent-forbidden");

        Assert.Equal(severity, finding.Severity);
        Assert.Contains("does not put out organic azides", finding.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain("must not", finding.Statement, StringComparison.Ordinal);
    }

    private static Finding Finding(string solvent, FireResponse? response, string code) =>
        Assert.Single(Screener.Screen(Of("biphenyl", 1, solvent, response), Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal));

    private static Plan Of(string one, double grams, string solvent, FireResponse? response) => new()
    {
        Materials = [PlanOf.Of("one", one, G(grams)), PlanOf.Of("solvent", solvent, ML(50), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "one", "solvent")],
        FireResponse = response,
    };
}
