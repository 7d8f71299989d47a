using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

/// <summary>Agents for mixed classes after Prudent Practices, NFPA 10 and 484 and EN 3-7, from memory.</summary>
public sealed class FirstActionTests
{
    [Theory]
    [InlineData("lithium aluminium hydride", "tetrahydrofuran")]
    [InlineData("sodium", "toluene")]
    public void For_HydrideOrMetalUnderSolvent_CoversWithWhatServesBoth(string reactive, string solvent)
    {
        var words = FirstAction.For(State(reactive, solvent));

        Assert.Contains("class D powder and dry sand", words, StringComparison.Ordinal);
        Assert.Contains("Never water, foam, carbon dioxide", words, StringComparison.Ordinal);
        Assert.Contains("Leave and raise the alarm", words, StringComparison.Ordinal);
    }

    [Fact]
    public void For_AgentsAtHand_NamesTheOneThatFits()
    {
        var words = FirstAction.For(State("sodium", "toluene"), [Agent.CarbonDioxide, Agent.DrySand]);

        Assert.Contains("with dry sand, gently", words, StringComparison.Ordinal);
    }

    [Fact]
    public void For_NoAgentAtHandFits_SaysSo() =>
        Assert.Contains("None of the agents at hand may be used on it", FirstAction.For(State("sodium", "toluene"), [Agent.CarbonDioxide]), StringComparison.Ordinal);

    [Fact]
    public void For_Lithium_WantsAnotherPowderThanSodiumChloride() =>
        Assert.Contains("copper or graphite kind", FirstAction.For(State("lithium", "tetrahydrofuran")), StringComparison.Ordinal);

    [Fact]
    public void For_CarbonDisulfide_MayUseCarbonDioxide()
    {
        var words = FirstAction.For(State("carbon disulfide", "carbon disulfide"), [Agent.CarbonDioxide, Agent.Water]);

        Assert.Contains("use carbon dioxide", words, StringComparison.Ordinal);
        Assert.DoesNotContain("Never", words, StringComparison.Ordinal);
    }

    [Fact]
    public void For_Hydrogen_ShutsTheGasFirst()
    {
        var plan = new Plan
        {
            Materials = [Of("gas", "hydrogen", G(0.1), Role.Gas)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "gas")],
        };

