using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>What a vessel still holds when it is opened, however it was shut.</summary>
public sealed class OpeningTests
{
    private const string Opened = "pressure.opened-under-pressure";

    /// <summary>Vapour pressure in bar: tetrahydrofuran 2.72 at 100 °C (Perry's Chemical Engineers' Handbook, 8th ed., Table 2-8); ammonia 8.57 at 20 °C (CRC Handbook). Cold, but 100 mL of that vapour hold more than the 50 J of the policy.</summary>
    [Theory]
    [InlineData("tetrahydrofuran", 4.4, 20, 100, 2.72, Severity.Danger)]
    [InlineData("ammonia", 2, 100, 20, 8.57, Severity.Danger)]
    public void Screen_ShutEvacuatedAndOpenedUnderVapour_IsItsPressureLessTheAtmosphere(string substance, double grams, double vesselML, double celsius, double vapourBar, Severity severity)
    {
        var finding = Assert.Single(Screener.Screen(Evacuated(substance, grams, vesselML, celsius), Policy.Default).Findings, static finding => finding.Code is Opened);

        Assert.Equal(severity, finding.Severity);
        Assert.InRange(finding.Evidence[0].Value, (vapourBar * 0.97) - 1.01325, (vapourBar * 1.03) - 1.01325);
    }

    /// <summary>
    /// 1.00 g of azobisisobutyronitrile (164.21 g/mol) gives 6.09 mmol of nitrogen: 7.421 bar in 20 mL at 20 °C by the ideal gas law, 6.408 bar(g).
    /// Nitrogen is a gas at any temperature of a cold bath: cooling does not take it away.
    /// </summary>
    [Fact]
    public void Screen_GasMadeInAnEvacuatedTube_IsThereWhenItIsOpened()
    {
        var plan = Evacuated("azobisisobutyronitrile", 1.00, 20, 80) with { Reactions = [Reaction("3", ["a"], ("nitrogen", PreApproval.Hazards.Substances.Phase.Gas))] };
        plan = plan with { Steps = [.. plan.Steps.Take(3), Step("cool", StepAction.Cool, "tube", 20), plan.Steps[^1]] };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is Opened);

        Assert.Equal(6.408, finding.Evidence[0].Value, 0.01);
        Assert.Empty(finding.ClearedBy);
        Assert.Contains("vent it first", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>A liquid below its boiling point has less than the atmosphere: tetrahydrofuran boils at 66.0 °C (Perry's, Table 2-8).</summary>
    [Fact]
    public void Screen_VapourCooledBelowBoiling_ClearsTheOpening()
    {
        var plan = Evacuated("tetrahydrofuran", 4.4, 20, 100);
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is Opened);

        var offer = Assert.Single(finding.ClearedBy);

        Assert.Equal("/steps/3/temperature", offer.Path);
        Assert.InRange(offer.Value!.Value, 65, 70);
        Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, offer), Policy.Default).Findings, static other => other.Code is Opened);
    }

    /// <summary>The same vessel boils over when it is opened: 100 °C is above 66.0 °C, evacuated before or not.</summary>
    [Fact]
    public void Screen_ShutEvacuatedAndOpenedAboveBoiling_BoilsOver() =>
        Assert.Contains(Screener.Screen(Evacuated("tetrahydrofuran", 4.4, 20, 100), Policy.Default).Findings, static finding => finding.Code is "pressure.opened-above-boiling");

    /// <summary>Below its boiling point it holds less than the atmosphere, and nothing comes out.</summary>
    [Fact]
    public void Screen_ShutEvacuatedAndOpenedCold_IsNothing() =>
        Assert.DoesNotContain(Screener.Screen(Evacuated("tetrahydrofuran", 4.4, 20, 50), Policy.Default).Findings, static finding => finding.Code is Opened or "pressure.opened-above-boiling");

    /// <summary>Something that nobody knows is left out of the pressure, so what is computed is the least there is, in the sentence and in the model beside the number.</summary>
    [Fact]
    public void Screen_SomethingLeftOut_SaysAtLeast()
    {
        var plan = Evacuated("diethyl ether", 4.4, 20, 90);
        plan = plan with { Materials = [.. plan.Materials, Of("b", "compound seven", G(1))], Steps = [plan.Steps[0] with { Materials = [.. plan.Steps[0].Materials, new MaterialUse("b", null)] }, .. plan.Steps.Skip(1)] };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is Opened);

        Assert.Contains("with at least ", finding.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain("about", finding.Statement, StringComparison.Ordinal);
    }

    private static Plan Evacuated(string substance, double grams, double vesselML, double celsius) => new()
    {
        Materials = [Of("a", substance, G(grams))],
        Vessels = [Tube(vesselML, 60)],
        Steps =
        [
            Step("1", StepAction.Charge, "tube", -78, "a"),
            Step("2", StepAction.Seal, "tube") with { Headspace = new Headspace.Vacuum() },
            Step("3", StepAction.Heat, "tube", celsius) with { HeatSource = HeatSource.OilBath },
            Step("4", StepAction.Open, "tube"),
        ],
    };
}
