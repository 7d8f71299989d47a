using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Safeguards;

/// <summary>
/// A cut-out of its own and watched cooling water for what is heated while nobody is there: common practice, no source. Flash points of
/// the handbooks: o-xylene 32 °C, ethyl acetate −4 °C (from memory); thionyl chloride H331 (harmonised classification, from memory).
/// </summary>
public sealed class UnattendedHeatingTests
{
    private const double Hour = 3600;

    [Theory]
    [InlineData(Attendance.Overnight)]
    [InlineData(Attendance.Unattended)]
    public void Screen_FlammableRefluxedAlone_IsAWarningForCutOutAndWater(Attendance attendance)
    {
        var finding = Assert.Single(Found(Refluxed("o-xylene", 144, attendance)));

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Equal(["2"], finding.Steps);
        Assert.Contains("no independent cut-out", finding.Statement, StringComparison.Ordinal);
        Assert.Contains("cooling water", finding.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_ToxicLiquidRefluxedAlone_IsAWarning()
    {
        var finding = Assert.Single(Found(Refluxed("thionyl chloride", 75, Attendance.Overnight)));

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains("toxic to breathe", finding.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_HotWaterAlone_IsACautionForTheCutOut() =>
        Assert.Equal(Severity.Caution, Assert.Single(Found(Refluxed("water", 90, Attendance.Overnight))).Severity);

    [Fact]
    public void Screen_CutOutAndWaterMonitorStated_SaysNothing()
    {
        var plan = Refluxed("o-xylene", 144, Attendance.Overnight) with { Safeguards = [new Safeguard("independent cut-out", [], null), new Safeguard("flow switch", [], null)] };

        Assert.Empty(Found(plan));
    }

    [Fact]
    public void Screen_CutOutWithoutWaterMonitor_StillAsksForTheWater()
    {
        var plan = Refluxed("o-xylene", 144, Attendance.Overnight) with { Safeguards = [new Safeguard("independent cut-out", [], null)] };

        Assert.DoesNotContain("cut-out", Assert.Single(Found(plan)).Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_DistilledAloneWithEverything_CanBoilDry()
    {
        var plan = Refluxed("ethyl acetate", 77, Attendance.Overnight) with { Safeguards = [new Safeguard("independent cut-out", [], null), new Safeguard("air condenser", [], null)] };
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1] with { Action = StepAction.Distil }] };

        Assert.Contains("boil dry", Assert.Single(Found(plan)).Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Attendance.Attended, 16)]
    [InlineData(Attendance.Overnight, 0.5)]
    public void Screen_SomebodyThereOrHalfAnHour_SaysNothing(Attendance attendance, double hours)
    {
        var plan = Refluxed("o-xylene", 144, attendance);

        Assert.Empty(Found(plan with { Steps = [plan.Steps[0], plan.Steps[1] with { DurationS = hours * Hour }] }));
    }

    [Fact]
    public void Screen_StirredOvernightAtRoomTemperature_SaysNothing()
    {
        var plan = Refluxed("o-xylene", 20, Attendance.Overnight);

        Assert.Empty(Found(plan with { Steps = [plan.Steps[0], plan.Steps[1] with { Action = StepAction.Stir }] }));
    }

    [Fact]
    public void Clearing_Attended_Clears()
    {
        var plan = Refluxed("o-xylene", 144, Attendance.Overnight);

        Assert.Empty(Found(Clearings.Apply(plan, Assert.Single(Assert.Single(Found(plan)).ClearedBy))));
    }

    /// <summary>
    /// A hotplate at full power reaches 300 °C and more (common practice, no source). Autoignition of dimethyl sulfoxide 215 to 300 °C by publication, of ethylene glycol about 400 °C
    /// (from memory); at 60 °C neither is near its flash point.
    /// </summary>
    [Theory]
    [InlineData("dimethyl sulfoxide", HeatSource.Hotplate, false, Severity.Warning)]
    [InlineData("dimethyl sulfoxide", HeatSource.Hotplate, true, null)]
    [InlineData("dimethyl sulfoxide", HeatSource.WaterBath, false, Severity.Caution)]
    [InlineData("ethylene glycol", HeatSource.Hotplate, false, Severity.Caution)]
    public void Screen_ControllerThatSticksWithNobodyThere_CountsUnlessACutOutStopsIt(string liquid, HeatSource source, bool cutOut, Severity? severity)
    {
        var plan = Refluxed(liquid, 60, Attendance.Overnight);
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1] with { Action = StepAction.Stir, HeatSource = source, IndependentCutOut = cutOut }] };
        var finding = Found(plan).SingleOrDefault();

        Assert.Equal(severity, finding?.Severity);
        Assert.Equal(severity is Severity.Warning, finding?.Statement.Contains("300 °C or more", StringComparison.Ordinal) ?? false);
    }

    private static Finding[] Found(Plan plan) => [.. Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "temperature.unattended")];

    private static Plan Refluxed(string liquid, double celsius, Attendance attendance) => new()
    {
        Materials = [Of("liquid", liquid, ML(100), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "liquid"), Step("2", StepAction.Reflux, "flask", celsius) with { DurationS = 16 * Hour }],
        Attendance = attendance,
    };
}
