using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>
/// Dichloromethane at 80 °C has 3.47 bar of vapour (Wagner coefficients of McGarry 1983; Perry's, 8th ed., Table 2-8: 3.48), so every vessel here is well above 0.1 bar(g). Which
/// kinds hold pressure at all, and how much: common practice, no source; the table of docs/methods/ratings.md.
/// </summary>
public sealed class RatingCredibilityTests
{
    [Theory]
    [InlineData("screw-cap vial", 11.8)]
    [InlineData("round-bottom flask", 50)]
    [InlineData("three-necked flask", 50)]
    [InlineData("Erlenmeyer flask", 10)]
    [InlineData("plastic bottle", 30)]
    [InlineData("glass bottle", 30)]
    [InlineData("beaker", 10)]
    [InlineData("separating funnel", 10)]
    [InlineData("NMR tube", 40)]
    [InlineData("balloon", 10)]
    [InlineData("Schlenk tube", 10)]
    [InlineData("microwave vial", 300)]
    [InlineData("thick-walled glass tube", 31)]
    [InlineData("glass reactor", 100)]
    public void Screen_RatingThatTheKindNeverHas_GoesToReview(string kind, double barGauge)
    {
        var finding = Assert.Single(Findings(Plan(kind, barGauge, closure: Closure.Cap)), static finding => Is(finding, "pressure.rating-doubtful"));

        Assert.Equal(Severity.Warning, finding.Severity);
    }

    /// <summary>Diethyl ether boils at 34.6 °C: at 40 °C it and the trapped air stay far below half of 10 bar(g), which the tube holds as it usually is.</summary>
    [Fact]
    public void Screen_NumberThatNothingRestsOn_IsANotice() =>
        Assert.Equal(Severity.Notice, Assert.Single(Findings(Plan("thick-walled glass tube", 60, Closure.Plug, "diethyl ether", 40)), static finding => Is(finding, "pressure.rating-doubtful")).Severity);

    /// <summary>A number behind a pressure that only it allows: acetonitrile at 150 °C, 5.97 bar of vapour (Perry's, 8th ed., Table 2-8) and the trapped air, above half of 10 bar(g).</summary>
    [Theory]
    [InlineData(30, null)]
    [InlineData(31, Severity.Warning)]
    public void Screen_ThreeTimesTheUsualRating_IsBelievedAndNoMore(double barGauge, Severity? expected) =>
        Assert.Equal(expected, Findings(Plan("thick-walled glass tube", barGauge, Closure.Plug, "acetonitrile", 150)).SingleOrDefault(static finding => Is(finding, "pressure.rating-doubtful"))?.Severity);

    [Fact]
    public void Screen_DoubtfulRating_NamesWhatWouldSettleIt()
    {
        var report = Screener.Screen(Plan("screw-cap vial", 11.8, Closure.Cap), Policy.Default);

        Assert.Equal(Verdict.Review, report.Verdict);
        Assert.Contains("photograph of the pressure marked", Assert.Single(report.Findings, static finding => Is(finding, "pressure.rating-doubtful")).Statement, StringComparison.Ordinal);
    }

    /// <summary>Makers mark such vessels: 4 bar(g) on a thick-walled flask and 1.5 bar(g) on a pressure bottle, 200 bar(g) on an autoclave (common practice, no source).</summary>
    [Theory]
    [InlineData("thick-walled glass tube", 10)]
    [InlineData("microwave vial", 30)]
    [InlineData("steel autoclave", 200)]
    [InlineData("pressure flask", 4)]
    [InlineData("pressure bottle", 1.5)]
    [InlineData("gas cylinder", 300)]
    [InlineData("flame-sealed tube", 20)]
    public void Screen_RatingThatTheKindMayHave_IsBelieved(string kind, double barGauge) =>
        Assert.DoesNotContain(Findings(Plan(kind, barGauge, closure: null)), static finding => Is(finding, "pressure.rating-doubtful") || Is(finding, "pressure.closure-doubtful"));

    /// <summary>Ground joints lift at 0.1 to 0.3 bar(g) (common practice, no source): the thickest flask does not change that.</summary>
    [Theory]
    [InlineData("thick-walled flask", Closure.Stopper, null, true)]
    [InlineData("thick-walled flask", Closure.Septum, null, true)]
    [InlineData("thick-walled flask", null, "rubber bung, wired", true)]
    [InlineData("thick-walled flask", null, "two layers of paraffin film", true)]
    [InlineData("thick-walled flask", Closure.Plug, "screw plug, PTFE seal", false)]
    [InlineData("thick-walled flask", null, "PTFE screw plug", false)]
    [InlineData("microwave vial", Closure.Septum, null, false)]
    [InlineData("microwave vial", null, "crimp cap with PTFE-faced septum", false)]
    public void Screen_ClosureThatCannotHold_GoesToReviewWhateverTheRating(string kind, Closure? closure, string? words, bool expected)
    {
        var found = Findings(Plan(kind, 12, closure, words: words)).Where(static finding => Is(finding, "pressure.closure-doubtful")).ToArray();

        Assert.Equal(expected, found.Length == 1);
        Assert.All(found, static finding => Assert.Equal(Severity.Warning, finding.Severity));
    }

    /// <summary>At room temperature dichloromethane adds nothing to the air it closes with: the rating is not relied on.</summary>
    [Fact]
    public void Screen_NoPressure_AsksForNoBelief() =>
        Assert.DoesNotContain(Findings(Plan("round-bottom flask", 50, Closure.Stopper, celsius: 20) is var plan ? plan with { Steps = [plan.Steps[0], plan.Steps[1], Step("3", StepAction.Stir, "vessel")] } : plan), static finding => finding.Code.EndsWith("-doubtful", StringComparison.Ordinal));

    /// <summary>A rating of a vial would only be typed in; a tube of 10 bar(g) with a better mark exists.</summary>
    [Theory]
    [InlineData("screw-cap vial", Closure.Cap, false)]
    [InlineData("thick-walled glass tube", Closure.Plug, true)]
    [InlineData("thick-walled glass tube", Closure.Stopper, false)]
    public void ClearedBy_UnknownRating_OffersARatingOnlyWhereOneIsBelieved(string kind, Closure closure, bool offered) =>
        Assert.Equal(offered, Assert.Single(Findings(Plan(kind, null, closure)), static finding => Is(finding, "pressure.unknown-rating")).ClearedBy.Any(static offer => offer.Path.EndsWith("/rating", StringComparison.Ordinal)));

    private static bool Is(Finding finding, string code) => string.Equals(finding.Code, code, StringComparison.Ordinal);

    private static IReadOnlyList<Finding> Findings(Plan plan) => Screener.Screen(plan, Policy.Default).Findings;

    private static Plan Plan(string kind, double? barGauge, Closure? closure, string solvent = "dichloromethane", double celsius = 80, string? words = null) => new()
    {
        Materials = [Of("solvent", solvent, ML(10), Role.Solvent)],
        Vessels = [new Vessel { Id = "vessel", Kind = kind, VolumeM3 = 30e-6, RatingPaGauge = barGauge * 1e5, Closure = words, MaximumTemperatureK = 473.15 }],
        Steps =
        [
            Step("1", StepAction.Charge, "vessel", 20, "solvent"),
            Step("2", StepAction.Seal, "vessel") with { Closure = closure },
            Step("3", StepAction.Heat, "vessel", celsius) with { HeatSource = HeatSource.WaterBath },
        ],
    };
}
