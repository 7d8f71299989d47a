using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>A balloon of oxygen over a solvent is one matter, however it is written down: it holds 2 L, 0.08 mol. Common practice, no source.</summary>
public sealed class OxygenBalloonTests
{
    [Theory]
    [InlineData("N,N-dimethylformamide", "incompatibility.oxygen-with-dipolar-amide", Severity.Caution)]
    [InlineData("acetonitrile", "incompatibility.oxygen-with-nitrile", Severity.Warning)]
    [InlineData("toluene", "incompatibility.oxygen-with-hydrocarbon", Severity.Danger)]
    public void Screen_OxygenBalloon_IsAsGraveInEveryForm(string solvent, string code, Severity severity)
    {
        var balloon = Step("2", StepAction.Seal, "flask") with { Closure = Closure.Balloon };
        Step[][] forms =
        [
            [balloon with { Headspace = Under("oxygen") }],
            [balloon, Step("3", StepAction.Pressurise, "flask") with { Gas = Substance("oxygen"), PressurePaAbs = 1.05e5 }],
            [Step("2a", StepAction.Add, "flask", null, "oxygen"), balloon],
        ];
        foreach (var form in forms)
        {
            var plan = new Plan
            {
                Materials = [Of("solvent", solvent, ML(60), Role.Solvent), Of("oxygen", "oxygen", Mmol(80), Role.Gas)],
                Vessels = [Flask()],
                Steps = [Step("1", StepAction.Charge, "flask", 20, "solvent"), .. form, Step("4", StepAction.Stir, "flask")],
            };

            Assert.Equal(severity, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal)).Severity);
            Assert.Equal(Severity.Caution, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.oxygen-enriched").Severity);
        }
    }
}
