using CsCheck;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

public sealed class ReleaseScreenTests
{
    /// <summary>
    /// Acetone, 50 mL at 100 °C: cp 126 J/(mol K) and 29.1 kJ/mol at 56.1 °C (CRC Handbook) flash 126·43.9/29 100 = 19 %; heat capacity at 298 K throughout.
    /// </summary>
    [Fact]
    public void Screen_AcetoneClosedAt100_FlashesAFifth()
    {
        var finding = Release(Closed("acetone", 50, 85));

        Assert.Equal(126 * 43.9 / 29_100, Value(finding, "share that flashes at once"), 0.01);
        Assert.Contains("19 % of the liquid flashes off at once", finding.Statement, StringComparison.Ordinal);
        Assert.Contains("a room of 30 m³ (not stated; assumed)", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>Stoichiometry: 100 mL of acetone (0.784 g/mL) is 1.350 mol, 33.0 L of vapour: 4.4 % of the lower limit of 2.5 % in 30 m³, 98 % in 1.35 m³.</summary>
    [Fact]
    public void Screen_AcetoneEvaporatedWhole_IsHeldAgainstRoomAndHood()
    {
        var finding = Release(Closed("acetone", 100, 40));

        Assert.Equal(0.044, Value(finding, "share of the lower limit in 30 m³, evaporated whole"), 0.001);
        Assert.Equal(0.98, Value(finding, "share of the lower limit in the air standing in a hood"), 0.02);
    }

    [Fact]
    public void Screen_StatedRoom_IsUsedInsteadOfTheDefault()
    {
        var plan = Closed("acetone", 100, 40) with { Place = new Place("laboratory", PlaceKind.Hood, 60, null) };

        Assert.Equal(0.022, Value(Release(plan), "share of the lower limit in 60 m³, evaporated whole"), 0.0005);
    }

    [Fact]
    public void Screen_ClosedBelowItsBoilingPoint_FlashesNothing() => Assert.Equal(0, Value(Release(Closed("toluene", 20, 60)), "share that flashes at once"));

    [Fact]
    public void Screen_SurfaceAboveAutoignition_LightsItWithoutASpark()
    {
        var plan = Closed("diethyl ether", 20, 60);
        plan = plan with { Steps = [.. plan.Steps.Take(2), plan.Steps[2] with { SurfaceTemperatureK = 473.15 }] };
        var finding = Release(plan);

        Assert.Equal(Severity.Caution, finding.Severity);
        Assert.Contains("lights diethyl ether without a spark", finding.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_ClosedAndCold_SaysNothingOfARelease() =>
        Assert.DoesNotContain(Screener.Screen(new Plan
        {
            Materials = [Of("liquid", "acetone", ML(20), Role.Solvent)],
            Vessels = [Tube(250, 10)],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "liquid"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Stir, "tube")],
        }, Policy.Default).Findings, static finding => finding.Code is "fire.release");

    /// <summary>NIOSH 2017: IDLH of acetonitrile 137 ppm. 50 mL (0.786 g/mL, 41.05 g/mol) is 0.957 mol, 780 ppm in 30 m³.</summary>
    [Fact]
    public void Screen_AcetonitrileLetGo_IsAboveTheImmediatelyDangerous()
    {
        var finding = Assert.Single(Screener.Screen(Closed("acetonitrile", 50, 100), Policy.Default).Findings, static finding => finding.Code is "toxicity.release");

        Assert.Equal(Severity.Caution, finding.Severity);
        Assert.Equal(780, Value(finding, "acetonitrile in the room"), 10.0);
        Assert.Equal(137, Assert.Single(finding.Evidence).Limit);
        Assert.Contains("immediately dangerous from 137 ppm", finding.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_NoLimitOnFile_IsSaid()
    {
        var unlimited = Substance("acetone") with { Known = Substance("acetone").Known! with { ExposureLimits = null, Idlh = null } };
        var plan = Closed("acetone", 20, 80);
        plan = plan with { Materials = [plan.Materials[0] with { Composition = new Composition.Pure(unlimited) }] };

        Assert.Contains("Neither an exposure limit nor an immediately dangerous concentration of acetone is on file", Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "data.exposure-limit").Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_NoHeatCapacityOnFile_CountsAllOfIt()
    {
        var unknown = Substance("acetone") with { Known = Substance("acetone").Known! with { LiquidHeatCapacityJPerMolK = null } };
        var plan = Closed("acetone", 20, 80);
        plan = plan with { Materials = [plan.Materials[0] with { Composition = new Composition.Pure(unknown) }] };

        var finding = Release(plan);

        Assert.Contains("the heat capacity of acetone is not on file", finding.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain(finding.Evidence, static evidence => evidence.Name is "share that flashes at once");
    }

    [Theory]
    [InlineData(PlaceKind.Bench, Severity.Caution)]
    [InlineData(PlaceKind.Hood, Severity.Notice)]
    public void Screen_OpenSpillAboveTheImmediatelyDangerous_CountsMoreOnABench(PlaceKind place, Severity expected)
    {
        var plan = new Plan
        {
            Materials = [Of("liquid", "chloroform", ML(200), Role.Solvent)],
            Vessels = [Flask("flask", 500)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "liquid")],
            Place = new Place("laboratory", place, null, null),
        };

        Assert.Equal(expected, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "toxicity.spill").Severity);
    }

    /// <summary>5.00 g of LiAlH4 and water: 0.527 mol, 12.9 L of hydrogen (stoichiometry); in 1.35 m³ 0.955 %, 24 % of 4.0 %.</summary>
    [Fact]
    public void Screen_HydrideQuenched_HoldsTheHydrogenAgainstTheHood()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "lithium aluminium hydride", G(5)), Of("thf", "tetrahydrofuran", ML(100), Role.Solvent), Of("water", "water", ML(20), Role.Quench)],
            Vessels = [Flask("flask", 500)],
            Steps = [Step("1", StepAction.Charge, "flask", 0, "thf", "hydride") with { Headspace = Under("nitrogen") }, Step("2", StepAction.Quench, "flask", 0, "water") with { OverS = 1200 }],
            FireResponse = Agents(Agent.DrySand),
            Place = new Place("hood 1", PlaceKind.Hood, null, null),
        };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.gas-cloud");

        Assert.Equal(12.9, Value(finding, "hydrogen given off"), 0.05);
        Assert.Equal(0.239, Value(finding, "share of the lower limit in the air standing in a hood"), 0.003);
        // 12.9 L in 1200 s over 0.3 m³/s
        Assert.Equal(12.9e-3 / 1200 / 0.3 / 0.04, Value(finding, "share of the lower limit in the exhaust"), 1e-5);
    }

