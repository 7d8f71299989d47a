using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Safeguards;

public sealed class PeroxideDistilledTests
{
    /// <summary>University guidance on peroxide formers, from memory: above 100 ppm dispose of it and never distil it; from 25 ppm treat it before it is concentrated.</summary>
    [Theory]
    [InlineData(1000, StepAction.Distil, Severity.Danger)]
    [InlineData(150, StepAction.Concentrate, Severity.Danger)]
    [InlineData(150, StepAction.Stir, Severity.Warning)]
    [InlineData(60, StepAction.Distil, Severity.Warning)]
    [InlineData(60, StepAction.Stir, Severity.Caution)]
    public void Screen_TestedTetrahydrofuran_IsGradedByWhatIsDoneToIt(double ppm, StepAction action, Severity expected)
    {
        var today = new DateOnly(2031, 6, 10);
        var plan = new Plan
        {
            Materials = [Of("thf", "tetrahydrofuran", ML(200)) with { OpenedOn = today.AddMonths(-1), PeroxideTest = (today, ppm) }],
            Vessels = [Flask(mL: 500)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "thf"), Step("2", action, "flask", action is StepAction.Stir ? 20 : 66)],
            PlannedOn = today,
        };

        Assert.Equal(expected, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "peroxide.above-limit").Severity);
    }
}
