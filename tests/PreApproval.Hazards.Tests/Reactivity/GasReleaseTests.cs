using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>Gas that a vessel lets out when it is vented or opened: ideal gas by hand, IDLH of the NIOSH list (carbon monoxide 1200 ppm, hydrogen cyanide 50).</summary>
public sealed class GasReleaseTests
{
    /// <summary>
    /// 50 bar of carbon monoxide in the 60 mL that 40 mL of toluene leave of 100 mL, at 20 °C: 50e5 · 60e-6/(8.314 · 293.15) = 123 mmol, 3.01 L: 2230 ppm in the
    /// 1.35 m³ of a hood, 3011 ppm in the nearest cubic metre of a bench, 100 ppm in a room of 30 m³.
    /// </summary>
    [Theory]
    [InlineData(PlaceKind.Hood, Severity.Caution, 2230)]
    [InlineData(PlaceKind.Bench, Severity.Warning, 3011)]
    [InlineData(null, Severity.Caution, 3011)]
    public void Screen_CarbonMonoxideVented_IsHeldAgainstTheIdlh(PlaceKind? place, Severity severity, double ppm)
    {
        var finding = Toxic(Autoclave(StepAction.Vent, 50, null) with { Place = Where(place) });

        Assert.Equal(severity, finding.Severity);
        Assert.Equal(place is null, finding.LeavesCheckUndone);
        Assert.Equal(ppm, finding.Evidence[0].Value, ppm * 0.01);
        Assert.Equal(1200, finding.Evidence[0].Limit);
        Assert.Equal(100, finding.Evidence[1].Value, 1.0);
        Assert.Contains("lets out up to 3 L of carbon monoxide", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>Let down over ten minutes into 0.3 m³/s it is 123 mmol/600 s · 24.465 L/mol/300 L/s = 17 ppm.</summary>
    [Fact]
    public void Screen_CarbonMonoxideVentedSlowlyInAHood_IsQuiet() =>
        Assert.DoesNotContain(Findings(Autoclave(StepAction.Vent, 50, 600) with { Place = Where(PlaceKind.Hood) }), static finding => finding.Code is "toxicity.gas");

    /// <summary>200 bar in 1000 mL are 8.2 mol, 200 L: 6690 ppm in the whole of a room of 30 m³.</summary>
    [Fact]
    public void Screen_EnoughForTheWholeRoomOnABench_IsDanger()
    {
        var plan = Autoclave(StepAction.Vent, 200, null) with { Place = Where(PlaceKind.Bench) };
        plan = plan with { Vessels = [plan.Vessels[0] with { VolumeM3 = 1040e-6 }] };

        var findings = Findings(plan).Where(static finding => finding.Code is "toxicity.gas").ToArray();

        Assert.Equal(2, findings.Length);
        Assert.Equal(Severity.Danger, Assert.Single(findings, static finding => finding.Steps is ["5"]).Severity);
        // 1000 mL at one atmosphere are left when the lid comes off: 41.6 mmol, 1017 ppm
        Assert.Equal(1017, Assert.Single(findings, static finding => finding.Steps is ["6"]).Evidence[0].Value, 10.0);
    }

    [Fact]
    public void Screen_HydrogenVented_IsNoMatterOfHealth() =>
        Assert.DoesNotContain(Findings(Autoclave(StepAction.Vent, 50, null, "hydrogen") with { Place = Where(PlaceKind.Bench) }), static finding => finding.Code is "toxicity.gas" or "data.gas-without-limit");

    [Theory]
    [InlineData("sulfur tetrafluoride", true)]
    [InlineData("nitrogen", false)]
    [InlineData("argon", false)]
    public void Screen_GasWithoutIdlhAndStatementsVented_IsNamedUnlessInert(string gas, bool named) =>
        Assert.Equal(named, Findings(Autoclave(StepAction.Vent, 2, null, gas)).Any(static finding => finding.Code is "data.gas-without-limit"));

    /// <summary>20 mmol of cyanide and acid in a closed tube are 20 mmol of hydrogen cyanide, 489 mL, whoever opens it: 489 ppm on a bench.</summary>
    [Fact]
    public void Screen_ToxicGasMadeInAClosedTube_ComesOutWhenItIsOpened()
    {
        var plan = new Plan
        {
            Place = Where(PlaceKind.Bench),
            Materials = [Of("a", "potassium cyanide", Mmol(20)), Of("b", "acetic acid", Mmol(100))],
            Vessels = [Tube(250, 10, "tube")],
            Steps =
            [
                Step("1", StepAction.Charge, "tube", 20, "a") with { Headspace = Under("nitrogen") }, Step("2", StepAction.Seal, "tube"),
                Step("3", StepAction.Add, "tube", 20, "b"), Step("4", StepAction.Open, "tube"),
            ],
        };

        Assert.Equal(489, Toxic(plan).Evidence[0].Value, 1.0);
    }

    /// <summary>A declared reaction that makes 10 mmol of carbon monoxide in a closed tube: 245 ppm on a bench, a fifth of the IDLH; 8.2 ppm in 30 m³.</summary>
    [Fact]
    public void Screen_DeclaredGasOfAClosedStep_ComesOutWhenItIsVented()
    {
        var plan = new Plan
        {
            Place = Where(PlaceKind.Bench),
            Materials = [Of("a", "molybdenum hexacarbonyl", Mmol(10)), Of("s", "toluene", ML(20), Role.Solvent)],
            Vessels = [Tube(100, 10, "tube")],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "a", "s"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", 80), Step("4", StepAction.Vent, "tube", 20)],
            Reactions = [Reaction("3", ["a"], ("carbon monoxide", Phase.Gas))],
        };
        var finding = Toxic(plan);

        Assert.Equal("4", Assert.Single(finding.Steps));
        Assert.Equal(245, finding.Evidence[0].Value, 1.0);
    }

    /// <summary>2 L of a balloon and the 90 mL over 10 mL of toluene in 100 mL: 2.09 L, 2.09/24.055 = 86.9 mmol at 20 °C, 2126 ppm in the nearest cubic metre.</summary>
    [Fact]
    public void Screen_BalloonOfCarbonMonoxideOpened_Counts()
    {
        var plan = new Plan
        {
            Place = Where(PlaceKind.Bench),
            Materials = [Of("s", "toluene", ML(10), Role.Solvent)],
            Vessels = [Flask("flask", 100)],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 20, "s"), Step("2", StepAction.Seal, "flask") with { Closure = Closure.Balloon, Headspace = Under("carbon monoxide") },
                Step("3", StepAction.Stir, "flask", 20), Step("4", StepAction.Open, "flask"),
            ],
        };

        Assert.Equal(2126, Toxic(plan).Evidence[0].Value, 22.0);
    }

