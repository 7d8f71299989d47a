using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Plans;

public sealed class WalkTests
{
    /// <summary>Ethanol 46.069 g/mol, 785 kg/m³ at 25 °C (CRC Handbook).</summary>
    [Fact]
    public void Convert_VolumeOfPureLiquid_GivesMol() =>
        Assert.Equal(0.1704, AmountConversion.Convert(new Composition.Pure(Substance("ethanol")), ML(10)).Portions[0].Mol!.Value, 0.001);

    [Fact]
    public void Convert_MolarSolutionByVolume_GivesSoluteExactly()
    {
        var solution = new Composition.Solution(Substance("sodium borohydride"), Substance("triglyme"), new Concentration.MolPerM3(2000));

        var portions = AmountConversion.Convert(solution, ML(2.5)).Portions;

        // 2.5 mL of 2.0 mol/L: 5.0 mmol by definition
        Assert.Equal(5.0e-3, portions[0].Mol!.Value, 1e-9);
        Assert.True(portions[1].Mol > 0);
    }

    [Fact]
    public void Convert_MolOfASolution_CountsTheSolute()
    {
        var solution = new Composition.Solution(Substance("sodium hydroxide"), Substance("water"), new Concentration.Fraction(0.10, FractionBasis.Mass));

        // 10 % by mass, 39.997 and 18.015 g/mol: 0.1 mol of NaOH comes with 35.997 g = 1.998 mol of water
        var portions = AmountConversion.Convert(solution, Mmol(100)).Portions;

        Assert.Equal(0.1, portions[0].Mol!.Value, 1e-9);
        Assert.Equal(1.998, portions[1].Mol!.Value, 0.002);
    }

    /// <summary>80 vol% hexane (655 kg/m³, 86.177 g/mol) and 20 vol% ethyl acetate (894 kg/m³, 88.105 g/mol), CRC Handbook.</summary>
    [Fact]
    public void Convert_MixtureByVolume_SplitsTheVolume()
    {
        var eluent = new Composition.Mixture([new MixturePart(Substance("n-hexane"), 0.8, FractionBasis.Volume), new MixturePart(Substance("ethyl acetate"), 0.2, FractionBasis.Volume)]);

        var portions = AmountConversion.Convert(eluent, ML(200)).Portions;

        Assert.Equal(1.216, portions[0].Mol!.Value, 0.012);
        Assert.Equal(0.406, portions[1].Mol!.Value, 0.004);
    }

    [Fact]
    public void Convert_UnknownDensity_IsNullNeverZero()
    {
        var converted = AmountConversion.Convert(new Composition.Pure(Substance("something new")), ML(10));

        Assert.Null(converted.Portions[0].Mol);
        Assert.NotEmpty(converted.Missing);
    }

    [Fact]
    public void Follow_UseWithoutAmount_TakesTheRemainder()
    {
        var plan = Plan(Step("1", StepAction.Charge, "flask") with { Materials = [new MaterialUse("ethanol", ML(4))] }, Step("2", StepAction.Add, "flask", null, "ethanol"));

        var states = Walk.Follow(plan, Policy.Default).States;

        Assert.Equal(0.4, states[0].Contents[0].Mol!.Value / states[1].Contents[0].Mol!.Value, 1e-9);
    }

    [Fact]
    public void Follow_MoreThanThereIs_IsAnIssueAndCountsWhatTheStepSays()
    {
        var plan = Plan(Step("1", StepAction.Charge, "flask") with { Materials = [new MaterialUse("ethanol", ML(15))] });

        var walk = Walk.Follow(plan, Policy.Default);

        Assert.Single(walk.Issues, static issue => issue.Kind == WalkIssueKind.MoreThanAvailable);
        Assert.Equal(0.2556, walk.States[0].Contents[0].Mol!.Value, 0.002);
    }

    [Theory]
    [InlineData(StepAction.Heat, WalkIssueKind.HeatedEmpty)]
    [InlineData(StepAction.Open, WalkIssueKind.AlreadyOpen)]
    [InlineData(StepAction.Transfer, WalkIssueKind.NothingToMove)]
    [InlineData(StepAction.Pressurise, WalkIssueKind.PressureNotStated)]
    public void Follow_AbsurdStep_IsAnIssue(StepAction action, WalkIssueKind expected)
    {
        var plan = Plan(Step("1", action, "flask", action == StepAction.Heat ? 80 : null));

        Assert.Contains(Walk.Follow(plan, Policy.Default).Issues, issue => issue.Kind == expected);
        Assert.NotEmpty(Screener.Screen(plan, Policy.Default).Findings);
    }

    /// <summary>An autoclave is let down through its valve and then opened; the lid comes off once.</summary>
    [Theory]
    [InlineData(StepAction.Vent, StepAction.Open, false)]
    [InlineData(StepAction.Vent, StepAction.Vent, false)]
    [InlineData(StepAction.Open, StepAction.Open, true)]
    [InlineData(StepAction.Open, StepAction.Vent, true)]
    public void Follow_OpenedAfterAVent_IsNoIssue(StepAction first, StepAction second, bool issue)
    {
        var walk = Walk.Follow(Plan(Step("1", StepAction.Charge, "flask", 20, "ethanol"), Step("2", StepAction.Seal, "flask"), Step("3", first, "flask"), Step("4", second, "flask")), Policy.Default);

        Assert.Equal(issue, walk.Issues.Any(static issue => issue.Kind == WalkIssueKind.AlreadyOpen));
    }

