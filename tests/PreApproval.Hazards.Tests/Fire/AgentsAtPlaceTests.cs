using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

/// <summary>
/// Class D powder and dry sand serve burning metal; carbon dioxide and a blanket do not (NFPA 10 and 484, Prudent Practices; from memory). How grave an agent
/// is that is listed and not there: common practice, no source.
/// </summary>
public sealed class AgentsAtPlaceTests
{
    [Fact]
    public void Screen_ListedPowderStandsElsewhere_GoesToReview()
    {
        var finding = Assert.Single(Screened("sodium", [Agent.ClassDPowder], [Agent.CarbonDioxide, Agent.FireBlanket]), static finding => finding.Code is "fire.agent-not-there");

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.StartsWith("Class D powder is listed and not among what stands at “Bench 4” (carbon dioxide and fire blanket)", finding.Statement, StringComparison.Ordinal);
        Assert.Empty(finding.ClearedBy);
    }

    [Fact]
    public void Screen_AnotherListedOneServesAndIsThere_IsANoticeThatListingItAloneClears()
    {
        var plan = Plan("sodium", [Agent.ClassDPowder, Agent.DrySand], [Agent.DrySand]);
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.agent-not-there");

        Assert.Equal(Severity.Notice, finding.Severity);
        var cleared = Clearings.Apply(plan, Assert.Single(finding.ClearedBy));
        Assert.DoesNotContain(Screener.Screen(cleared, Policy.Default).Findings, static finding => finding.Code is "fire.agent-not-there" or "fire.no-agent-fits");
    }

    [Theory]
    [InlineData(new[] { Agent.ClassDPowder }, new[] { Agent.ClassDPowder })]
    [InlineData(new[] { Agent.ClassDPowder }, new Agent[0])]
    [InlineData(new Agent[0], new[] { Agent.ClassDPowder })]
    public void Screen_WhatIsListedIsThereOrOneSideIsNotKnown_SaysNothing(Agent[] listed, Agent[] there) =>
        Assert.DoesNotContain(Screened("sodium", listed, there), static finding => finding.Code is "fire.agent-not-there" or "fire.agent-beside");

    [Theory]
    [InlineData(new[] { Agent.DrySand, Agent.CarbonDioxide }, Severity.Notice)]
    [InlineData(new[] { Agent.CarbonDioxide }, Severity.Caution)]
    public void Screen_ForbiddenAgentStandsThereUnlisted_IsTold(Agent[] there, Severity severity)
    {
        var finding = Assert.Single(Screened("sodium", [Agent.DrySand], there), static finding => finding.Code is "fire.agent-beside");

        Assert.Equal(severity, finding.Severity);
        Assert.Contains("4 Na + 3 CO2 → 2 Na2CO3 + C", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>Carbon dioxide serves flammable liquids (EN 3-7, from memory).</summary>
    [Fact]
    public void Screen_SolventAloneAndCarbonDioxideThere_IsNoMatter() =>
        Assert.DoesNotContain(Screened("benzoic acid", [Agent.DryPowder], [Agent.DryPowder, Agent.CarbonDioxide]), static finding => finding.Code is "fire.agent-not-there" or "fire.agent-beside");

    [Fact]
    public void FireActions_ListedPowderStandsElsewhere_NamesItAsNotThere()
    {
        var action = Assert.Single(Screener.Screen(Plan("sodium", [Agent.ClassDPowder], [Agent.CarbonDioxide]), Policy.Default).FireActions);

        Assert.Equal(["carbon dioxide"], action.AtHand);
        Assert.Equal(["class D powder"], action.NotThere);
        Assert.Contains("None of the agents at hand may be used on it", action.FirstAction, StringComparison.Ordinal);
    }

    private static IReadOnlyList<Finding> Screened(string solute, Agent[] listed, Agent[] there) => Screener.Screen(Plan(solute, listed, there), Policy.Default).Findings;

    private static Plan Plan(string solute, Agent[] listed, Agent[] there) => new()
    {
        Materials = [Of("solute", solute, G(1)), Of("toluene", "toluene", ML(50), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "solute", "toluene") with { Headspace = Under("argon") }],
        FireResponse = Agents(listed),
        Place = new Place("Bench 4", PlaceKind.Bench, null, null) { Agents = there },
    };
}
