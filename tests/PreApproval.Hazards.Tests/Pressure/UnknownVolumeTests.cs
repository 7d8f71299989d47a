using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>A closed vessel of unknown volume counts as unable to hold what is shut in, as one of unknown rating does. Common practice, no source.</summary>
public sealed class UnknownVolumeTests
{
    // acetone boils at 56 °C (CRC Handbook, from memory)
    [Theory]
    [InlineData(90, Severity.Danger)]
    [InlineData(35, Severity.Warning)]
    public void Screen_SolventHeatedClosed_IsGraveFromTheBoilingPointOn(double celsius, Severity severity)
    {
        var plan = Unstated(PressureScreenTests.Closed("acetone", 20, 5, celsius, 20));

        var finding = Found(plan)!;

        Assert.Equal(severity, finding.Severity);
        Assert.Equal(["3"], finding.Steps);
        Assert.Equal(Hazard.Pressure, finding.Hazard);
        Assert.Equal(Verdict.Review, Screener.Screen(plan, Policy.Default).Verdict);
    }

    [Fact]
    public void Screen_ClosedInTheCold_IsNone() => Assert.Null(Found(Unstated(PressureScreenTests.Closed("acetone", 20, 5, null, 20))));

    [Fact]
    public void Screen_DeclaredReactionMakesGas_IsDanger()
    {
        var plan = Unstated(PressureScreenTests.Closed("acetone", 20, 5, null, 20));
        plan = plan with
        {
            Materials = [.. plan.Materials, Of("ester", "ethyl acetate", Mmol(5))],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "solvent", "ester"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Stir, "tube")],
            Reactions = [Reaction("3", ["ester"], ("carbon dioxide", Phase.Gas))],
        };

        Assert.Equal(Severity.Danger, Found(plan)!.Severity);
        Assert.Contains("gas that a declared reaction makes", Found(plan)!.Statement, StringComparison.Ordinal);
    }

    /// <summary>Sodium borohydride and hydrochloric acid make hydrogen whether declared or not.</summary>
    [Fact]
    public void Screen_EncounterMakesGas_IsDanger()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium borohydride", Mmol(20)), Of("alcohol", "methanol", ML(20), Role.Solvent)],
            Vessels = [Tube(50, 10) with { VolumeM3 = null }],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "hydride", "alcohol"), Step("2", StepAction.Seal, "tube")],
        };

        Assert.Equal(Severity.Danger, Found(plan)!.Severity);
    }

    // 5 bar(g) in an autoclave of 100 bar(g) are 5 bar(g) in any volume; without a rating, or heated, nobody knows
    [Theory]
    [InlineData(100.0, null, null)]
    [InlineData(null, null, Severity.Danger)]
    [InlineData(100.0, 80.0, Severity.Danger)]
    public void Screen_GasCharged_IsDangerUnlessTheRatingHoldsItCold(double? ratingBar, double? celsius, Severity? severity)
    {
        var plan = new Plan
        {
            Materials = [Of("oil", "mineral oil", ML(20), Role.Solvent)],
            Vessels = [new Vessel { Id = "tube", Kind = "autoclave", RatingPaGauge = ratingBar * 1e5 }],
            Steps =
            [
                Step("1", StepAction.Charge, "tube", 20, "oil"),
                Step("2", StepAction.Pressurise, "tube") with { Gas = Substance("nitrogen"), PressurePaAbs = 6.01325e5 },
                Step("3", StepAction.Stir, "tube", celsius),
            ],
        };

        Assert.Equal(severity, Found(plan)?.Severity);
    }

    private static Plan Unstated(Plan plan) => plan with { Vessels = [plan.Vessels[0] with { VolumeM3 = null }] };

    private static Finding? Found(Plan plan) => Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "pressure.unknown-volume").OrderBy(static finding => finding.Severity).FirstOrDefault();
}
