using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>
/// Not full of liquid at 55 °C (ADR 4.1.1.4, 49 CFR 173.24a(d), from memory). Densities at 25, 40 and 55 °C: toluene 862.2, 848.3, 834.1 kg/m³ (Perry's, 8th ed., Table 2-32), water 997.0, 992.2, 985.7 (IAPWS-95);
/// a volume in a document counts as measured at 25 °C. So 100 mL hold at most 96.7 mL of toluene, 98.4 mL up to 40 °C, and 98.9 mL of water.
/// </summary>
public sealed class FullWhenWarmTests
{
    private const string Code = "pressure.full-when-warm";

    [Theory]
    [InlineData("toluene", 95, null)]
    [InlineData("toluene", 97, Severity.Caution)]
    [InlineData("toluene", 98.5, Severity.Warning)]
    [InlineData("water", 98, null)]
    [InlineData("water", 99.3, Severity.Caution)]
    public void Screen_StoredFull_IsNamed(string liquid, double mL, Severity? expected) => Assert.Equal(expected, One(Stored(liquid, mL))?.Severity);

    [Fact]
    public void Screen_ShortlyClosedFull_IsANotice()
    {
        var plan = Stored("toluene", 98.5);

        Assert.Equal(Severity.Notice, One(plan with { Steps = [plan.Steps[0], plan.Steps[1], Step("3", StepAction.Stir, "tube"), Step("4", StepAction.Open, "tube")] })?.Severity);
    }

    [Fact]
    public void Screen_LeftClosedAtTheEnd_CountsAsStored() => Assert.Equal(Severity.Caution, One(PressureScreenTests.Closed("toluene", 100, 97, null, 20))?.Severity);

    [Fact]
    public void Screen_OpenOrVented_SaysNothing()
    {
        var plan = Stored("toluene", 98.5);

        Assert.Null(One(plan with { Steps = [plan.Steps[0], plan.Steps[2]] }));
        Assert.Null(One(plan with { Steps = [plan.Steps[0], plan.Steps[1] with { Closure = Closure.Bubbler }, plan.Steps[2]] }));
    }

    /// <summary>862.2 · 0.97 = 836.3 kg/m³, which toluene has at 52.7 °C (Perry's, 8th ed., Table 2-32).</summary>
    [Fact]
    public void Screen_Stored_NamesTheTemperatureAndTheVolumeThatWouldDo()
    {
        var plan = Stored("toluene", 97);
        var finding = One(plan)!;

        Assert.Equal(52.7, finding.Evidence[0].Value, 0.7);
        // 97 · 862.2/834.1 = 100.3
        var offer = Assert.Single(finding.ClearedBy);
        Assert.Equal(101, offer.Value);
        Assert.Null(One(Clearings.Apply(plan, offer)));
    }

    private static Plan Stored(string liquid, double mL)
    {
        var plan = PressureScreenTests.Closed(liquid, 100, mL, null, 20);
        return plan with { Steps = [.. plan.Steps, Step("3", StepAction.Store, "tube")] };
    }

    private static Finding? One(Plan plan) => Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is Code);
}
