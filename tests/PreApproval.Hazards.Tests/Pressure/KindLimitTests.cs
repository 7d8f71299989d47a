using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>
/// Limits of kinds of vessel, common practice: PTFE plugs creep above 180 °C, PTFE liners above 200 °C, septa of microwave vials give way above 250 °C, linings of crimp caps above 120 °C; compressed gas is
/// never heated above 50 °C (gas suppliers say 50 to 52 °C).
/// </summary>
public sealed class KindLimitTests
{
    private const string Limit = "temperature.exceeds-vessel";

    [Theory]
    [InlineData("thick-walled glass tube", 180)]
    [InlineData("PTFE-lined hydrothermal autoclave", 200)]
    [InlineData("microwave vial", 250)]
    [InlineData("crimp-cap headspace vial", 120)]
    [InlineData("lecture bottle", 50)]
    public void Of_KindWithoutAMark_IsTheUsualLimit(string kind, double celsius) =>
        Assert.Equal(celsius + 273.15, TemperatureLimit.Of(new Vessel { Id = "v", Kind = kind }, 0)!.Value.TemperatureK, 1e-9);

    [Fact]
    public void Of_KindWithoutALimit_IsNone() => Assert.Null(TemperatureLimit.Of(Flask(), 0));

    [Theory]
    [InlineData("thick-walled glass tube", null, null, 180)]
    [InlineData("thick-walled glass tube", 250, null, 250)]
    [InlineData("thick-walled glass tube", null, "PEEK plug", 240)]
    [InlineData("thick-walled glass tube", null, "pressure gauge", 180)]
    [InlineData("gas cylinder", 65, null, 50)]
    public void Of_Mark_WinsOverTheKindButNotForCompressedGas(string kind, int? marked, string? part, double celsius)
    {
        var vessel = new Vessel { Id = "v", Kind = kind, MaximumTemperatureK = marked + 273.15, Parts = part is null ? [] : [new VesselPart(part, 10e5, 240 + 273.15)] };

        Assert.Equal(celsius + 273.15, TemperatureLimit.Of(vessel, 0)!.Value.TemperatureK, 1e-9);
    }

    [Theory]
    [InlineData(180, 10e5)]
    [InlineData(181, 0)]
    public void For_AboveTheLimit_NothingCounts(double celsius, double paGauge) =>
        Assert.Equal(paGauge, GoverningRating.For(Tube(20, 10), 0, celsius + 273.15).PaGauge);

    /// <summary>DMF has 1.33 bar at 163 °C and about 2.7 bar at 195 °C (boiling point 153 °C): within 20 bar(g), but the plug is good to 180 °C.</summary>
    [Fact]
    public void Screen_ClosedAboveTheLimitOfThePlug_IsDangerAndNoRatingCounts()
    {
        var findings = Findings(PressureScreenTests.Closed("N,N-dimethylformamide", 20, 5, 185, 20, rating: 20));

        Assert.Equal(Severity.Danger, Single(findings, Limit).Severity);
        Assert.Contains("PTFE plug commonly gives way above 180 °C", Single(findings, Limit).Statement, StringComparison.Ordinal);
        Assert.Equal(Severity.Danger, Single(findings, "pressure.unknown-rating").Severity);
        Assert.Contains("above the 180 °C", Single(findings, "pressure.unknown-rating").Statement, StringComparison.Ordinal);
    }

    /// <summary>180 °C less the overshoot of 15 K of a bath without cut-out: 165 °C.</summary>
    [Theory]
    [InlineData(Limit)]
    [InlineData("pressure.unknown-rating")]
    public void Screen_SetTemperatureOffered_ClearsTheFinding(string code)
    {
        var plan = PressureScreenTests.Closed("N,N-dimethylformamide", 20, 5, 185, 20, rating: 20);
        var offer = Assert.Single(Single(Findings(plan), code).ClearedBy, static clearing => clearing.Change is "set temperature");

        Assert.Equal(165, offer.Value);
        Assert.DoesNotContain(Findings(Clearings.Apply(plan, offer)), finding => string.Equals(finding.Code, code, StringComparison.Ordinal));
    }

