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
    [InlineData(300)]
    public void Screen_OpenFarAboveBoiling_AsksForACondenserAndNeverForAClosedFlask(double celsius)
    {
        var finding = Assert.Single(Findings("dichloromethane", 50, 100, StepAction.Heat, celsius), static finding => finding.Code is "temperature.open-above-boiling");

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.DoesNotContain("seal", finding.Statement, StringComparison.Ordinal);
        Assert.Contains("condenser", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>Dichloromethane has 3.5 bar at 80 °C (Perry's, 8th ed., Table 2-8), within half of 20 bar(g), and far more than 20 bar at 200 °C (its critical point: 237 °C, 61 bar). A flask of 20 bar(g) does not exist.</summary>
    [Theory]
    [InlineData("thick-walled glass tube", 80, true)]
    [InlineData("thick-walled glass tube", 200, false)]
    [InlineData("thick-walled glass tube", 300, false)]
    [InlineData("round-bottom flask", 80, false)]
    public void Screen_OpenFarAboveBoiling_NamesTheSealStepWhereTheVesselStandsIt(string kind, double celsius, bool expected)
    {
        var finding = Assert.Single(Findings("dichloromethane", 10, 30, StepAction.Heat, celsius, kind: kind), static finding => finding.Code is "temperature.open-above-boiling");

        Assert.Equal(expected, finding.Statement.Contains("seal step is missing", StringComparison.Ordinal));
    }

    /// <summary>Hot liquid into a volatile one, and a vessel opened hot after venting: the way out is to cool, not to close.</summary>
    [Fact]
    public void Screen_PouredOrOpenedHot_SaysToCoolFirst()
    {
        var poured = new Plan
        {
            Materials = [Of("oil", "diphenyl ether", ML(100)), Of("acetone", "acetone", ML(50))],
            Vessels = [Flask(), Flask("receiver")],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "oil"), Step("2", StepAction.Charge, "receiver", 20, "acetone"), Step("3", StepAction.Heat, "flask", 180), Step("4", StepAction.Transfer, "flask", 180) with { ToVessel = "receiver" }],
        };
        var opened = new Plan
        {
            Materials = [Of("methanol", "methanol", ML(40))],
            Vessels = [new Vessel { Id = "flask", Kind = "steel autoclave", VolumeM3 = 200e-6, RatingPaGauge = 100e5 }],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "methanol"), Step("2", StepAction.Seal, "flask"), Step("3", StepAction.Heat, "flask", 120), Step("4", StepAction.Vent, "flask"), Step("5", StepAction.Open, "flask")],
        };

        foreach (var plan in (Plan[])[poured, opened])
        {
            var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "temperature.open-above-boiling");
            Assert.Contains("cool", finding.Statement, StringComparison.OrdinalIgnoreCase);
            Assert.EndsWith("first.", finding.Statement, StringComparison.Ordinal);
            Assert.DoesNotContain("seal", finding.Statement, StringComparison.Ordinal);
        }
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

    private static IReadOnlyList<Finding> Findings(string liquid, double mL, double vesselML, StepAction action, double celsius, Closure? vent = null, string kind = "round-bottom flask")
    {
        Step[] seal = vent is null ? [] : [Step("1b", StepAction.Seal, "flask") with { Closure = vent }];
        var chromatography = action == StepAction.Chromatograph;
        var plan = new Plan
        {
            Materials = [Of("liquid", liquid, ML(mL), Role.Solvent), Of("salt", "sodium chloride", G(1))],
            Vessels = [Flask(mL: vesselML) with { Kind = kind, RatingPaGauge = vesselML is 30 ? 20e5 : null }],
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
