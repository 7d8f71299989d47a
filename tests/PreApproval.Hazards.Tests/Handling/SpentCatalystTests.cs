using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Tests.Plans;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Handling;

/// <summary>Catalysts on the filter (Prudent Practices and Bretherick's Handbook, from memory; severities common practice, no source).</summary>
public sealed class SpentCatalystTests
{
    private const string Code = "fire.catalyst-filtered-in-air";

    [Theory]
    [InlineData("air", Severity.Warning)]
    [InlineData("nitrogen", null)]
    [InlineData("argon", null)]
    [InlineData(null, Severity.Notice)]
    public void Screen_PalladiumAfterHydrogen_IsJudgedByTheGasOverTheFilter(string? gas, Severity? severity) =>
        Assert.Equal(severity, Of(Hydrogenated(gas, hydrogen: true))?.Severity);

    [Fact]
    public void Screen_PalladiumThatSawNoHydrogen_IsNone() => Assert.Null(Of(Hydrogenated("air", hydrogen: false)));

    /// <summary>Wetted with water in the next step, nothing dries.</summary>
    [Fact]
    public void Screen_CakeKeptWet_IsNone()
    {
        var plan = Hydrogenated("air", hydrogen: true);
        plan = plan with { Materials = [.. plan.Materials, PlanOf.Of("water", "water", ML(20))], Steps = [.. plan.Steps, Step("6", StepAction.Wash, "flask", null, "water")] };

        Assert.Null(Of(plan));
    }

    [Theory]
    [InlineData("air", false, Severity.Warning)]
    [InlineData("air", true, Severity.Danger)]
    [InlineData(null, false, Severity.Warning)]
    [InlineData("nitrogen", true, null)]
    public void Screen_SkeletalNickel_HoldsHydrogenFromItsMaking(string? gas, bool dried, Severity? severity)
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("nickel", "nickel", "water", 50, G(10)), PlanOf.Of("ethanol", "ethanol", ML(100), Role.Solvent)],
            Vessels = [Flask()],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 20, "nickel", "ethanol"), Filter("2", gas),
                .. dried ? [Step("3", StepAction.Dry, "flask", 60) with { HeatSource = HeatSource.Oven }] : Array.Empty<Step>(),
            ],
        };

        Assert.Equal(severity, Of(plan)?.Severity);
    }

    private static Finding? Of(Plan plan) => Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is Code);

    private static Step Filter(string id, string? gas) => Step(id, StepAction.Filter, "flask") with { Headspace = gas is null ? null : gas is "air" ? new Headspace.Air() : Under(gas) };

    private static Plan Hydrogenated(string? gas, bool hydrogen) => new()
    {
        Materials = [PlanOf.Of("catalyst", "palladium", G(0.1)), PlanOf.Of("alkene", "cyclohexene", G(5)), PlanOf.Of("solvent", "methanol", ML(100), Role.Solvent)],
        Vessels = [Flask()],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 20, "catalyst", "alkene", "solvent") with { Headspace = Under("nitrogen") },
            Step("2", StepAction.Seal, "flask") with { Headspace = hydrogen ? Under("hydrogen") : Under("nitrogen"), Closure = Closure.Balloon },
            Step("3", StepAction.Stir, "flask") with { DurationS = 14400 },
            Step("4", StepAction.Open, "flask"),
            Filter("5", gas),
        ],
    };
}
