using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>What forms though no line of the plan names it: acetone, hydrogen peroxide and acid crystallise to triacetone triperoxide overnight (Bretherick's Handbook, from memory).</summary>
public sealed class PossibleProductTests
{
    // 10 mL of acetone (0.136 mol) and 10 mL of 30 % peroxide (0.098 mol): at most 0.098 mol x 74.1 g/mol, 7.3 g
    [Fact]
    public void Screen_AcetoneAndPeroxideFilteredDriedGround_NamesWhatCanHaveFormed()
    {
        var finding = Assert.Single(Screener.Screen(Mixed("acetone"), Policy.Default).Findings, static finding => finding is { Code: "energetic.formed-isolated", Vessel: "flask" });

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Equal(["3", "4", "5"], finding.Steps);
        Assert.StartsWith("Triacetone triperoxide can have formed in step 2", finding.Statement, StringComparison.Ordinal);
        Assert.Equal(7.3, finding.Evidence[0].Value, 0.2);
        Assert.Equal(["acid", "ketone", "peroxide"], finding.Materials);
    }

    /// <summary>Whoever has asked the walk before does not get what it said then.</summary>
    [Fact]
    public void Noted_WalkThatWasAskedBefore_TellsInEveryView()
    {
        var plan = Mixed("acetone");
        var walk = Walk.Follow(plan, Policy.Default);
        Assert.DoesNotContain(walk.ByVessel.SelectMany(static states => states), static state => state.CanHold.Count > 0);

        var noted = PossibleProducts.Noted(plan, walk);

        Assert.Contains(noted.ByVessel.SelectMany(static states => states), static state => state.CanHold.Count > 0);
    }

    [Fact]
    public void FireActions_LaterSteps_DoNotFightIt()
    {
        var actions = Screener.Screen(Mixed("acetone"), Policy.Default).FireActions;

        Assert.All(actions.Where(static action => action.Steps.Contains("5", StringComparer.Ordinal)), static action => Assert.Contains("triacetone triperoxide that can have formed", action.FirstAction, StringComparison.Ordinal));
        Assert.DoesNotContain("triacetone", actions.First(static action => action.Steps.Contains("1", StringComparer.Ordinal)).FirstAction, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_MovedToAnotherVessel_GoesAlong()
    {
        var plan = Mixed("acetone");
        plan = plan with
        {
            Vessels = [.. plan.Vessels, Flask("dish")],
            Steps = [.. plan.Steps.Take(3), Step("4", StepAction.Transfer, "flask") with { ToVessel = "dish" }, Step("5", StepAction.Dry, "dish"), Step("6", StepAction.Dry, "flask")],
        };

        var findings = Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "energetic.formed-isolated").ToArray();

        Assert.Equal(["5"], Assert.Single(findings, static finding => finding.Vessel is "dish").Steps);
        Assert.Equal(["3"], Assert.Single(findings, static finding => finding.Vessel is "flask").Steps);
    }

    // toluene instead of the ketone: nothing of the kind
    [Fact]
    public void Screen_NoKetone_IsNone() => Assert.DoesNotContain(Screener.Screen(Mixed("toluene"), Policy.Default).Findings, static finding => finding.Code is "energetic.formed-isolated");

    [Fact]
    public void Table_EveryRow_NamesAnEncounterAndAnExplosive()
    {
        var keys = EncounterTable.All.Select(static encounter => encounter.Key).ToHashSet(StringComparer.Ordinal);

        Assert.All(PossibleProducts.Encounters, key => Assert.Contains(key, keys));
        Assert.All((string[])["triacetone triperoxide", "cyclic peroxides of cyclohexanone", "azide from silver nitrate", "acetylide from silver nitrate", "fulminating nitride from silver nitrate", "urea nitrate"],
            static name => Assert.True(EnergeticProfile.Of(new PlanSubstance(name, name, null))!.IsExplosive));
    }

    private static Plan Mixed(string solvent) => new()
    {
        Materials = [Of("ketone", solvent, ML(10), Role.Solvent), WeightPercent("peroxide", "hydrogen peroxide", "water", 30, ML(10)), Of("acid", "sulfuric acid", ML(1))],
        Vessels = [Flask()],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 5, "ketone"),
            Step("2", StepAction.Add, "flask", 5, "peroxide", "acid"),
            Step("3", StepAction.Filter, "flask"),
            Step("4", StepAction.Dry, "flask"),
            Step("5", StepAction.Grind, "flask"),
        ],
    };
}
