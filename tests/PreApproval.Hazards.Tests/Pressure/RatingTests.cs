using CsCheck;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

public sealed class RatingTests
{
    /// <summary>EN 1595, borosilicate glass 3.3, K/S = 7 N/mm²: p = 140 s/(d − s).</summary>
    [Theory]
    [InlineData(20, 2.0, 15.6)]
    [InlineData(25.4, 3.0, 18.75)]
    [InlineData(12, 1.5, 20.0)]
    public void PermissiblePa_Tubes_GiveEn1595(double outerMm, double wallMm, double bar) => Assert.Equal(bar, GlassStrength.PermissiblePa(outerMm * 1e-3, wallMm * 1e-3) / 1e5, 0.1);

    [Fact]
    public void WallM_TenBarAt25Mm_Is167Mm() => Assert.Equal(1.67e-3, GlassStrength.WallM(25e-3, 10e5), 0.01e-3);

    [Fact]
    public void wall_of_pressure_inverts_pressure_of_wall() =>
        Gen.Select(Gen.Double[5e-3, 0.2], Gen.Double[0.01, 0.45]).Sample(static (outer, share) =>
            Assert.Equal(share * outer, GlassStrength.WallM(outer, GlassStrength.PermissiblePa(outer, share * outer)), 1e-9));

    /// <summary>Saturated densities of water, IAPWS-95: 917.0, 864.7, 798.9, 712.1, 574.7 against 997.05 kg/m³ at 25 °C. Tolerance 0.3 points.</summary>
    [Theory]
    [InlineData(150, 0.920)]
    [InlineData(200, 0.867)]
    [InlineData(250, 0.801)]
    [InlineData(300, 0.714)]
    [InlineData(350, 0.576)]
    public void WaterColdFill_Temperatures_GiveTheDensityRatio(double celsius, double fill) => Assert.Equal(fill, FillLimits.WaterColdFill(celsius + 273.15), 0.003);

    /// <summary>Directive 2014/68/EU, articles 1 and 4, from memory: 0.6 L at 50 bar below the category, 2 L at 15 bar above (30 &gt; 25 bar·L), 0.4 bar out of scope.</summary>
    [Theory]
    [InlineData(0.6, 50, true, EquipmentStanding.SoundEngineeringPractice)]
    [InlineData(2, 15, true, EquipmentStanding.Categorised)]
    [InlineData(2, 15, false, EquipmentStanding.SoundEngineeringPractice)]
    [InlineData(0.1, 201, true, EquipmentStanding.Categorised)]
    [InlineData(1.5, 0.4, true, EquipmentStanding.OutOfScope)]
    public void ForGas_Article4_GivesTheStanding(double litre, double bar, bool dangerous, EquipmentStanding expected) =>
        Assert.Equal(expected, PressureEquipment.ForGas(bar * 1e5, litre * 1e-3, dangerous));

    /// <summary>ASME B16.5, class 300, group 2.2: 49.6 bar cold, 35.7 at 200 °C, 33.4 at 250 °C (from memory).</summary>
    [Theory]
    [InlineData(20, 1)]
    [InlineData(200, 35.7 / 49.6)]
    [InlineData(225, 34.55 / 49.6)]
    [InlineData(250, 33.4 / 49.6)]
    public void SteelShare_Temperatures_FollowTheTable(double celsius, double share) => Assert.Equal(share, RatingByTemperature.SteelShare(celsius + 273.15)!.Value, 1e-6);

    [Fact]
    public void SteelShare_BeyondTheTable_IsUnknown() => Assert.Null(RatingByTemperature.SteelShare(700));

    [Fact]
    public void steel_share_never_rises_with_temperature() =>
        Gen.Select(Gen.Double[280, 670], Gen.Double[0, 100]).Sample(static (kelvin, more) =>
            Assert.True((RatingByTemperature.SteelShare(kelvin + more) ?? 0) <= RatingByTemperature.SteelShare(kelvin)));

