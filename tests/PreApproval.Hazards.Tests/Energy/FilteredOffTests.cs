using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>A filtration isolates the solid, whether the plan says where the filtrate goes or not; limits are those of isolated explosives (university rules). Common practice, no source.</summary>
public sealed class FilteredOffTests
{
    [Theory]
    [InlineData("lead azide")]
    [InlineData("mercury fulminate")]
    [InlineData("triacetone triperoxide")]
    [InlineData("pentaerythritol tetranitrate")]
    public void Screen_FilteredWithoutTarget_IsIsolatedInWhatFollows(string solid)
    {
        var finding = Assert.Single(Screener.Screen(Filtered(solid), Policy.Default).Findings, static finding => finding.Code is "energetic.isolated");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Equal(["2", "3", "4", "5", "6"], finding.Steps);
    }

    /// <summary>The same solid dissolved or stirred up anew is none on a filter.</summary>
    [Fact]
    public void Screen_LiquidAddedAfterwards_IsNoCakeAnyMore()
    {
        var plan = Filtered("lead azide");
        plan = plan with
        {
            Materials = [.. plan.Materials, Of("water", "water", ML(100), Role.Solvent)],
            Steps = [plan.Steps[0], plan.Steps[1], Step("3", StepAction.Add, "flask", null, "water"), Step("4", StepAction.Stir, "flask")],
        };

        Assert.Equal(["2"], Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.isolated").Steps);
    }

    [Fact]
    public void Screen_CakeWashedAndTippedIntoADish_StaysTheCake()
    {
        var plan = Filtered("lead azide");
        plan = plan with
        {
            Materials = [.. plan.Materials, Of("ether", "diethyl ether", ML(30), Role.Solvent)],
            Vessels = [.. plan.Vessels, Flask("dish")],
            Steps = [plan.Steps[0], plan.Steps[1], Step("3", StepAction.Wash, "flask", null, "ether"), Step("4", StepAction.Transfer, "flask") with { ToVessel = "dish" }, Step("5", StepAction.Dry, "dish")],
        };

        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding is { Code: "energetic.isolated", Severity: Severity.Danger, Vessel: "dish" } && finding.Steps is ["5"]);
    }

    private static Plan Filtered(string solid) => new()
    {
        Materials = [Of("solid", solid, G(2)), Of("alcohol", "methanol", ML(100), Role.Solvent)],
        Vessels = [Flask()],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 20, "solid", "alcohol"),
            Step("2", StepAction.Filter, "flask"),
            Step("3", StepAction.Dry, "flask"),
            Step("4", StepAction.Heat, "flask", 60),
            Step("5", StepAction.Store, "flask"),
            Step("6", StepAction.Grind, "flask"),
        ],
    };
}
