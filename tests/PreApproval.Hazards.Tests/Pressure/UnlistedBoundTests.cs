using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>A little of an unlisted substance in a closed, rated vessel: counted as if all of it were gas. The bound is the ideal gas law by hand.</summary>
public sealed class UnlistedBoundTests
{
    /// <summary>
    /// 0.6 mmol of 4-fluorobenzonitrile (121.11 g/mol, 73 mg) over 8 mL of N,N-dimethylformamide in 20 mL at 120 °C and 15 K of overshoot (408.15 K): n R T = 2.036 J. The room is
    /// 20 − 1.2 × (8.0 + 0.073 g / 0.6 g/mL) = 10.25 mL, so 1.99 bar. Ten times as much passes half of the rating of glass.
    /// </summary>
    [Theory]
    [InlineData(0.6, 20, 120, "N#Cc1ccc(F)cc1", false)]
    [InlineData(6, 20, 120, "N#Cc1ccc(F)cc1", true)]
    [InlineData(0.6, 2, 120, "N#Cc1ccc(F)cc1", true)]
    [InlineData(0.6, 20, 170, "N#Cc1ccc(F)cc1", true)]
    [InlineData(0.6, 20, 120, "[N-]=[N+]=NCc1ccc(F)cc1", true)]
    [InlineData(0.6, 20, 120, null, true)]
    public void Screen_UnlistedInAHeatedTube_LeavesTheCheckUndoneUnlessBounded(double mmol, double barGauge, double celsius, string? smiles, bool undone)
    {
        var report = Screener.Screen(Heated(mmol, barGauge, celsius, smiles), Policy.Default);

        Assert.Equal(undone, report.Findings.Any(static finding => finding is { Code: "data.pressure-incomplete", LeavesCheckUndone: true }));
        Assert.Equal(undone, report.Findings.Any(static finding => finding is { Code: "data.unknown-substance", LeavesCheckUndone: true }));
    }

    [Fact]
    public void Screen_Bounded_SaysHowMuchAtMost()
    {
        var finding = Screener.Screen(Heated(0.6, 20, 120, "N#Cc1ccc(F)cc1"), Policy.Default).Findings.First(static finding => finding.Code is "data.pressure-incomplete" && finding.Steps.Contains("3", StringComparer.Ordinal));

        Assert.Equal(Severity.Notice, finding.Severity);
        Assert.Contains("by at most 2 bar", finding.Statement, StringComparison.Ordinal);
        Assert.Equal(10, Assert.Single(finding.Evidence).Limit!.Value, 1e-9);
    }

    private static Plan Heated(double mmol, double barGauge, double celsius, string? smiles) => new()
    {
        Materials =
        [
            new Material { Id = "own", Composition = new Composition.Pure(new PlanSubstance("own aryl fluoride", "own aryl fluoride", null, smiles)), Role = Role.Reagent, Amount = Mmol(mmol) },
            Of("dmf", "N,N-dimethylformamide", ML(8), Role.Solvent),
        ],
        Vessels = [Tube(20, barGauge, "tube", 250)],
        Steps =
        [
            Step("1", StepAction.Charge, "tube", 20, "own", "dmf"),
            Step("2", StepAction.Seal, "tube"),
            Step("3", StepAction.Heat, "tube", celsius) with { SurfaceTemperatureK = celsius + 273.15 },
        ],
    };
}