    /// <summary>The weakest part counts and an unknown one makes the whole unknown; ASME B16.5, class 300, group 2.2: 35.7 of 49.6 bar at 200 °C (from memory).</summary>
    [Fact]
    public void For_PartAndStamp_TakesTheWeakestAtTheTemperature()
    {
        var glass = Tube(20, 10, maximumC: 150) with { Parts = [new VesselPart("plug", 8e5, 120 + 273.15)] };
        var steel = new Vessel { Id = "autoclave", Kind = "steel autoclave", RatingPaGauge = 100e5, Parts = [new VesselPart("gauge", 80e5, 523.15)] };

        Assert.Equal(8e5, GoverningRating.For(glass, 0, 373.15).PaGauge);
        Assert.Null(GoverningRating.For(glass with { Parts = [new VesselPart("plug", null, null)] }, 0, 373.15).PaGauge);
        Assert.Equal(80e5, GoverningRating.For(steel, 0, 293.15).PaGauge);
        Assert.Equal(100e5 * 35.7 / 49.6, GoverningRating.For(steel, 0, 473.15).PaGauge!.Value, 1);
        Assert.Equal(80e5, GoverningRating.For(steel with { MaximumTemperatureK = 523.15 }, 0, 473.15).PaGauge);
    }

    /// <summary>A liner holds no pressure: the steel around it does, up to the limit of the liner. A seal or a closure does hold it. Common practice, no source.</summary>
    [Theory]
    [InlineData("PTFE liner", 100, 80e5)]
    [InlineData("glass insert", 100, 80e5)]
    [InlineData("PTFE liner", 220, 0.0)]
    [InlineData("PTFE seal", 100, null)]
    [InlineData("screw closure", 100, null)]
    public void For_PartWithATemperatureAlone_CountsByWhatItHolds(string part, double celsius, double? expectedPa)
    {
        var steel = new Vessel { Id = "autoclave", Kind = "steel autoclave", RatingPaGauge = 80e5, MaximumTemperatureK = 573.15, Parts = [new VesselPart(part, null, 473.15)] };

        Assert.Equal(expectedPa, GoverningRating.For(steel, 0, celsius + 273.15).PaGauge);
    }

    /// <summary>General service temperatures of seal makers: PTFE and FKM 200 °C (common practice).</summary>
    [Theory]
    [InlineData("PTFE screw plug", 200)]
    [InlineData("FKM O-ring", 200)]
    [InlineData("FFKM O-ring", 300)]
    [InlineData("PTFE plug with nitrile O-ring", 100)]
    public void SealLimit_Words_GiveTheWeakestMaterial(string words, double celsius) => Assert.Equal(celsius, RatingByTemperature.SealLimit(words)!.Value.TemperatureK - 273.15, 1e-6);

    [Fact]
    public void SealLimit_WordsWithoutMaterial_IsUnknown() => Assert.Null(RatingByTemperature.SealLimit("screw cap"));

    /// <summary>Common practice, no source; the table of docs/methods/ratings.md.</summary>
    [Theory]
    [InlineData("thick-walled glass tube", 10.0)]
    [InlineData("pressure flask, 250 mL", 4.0)]
    [InlineData("PTFE-lined hydrothermal autoclave", 30.0)]
    [InlineData("microwave vial", 10.0)]
    [InlineData("screw-cap vial", 0.0)]
    [InlineData("round-bottom flask", 0.0)]
    [InlineData("gas cylinder", null)]
    public void TypicalOf_Kind_GivesTheUsualRating(string kind, double? bar)
    {
        var found = VesselKinds.TypicalOf(kind);

        Assert.NotNull(found);
        Assert.Equal(bar is { } number ? number * 1e5 : null, found.RatingPaGauge);
    }

