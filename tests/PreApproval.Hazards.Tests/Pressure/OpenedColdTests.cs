using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

public sealed class OpenedColdTests
{
    /// <summary>
    /// Isentropic expansion p V/(γ − 1)·[1 − (p0/p)^((γ − 1)/γ)] (Crowl and Louvar, ch. 6) by hand with γ = 1.4: 24 bar(g) in 100 mL 380 J, 3 bar(g) in 20 mL 7 J, 0.6 bar(g) in 1 L 50.2 J, 0.55 bar(g) 45.5 J, against the 50 J from which a vessel needs a shield (common practice, no source).
    /// </summary>
    [Theory]
    [InlineData(100, 24, Severity.Danger)]
    [InlineData(20, 3, Severity.Warning)]
    [InlineData(1000, 0.6, Severity.Danger)]
    [InlineData(1000, 0.55, Severity.Warning)]
    public void Screen_OpenedColdUnderPressure_IsAsGraveAsItsEnergy(double mL, double bar, Severity expected)
    {
        var plan = new Plan
        {
            Materials = [Of("acid", "benzoic acid", G(0.1))],
            Vessels = [new Vessel { Id = "a", Kind = "stainless steel autoclave", VolumeM3 = mL * 1e-6, RatingPaGauge = 100e5 }],
            Steps =
            [
                Step("1", StepAction.Charge, "a", 20, "acid"),
                Step("2", StepAction.Pressurise, "a", 20) with { Headspace = Under("nitrogen"), PressurePaAbs = (bar * 1e5) + 101_325 },
                Step("3", StepAction.Open, "a", 20),
            ],
        };

        Assert.Equal(expected, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.opened-under-pressure").Severity);
    }
}
