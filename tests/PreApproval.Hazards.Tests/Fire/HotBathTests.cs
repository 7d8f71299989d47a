using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

/// <summary>
/// Water is not for burning oil that is hotter than water boils, nor for live equipment: scope of EN 2 (class F), NFPA 10 (classes K and C) and the electrical test of EN 3-7, from
/// memory; water boils at 100 °C.
/// </summary>
public sealed class HotBathTests
{
    /// <summary>How grave: common practice, no source.</summary>
    [Theory]
    [InlineData(new[] { Agent.Water }, Severity.Warning)]
    [InlineData(new[] { Agent.Foam }, Severity.Warning)]
    [InlineData(new[] { Agent.Water, Agent.CarbonDioxide }, Severity.Caution)]
    public void Screen_WaterListedBesideAHotOilBath_IsAFinding(Agent[] agents, Severity severity)
    {
        var finding = Assert.Single(Found(HeatSource.OilBath, 220, agents), static finding => finding.Code is "fire.water-on-hot-oil");

        Assert.Equal(severity, finding.Severity);
        Assert.Contains("EN 2 class F (NFPA 10 class K)", finding.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(HeatSource.OilBath, 80, Agent.Water)]
    [InlineData(HeatSource.OilBath, 220, Agent.CarbonDioxide)]
    [InlineData(HeatSource.WaterBath, 90, Agent.Water)]
    public void Screen_CoolBathOrNoWater_SaysNothing(HeatSource source, double celsius, Agent agent) =>
        Assert.DoesNotContain(Found(source, celsius, agent), static finding => finding.Code is "fire.water-on-hot-oil");

    [Theory]
    [InlineData(HeatSource.Mantle, Agent.Water, true)]
    [InlineData(HeatSource.Hotplate, Agent.Foam, true)]
    [InlineData(HeatSource.Mantle, Agent.CarbonDioxide, false)]
    [InlineData(HeatSource.Steam, Agent.Water, false)]
    [InlineData(HeatSource.OilBath, Agent.Water, false)]
    public void Screen_WaterBesideLiveHeating_IsANoticeUnlessTheOilIsTheGraverReason(HeatSource source, Agent agent, bool told)
    {
        var finding = Found(source, 220, agent).SingleOrDefault(static finding => finding.Code is "fire.water-on-live");

        Assert.Equal(told ? Severity.Notice : null, finding?.Severity);
        Assert.Equal(told, finding?.Statement.Contains("class C in NFPA 10; EN 2 has no class for it", StringComparison.Ordinal) ?? false);
    }

    [Fact]
    public void Screen_WaterStandsAtThePlace_CountsToo()
    {
        var plan = Plan(HeatSource.OilBath, 220, Agent.CarbonDioxide) with { Place = new Place("Bench 4", PlaceKind.Bench, null, null) { Agents = [Agent.CarbonDioxide, Agent.Water] } };

        Assert.Equal(Severity.Caution, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.water-on-hot-oil").Severity);
    }

    [Fact]
    public void FireActions_OilBath_NamesBothClassesAndKeepsWaterAway()
    {
        var action = Screener.Screen(Plan(HeatSource.OilBath, 220, Agent.FireBlanket), Policy.Default).FireActions[^1];

        Assert.Contains(Burning.HotOil, action.Burning);
        Assert.Equal("EN 2 class B and F (NFPA 10 class B and K)", FireClass.Words(action.Burning));
        Assert.DoesNotContain(action.Fit, static agent => agent.Contains("foam", StringComparison.Ordinal) || agent.Contains("water", StringComparison.Ordinal));
        Assert.Contains("cover it, or use fire blanket", action.FirstAction, StringComparison.Ordinal);
        Assert.Contains("Never water or foam", action.FirstAction, StringComparison.Ordinal);
    }

    /// <summary>A closed vessel in a fire may burst: away from it is the one order, for the bath under it too (common practice, no source).</summary>
    [Fact]
    public void FireActions_ClosedVesselInAnOilBath_SayOneOrder()
    {
        var plan = Plan(HeatSource.OilBath, 150, Agent.CarbonDioxide);
        var action = Screener.Screen(plan with { Steps = [plan.Steps[0], Step("s", StepAction.Seal, "flask", 20), plan.Steps[1]] }, Policy.Default).FireActions[^1];

        Assert.StartsWith("Do not go near a closed vessel in a fire: leave", action.FirstAction, StringComparison.Ordinal);
        Assert.Contains("A fire of the oil bath heats the closed vessel in it: leave then too", action.FirstAction, StringComparison.Ordinal);
        Assert.DoesNotContain("cover it", action.FirstAction, StringComparison.Ordinal);
        Assert.DoesNotContain("carbon dioxide", action.FirstAction, StringComparison.Ordinal);
    }

    /// <summary>Carbon dioxide is forbidden on sodium (Data/agent-bans.tsv): it is no advice for the bath that the sodium hangs in.</summary>
    [Fact]
    public void FireActions_SodiumInAnOilBath_NameForTheBathOnlyWhatTheSodiumAllows()
    {
        var action = Screener.Screen(Sodium(), Policy.Default).FireActions.Single(static action => action.Steps.Contains("2", StringComparer.Ordinal));

        Assert.Contains("or use dry sand from a distance", action.FirstAction, StringComparison.Ordinal);
        Assert.DoesNotContain("or use carbon dioxide", action.FirstAction, StringComparison.Ordinal);
        var finding = Assert.Single(Screener.Screen(Sodium(), Policy.Default).Findings, static finding => finding.Code is "fire.water-on-hot-oil");
        Assert.Contains("dry sand serves on this bath, beside what hangs in it", finding.Statement, StringComparison.Ordinal);
        Assert.Equal(Severity.Warning, finding.Severity);
    }

    /// <summary>Oil does not cool at once: while a vessel cools in it water is as wrong as before. Afterwards it is not.</summary>
    [Fact]
    public void FireActions_CoolingAfterAnOilBath_StillKeepWaterAway()
    {
        var plan = Plan(HeatSource.OilBath, 150, Agent.Foam);
        var actions = Screener.Screen(plan with { Steps = [.. plan.Steps, Step("3", StepAction.Cool, "flask", 20), Step("4", StepAction.Stir, "flask", 20)] }, Policy.Default).FireActions;

        var cooling = actions.Single(static action => action.Steps.Contains("3", StringComparer.Ordinal));
        Assert.Contains("Never water or foam", cooling.FirstAction, StringComparison.Ordinal);
        Assert.DoesNotContain(cooling.Fit, static agent => agent.Contains("foam", StringComparison.Ordinal));
        Assert.Contains(Burning.HotOil, cooling.Burning);
        Assert.DoesNotContain("oil", actions.Single(static action => action.Steps.Contains("4", StringComparer.Ordinal)).FirstAction, StringComparison.Ordinal);
    }

    private static Plan Sodium() => new()
    {
        Materials = [Of("metal", "sodium", G(2), Role.Reagent), Of("solvent", "toluene", ML(50), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "solvent", "metal"), Step("2", StepAction.Heat, "flask", 100) with { HeatSource = HeatSource.OilBath }],
        FireResponse = Agents(Agent.CarbonDioxide, Agent.Foam),
        Place = new Place("hood 1", PlaceKind.Hood, null, null),
    };

    private static IReadOnlyList<Finding> Found(HeatSource source, double celsius, params Agent[] agents) => Screener.Screen(Plan(source, celsius, agents), Policy.Default).Findings;

    private static Plan Plan(HeatSource source, double celsius, params Agent[] agents) => new()
    {
        Materials = [Of("solvent", "dimethyl sulfoxide", ML(20), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "solvent"), Step("2", StepAction.Heat, "flask", celsius) with { HeatSource = source }],
        FireResponse = Agents(agents),
        Place = new Place("hood 1", PlaceKind.Hood, null, null),
    };
}