        Assert.StartsWith("Shut off the gas first", FirstAction.For(Walk.Follow(plan, Policy.Default).States[0]), StringComparison.Ordinal);
    }

    /// <summary>A gas that came dissolved burns as one (EN 2, class C) and has no tap. Common practice, no source.</summary>
    [Fact]
    public void For_FormaldehydeInWater_HasNoGasToShut()
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("solution", "formaldehyde", "water", 37, G(50))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "solution")],
        };

        Assert.StartsWith("If it is no larger than the vessel", FirstAction.For(Walk.Follow(plan, Policy.Default).States[0]), StringComparison.Ordinal);
    }

    /// <summary>Sand smothers as the others do: no answer to what brings its own oxygen (Prudent Practices in the Laboratory, from memory).</summary>
    [Theory]
    [InlineData("benzyl azide")]
    [InlineData("benzoyl peroxide")]
    public void Screen_SandForWhatNeedsNoAir_IsNotOffered(string energetic)
    {
        var findings = Screener.Screen(Plan(energetic, "dichloromethane") with { FireResponse = Agents(Agent.CarbonDioxide) }, Policy.Default).Findings;

        Assert.Contains(findings, static finding => finding.Code is "fire.agent-forbidden");
        Assert.DoesNotContain(findings.SelectMany(static finding => finding.ClearedBy), static offer => offer.Entries?.Contains("dry sand", StringComparer.Ordinal) == true);
    }

    // energetic material in a fire: evacuate, do not fight it; an agent is for what has not reached it (Prudent Practices in the Laboratory, from memory)
    [Theory]
    [InlineData("benzoyl peroxide", "toluene")]
    [InlineData("benzyl azide", "tetrahydrofuran")]
    [InlineData("picric acid", "water")]
    public void FireActions_WhatNeedsNoAir_IsLeftAndNoAgentFitsIt(string energetic, string other)
    {
        var action = Assert.Single(Screener.Screen(Plan(energetic, other) with { FireResponse = Agents(Agent.DrySand, Agent.CarbonDioxide) }, Policy.Default).FireActions);

        Assert.StartsWith("Do not fight a fire that has reached " + energetic, action.FirstAction, StringComparison.Ordinal);
        Assert.Contains("Leave, close the door and raise the alarm", action.FirstAction, StringComparison.Ordinal);
        Assert.Contains("Only a small fire near it that has not reached it", action.FirstAction, StringComparison.Ordinal);
        Assert.Empty(action.Fit);
        Assert.NotEmpty(action.Nearby);
        Assert.DoesNotContain("covering", action.FirstAction, StringComparison.Ordinal);
    }

    /// <summary>Nothing in the vessel is known to burn, and a fire sets it off all the same.</summary>
    [Fact]
    public void FireActions_ExplosiveThatNobodyLists_IsThere()
    {
        var action = Assert.Single(Screener.Screen(Energy.SelfFuelledSaltTests.Ground(new PlanSubstance("x", "nickel hydrazine perchlorate", null), 0.1, wet: false), Policy.Default).FireActions);

        Assert.Empty(action.Burning);
        Assert.Empty(action.Fit);
        Assert.StartsWith("Do not fight a fire that has reached nickel hydrazine perchlorate", action.FirstAction, StringComparison.Ordinal);
    }

    [Fact]
    public void FireActions_EthanolAlone_NamesWhatFitsAndNothingNearby()
    {
        var action = Assert.Single(Screener.Screen(Plan("ethanol", "ethanol"), Policy.Default).FireActions);

        Assert.NotEmpty(action.Fit);
        Assert.Empty(action.Nearby);
    }

    [Fact]
    public void For_Ethanol_WantsFoamThatAlcoholDoesNotBreak() =>
        Assert.Contains("alcohol-resistant foam", FirstAction.For(State("ethanol", "ethanol")), StringComparison.Ordinal);

    [Fact]
    public void For_NothingThatBurns_SaysSo() => Assert.StartsWith("Nothing in it is known to burn", FirstAction.For(State("sodium chloride", "water")), StringComparison.Ordinal);

    [Fact]
    public void For_ClosedVessel_IsLeft()
    {
        var plan = Plan("benzoic acid", "toluene");
        plan = plan with { Steps = [.. plan.Steps, Step("2", StepAction.Seal, "flask")] };

        Assert.StartsWith("Do not go near a closed vessel in a fire", FirstAction.For(Walk.Follow(plan, Policy.Default).States[^1]), StringComparison.Ordinal);
    }

    /// <summary>2 Na + 2 H2O and 4 Na + 3 CO2: textbook reactions.</summary>
    [Theory]
    [InlineData(Agent.Water, "2 Na + 2 H2O → 2 NaOH + H2")]
    [InlineData(Agent.CarbonDioxide, "4 Na + 3 CO2 → 2 Na2CO3 + C")]
    public void Screen_ForbiddenAgent_NamesTheReaction(Agent agent, string reaction) =>
        Assert.Contains(reaction, Assert.Single(Screener.Screen(Plan("sodium", "toluene") with { FireResponse = Agents(agent) }, Policy.Default).Findings, static finding => finding.Code is "fire.agent-forbidden").Statement, StringComparison.Ordinal);

    /// <summary>The equation names the metal that is there, or any metal M; zinc, ZnO and magnesium, MgO are not one another's.</summary>
    [Theory]
    [InlineData("potassium", "4 K + 3 CO2 → 2 K2CO3 + C")]
    [InlineData("zinc", "2 M + n CO2 → 2 MOn + n C")]
    public void Screen_ForbiddenAgentOnAnotherMetal_DoesNotNameTheFirst(string metal, string reaction) =>
        Assert.Contains(reaction, Assert.Single(Screener.Screen(Plan(metal, "toluene") with { FireResponse = Agents(Agent.CarbonDioxide) }, Policy.Default).Findings, static finding => finding.Code is "fire.agent-forbidden").Statement, StringComparison.Ordinal);

    [Fact]
    public void Screen_SodiumThenOnlySolvent_ShowsBothClassesOverTime()
    {
        var plan = new Plan
        {
            Materials = [Of("toluene", "toluene", ML(50), Role.Solvent), Of("sodium", "sodium", G(1))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "toluene") with { Headspace = Under("argon") }, Step("2", StepAction.Add, "flask", 20, "sodium")],
            FireResponse = Agents(Agent.DrySand),
        };
        var classes = Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "fire.class").ToArray();

        Assert.Contains("EN 2 class B (NFPA 10 class B)", Assert.Single(classes, static finding => finding.Steps.SequenceEqual(["1"], StringComparer.Ordinal)).Statement, StringComparison.Ordinal);
        Assert.Contains("EN 2 class B and D (NFPA 10 class B and D)", Assert.Single(classes, static finding => finding.Steps.SequenceEqual(["2"], StringComparer.Ordinal)).Statement, StringComparison.Ordinal);
    }

    /// <summary>The card of sodium in toluene: agents by Prudent Practices and NFPA 484, classes by EN 2 and NFPA 10, from memory.</summary>
    [Fact]
    public void FireActions_SodiumPutIntoToluene_ChangesWithTheStep()
    {
        var plan = new Plan
        {
            Materials = [Of("toluene", "toluene", ML(50), Role.Solvent), Of("sodium", "sodium", G(1))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "toluene") with { Headspace = Under("argon") }, Step("2", StepAction.Add, "flask", 20, "sodium"), Step("3", StepAction.Seal, "flask")],
            FireResponse = Agents(Agent.DrySand, Agent.CarbonDioxide),
        };
        var actions = Screener.Screen(plan, Policy.Default).FireActions;

        Assert.Equal(["1", "2", "3"], actions.Select(static action => Assert.Single(action.Steps)), StringComparer.Ordinal);
        Assert.Equal([Burning.Liquid], actions[0].Burning);
        Assert.Equal([Burning.Liquid, Burning.Metal], actions[1].Burning);
        Assert.Equal(["class D powder", "dry sand"], actions[1].Fit);
        Assert.Contains(actions[1].Never, static never => never.Contains("carbon dioxide", StringComparison.Ordinal));
        Assert.Equal(["dry sand", "carbon dioxide"], actions[1].AtHand);
        Assert.Contains("with dry sand, gently", actions[1].FirstAction, StringComparison.Ordinal);
        Assert.True(actions[2].Sealed);
        Assert.StartsWith("Do not go near a closed vessel", actions[2].FirstAction, StringComparison.Ordinal);
    }

    [Fact]
    public void FireActions_NothingBurns_HasNone() => Assert.Empty(Screener.Screen(Plan("sodium chloride", "water"), Policy.Default).FireActions);

    private static StepState State(string one, string solvent) => Walk.Follow(Plan(one, solvent), Policy.Default).States[0];

    private static Plan Plan(string one, string solvent) => new()
    {
        Materials = [Of("one", one, G(1)), Of("solvent", solvent, ML(50), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "one", "solvent") with { Headspace = Under("argon") }],
    };
}
