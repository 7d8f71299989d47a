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

    /// <summary>
    /// Toluene boils at 110.6 °C and has 0.74 bar at 100 °C (McGarry 1983). Poured at 100 °C and closed, it is at 100 °C, and heats no further; stated as cooled, it is not hot.
    /// </summary>
    [Theory]
    [InlineData(StepAction.Transfer)]
    [InlineData(StepAction.Filter)]
    [InlineData(StepAction.Discard)]
    public void Follow_HotContentsMoved_StayHotAndSaySo(StepAction action)
    {
        var states = Walk.Follow(PouredHot(action), Policy.Default).States.Where(static state => state.Vessel.Id is "bottle").ToArray();

        Assert.Equal(373.15, states[^1].TemperatureK, 1e-9);
        Assert.Equal(373.15, states[^1].WorstTemperatureK, 1e-9);
        Assert.True(states[^1].Sealed);
        var report = Screener.Screen(PouredHot(action), Policy.Default);
        Assert.Contains("100 °C", Assert.Single(report.Findings, static finding => finding.Code is "data.arrives-hot").Statement, StringComparison.Ordinal);
        var pressure = Assert.Single(report.Findings, static finding => finding.Code is "pressure.unknown-rating");
        Assert.InRange(pressure.Evidence.Single(static evidence => evidence.Name is "worst-case pressure").Value, 0.72, 0.78);
    }

    [Fact]
    public void Follow_HotContentsCooledBeforeTheyAreMoved_AreCold()
    {
        var plan = PouredHot(StepAction.Transfer);
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1], Step("2a", StepAction.Cool, "flask", 20), .. plan.Steps.Skip(2)] };

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "data.arrives-hot" or "pressure.unknown-rating");
    }

    /// <summary>Poured onto ice at room temperature it is cold (common practice, no source).</summary>
    [Fact]
    public void Follow_ContentsAtRoomTemperatureOntoIce_DoNotWarmIt()
    {
        var plan = Poured;
        plan = plan with { Steps = [plan.Steps[0] with { TemperatureK = 293.15 }, .. plan.Steps.Skip(1).Take(2)] };

        Assert.Equal(273.15, Walk.Follow(plan, Policy.Default).States[^1].TemperatureK, 1e-9);
    }

    /// <summary>The receiver's own oil bath may overshoot from 95 to 110 °C (15 K, the default policy); what is poured in at 100 °C takes nothing off that.</summary>
    [Fact]
    public void Follow_HotContentsIntoAHeatedVessel_LeaveItsOwnOvershoot()
    {
        var plan = PouredHot(StepAction.Transfer);
        plan = plan with { Steps = [Step("0", StepAction.Heat, "bottle", 95) with { HeatSource = HeatSource.OilBath }, .. plan.Steps] };

        var state = Walk.Follow(plan, Policy.Default).States[^1];

        Assert.Equal((100.0, 110.0), (state.TemperatureK - 273.15, state.WorstTemperatureK - 273.15));
    }

    private static Plan PouredHot(StepAction action) => new()
    {
        Materials = [Of("solvent", "toluene", ML(50), Role.Solvent)],
        Vessels = [Flask("flask"), Flask("bottle")],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 20, "solvent"), Step("2", StepAction.Heat, "flask", 100) with { HeatSource = HeatSource.OilBath },
            Step("3", action, "flask") with { ToVessel = "bottle" }, Step("4", StepAction.Seal, "bottle"),
        ],
    };

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