    [Fact]
    public void Screen_MarkOnTheVessel_Wins()
    {
        var plan = PressureScreenTests.Closed("N,N-dimethylformamide", 20, 5, 185, 20, rating: 20);
        plan = plan with { Vessels = [plan.Vessels[0] with { MaximumTemperatureK = 250 + 273.15 }] };

        Assert.DoesNotContain(Findings(plan), static finding => finding.Code is Limit or "pressure.unknown-rating" or "temperature.beyond-rating");
    }

    [Fact]
    public void Screen_OpenAboveTheLimit_IsAWarning()
    {
        var plan = PressureScreenTests.Closed("N,N-dimethylformamide", 20, 5, 185, 20, rating: 20);
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[2]] };

        Assert.Equal(Severity.Warning, Single(Findings(plan), Limit).Severity);
    }

    [Theory]
    [InlineData(35, null, null)]
    [InlineData(36, null, Severity.Danger)]
    [InlineData(40, 65.0, Severity.Danger)]
    public void Screen_HeatedLectureBottle_IsDangerAbove50(double celsius, double? marked, Severity? expected)
    {
        var plan = PressureScreenTests.Closed("butane", 400, 100, celsius, 0, rating: 100);
        plan = plan with { Vessels = [plan.Vessels[0] with { Kind = "lecture bottle", MaximumTemperatureK = marked + 273.15 }] };

        Assert.Equal(expected, Findings(plan).SingleOrDefault(static finding => finding.Code is Limit)?.Severity);
    }

    /// <summary>Ethanol at 150 + 15 °C has about 14 bar (Perry's, Table 2-8): within 20 bar(g), not within the 10 that count in a bath.</summary>
    [Theory]
    [InlineData(HeatSource.OilBath, true)]
    [InlineData(HeatSource.MetalBlock, true)]
    [InlineData(HeatSource.Microwave, false)]
    public void Screen_MicrowaveVial_HoldsMoreThanTenBarInItsCavityOnly(HeatSource source, bool flagged)
    {
        var plan = PressureScreenTests.Closed("ethanol", 20, 5, 150, 20, rating: 20);
        plan = plan with { Vessels = [plan.Vessels[0] with { Kind = "microwave vial" }], Steps = [plan.Steps[0], plan.Steps[1], plan.Steps[2] with { HeatSource = source }] };
        var finding = Findings(plan).SingleOrDefault(static finding => finding.Code is "pressure.exceeds-rating");

        Assert.Equal(flagged, finding is not null);
        Assert.Equal(flagged, finding?.Statement.Contains("above the 10 bar(g)", StringComparison.Ordinal) ?? false);
    }

    /// <summary>Such tubes are rated 10 bar(g) up to 120 °C; the set temperature counts, not the overshoot.</summary>
    [Theory]
    [InlineData(120, false)]
    [InlineData(121, true)]
    public void Screen_RatingWithoutTemperature_IsACautionAboveTheUsualOne(double celsius, bool flagged) =>
        Assert.Equal(flagged ? Severity.Caution : null, Findings(PressureScreenTests.Closed("toluene", 20, 5, celsius, 20, rating: 10)).SingleOrDefault(static finding => finding.Code is "temperature.beyond-rating")?.Severity);

    /// <summary>The vapour pressure of toluene at 180 °C is 5 bar (Perry's, Table 2-8), far within half of 30 bar(g): the plug sets the temperature, 180 °C less 15 K.</summary>
    [Theory]
    [InlineData(120)]
    [InlineData(170)]
    public void Of_LimitOfTheKind_CapsTheHighestSetTemperature(double celsius)
    {
        var state = Walk.Follow(PressureScreenTests.Closed("toluene", 20, 5, celsius, 20, rating: 30), Policy.Default).States[^1];

        Assert.Equal(165, ClosedResult.Of(state, Policy.Default)!.HighestSetK!.Value - 273.15, 0.2);
    }

    private static IReadOnlyList<Finding> Findings(Plan plan) => Screener.Screen(plan, Policy.Default).Findings;

    private static Finding Single(IReadOnlyList<Finding> findings, string code) => Assert.Single(findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal));
}
