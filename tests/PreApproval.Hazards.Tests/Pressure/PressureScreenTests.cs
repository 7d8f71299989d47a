using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

public sealed class PressureScreenTests
{
    /// <summary>
    /// Vapour: Perry's Chemical Engineers' Handbook, 8th ed., Table 2-8 (water: steam tables). Air without liquid expansion:
    /// (1.01325 bar − p(25 °C))·T/298.15 K by hand; the expanding liquid may only raise it: acetonitrile, the worst here, from 5.0 to about 6.3 mL at 150 °C, by a third.
    /// </summary>
    [Theory]
    [InlineData("ethanol", 20, 10, 120, 4.27, 1.23, 0.02)]
    [InlineData("dichloromethane", 8, 3, 80, 3.48, 0.51, 0.02)]
    [InlineData("water", 10, 5, 200, 15.55, 1.56, 0.01)]
    [InlineData("acetonitrile", 10, 5, 150, 5.97, 1.27, 0.03)]
    [InlineData("N,N-dimethylformamide", 10, 5, 150, 0.97, 1.43, 0.04)]
    public void Input_SaturatedAtClosing_GivesVapourAndAirComputedByHand(
        string solvent, double vesselML, double liquidML, double celsius, double vapourBar, double airBar, double tolerance)
    {
        var state = Heated(solvent, vesselML, liquidML, celsius, closedAtC: 25);
        var input = ClosedAssessment.InputOf(state, vesselML * 1e-6, saturated: true, []);

        var partial = ClosedVessel.At(input, celsius + 273.15).Governing.PartialPressuresPa;

        Assert.InRange(partial[Substance(solvent).Key] / 1e5, vapourBar * (1 - tolerance), vapourBar * (1 + tolerance));
        Assert.InRange(partial["headspace"] / 1e5, airBar * 0.98, airBar * 1.35);
    }

