using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>Offers that clear one finding and are no way out are not made. Common practice, no source.</summary>
public sealed class OfferCheckTests
{
    /// <summary>The heat came before: a cooling to 45 °C is no place to go colder, a heating is.</summary>
    [Theory]
    [InlineData(StepAction.Cool, false)]
    [InlineData(StepAction.Heat, true)]
    public void Screen_StepAtFortyFiveDegrees_IsOfferedLessOnlyWhereItHeats(StepAction action, bool offered)
    {
        var plan = new Plan
        {
            Materials = [Of("solvent", "tetrahydrofuran", ML(5), Role.Solvent)],
            Vessels = [Tube(20, 1.5)],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "solvent"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", 110) with { HeatSource = HeatSource.OilBath }, Step("4", action, "tube", 45) with { HeatSource = HeatSource.OilBath }],
        };

        var findings = Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Hazard == Hazard.Pressure && finding.Steps.Contains("4", StringComparer.Ordinal)).ToArray();

        Assert.NotEmpty(findings);
        Assert.Equal(offered, findings.SelectMany(static finding => finding.ClearedBy).Any(static offer => offer.Path is "/steps/3/temperature"));
    }

    /// <summary>
    /// 17.6 mL of toluene with 3 g of azobisisobutyronitrile (164.21 g/mol, 18.3 mmol of nitrogen) in 20 mL at 80 °C: in any vessel that the liquid just does not fill, that gas stands at tens of bar when it is opened hot.
    /// </summary>
    [Fact]
    public void Screen_LargerVesselThatIsOpenedUnderPressure_IsNotOffered()
    {
        var plan = new Plan
        {
            Materials = [Of("solvent", "toluene", ML(17.6), Role.Solvent), Of("initiator", "azobisisobutyronitrile", G(3))],
            Vessels = [Tube(20, 100)],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "solvent", "initiator"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", 80) with { HeatSource = HeatSource.OilBath }, Step("4", StepAction.Open, "tube")],
        };

        var report = Screener.Screen(plan, Policy.Default);
        foreach (var offer in report.Findings.SelectMany(static finding => finding.ClearedBy).Where(static offer => offer.Path.EndsWith("/volume", StringComparison.Ordinal)))
        {
            var after = Screener.Screen(Clearings.Apply(plan, offer), Policy.Default);

            Assert.True(
                report.Findings.Any(static finding => finding is { Code: "pressure.opened-under-pressure", Severity: Severity.Danger })
                || !after.Findings.Any(static finding => finding is { Code: "pressure.opened-under-pressure", Severity: Severity.Danger }));
        }

        Assert.Contains(report.Findings, static finding => finding.Code is "pressure.liquid-full");
    }
}