    [Fact]
    public void Screen_UnknownRatingOfAUsualKind_StillCountsAsZero()
    {
        var finding = Assert.Single(Findings(Ethanol(Tube(20, null))), static finding => string.Equals(finding.Code, "pressure.unknown-rating", StringComparison.Ordinal));

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Contains(finding.Evidence, static evidence => evidence is { Name: "typical rating", Value: 10, Model: var model } && model.Contains("informs only", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("2025-01-10", true)]
    [InlineData("2025-06-01", false)]
    public void Screen_Inspection_ExpiresAfterAYear(string inspected, bool expired)
    {
        var plan = Ethanol(Tube(20, 40) with { InspectedOn = DateOnly.Parse(inspected, System.Globalization.CultureInfo.InvariantCulture) }) with { PlannedOn = new DateOnly(2026, 2, 1) };

        Assert.Equal(expired, Has(plan, "safeguard.inspection-expired"));
    }

    [Theory]
    [InlineData(10, null)]
    [InlineData(12, Severity.Caution)]
    [InlineData(16, Severity.Warning)]
    public void Screen_HeatedClosedGlass_FlagsFillAboveHalf(double liquidML, Severity? expected) =>
        Assert.Equal(expected, Findings(Ethanol(Tube(20, 400), liquidML)).FirstOrDefault(static finding => string.Equals(finding.Code, "pressure.fill", StringComparison.Ordinal))?.Severity);

    [Theory]
    [InlineData(Attendance.Attended, false, false)]
    [InlineData(Attendance.Overnight, false, true)]
    [InlineData(Attendance.Unattended, true, false)]
    public void Screen_HeatedClosedUnwatched_AsksForACutOut(Attendance attendance, bool cutOut, bool flagged)
    {
        var plan = Ethanol(Tube(20, 400), cutOut: cutOut) with { Attendance = attendance };

        Assert.Equal(flagged, Has(plan, "safeguard.unwatched-heating"));
    }

    [Fact]
    public void Screen_SealBeyondItsService_IsACaution()
    {
        var vessel = Tube(20, 400) with { Closure = "nitrile O-ring" };

        Assert.True(Has(Ethanol(vessel, celsius: 120), "temperature.seal"));
        Assert.False(Has(Ethanol(vessel with { Closure = "FKM O-ring" }, celsius: 120), "temperature.seal"));
    }

    /// <summary>Ethanol at 200 + 15 °C: about 40 bar(g) (Perry's, Table 2-8, with the air); of 60 bar cold steel keeps 42 bar (ASME B16.5, from memory), nine tenths of which is passed.</summary>
    [Fact]
    public void Screen_SteelRatedWithoutTemperature_IsJudgedByWhatSteelKeeps()
    {
        var vessel = Tube(20, 60) with { Kind = "steel autoclave" };

        var finding = Findings(Ethanol(vessel, celsius: 200)).Single(static finding => finding.Code is "pressure.near-rating");
        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Contains("counts as cold", finding.Statement, StringComparison.Ordinal);
        Assert.False(Has(Ethanol(vessel with { MaximumTemperatureK = 523.15 }, celsius: 200), "pressure.near-rating"));
    }

    /// <summary>40 bar(g) over three quarters and over the 0.707 that steel keeps at 215 °C (ASME B16.5, from memory) ask for 75 bar(g) cold, or for 60 that stand beside a temperature.</summary>
    [Fact]
    public void Screen_SteelRatedWithoutTemperature_OffersWhatClears()
    {
        var plan = Ethanol(Tube(20, 60) with { Kind = "steel autoclave" }, celsius: 200);
        var finding = Findings(plan).Single(static finding => finding.Code is "pressure.near-rating");

        Assert.InRange(finding.ClearedBy.Single(static offer => offer.Path is "/vessels/0/rating").Value!.Value, 72, 79);
        Assert.Equal(215, finding.ClearedBy.Single(static offer => offer.Path is "/vessels/0/maximumTemperature").Value);
        Assert.All(finding.ClearedBy, offer => Assert.DoesNotContain(Findings(Clearings.Apply(plan, offer)), static other => other.Code is "pressure.near-rating" or "pressure.exceeds-rating"));
    }

    /// <summary>A rating without a temperature allows less the hotter it gets: what is said to be permissible is.</summary>
    [Fact]
    public void Of_SteelRatedWithoutTemperature_HighestSetTemperatureIsQuiet()
    {
        var plan = Ethanol(Tube(20, 60) with { Kind = "steel autoclave" }, celsius: 120);
        var highest = ClosedResult.Of(Walk.Follow(plan, Policy.Default).States[^1], Policy.Default)!.HighestSetK!.Value;

        Assert.InRange(highest, 423.15, 473.15);
        Assert.False(Has(plan with { Steps = [.. plan.Steps.SkipLast(1), plan.Steps[^1] with { TemperatureK = highest }] }, "pressure.near-rating"));
    }

    /// <summary>Below a twentieth a fill is itself a finding: it is never offered. 10 mL in 20 mL at 110 °C are above 5 bar(g) whatever the fill (ethanol, Perry's, Table 2-8: 5.0 bar at 125 °C, and air).</summary>
    [Fact]
    public void Of_NoFillIsQuiet_GivesNone() =>
        Assert.Null(ClosedResult.Of(Walk.Follow(Ethanol(Tube(20, 10), celsius: 110), Policy.Default).States[^1], Policy.Default)!.HighestFill);

    [Fact]
    public void permissible_temperature_meets_the_governing_pressure() =>
        Gen.Select(Gen.Double[1, 14], Gen.Double[3, 30]).Sample(static (liquidML, ratingBar) =>
        {
            var state = Walk.Follow(Ethanol(Tube(20, ratingBar), liquidML), Policy.Default).States[^1];
            var result = ClosedResult.Of(state, Policy.Default)!;
            if (result.HighestSetK is not { } highest || highest < 303.15)
            {
                return;
            }

            var limit = 0.5 * ratingBar * 1e5;
            Assert.True(At(highest) <= limit + 1);
            Assert.True(ClosedAssessment.Of(Moved(highest + 0.1))!.LiquidFull || At(highest + 0.1) > limit || highest + 15.1 > ClosedVessel.CeilingK);

            double At(double setK) => ClosedAssessment.Of(Moved(setK))!.WorstPaGauge ?? double.PositiveInfinity;
            StepState Moved(double setK) => state with { TemperatureK = setK, WorstTemperatureK = setK + 15 };
        }, iter: 25);

    [Fact]
    public void stored_energy_never_falls_with_temperature() =>
        Gen.Select(Gen.Double[1, 10], Gen.Double[40, 180], Gen.Double[0, 30]).Sample(static (liquidML, celsius, more) =>
            Assert.True(Energy(liquidML, celsius + more) >= Energy(liquidML, celsius) * 0.999), iter: 25);

    [Fact]
    public void pressure_same_when_vessel_and_contents_scale() =>
        Gen.Select(Gen.Double[1, 10], Gen.Double[40, 180], Gen.Double[0.5, 20]).Sample(static (liquidML, celsius, factor) =>
        {
            var small = ClosedResult.Of(Walk.Follow(Ethanol(Tube(20, 40), liquidML, celsius), Policy.Default).States[^1], Policy.Default)!;
            var large = ClosedResult.Of(Walk.Follow(Ethanol(Tube(20 * factor, 40), liquidML * factor, celsius), Policy.Default).States[^1], Policy.Default)!;
            Assert.Equal(small.GoverningPaGauge!.Value, large.GoverningPaGauge!.Value, 1e-4 * small.GoverningPaGauge.Value);
            Assert.Equal(small.Energy!.TotalJ * factor, large.Energy!.TotalJ, 1e-3 * large.Energy.TotalJ);
        }, iter: 25);

    private static double Energy(double liquidML, double celsius) => ClosedResult.Of(Walk.Follow(Ethanol(Tube(20, 40), liquidML, celsius), Policy.Default).States[^1], Policy.Default)!.Energy!.TotalJ;

    private static IReadOnlyList<Finding> Findings(Plan plan) => Screener.Screen(plan, Policy.Default).Findings;

    private static bool Has(Plan plan, string code) => Findings(plan).Any(finding => string.Equals(finding.Code, code, StringComparison.Ordinal));

    private static Plan Ethanol(Vessel vessel, double liquidML = 10, double celsius = 100, bool cutOut = false) => new()
    {
        Materials = [Of("ethanol", "ethanol", ML(liquidML), Role.Solvent)],
        Vessels = [vessel],
        Steps =
        [
            Step("1", StepAction.Charge, vessel.Id, 25, "ethanol"),
            Step("2", StepAction.Seal, vessel.Id),
            Step("3", StepAction.Heat, vessel.Id, celsius) with { HeatSource = HeatSource.MetalBlock, IndependentCutOut = cutOut },
        ],
    };
}