    /// <summary>0.3 mol at 200 kJ/mol, half of it accumulated: 30 kJ into 100 g of ether, 2.37 J/(g K) (CRC Handbook, from memory), about 127 K by hand. No heater does that.</summary>
    [Fact]
    public void Screen_TemperatureMadeByTheReaction_IsNotCalledAnOvershoot()
    {
        var plan = new Plan
        {
            Materials = [Of("limiting", "benzoic acid", Mmol(300)), Of("solvent", "diethyl ether", G(100), Role.Solvent)],
            Vessels = [Tube(500, 2)],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "limiting", "solvent"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", 32)],
            LimitingMaterial = "limiting",
            Reactions = [Reaction("3", ["limiting"]) with { HeatJPerMol = -200e3, Accumulation = 0.5 }],
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.exceeds-rating");

        Assert.Contains("which the reaction reaches from 32 °C without cooling", finding.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain("overshoot", finding.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain(finding.Evidence, static evidence => evidence.Model.Contains("overshoot", StringComparison.Ordinal) && evidence.Name is "worst credible temperature");
    }

    /// <summary>10 mL of ethanol in 20 mL, closed at 25 °C, at 120 °C: 5.64 bar with β = 1.1e-3 /K (own arithmetic from Perry's table).</summary>
    [Fact]
    public void Input_EthanolWithExpandingLiquid_Gives564Bar()
    {
        var input = ClosedAssessment.InputOf(Heated("ethanol", 20, 10, 120, closedAtC: 25), 20e-6, saturated: true, []);

        Assert.Equal(5.64, ClosedVessel.At(input, 393.15).Governing.PressurePaAbs!.Value / 1e5, 0.02 * 5.64);
    }

    [Theory]
    [InlineData("ethanol", 20, 10, 120, 5.64)]
    [InlineData("dichloromethane", 8, 3, 80, 3.99)]
    [InlineData("acetonitrile", 10, 5, 150, 7.24)]
    public void Screen_HeatedClosed_CountsTheTrappedGasAsDry(string solvent, double vesselML, double liquidML, double celsius, double saturatedBar)
    {
        var context = Context(Closed(solvent, vesselML, liquidML, celsius, 25));

        var expected = context.Closed(context.Walk.States[^1])!.AtSet.PressurePaAbs!.Value / 1e5;

        // never below the saturated value, above it by at most the vapour pressure at closing scaled to the temperature
        Assert.InRange(expected, saturatedBar * 0.98, saturatedBar * 1.35);
    }

    [Theory]
    // quiet: its results alone
    [InlineData(10, Severity.Notice)]
    [InlineData(5.0, Severity.Warning)]
    [InlineData(3.1, Severity.Danger)]
    [InlineData(1.0, Severity.Danger)]
    public void Screen_EthanolAt100DegreesByRating_GradesByShare(double ratingBar, Severity expected)
    {
        // about 3.4 bar absolute at 100 °C; with 15 K overshoot about 5 bar absolute, 4 bar(g) against the rating
        var plan = new Plan
        {
            Materials = [Of("ethanol", "ethanol", ML(5), Role.Solvent)],
            Vessels = [Tube(20, ratingBar)],
            Steps =
            [
                Step("1", StepAction.Charge, "tube", 25, "ethanol"),
                Step("2", StepAction.Seal, "tube"),
                Step("3", StepAction.Heat, "tube", 100) with { HeatSource = HeatSource.MetalBlock, IndependentCutOut = true, SurfaceTemperatureK = 373.15 },
            ],
        };

        var finding = Screener.Screen(plan, Policy.Default).Findings.FirstOrDefault(static finding => finding.Hazard == Hazard.Pressure);

        Assert.Equal(expected, finding?.Severity);
    }

    [Fact]
    public void Screen_UnratedTubeHeated_IsUnknownRatingDangerThatSaysZero()
    {
        var finding = Assert.Single(Pressure(Closed("ethanol", 20, 5, 100, 20, rating: null)));

        Assert.Equal("pressure.unknown-rating", finding.Code);
        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Contains("counts as 0 bar(g)", finding.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_UnratedFlaskStopperedAtRoomTemperature_IsNoFinding()
    {
        Assert.Empty(Pressure(Closed("toluene", 100, 50, celsius: null, closedAtC: 20, rating: null)));
    }

    [Fact]
    public void Screen_UnratedFlaskClosedColdWithEther_IsCautionAsItWarms()
    {
        // diethyl ether 0.25 bar at 0 °C and 0.59 bar at 20 °C (Perry 8th ed., Table 2-8): 0.82 + 0.59 − 1.01 = 0.40 bar(g)
        var finding = Assert.Single(Pressure(Closed("diethyl ether", 100, 50, celsius: null, closedAtC: 0, rating: null)));

        Assert.Equal(Severity.Caution, finding.Severity);
        Assert.Equal("pressure.unknown-rating", finding.Code);
    }

    [Fact]
    public void Screen_TolueneFilledTo85Percent_IsLiquidFullWhateverTheRating()
    {
        // 17 mL of toluene in 20 mL fill the vessel near 150 °C by thermal expansion
        var finding = Assert.Single(Pressure(Closed("toluene", 20, 17, 165, 20, rating: 200)));

        Assert.Equal("pressure.liquid-full", finding.Code);
        Assert.Equal(Severity.Danger, finding.Severity);
    }

    [Fact]
    public void Screen_PartWithoutRating_CountsAsZero()
    {
        var plan = Closed("ethanol", 20, 5, 100, 20, rating: 50);
        plan = plan with { Vessels = [plan.Vessels[0] with { Parts = [new VesselPart("PTFE seal", null, 473.15)] }] };

        var finding = Assert.Single(Pressure(plan));

        Assert.Equal("pressure.unknown-rating", finding.Code);
        Assert.Contains("the PTFE seal", finding.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_WeakestPart_Governs()
    {
        var plan = Closed("ethanol", 20, 5, 100, 20, rating: 50);
        plan = plan with { Vessels = [plan.Vessels[0] with { Parts = [new VesselPart("septum", 1e5, null)] }] };

        Assert.Contains("the septum", Assert.Single(Pressure(plan)).Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(Closure.Balloon)]
    [InlineData(Closure.Bubbler)]
    [InlineData(Closure.Needle)]
    public void Screen_ClosedByAVent_IsNotClosed(Closure closure)
    {
        var plan = Closed("ethanol", 20, 5, 78, 20, rating: null);
        plan = plan with { Steps = [.. plan.Steps.Select(step => step.Action == StepAction.Seal ? step with { Closure = closure } : step)] };

        Assert.DoesNotContain(Pressure(plan), static finding => finding.Severity < Severity.Notice);
        Assert.All(Screener.Screen(plan, Policy.Default).Timeline, static entry => Assert.False(entry.Sealed));
    }

    [Fact]
    public void Screen_DeclaredNitrogen_AddsItsIdealGasPressure()
    {
        // 1.00 g of azobisisobutyronitrile (164.21 g/mol) gives 6.09 mmol of nitrogen: 8.94 bar in 20 mL at 80 °C (ideal gas law)
        var plan = new Plan
        {
            Materials = [Of("aibn", "azobisisobutyronitrile", G(1.00))],
            Vessels = [Tube(20, null)],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "aibn"), Step("2", StepAction.Seal, "tube") with { Headspace = new Headspace.Vacuum() }, Step("3", StepAction.Heat, "tube", 80)],
            Reactions = [Reaction("3", ["aibn"], ("nitrogen", PreApproval.Hazards.Substances.Phase.Gas))],
        };
        var context = Context(plan);

        var pressure = context.Closed(context.Walk.States[^1])!.AtSet.PartialPressuresPa["headspace"] / 1e5;

        // the solid takes about 0.9 mL of the 20 mL
        Assert.InRange(pressure, 8.94 * 0.99, 8.94 * 1.06);
    }

    [Fact]
    public void Screen_HotClosedVesselOpened_IsOpenedUnderPressure()
    {
        var plan = Closed("acetone", 20, 5, 90, 20, rating: 10);
        plan = plan with { Steps = [.. plan.Steps, Step("4", StepAction.Open, "tube")] };

        var finding = Assert.Single(Pressure(plan), static finding => finding.Code is "pressure.opened-under-pressure");

        // boiling hot under pressure: it leaves the tube as a jet
        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Equal(["4"], finding.Steps);
    }

    [Fact]
    public void Screen_ClosedWithoutVolume_LeavesTheCheckUndone()
    {
        var plan = Closed("acetone", 20, 5, 90, 20, rating: 10);
        plan = plan with { Vessels = [plan.Vessels[0] with { VolumeM3 = null }] };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "data.vessel-volume" && finding.Steps.Contains("3", StringComparer.Ordinal));

        Assert.True(finding.LeavesCheckUndone);
    }

    [Fact]
    public void Screen_AboveTheTemperatureOfTheSeal_IsDangerWhenClosed()
    {
        var plan = Closed("N,N-dimethylformamide", 20, 5, 190, 20, rating: 50);
        plan = plan with { Vessels = [plan.Vessels[0] with { Parts = [new VesselPart("O-ring", 50e5, 453.15)] }] };

        Assert.Equal(Severity.Danger, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "temperature.exceeds-vessel").Severity);
    }

    internal static Plan Closed(string solvent, double vesselML, double liquidML, double? celsius, double closedAtC, double? rating = 10)
    {
        var steps = new List<Step> { Step("1", StepAction.Charge, "tube", closedAtC, "solvent"), Step("2", StepAction.Seal, "tube") };
        if (celsius is { } heat)
        {
            steps.Add(Step("3", StepAction.Heat, "tube", heat) with { HeatSource = HeatSource.OilBath });
        }

        return new Plan { Materials = [Of("solvent", solvent, ML(liquidML), Role.Solvent)], Vessels = [Tube(vesselML, rating)], Steps = steps };
    }

    private static ScreeningContext Context(Plan plan) => new(plan, Policy.Default, Walk.Follow(plan, Policy.Default));

    private static StepState Heated(string solvent, double vesselML, double liquidML, double celsius, double closedAtC) =>
        Walk.Follow(Closed(solvent, vesselML, liquidML, celsius, closedAtC), Policy.Default).States[^1];

    private static Finding[] Pressure(Plan plan) => [.. Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Hazard == Hazard.Pressure)];
}
