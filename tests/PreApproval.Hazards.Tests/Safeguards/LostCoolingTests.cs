using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Safeguards;

/// <summary>
/// Cold work that nobody watches comes to the room when its bath is used up: common practice, no source. Butyllithium solutions ignite in air (H250, suppliers' classification);
/// acetaldehyde boils at 20 °C (IEC 60079-20-1), diethyl ether at 34.6 °C; an adiabatic rise of 50 K is medium (Stoessel).
/// </summary>
public sealed class LostCoolingTests
{
    [Fact]
    public void Screen_ButyllithiumColdOvernight_IsAWarning()
    {
        var finding = Assert.Single(Found(Butyllithium(Attendance.Overnight)));

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Equal(["2"], finding.Steps);
        Assert.Contains("-78 °C", finding.Statement.Replace('−', '-'), StringComparison.Ordinal);
        Assert.Contains("overnight", finding.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("acetaldehyde", 0, Severity.Warning)]
    [InlineData("diethyl ether", 0, Severity.Notice)]
    [InlineData("diethyl ether", -78, Severity.Caution)]
    public void Screen_ColdLiquidOvernight_IsGradedByWhatItDoesInTheRoom(string liquid, double celsius, Severity severity) =>
        Assert.Equal(severity, Assert.Single(Found(Cold(Of("liquid", liquid, ML(50), Role.Solvent), celsius, Attendance.Overnight))).Severity);

    [Theory]
    [InlineData(Attendance.Attended, 14, -78)]
    [InlineData(Attendance.Overnight, 0.5, -78)]
    [InlineData(Attendance.Overnight, 14, 15)]
    public void Screen_SomebodyThereShortOrNotCold_SaysNothing(Attendance attendance, double hours, double celsius) =>
        Assert.Empty(Found(Cold(Of("liquid", "diethyl ether", ML(50), Role.Solvent), celsius, attendance, hours)));

    [Fact]
    public void Screen_CoolerWithAlarm_Answers() =>
        Assert.Empty(Found(Butyllithium(Attendance.Overnight) with { Safeguards = [new Safeguard("cooling alarm", [], null)] }));

    /// <summary>0.1 mol at −100 kJ/mol in 100 mL of water, 418 J/K (4.18 J/(g K)): 24 K; ten times the heat 239 K.</summary>
    [Theory]
    [InlineData(-100, Severity.Notice)]
    [InlineData(-1000, Severity.Warning)]
    public void Screen_DeclaredHeatColdOvernight_CountsFromAMediumRise(double kilojoulePerMol, Severity severity)
    {
        var plan = Cold(Of("water", "water", ML(100), Role.Solvent), 2, Attendance.Overnight);
        plan = plan with
        {
            Materials = [.. plan.Materials, Of("acid", "acetic acid", Mmol(100))],
            Steps = [plan.Steps[0] with { Materials = [new MaterialUse("water", null), new MaterialUse("acid", null)] }, plan.Steps[1]],
            Reactions = [Reaction("2", ["acid"]) with { HeatJPerMol = kilojoulePerMol * 1000 }],
        };

        Assert.Equal(severity, Assert.Single(Found(plan)).Severity);
    }

    [Fact]
    public void Clearing_Attended_Clears()
    {
        var plan = Butyllithium(Attendance.Unattended);

        Assert.Empty(Found(Clearings.Apply(plan, Assert.Single(Assert.Single(Found(plan)).ClearedBy))));
    }

    private static Plan Butyllithium(Attendance attendance)
    {
        var plan = Cold(Of("thf", "tetrahydrofuran", ML(50), Role.Solvent), -78, attendance);
        return plan with
        {
            Materials = [.. plan.Materials, Molar("buli", "n-butyllithium", "hexane", 1.6, ML(10))],
            Steps = [plan.Steps[0] with { Materials = [.. plan.Steps[0].Materials, new MaterialUse("buli", null)], Headspace = Under("argon") }, plan.Steps[1]],
        };
    }

    private static Plan Cold(Material liquid, double celsius, Attendance attendance, double hours = 14) => new()
    {
        Materials = [liquid],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", celsius, liquid.Id), Step("2", StepAction.Stir, "flask", celsius) with { DurationS = hours * 3600, HeatSource = HeatSource.CryogenicBath }],
        Attendance = attendance,
    };

    private static Finding[] Found(Plan plan) => [.. Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "temperature.lost-cooling")];
}