    [Fact]
    public void Screen_VesselOfUnknownVolume_SaysThatTheGasIsNotCounted()
    {
        var plan = Autoclave(StepAction.Vent, 50, null) with { Place = Where(PlaceKind.Hood) };
        plan = plan with { Vessels = [plan.Vessels[0] with { VolumeM3 = null }] };

        Assert.Contains(Findings(plan), static finding => finding.Code is "data.gas-not-counted" && finding.LeavesCheckUndone && finding.Statement.Contains("carbon monoxide", StringComparison.Ordinal));
    }

    /// <summary>What a venting leaves: one atmosphere of hydrogen sulfide in 60 mL are 2.49 mmol, 61 ppm in the nearest cubic metre, more than a tenth of the 100 ppm of the NIOSH list.</summary>
    [Fact]
    public void Screen_OpenedAfterTheVenting_LetsOutWhatIsLeft()
    {
        var plan = Autoclave(StepAction.Vent, 5, null, "hydrogen sulfide") with { Place = Where(PlaceKind.Bench) };

        var finding = Assert.Single(Findings(plan), static finding => finding.Code is "toxicity.gas" && finding.Steps is ["6"]);

        Assert.Equal(61, finding.Evidence[0].Value, 1.0);
    }

    /// <summary>The same 123 mmol as vented, whoever takes them out of the closed autoclave.</summary>
    [Theory]
    [InlineData(StepAction.Evacuate)]
    [InlineData(StepAction.Purge)]
    public void Screen_PumpedOrPurgedOutOfAClosedVessel_IsHeldAgainstTheIdlh(StepAction action)
    {
        var plan = Autoclave(action, 50, null) with { Place = Where(PlaceKind.Hood) };
        plan = plan with { Steps = [.. plan.Steps.Select(step => step.Action == StepAction.Purge ? step with { Headspace = Under("nitrogen") } : step)] };

        var finding = Assert.Single(Findings(plan), static finding => finding.Code is "toxicity.gas" && finding.Steps.Contains("5", StringComparer.Ordinal));

        Assert.Equal(Severity.Caution, finding.Severity);
        Assert.Equal(2230, finding.Evidence[0].Value, 22.3);
    }

    private static IReadOnlyList<Finding> Findings(Plan plan) => Screener.Screen(plan, Policy.Default).Findings;

    private static Finding Toxic(Plan plan) => Assert.Single(Findings(plan), static finding => finding.Code is "toxicity.gas");

    private static Place? Where(PlaceKind? kind) => kind is { } stated ? new Place("here", stated, null, null) : null;

    private static Plan Autoclave(StepAction last, double barGauge, double? overS, string gas = "carbon monoxide") => new()
    {
        Materials = [Of("solvent", "toluene", ML(40), Role.Solvent)],
        Vessels = [new Vessel { Id = "autoclave", Kind = "steel autoclave", VolumeM3 = 100e-6, RatingPaGauge = 300e5 }],
        Steps =
        [
            Step("1", StepAction.Charge, "autoclave", 20, "solvent"), Step("2", StepAction.Seal, "autoclave"),
            Step("3", StepAction.Pressurise, "autoclave", 20) with { Gas = Substance(gas), PressurePaAbs = (barGauge * 1e5) + 101325 },
            Step("4", StepAction.Stir, "autoclave", 20), Step("5", last, "autoclave", 20) with { OverS = overS }, Step("6", StepAction.Open, "autoclave"),
        ],
    };
}