    /// <summary>10 g of LiAlH4: 25.8 L of hydrogen, 1.91 % in 1.35 m³, 48 % of 4.0 %: over ten minutes a hood draws it off; where no hood is stated nothing does. Stop at 25 % of the limit (usage of NFPA 45 and 86, from memory).</summary>
    [Theory]
    [InlineData(PlaceKind.Hood, Severity.Notice)]
    [InlineData(PlaceKind.Bench, Severity.Warning)]
    [InlineData(null, Severity.Warning)]
    public void Screen_HydrogenOverTheTimeOfTheStep_IsDrawnOffOnlyByAHood(PlaceKind? kind, Severity severity)
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "lithium aluminium hydride", G(10)), Of("thf", "tetrahydrofuran", ML(200), Role.Solvent), Of("water", "water", ML(40), Role.Quench)],
            Vessels = [Flask("flask", 1000)],
            Steps = [Step("1", StepAction.Charge, "flask", 0, "thf", "hydride") with { Headspace = Under("nitrogen") }, Step("2", StepAction.Quench, "flask", 0, "water") with { OverS = 1200 }],
            Place = kind is null ? null : new Place("here", kind, null, null),
        };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.gas-cloud");

        Assert.Equal(severity, finding.Severity);
        Assert.Equal(kind != PlaceKind.Hood, !finding.Statement.Contains("exhaust", StringComparison.Ordinal));
    }

    /// <summary>
    /// Acetone at 100 °C, flash 126·43.9/29 100 = 19 % (above). 300 mL (0.784 g/mL, 58.08 g/mol) is 4.05 mol: 18.8 L at once, 1.39 % of 1.35 m³ or 56 % of the limit of 2.5 %;
    /// 100 mL a third of it, 19 %; 40 mL 7 %. What is left of a pool of 0.03 m² in the exhaust adds 1 to 2 % (EPA 550-B-99-009). Steps at 10 and 25 %: usage of NFPA 45 and 86, from memory.
    /// </summary>
    [Theory]
    [InlineData(40, 0.075, Severity.Notice)]
    [InlineData(100, 0.19, Severity.Caution)]
    [InlineData(300, 0.57, Severity.Warning)]
    public void Screen_AcetoneLetGoInAHood_IsGradedByWhatComesOut(double mL, double share, Severity severity)
    {
        var finding = Release(Closed("acetone", mL, 85) with { Place = new Place("hood 1", PlaceKind.Hood, null, null) });

        Assert.Equal(share, Value(finding, "share of the lower limit in the hood, as it evaporates"), 0.02);
        Assert.Equal(severity, finding.Severity);
    }

    /// <summary>
    /// By hand: acetone, 2 L, a pool of 0.2 m², 0.308 bar at 25 °C (Perry), K = 0.0083 (18/58.08)^⅓ = 0.00562 m/s (Crowl and Louvar): 0.342 L/s of vapour, 27.0 mol or 0.661 m³ in 1932 s.
    /// 30 m³ with 4 changes an hour, 33.3 L/s: 1.026 % (1 − e^−2.15) = 0.906 %, 36 % of 2.5 %; whole 88 %. Diethyl ether, 500 mL: 0.05 m², 0.717 bar, K 0.00518: 0.183 L/s for 642 s: 0.549 % (1 − e^−0.713) = 0.280 %, 16 % of 1.7 %.
    /// </summary>
    [Theory]
    [InlineData("acetone", 2000, 0.362, 0.88, Severity.Warning)]
    [InlineData("diethyl ether", 500, 0.165, 0.23, Severity.Caution)]
    public void Screen_OpenSpillOnABench_IsGradedByWhatEvaporates(string liquid, double mL, double share, double whole, Severity severity)
    {
        var finding = Assert.Single(Screener.Screen(Open(liquid, mL, PlaceKind.Bench), Policy.Default).Findings, static finding => finding.Code is "fire.spill");

        Assert.Equal(share, Value(finding, "share of the lower limit in the room, as it evaporates"), 0.01);
        Assert.Equal(whole, Value(finding, "share of the lower limit, evaporated whole"), 0.01);
        Assert.Equal(severity, finding.Severity);
    }

    /// <summary>Ethyl acetate, 300 mL: 0.03 m², 0.124 bar, K 0.0049: 18 mL/s of vapour over 33.3 L/s, below 0.054 %, 3 % of 2.0 %. Acetone, 2 L, in a hood: 114 g/min from 1 m² (EPA), 0.16 L/s over 0.3 m³/s, 2 %.</summary>
    [Theory]
    [InlineData("ethyl acetate", 300, PlaceKind.Bench)]
    [InlineData("acetone", 2000, PlaceKind.Hood)]
    public void Screen_OpenSpillThatTheAirCarriesOff_IsNoFinding(string liquid, double mL, PlaceKind place) =>
        Assert.DoesNotContain(Screener.Screen(Open(liquid, mL, place), Policy.Default).Findings, static finding => finding.Code is "fire.spill");

    private static Plan Open(string liquid, double mL, PlaceKind place) => new()
    {
        Materials = [Of("liquid", liquid, ML(mL), Role.Solvent)],
        Vessels = [Flask("flask", 3000)],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "liquid")],
        Place = new Place("laboratory", place, null, null),
    };

    [Fact]
    public void More_liquid_never_gives_less_vapour() => Check.Sample(
        Gen.Select(Gen.Double[1, 100], Gen.Double[1, 100], Gen.Double[40, 150]),
        static x =>
        {
            var (mL, more, celsius) = x;
            return Vapour(mL + more, celsius) >= Vapour(mL, celsius) && Vapour(mL, celsius + 10) >= Vapour(mL, celsius) - 1e-9;
        },
        iter: 50);

    private static double Vapour(double mL, double celsius)
    {
        var plan = Closed("acetone", mL, celsius);
        return ReleaseEstimate.Of(Walk.Follow(plan, Policy.Default).States[^1])!.AtOnceM3;
    }

    private static Finding Release(Plan plan) => Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.release");

    private static double Value(Finding finding, string name) => Assert.Single(finding.Evidence, evidence => string.Equals(evidence.Name, name, StringComparison.Ordinal)).Value;

    // metal block, 15 K of overshoot
    private static Plan Closed(string substance, double mL, double celsius) => new()
    {
        Materials = [Of("liquid", substance, ML(mL), Role.Solvent)],
        Vessels = [Tube(500, 50)],
        Steps = [Step("1", StepAction.Charge, "tube", 20, "liquid"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", celsius) with { HeatSource = HeatSource.MetalBlock }],
        FireResponse = Agents(Agent.CarbonDioxide),
    };
}
