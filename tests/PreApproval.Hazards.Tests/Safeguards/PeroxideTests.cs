using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Handling.Charges;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Safeguards;

/// <summary>Keeping times after R. J. Kelly, Chem. Health Saf. 1996, 3 (5), 28; limits in ppm after university guidance.</summary>
public sealed class PeroxideTests
{
    [Theory]
    [InlineData("diethyl ether", 13, null, "peroxide.overdue")]
    [InlineData("diisopropyl ether", 4, null, "peroxide.overdue")]
    [InlineData("tetrahydrofuran", 2, 120.0, "peroxide.above-limit")]
    [InlineData("tetrahydrofuran", 2, 30.0, "peroxide.above-limit")]
    public void Screen_OldOrLoaded_IsFound(string solvent, int monthsOpen, double? ppm, string code) =>
        Assert.Contains(Findings(solvent, monthsOpen, ppm, StepAction.Stir), finding => string.Equals(finding.Code, code, StringComparison.Ordinal));

    [Theory]
    [InlineData("diethyl ether", 11)]
    [InlineData("diisopropyl ether", 2)]
    [InlineData("toluene", 40)]
    public void Screen_YoungOrNoFormer_IsNotFound(string solvent, int monthsOpen) =>
        Assert.DoesNotContain(Findings(solvent, monthsOpen, null, StepAction.Stir), static finding => finding.Hazard == Hazard.Peroxide);

    [Fact]
    public void Screen_DistilledWithoutTest_IsWarning() =>
        Assert.Contains(Findings("tetrahydrofuran", 2, null, StepAction.Distil), static finding => finding is { Code: "peroxide.concentrated", Severity: Severity.Warning });

    [Fact]
    public void Screen_ConcentratedAfterATestOfTheDay_IsNotFound() =>
        Assert.DoesNotContain(Findings("tetrahydrofuran", 2, 3, StepAction.Concentrate), static finding => finding.Hazard == Hazard.Peroxide);

    [Fact]
    public void Screen_OpenedOnWithoutADayOfTheProcedure_IsADataFindingForReview()
    {
        var plan = new Plan
        {
            Materials = [Of("solvent", "tetrahydrofuran", ML(50), Role.Solvent) with { OpenedOn = new DateOnly(2020, 1, 1) }],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "solvent")],
        };
        var report = Screener.Screen(plan, Policy.Default);

        Assert.True(Assert.Single(report.Findings, static finding => finding.Code is "data.planned-date").LeavesCheckUndone);
        Assert.Equal(Verdict.Review, report.Verdict);
    }

    [Theory]
    [InlineData(13, true)]
    [InlineData(11, false)]
    public void Screen_TestOlderThanTheKeepingTime_CountsAsNone(int monthsSinceTest, bool overdue)
    {
        var today = new DateOnly(2026, 6, 1);
        var plan = new Plan
        {
            Materials = [Of("solvent", "tetrahydrofuran", ML(50), Role.Solvent) with { OpenedOn = today.AddMonths(-30), PeroxideTest = (today.AddMonths(-monthsSinceTest), 0) }],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "solvent")],
            PlannedOn = today,
        };

        Assert.Equal(overdue, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "peroxide.overdue"));
    }

    [Theory]
    [InlineData("phenylmagnesium bromide", 0)]
    [InlineData("hydrogen chloride", 1)]
    public void Screen_EtherThatCameWithAnOrganometallic_IsNotUntestedWhenConcentrated(string solute, int findings)
    {
        var today = new DateOnly(2026, 6, 1);
        var plan = new Plan
        {
            Materials = [Molar("solution", solute, "diethyl ether", 1, ML(20)) with { OpenedOn = today.AddMonths(-2) }],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "solution") with { Headspace = Under("nitrogen") }, Step("2", StepAction.Concentrate, "flask", 30)],
            PlannedOn = today,
        };

        Assert.Equal(findings, Screener.Screen(plan, Policy.Default).Findings.Count(static finding => finding.Code is "peroxide.concentrated"));
    }

    [Theory]
    [InlineData(20, false)]
    [InlineData(200, true)]
    public void Screen_SlowFormerEvaporated_CountsFromAVolume(double mL, bool found)
    {
        var plan = new Plan
        {
            Materials = [Of("a", "2-propanol", ML(mL), Role.Solvent) with { OpenedOn = new DateOnly(2026, 5, 1) }],
            Vessels = [Flask(mL: 500)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "a"), Step("2", StepAction.Concentrate, "flask", 40)],
            PlannedOn = new DateOnly(2026, 6, 1),
        };

        Assert.Equal(found, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "peroxide.concentrated"));
    }

    /// <summary>Tetrahydrofuran opened years ago and never tested: boiled under a condenser or warmed it goes to review, cold it is a caution; a hydride beside it leaves no peroxide (common practice, no source).</summary>
    [Theory]
    [InlineData(StepAction.Reflux, 66.0, "potassium hydroxide", Severity.Warning)]
    [InlineData(StepAction.Heat, 50.0, "potassium hydroxide", Severity.Warning)]
    [InlineData(StepAction.Stir, 20.0, "potassium hydroxide", Severity.Caution)]
    [InlineData(StepAction.Reflux, 66.0, "lithium aluminium hydride", Severity.Caution)]
    public void Screen_OldUntestedEther_IsGraverWhenWarm(StepAction action, double celsius, string beside, Severity severity)
    {
        var plan = new Plan
        {
            Materials = [Of("solvent", "tetrahydrofuran", ML(100), Role.Solvent) with { OpenedOn = new DateOnly(2019, 5, 1) }, Of("base", beside, G(5))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "solvent", "base"), Step("2", action, "flask", celsius) with { HeatSource = celsius > 30 ? HeatSource.OilBath : null }],
            PlannedOn = new DateOnly(2026, 6, 1),
        };

        Assert.Equal(severity, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "peroxide.overdue").Severity);
    }

    // diethyl ether of 12 months: the age decides when it is overdue, not when it is undated
    [Theory]
    [InlineData("peroxide.overdue", 2025, true)]
    [InlineData("peroxide.undated", null, false)]
    public void Screen_PeroxideFormer_NamesTheKeepingTimeWhereItDecides(string code, int? opened, bool decides)
    {
        var plan = Charged(Of("a", "diethyl ether", ML(50), Role.Solvent) with { OpenedOn = opened is { } year ? new DateOnly(year, 5, 1) : null }) with { PlannedOn = new DateOnly(2026, 6, 1) };

        Assert.Equal(decides ? [(12.0, Quality.Assumed)] : [], Only(plan, code).Evidence.Select(static one => (one.Value, one.Quality)));
    }

    private static IReadOnlyList<Finding> Findings(string solvent, int monthsOpen, double? ppm, StepAction action)
    {
        var today = new DateOnly(2026, 6, 1);
        var plan = new Plan
        {
            Materials = [Of("solvent", solvent, ML(50), Role.Solvent) with { OpenedOn = today.AddMonths(-monthsOpen), PeroxideTest = ppm is { } found ? (today, found) : null }],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "solvent"), Step("2", action, "flask", 40)],
            PlannedOn = today,
        };
        return Screener.Screen(plan, Policy.Default).Findings;
    }
}
