using CsCheck;
using PreApproval.Hazards.Exposure;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Exposure;

/// <summary>The near field of Nicas 1996 and the tracer test of ANSI/ASSP Z9.5 with ASHRAE 110, worked by hand; constants from memory.</summary>
public sealed class AirborneTests
{
    // β = ½ · 0.06 m/s · 2π · 0.8² m² = 0.1206 m³/s; 30 m³ at 4 changes are 0.0333 m³/s. 1 mL/s of vapour: 1e-6/0.0333 + 1e-6/0.1206 = 38.3 ppm
    [Fact]
    public void OnBench_OneMillilitreASecond_IsThirtyEightPpm()
    {
        Assert.Equal(0.1206, BreathingZone.NearFieldFlowM3PerS, 0.0001);
        Assert.Equal(38.3e-6, BreathingZone.OnBench(1e-6, BreathingZone.RoomFlowM3PerS(30)), 0.1e-6);
    }

    // 4 L/min let 0.1 ppm through
    [Fact]
    public void BeforeHood_FourLitresAMinute_IsATenthPpm() => Assert.Equal(0.1e-6, BreathingZone.BeforeHood(4e-3 / 60), 1e-12);

    /// <summary>
    /// Chloroform at 20 °C, open neck of 24 mm: 0.0083 (18/119.4)^(1/3) = 4.42e-3 m/s times 4.5e-4 m² times 21.1 kPa/(R T) = 17.2e-6 mol/s = 0.414 mL/s of vapour, 15.9 ppm on the bench
    /// (vapour pressure: CRC Handbook, 21.1 kPa). The limits on file are 2 ppm and below 20.
    /// </summary>
    [Fact]
    public void Screen_ChloroformOpenOnTheBench_IsAboveItsLimit()
    {
        var finding = Assert.Single(Findings(PlaceKind.Bench), static finding => finding.Code is "toxicity.airborne");

        Assert.Equal(15.9, finding.Evidence[0].Value, 1.0);
        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains("times the", finding.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(PlaceKind.Hood)]
    [InlineData(PlaceKind.HoodWithScrubber)]
    public void Screen_ChloroformInAHood_IsFarBelowItsLimit(PlaceKind place) => Assert.DoesNotContain(Findings(place), static finding => finding.Code is "toxicity.airborne");

    /// <summary>Eight times the limit at 20 °C would be a warning on the bench: without a place it is a caution that goes to review; at −10 °C (4.6 kPa, 3.5 ppm) it is one that does not.</summary>
    [Theory]
    [InlineData(20, true)]
    [InlineData(-10, false)]
    public void Screen_PlaceNotStated_IsACautionThatGoesToReviewWhereABenchWould(double celsius, bool undone)
    {
        var finding = Assert.Single(Screener.Screen(Chloroform(null, celsius), Policy.Default).Findings, static finding => finding.Code is "toxicity.airborne");

        Assert.Equal(Severity.Caution, finding.Severity);
        Assert.Equal(undone, finding.LeavesCheckUndone);
    }

    /// <summary>
    /// Phosgene, 20 % by mass in toluene: 20/98.9 over 20/98.9 + 80/92.1 is 0.189 of the moles; 1.56 bar pure at 20 °C (CRC Handbook, from memory) make 29.5 kPa. Open neck of 24 mm:
    /// 0.0083 (18/98.9)^(1/3) = 4.70 mm/s; times 4.5e-4 m² and 29.5 kPa/(R T) = 25.6 µmol/s, 0.616 mL/s, 23.6 ppm on the bench, ten times the 2 ppm of the NIOSH list.
    /// </summary>
    [Fact]
    public void Screen_PhosgeneInToluene_IsOneOfTheLiquids()
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("phosgene", "phosgene", "toluene", 20, ML(50))],
            Vessels = [Flask("flask", 250)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "phosgene")],
            Place = new Place(null, PlaceKind.Bench, null, null),
        };
        var findings = Screener.Screen(plan, Policy.Default).Findings;
        var finding = Assert.Single(findings, static finding => finding.Code is "toxicity.airborne");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Equal(23.6, finding.Evidence.First(static one => one.Name.StartsWith("phosgene", StringComparison.Ordinal)).Value, 1.2);
        Assert.DoesNotContain(findings, static finding => finding.Code is "data.airborne-not-checked" && finding.Statement.Contains("phosgene", StringComparison.Ordinal));
    }

    /// <summary>Sulfuric acid boils at 337 °C and has below 0.01 Pa at 20 °C (Perry's Handbook, from memory): nobody breathes its vapour, and a closed vessel has no pressure of it.</summary>
    [Fact]
    public void Screen_SulfuricAcid_HasNoVapour()
    {
        var plan = new Plan
        {
            Materials = [Of("acid", "sulfuric acid", ML(1)), Of("methanol", "methanol", ML(20), Role.Solvent)],
            Vessels = [Tube(100, 10, "tube")],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "methanol", "acid"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", 70)],
            Place = new Place(null, PlaceKind.Bench, null, null),
        };
        var findings = Screener.Screen(plan, Policy.Default).Findings;

        Assert.DoesNotContain(findings, static finding => finding.Code is "data.pressure-incomplete");
        Assert.DoesNotContain(findings, static finding => finding.Code is "toxicity.airborne" or "data.airborne-not-checked" && finding.Statement.Contains("sulfuric acid", StringComparison.Ordinal));
    }

    [Fact]
    public void Screen_ClosedVessel_GivesNothingOff()
    {
        var plan = Chloroform(PlaceKind.Bench, 20) with { Steps = [Step("1", StepAction.Seal, "flask")] };

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "toxicity.airborne");
    }

    // toluene, 20 ppm the lowest shift limit on file: at 20 °C (2.9 kPa) an open neck gives about 2 ppm; at 60 °C (18.5 kPa) a dish of 60 cm² some 170 ppm
    [Theory]
    [InlineData("flask", 20, false)]
    [InlineData("crystallising dish", 60, true)]
    public void Screen_Toluene_DependsOnSurfaceAndTemperature(string kind, double celsius, bool found)
    {
        var plan = new Plan
        {
            Materials = [Of("a", "toluene", ML(200), Role.Solvent)],
            Vessels = [Flask("flask", 500) with { Kind = kind }],
            Steps = [Step("1", StepAction.Charge, "flask", celsius, "a")],
            Place = new Place(null, PlaceKind.Bench, null, null),
        };

        Assert.Equal(found, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "toxicity.airborne"));
    }

    [Fact]
    public void Concentration_never_falls_as_temperature_rises() => Gen.Select(Gen.Double[0, 50], Gen.Double[0.5, 8]).Sample(
        static (celsius, more) =>
        {
            static double Ppm(double at) => Screener.Screen(Chloroform(PlaceKind.Bench, at), Policy.Default).Findings.Single(static finding => finding.Code is "toxicity.airborne").Evidence[0].Value;
            Assert.True(Ppm(celsius + more) >= Ppm(celsius));
        },
        iter: 40);

    [Fact]
    public void Screen_LiquidWithoutALimit_IsSortedByItsBand()
    {
        // acetyl chloride: H314, boils at 51 °C (CRC Handbook), no limit on file
        var plan = new Plan
        {
            Materials = [Of("a", "acetyl chloride", ML(20))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "a")],
            Place = new Place(null, PlaceKind.Bench, null, null),
        };
        var hood = plan with { Place = new Place(null, PlaceKind.Hood, null, null) };

        Assert.Equal(Severity.Caution, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "toxicity.no-limit").Severity);
        Assert.DoesNotContain(Screener.Screen(hood, Policy.Default).Findings, static finding => finding.Code is "toxicity.no-limit");
    }

    /// <summary>Hydrogen chloride leaves its solution in ether and has limits (NIOSH: 5 ppm); its loss from there is not modelled, which is said on the bench and where no place is stated.</summary>
    [Theory]
    [InlineData(PlaceKind.Bench, true)]
    [InlineData(null, true)]
    [InlineData(PlaceKind.Hood, false)]
    public void Screen_DissolvedGasInTheOpen_IsSaidNotToBeChecked(PlaceKind? place, bool said)
    {
        var plan = new Plan
        {
            Materials = [Molar("a", "hydrogen chloride", "diethyl ether", 2, ML(50))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "a")],
            Place = place is { } kind ? new Place(null, kind, null, null) : null,
        };

        Assert.Equal(said, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "data.airborne-not-checked"));
    }

    [Theory]
    [InlineData("N,N-dimethylformamide", "toxicity.cmr")]
    [InlineData("sodium cyanide", "toxicity.acute")]
    [InlineData("sulfuric acid", "toxicity.corrosive")]
    [InlineData("limonene", "toxicity.sensitising")]
    [InlineData("methanol", "toxicity.organs")]
    public void Screen_StatementsAlone_AreNotices(string name, string code)
    {
        var plan = new Plan
        {
            Materials = [Of("a", name, G(1))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "a")],
            Place = new Place(null, PlaceKind.Hood, null, null),
        };

        Assert.Equal(Severity.Notice, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal)).Severity);
    }

    // GHS hazard statements: H317 is an allergic skin reaction, H334 allergy or asthma symptoms if inhaled
    [Theory]
    [InlineData("limonene", "an allergy of the skin")]
    [InlineData("maleic anhydride", "asthma or allergy")]
    public void Screen_Sensitising_SaysOfWhat(string name, string words)
    {
        var plan = new Plan
        {
            Materials = [Of("a", name, G(1))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "a")],
        };

        Assert.Contains(words, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "toxicity.sensitising").Statement, StringComparison.Ordinal);
    }

    // 0.1 mol/L hydrogen chloride in water, 0.36 %: below every limit of the generic rules; 37 % burns
    [Theory]
    [InlineData(0.36, false)]
    [InlineData(37, true)]
    public void Screen_DiluteAcid_IsClassifiedByItsStrength(double percent, bool burns)
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("a", "hydrogen chloride", "water", percent, ML(20))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "a")],
        };

        Assert.Equal(burns, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "toxicity.corrosive"));
    }

    private static IReadOnlyList<Finding> Findings(PlaceKind? place) => Screener.Screen(Chloroform(place, 20), Policy.Default).Findings;

    private static Plan Chloroform(PlaceKind? place, double celsius) => new()
    {
        Materials = [Of("a", "chloroform", ML(100), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", celsius, "a")],
        Place = place is { } kind ? new Place(null, kind, null, null) : null,
    };
}
