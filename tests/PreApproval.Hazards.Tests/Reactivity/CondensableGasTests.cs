using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>Nitrogen dioxide boils at 21.2 °C and 1.013 bar (CRC Handbook): a closed vessel at 20 °C holds just below 1 bar of it, however much forms.</summary>
public sealed class CondensableGasTests
{
    /// <summary>0.5 mol of ethanol in strong nitric acid: 0.5 mol of nitrogen dioxide would be 60 bar of an ideal gas in 200 mL.</summary>
    [Fact]
    public void Screen_NitrogenDioxideInAClosedBottle_PressesWithItsVapourPressure()
    {
        var finding = Find(Bottle("nitric acid", Mmol(1000), "ethanol", Mmol(500)));

        Assert.InRange(finding.Evidence.First(static line => line.Name is "worst-case pressure").Value, 0.85, 1.3);
        Assert.Contains("nitrogen dioxide counts up to its vapour pressure of 0.96 bar", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>So little that it stays below its vapour pressure, and a gas that cannot condense, count whole: 0.1 mol of hydrogen in some 250 mL are near 10 bar.</summary>
    [Fact]
    public void Screen_HydrogenInAClosedBottle_CountsWhole()
    {
        var finding = Find(Bottle("sodium hydride", Mmol(100), "ethanol", Mmol(200)));

        Assert.InRange(finding.Evidence.First(static line => line.Name is "worst-case pressure").Value, 9, 12);
        Assert.DoesNotContain("condenses", finding.Statement, StringComparison.Ordinal);
    }

    private static Finding Find(Plan plan) => Screener.Screen(plan, Policy.Default).Findings.First(static finding => finding.Code is "pressure.unknown-rating");

    private static Plan Bottle(string first, Amount one, string second, Amount other) => new()
    {
        Materials = [Of("a", first, one), Of("b", second, other)],
        Vessels = [new Vessel { Id = "bottle", Kind = "bottle", VolumeM3 = 250e-6 }],
        Steps = [Step("1", StepAction.Charge, "bottle", 20, "a"), Step("2", StepAction.Seal, "bottle", 20), Step("3", StepAction.Add, "bottle", 20, "b")],
    };
}
