using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>Decomposition without a partner: after Bretherick's Handbook and Prudent Practices 2011, from memory.</summary>
public sealed class EnergeticTests
{
    [Fact]
    public void Screen_InitiatorHeatedClosed_WarnsAndCountsItsNitrogen()
    {
        var report = Screen(Tube(30, 10), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", 80), Of("initiator", "azobisisobutyronitrile", G(1)), Of("toluene", "toluene", ML(10), Role.Solvent));

        var finding = Assert.Single(report.Findings, static finding => finding.Code is "energetic.azo-initiator-heated");
        Assert.Equal((Severity.Warning, Hazard.Energetic), (finding.Severity, finding.Hazard));
        // 1 g at 164.21 g/mol, one nitrogen each: 6.09 mmol
        Assert.Equal(6.09e-3, Assert.Single(finding.Evidence).Value, 0.01e-3);
        Assert.Contains(report.Findings, static finding => finding.Hazard == Hazard.Pressure && finding.Statement.Contains("nitrogen from azobisisobutyronitrile", StringComparison.Ordinal));
    }

    [Fact]
    public void Screen_InitiatorRefluxedOpen_IsNoWarning() =>
        Assert.DoesNotContain(
            Screen(Flask("tube"), Step("2", StepAction.Reflux, "tube", 80), Step("3", StepAction.Cool, "tube", 20), Of("initiator", "azobisisobutyronitrile", Mmol(2)), Of("toluene", "toluene", ML(10), Role.Solvent)).Findings,
            static finding => finding is { Hazard: Hazard.Energetic, Severity: <= Severity.Warning });

    [Fact]
    public void Screen_SolutionDriedWithASalt_IsNotDriedOut()
    {
        var plan = new Plan
        {
            Materials = [Of("acid", "picric acid", G(1)), Of("water", "water", ML(50)), Of("drying", "magnesium sulfate", G(3), Role.Other)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "acid", "water"), Step("2", StepAction.Dry, "flask", 20, "drying")],
        };

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.explosive-dried");
    }

    [Fact]
    public void Screen_PeroxideReducedBeforeEvaporation_IsNotConcentratedPeroxide()
    {
        var plan = new Plan
        {
            Materials = [Of("peracid", "3-chloroperbenzoic acid", Mmol(12)), Of("dcm", "dichloromethane", ML(50), Role.Solvent), WeightPercent("thiosulfate", "sodium thiosulfate", "water", 10, ML(30), Role.Quench)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 0, "peracid", "dcm"), Step("2", StepAction.Quench, "flask", 0, "thiosulfate"), Step("3", StepAction.Concentrate, "flask", 40)],
        };
        var without = plan with { Steps = [plan.Steps[0], plan.Steps[2]] };

        // a notice still says what the bottle holds
        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding is { Hazard: Hazard.Energetic, Severity: < Severity.Notice });
        Assert.Contains(Screener.Screen(without, Policy.Default).Findings, static finding => finding is { Code: "energetic.organic-peroxide-concentrated", Severity: Severity.Danger });
    }

    [Fact]
    public void Screen_EnergeticFamilyWithoutARowHeatedHard_IsAGapForReview()
    {
        var report = Screen(Flask("tube"), Step("2", StepAction.Heat, "tube", 110), Step("3", StepAction.Cool, "tube", 20), Of("hydrazine", "phenylhydrazine", ML(20)));

        Assert.Equal(Verdict.Review, report.Verdict);
        Assert.True(Assert.Single(report.Findings, static finding => finding.Code is "data.energetic-not-assessed").LeavesCheckUndone);
        Assert.DoesNotContain(Screen(Flask("tube"), Step("2", StepAction.Stir, "tube", 25), Step("3", StepAction.Cool, "tube", 20), Of("hydrazine", "phenylhydrazine", ML(20))).Findings, static finding => finding.Code is "data.energetic-not-assessed");
    }

    // 29 CFR 1910.253(a)(2): at most 15 psi gauge, 1.03 bar(g)
    [Theory]
    [InlineData(3.0, true)]
    [InlineData(1.05, true)]
    [InlineData(1.0, false)]
    public void Screen_AcetyleneUnderPressure_IsDangerAboveTheLimitOfTheRegulation(double barGauge, bool danger)
    {
        var plan = new Plan
        {
            Materials = [Of("dioxane", "1,4-dioxane", ML(20), Role.Solvent)],
            Vessels = [new Vessel { Id = "autoclave", Kind = "steel autoclave", VolumeM3 = 100e-6, RatingPaGauge = 50e5 }],
            Steps =
            [
                Step("1", StepAction.Charge, "autoclave", 20, "dioxane") with { Headspace = Under("nitrogen") },
                Step("2", StepAction.Pressurise, "autoclave", 20) with { Gas = Substance("acetylene"), PressurePaAbs = 101_325 + (barGauge * 1e5) },
            ],
        };

        Assert.Equal(danger, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding is { Code: "energetic.acetylene-under-pressure", Severity: Severity.Danger }));
    }

    private static Report Screen(Vessel vessel, Step second, Step third, params Material[] materials) => Screener.Screen(
        new Plan
        {
            Materials = materials,
            Vessels = [vessel],
            Steps = [Step("1", StepAction.Charge, "tube", 20, [.. materials.Select(static material => material.Id)]), second, third],
        },
        Policy.Default);
}
