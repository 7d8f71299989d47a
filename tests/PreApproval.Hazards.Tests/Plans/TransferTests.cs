using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Plans;

/// <summary>What a transfer does in the vessel that receives. Textbook stoichiometry and common practice; no outside numbers.</summary>
public sealed class TransferTests
{
    private static Plan Poured => new()
    {
        Materials = [Of("halide", "aluminium chloride", Mmol(10)), Of("solvent", "dichloromethane", ML(20), Role.Solvent), Of("ice", "water", G(40), Role.Quench)],
        Vessels = [Flask("flask"), Flask("beaker")],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 0, "halide", "solvent"), Step("2", StepAction.Charge, "beaker", 0, "ice"),
            Step("3", StepAction.Transfer, "flask") with { ToVessel = "beaker", OverS = 900 }, Step("4", StepAction.Stir, "beaker", 20),
        ],
    };

    /// <summary>Three water for each aluminium chloride; 40 g of ice are 2.2 mol.</summary>
    [Fact]
    public void Follow_HalidePouredOntoIce_IsSpentAfterwards()
    {
        var states = Walk.Follow(Poured, Policy.Default).States;

        Assert.Contains(states[3].Contents, static content => content is { MaterialId: "halide", Spent: false });
        Assert.DoesNotContain(states[^1].Contents, static content => content is { MaterialId: "halide", Spent: false, Mol: > 0 });
    }

    [Fact]
    public void Follow_HalidePouredOntoSolvent_IsNotSpent()
    {
        var plan = Poured with { Steps = [Step("1", StepAction.Charge, "flask", 0, "halide"), Step("2", StepAction.Charge, "beaker", 0, "solvent"), Step("3", StepAction.Transfer, "flask") with { ToVessel = "beaker" }] };

        Assert.Contains(Walk.Follow(plan, Policy.Default).States[^1].ContentsAfter, static content => content is { MaterialId: "halide", Spent: false, Mol: > 0 });
    }

    [Fact]
    public void Follow_ReactionDeclaredForATransfer_HappensInTheReceiver()
    {
        var plan = Poured with { Reactions = [Reaction("3", ["halide", "ice"], ("hydrogen chloride", Phase.Gas))] };

        var states = Walk.Follow(plan, Policy.Default).States.Where(static state => state.Step.Id is "3").ToArray();

        Assert.Empty(states[0].Reactions);
        Assert.Equal("beaker", states[1].Vessel.Id);
        Assert.Equal(0.010, Assert.Single(states[1].GasMade).Mol!.Value, 1e-12);
    }

    [Theory]
    [InlineData(40, 40)]
    [InlineData(-20, 0)]
    public void Follow_TransferWithATemperature_WarmsTheReceiverAndNeverCoolsIt(double celsius, double expected)
    {
        var plan = Poured;
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1], Step("3", StepAction.Transfer, "flask", celsius) with { ToVessel = "beaker" }] };

        Assert.Equal(expected + 273.15, Walk.Follow(plan, Policy.Default).States[^1].TemperatureK, 1e-9);
    }
}