    [Fact]
    public void Follow_SealedTwice_IsAnIssueAndKeepsTheFirstClosing()
    {
        var walk = Walk.Follow(Plan(Step("1", StepAction.Charge, "flask", 20, "ethanol"), Step("2", StepAction.Seal, "flask"), Step("3", StepAction.Seal, "flask")), Policy.Default);

        Assert.Single(walk.Issues, static issue => issue.Kind == WalkIssueKind.AlreadySealed);
        Assert.Equal(1, walk.States[2].Closing!.StepIndex);
    }

    [Fact]
    public void Follow_DeclaredReaction_StopsAtTheLimitingAmount()
    {
        var plan = new Plan
        {
            Materials = [Of("azide", "benzyl azide", Mmol(5)), Of("phosphine", "triphenylphosphine", Mmol(6))],
            Vessels = [Tube(50, 10)],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "azide", "phosphine"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Stir, "tube", 25)],
            Reactions = [Reaction("3", ["azide", "phosphine"], ("nitrogen", Phase.Gas))],
        };

        var state = Walk.Follow(plan, Policy.Default).States[^1];

        Assert.Equal(5e-3, state.GasEvolvedMol!.Value, 1e-12);
        Assert.Equal(1e-3, Assert.Single(state.ContentsAfter).Mol!.Value, 1e-12);
    }

    [Fact]
    public void Follow_GasFromAnOpenVessel_IsNotKept()
    {
        var plan = new Plan
        {
            Materials = [Of("azide", "benzyl azide", Mmol(5))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "azide")],
            Reactions = [Reaction("1", ["azide"], ("nitrogen", Phase.Gas))],
        };

        var state = Assert.Single(Walk.Follow(plan, Policy.Default).States);

        Assert.Equal(0, state.GasEvolvedMol);
        Assert.Equal(5e-3, Assert.Single(state.GasMade).Mol!.Value, 1e-12);
    }

    [Fact]
    public void Follow_Transfer_MovesEverything()
    {
        var plan = Plan(Step("1", StepAction.Charge, "flask", 20, "ethanol"), Step("2", StepAction.Transfer, "flask") with { ToVessel = "other" });

        var states = Walk.Follow(plan, Policy.Default).States;

        Assert.Empty(states[1].ContentsAfter);
        Assert.Equal("other", states[2].Vessel.Id);
        Assert.Equal(states[0].Contents[0].Mol, states[2].Contents[0].Mol);
    }

    [Theory]
    [InlineData(false, null, 95)]
    [InlineData(true, null, 85)]
    [InlineData(false, 120.0, 120)]
    [InlineData(false, 85.0, 95)]
    public void Follow_Heated_WorstIsOvershootOrSurface(bool cutOut, double? surfaceC, double worstC)
    {
        // 15 K without and 5 K with an independent cut-out: common practice, no source
        var plan = Plan(
            Step("1", StepAction.Charge, "flask", 20, "ethanol"),
            Step("2", StepAction.Heat, "flask", 80) with { HeatSource = HeatSource.OilBath, IndependentCutOut = cutOut, SurfaceTemperatureK = surfaceC + 273.15 });

        Assert.Equal(worstC + 273.15, Walk.Follow(plan, Policy.Default).States[1].WorstTemperatureK, 1e-9);
    }

    [Fact]
    public void Follow_Concentrate_LeavesTheSolid()
    {
        var plan = Plan(Step("1", StepAction.Charge, "flask", 20, "ethanol", "solid"), Step("2", StepAction.Concentrate, "flask", 40));

        var state = Walk.Follow(plan, Policy.Default).States[1];

        Assert.Equal(2, state.Contents.Count);
        Assert.Equal("solid", Assert.Single(state.ContentsAfter).MaterialId);
    }

    /// <summary>A pump holds it shut: opening lets the air in, and is no second opening.</summary>
    [Fact]
    public void Follow_EvacuatedThenOpened_IsNotAlreadyOpen()
    {
        var plan = new Plan
        {
            Materials = [Of("solid", "biphenyl", G(5))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "solid"), Step("2", StepAction.Evacuate, "flask"), Step("3", StepAction.Open, "flask"), Step("4", StepAction.Open, "flask")],
        };

        Assert.Equal(3, Assert.Single(Walk.Follow(plan, Policy.Default).Issues, static issue => issue.Kind == WalkIssueKind.AlreadyOpen).StepIndex);
    }

    /// <summary>Toluene has 0.867 g/mL at 20 °C (CRC Handbook): 20 g are 23 mL of the 10 mL listed, 9 g are 10.4 mL, which may be a rounding.</summary>
    [Theory]
    [InlineData(20, Severity.Warning)]
    [InlineData(9, Severity.Caution)]
    [InlineData(8, null)]
    public void Screen_MoreGramsThanTheMillilitresListed_GoToReviewBeyondARounding(double grams, Severity? expected)
    {
        var plan = new Plan
        {
            Materials = [Of("toluene", "toluene", ML(10), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20) with { Materials = [new MaterialUse("toluene", G(grams))] }],
        };

        Assert.Equal(expected, Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "data.more-than-available")?.Severity);
    }

    private static Plan Plan(params Step[] steps) => new()
    {
        Materials = [Of("ethanol", "ethanol", ML(10), Role.Solvent), Of("solid", "benzoic acid", G(1))],
        Vessels = [Flask(), Flask("other", 100)],
        Steps = steps,
    };
}
