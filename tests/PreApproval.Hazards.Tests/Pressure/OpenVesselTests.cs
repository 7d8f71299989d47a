using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

public sealed class OpenVesselTests
{
    /// <summary>Dichloromethane boils at 39.6 °C (CRC Handbook, from memory).</summary>
    [Theory]
    [InlineData(80)]
    [InlineData(120)]
    public void Screen_OpenFarAboveBoiling_AsksForSealOrCondenser(double celsius)
    {
        var finding = Assert.Single(Findings("dichloromethane", 50, 100, StepAction.Heat, celsius), static finding => finding.Code is "temperature.open-above-boiling");

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains("seal", finding.Statement, StringComparison.Ordinal);
        Assert.Contains("condenser", finding.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(StepAction.Reflux)]
    [InlineData(StepAction.Distil)]
    [InlineData(StepAction.Concentrate)]
    public void Screen_BoilingIsMeant_IsQuiet(StepAction action) =>
        Assert.DoesNotContain(Findings("dichloromethane", 50, 100, action, 80), static finding => finding.Code is "temperature.open-above-boiling");

    /// <summary>Ethanol boils at 78.3 °C: hot recrystallisation happens at the boil.</summary>
    [Fact]
    public void Screen_OpenAtTheBoil_IsQuiet() =>
        Assert.DoesNotContain(Findings("ethanol", 60, 150, StepAction.Heat, 79), static finding => finding.Code is "temperature.open-above-boiling");

    [Fact]
    public void Screen_BalloonAboveBoiling_IsAnImprovisedVent()
    {
        var finding = Assert.Single(Findings("dichloromethane", 10, 20, StepAction.Heat, 100, Closure.Balloon), static finding => finding.Code is "temperature.open-above-boiling");

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains("balloon", finding.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(StepAction.Stir, 20, Severity.Caution)]
    [InlineData(StepAction.Reflux, 111, Severity.Warning)]
    public void Screen_MoreLiquidThanTheVesselHolds_IsNamed(StepAction action, double celsius, Severity severity)
    {
        var finding = Assert.Single(Findings("toluene", 500, 100, action, celsius), static finding => finding.Code is "vessel.overfilled");

        Assert.Equal(severity, finding.Severity);
        Assert.Contains("500 mL", finding.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_EluentThroughAColumn_IsNoOverfill() =>
        Assert.DoesNotContain(Findings("ethyl acetate", 500, 100, StepAction.Chromatograph, 20), static finding => finding.Code is "vessel.overfilled");

    private static IReadOnlyList<Finding> Findings(string liquid, double mL, double vesselML, StepAction action, double celsius, Closure? vent = null)
    {
        Step[] seal = vent is null ? [] : [Step("1b", StepAction.Seal, "flask") with { Closure = vent }];
        var chromatography = action == StepAction.Chromatograph;
        var plan = new Plan
        {
            Materials = [Of("liquid", liquid, ML(mL), Role.Solvent), Of("salt", "sodium chloride", G(1))],
            Vessels = [Flask(mL: vesselML)],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 20, chromatography ? ["salt"] : ["salt", "liquid"]),
                .. seal,
                Step("2", action, "flask", celsius, chromatography ? ["liquid"] : []),
            ],
        };
        return Screener.Screen(plan, Policy.Default).Findings;
    }
}
