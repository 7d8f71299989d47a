using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>
/// A bottle filled hot and closed is under vacuum when it is cold: at closing gas and vapour make 1 atm together, and both fall on cooling (the principle of hot filling; any
/// thermodynamics text). Nothing drives it above the temperature it came in with.
/// </summary>
public sealed class BroughtInWarmTests
{
    [Theory]
    [InlineData(60)]
    [InlineData(95)]
    public void Screen_HotWaterCappedAndLeftToCool_PressesOnNothing(double celsius)
    {
        var plan = Plan(StepAction.Charge, celsius, Step("3", StepAction.Store, "bottle", 20));

        Assert.Equal(celsius + 273.15, Walk.Follow(plan, Policy.Default).States[1].WorstTemperatureK, 1e-9);
        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code.StartsWith("pressure.", StringComparison.Ordinal));
    }

    /// <summary>Water at 60 °C has 0.199 bar of vapour (steam tables); held there by some heater, which may overshoot by 15 K to 0.386 bar, over trapped dry air, it presses.</summary>
    [Theory]
    [InlineData(StepAction.Hold)]
    [InlineData(StepAction.Stir)]
    public void Screen_KeptWarm_CountsAsHeated(StepAction keep)
    {
        var plan = Plan(StepAction.Charge, 60, Step("3", keep, "bottle"));

        Assert.Equal(75 + 273.15, Walk.Follow(plan, Policy.Default).States[2].WorstTemperatureK, 1e-9);
        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding is { Code: "pressure.unknown-rating", Severity: Severity.Danger });
    }

    [Fact]
    public void Follow_HeaterStatedOrStillThere_Overshoots()
    {
        var stated = Plan(StepAction.Charge, 60);
        stated = stated with { Steps = [stated.Steps[0] with { HeatSource = HeatSource.OilBath }, stated.Steps[1]] };
        var heated = Plan(StepAction.Charge, 20);
        heated = heated with { Steps = [heated.Steps[0], Step("2", StepAction.Heat, "bottle", 60), Step("3", StepAction.Charge, "bottle", 60)] };

        Assert.Equal(75 + 273.15, Walk.Follow(stated, Policy.Default).States[1].WorstTemperatureK, 1e-9);
        Assert.Equal(75 + 273.15, Walk.Follow(heated, Policy.Default).States[2].WorstTemperatureK, 1e-9);
    }

    private static Plan Plan(StepAction fill, double celsius, params Step[] then) => new()
    {
        Materials = [Of("water", "water", ML(50), Role.Solvent)],
        Vessels = [new Vessel { Id = "bottle", Kind = "screw-cap glass bottle", VolumeM3 = 100e-6 }],
        Steps = [Step("1", fill, "bottle", celsius, "water"), Step("2", StepAction.Seal, "bottle") with { Closure = Closure.Cap }, .. then],
    };
}
