using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Confinement;

public sealed class VentAndGasTests
{
    /// <summary>tert-Butyl alcohol melts at 25.7 °C, benzene at 5.5 °C (CRC Handbook, from memory); tap water runs at about 15 °C (common practice).</summary>
    [Theory]
    [InlineData("tert-butyl alcohol", true)]
    [InlineData("benzene", false)]
    [InlineData("ethanol", false)]
    public void Screen_RefluxOfWhatFreezesInTheCondenser_IsNamed(string solvent, bool named)
    {
        var plan = new Plan
        {
            Materials = [Of("solvent", solvent, ML(50), Role.Solvent)],
            Vessels = [Flask("flask", 100)],
            Steps = [Step("1", StepAction.Charge, "flask", 30, "solvent"), Step("2", StepAction.Reflux, "flask") with { HeatSource = HeatSource.OilBath }],
        };

        Assert.Equal(named, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "pressure.condenser-freezes"));
    }

    /// <summary>0.2 mol of nitrogen is 4.8 L at 20 °C (24.055 L/mol): more than the 2 L of a balloon (common practice).</summary>
    [Theory]
    [InlineData(200, Closure.Balloon, null, true)]
    [InlineData(50, Closure.Balloon, null, false)]
    [InlineData(200, Closure.Needle, null, true)]
    [InlineData(200, Closure.Needle, 3600.0, false)]
    public void Screen_GasThroughASmallWayOut_IsJudgedByVolumeAndRate(double mmol, Closure vent, double? overS, bool named)
    {
        var plan = Gassing(mmol, vent, overS);
        var finding = Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "pressure.vent-too-narrow");

        Assert.Equal(named, finding is not null);
        foreach (var offer in finding?.ClearedBy ?? [])
        {
            Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, offer), Policy.Default).Findings, static other => other.Code is "pressure.vent-too-narrow");
        }

        Assert.Equal(named && vent == Closure.Needle, finding?.ClearedBy.Count > 0);
    }

    /// <summary>
    /// 1.00 g of sodium borohydride gives 105.7 mmol of hydrogen (37.83 g/mol, four equivalents), nRT = 262 J at 25 °C, in what it (1.07 g/mL, CRC Handbook,
    /// from memory) and the methanol leave of 100 mL: 60 mL leave 39.07 mL, 67.1 bar; 40 mL leave 59.07 mL, 44.4 bar.
    /// </summary>
    [Theory]
    [InlineData(60, 67.1)]
    [InlineData(40, 44.4)]
    public void Screen_BorohydrideInMethanolPutAwayClosed_CountsAllTheHydrogenInTheRoomLeft(double mL, double bar)
    {
        var finding = Delayed(Stored(Of("hydride", "sodium borohydride", G(1)), Of("methanol", "methanol", ML(mL))), "hydrogen");

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Equal(bar, finding.Evidence[0].Value, bar * 0.01);
        Assert.Contains("up to", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>99.5 mL of methanol and 0.93 mL of borohydride are more than 100 mL.</summary>
    [Fact]
    public void Screen_BorohydrideInAFullBottle_SaysThereIsNoRoom()
    {
        var finding = Delayed(Stored(Of("hydride", "sodium borohydride", G(1)), Of("methanol", "methanol", ML(99.5))), "hydrogen");

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains("no room", finding.Statement, StringComparison.Ordinal);
        Assert.All(finding.Evidence, static evidence => Assert.True(double.IsFinite(evidence.Value)));
    }

    /// <summary>What takes room of unknown size only makes the 67.1 bar more; and a trace of gas is not quiet where the room is not known.</summary>
    [Fact]
    public void Screen_BorohydrideWithSomethingOfUnknownVolume_SaysAtLeast()
    {
        var finding = Delayed(Stored(Of("hydride", "sodium borohydride", G(1)), Of("methanol", "methanol", ML(60)), Of("other", "compound nobody knows", G(1))), "hydrogen");

        Assert.Contains("at least", finding.Statement, StringComparison.Ordinal);
        Assert.Equal(67.1, finding.Evidence[0].Value, 0.7);
        Assert.Equal(Severity.Caution, Delayed(Stored(Of("hydride", "sodium borohydride", new Amount.Mass(1e-9)), Of("methanol", "methanol", ML(60)), Of("other", "compound nobody knows", G(1))), "hydrogen").Severity);
    }

    /// <summary>10 g of 30 % hydrogen peroxide give 44.1 mmol of oxygen (34.015 g/mol), nRT = 109.3 J at 25 °C, over 7.0 mL of water and 2.1 mL of peroxide (1.44 g/mL): 12.0 bar.</summary>
    [Fact]
    public void Screen_PeroxidePutAwayClosed_CountsAllTheOxygen()
    {
        var finding = Delayed(Stored(WeightPercent("peroxide", "hydrogen peroxide", "water", 30, G(10))), "oxygen");

        Assert.Equal(12.0, finding.Evidence[0].Value, 0.12);
    }

    [Theory]
    [InlineData("sodium bicarbonate", "acetic acid", "carbon dioxide")]
    [InlineData("formic acid", null, "carbon monoxide")]
    public void Screen_OtherDelayedGas_IsNamed(string first, string? second, string gas) =>
        Assert.Equal(Hazard.Gas, Delayed(Stored([Of("first", first, G(5)), .. second is null ? Array.Empty<Material>() : [Of("second", second, G(5))]]), gas).Hazard);

    [Fact]
    public void Screen_StoredUnderABubbler_IsQuiet()
    {
        var plan = Stored(Of("hydride", "sodium borohydride", G(1)), Of("methanol", "methanol", ML(40)));
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1] with { Closure = Closure.Bubbler }, plan.Steps[2]] };

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "gas.delayed");
    }

    [Theory]
    [InlineData("nitrate waste, closed bottle", Severity.Warning)]
    [InlineData("nitrate waste", Severity.Warning)]
    [InlineData("nitrate waste, vented cap", null)]
    // 20 mL of 65 % acid are 0.29 mol, 7 L of gas: enough for a cap screwed on by habit
    public void Screen_NitricAcidAndOrganicInTheWaste_IsJudgedByItsCap(string container, Severity? severity)
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("nitric", "nitric acid", "water", 65, ML(20)), Of("solvent", "ethanol", ML(5), Role.Solvent)],
            Vessels = [Flask("one"), Flask("two")],
            Steps = [Step("1", StepAction.Charge, "one", 20, "nitric"), Step("2", StepAction.Charge, "two", 20, "solvent")],
            Waste = [new WasteContainer(["nitric", "solvent"], container)],
        };

        Assert.Equal(severity, Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "gas.delayed")?.Severity);
    }

    /// <summary>Amounts that only the steps give count; one that nobody gives is not a small one. 20 mL of 65 % acid: 7 L of gas, 0.02 mL: 7 mL, below 0.5 L.</summary>
    [Theory]
    [InlineData(20.0, Severity.Warning)]
    [InlineData(0.02, Severity.Caution)]
    [InlineData(null, Severity.Warning)]
    public void Screen_NitricAcidInTheWaste_CountsTheAmountsOfTheSteps(double? mL, Severity severity)
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("nitric", "nitric acid", "water", 65, null), Of("solvent", "ethanol", null, Role.Solvent)],
            Vessels = [Flask("one"), Flask("two")],
            Steps =
            [
                Step("1", StepAction.Charge, "one", 20) with { Materials = [new MaterialUse("nitric", mL is { } acid ? ML(acid) : null)] },
                Step("2", StepAction.Charge, "two", 20) with { Materials = [new MaterialUse("solvent", ML(5))] },
            ],
            Waste = [new WasteContainer(["nitric", "solvent"], "nitrate waste")],
        };

        Assert.Equal(severity, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "gas.delayed").Severity);
    }

    /// <summary>Ammonium chloride settles from the vapours of its parts (textbook); a volatile amine and hydrogen chloride do the same.</summary>
    [Theory]
    [InlineData("triethylamine", "acetyl chloride", Closure.Needle, true)]
    [InlineData("triethylamine", "ethyl acetate", Closure.Needle, false)]
    [InlineData("toluene", "acetyl chloride", Closure.Needle, false)]
    public void Screen_SaltsFromTwoVapours_MayCloseANarrowWayOut(string first, string second, Closure vent, bool named)
    {
        var plan = Vented(vent, null, 20, Of("first", first, ML(5)), Of("second", second, ML(5)));

        Assert.Equal(named, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "pressure.vent-salts-up"));
    }

    [Theory]
    [InlineData(-78, "air", true)]
    [InlineData(-78, "nitrogen", false)]
    [InlineData(-20, "air", false)]
    public void Screen_ColdBehindANarrowWayOut_IcesInMoistAir(double celsius, string gas, bool named)
    {
        var plan = Vented(Closure.Bubbler, null, celsius, Of("solvent", "tetrahydrofuran", ML(20)));
        if (gas is not "air")
        {
            plan = plan with { Steps = [plan.Steps[0] with { Headspace = Under(gas) }, .. plan.Steps.Skip(1)] };
        }

        Assert.Equal(named, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "pressure.vent-ices"));
    }

    [Fact]
    public void Screen_GasThroughADryingTube_IsNamed()
    {
        var plan = Gassing(20, Closure.Bubbler, 900);
        plan = plan with { Vessels = [plan.Vessels[0] with { Closure = "drying tube" }], Steps = [plan.Steps[0], plan.Steps[1] with { Closure = null }, plan.Steps[2]] };

        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.drying-tube-cakes");
    }

    /// <summary>Own scenario: acetone rinse put to peroxide and hydrochloric acid in one waste bottle; beside the encounter, the cap must breathe.</summary>
    [Fact]
    public void Screen_PeroxideWasteWithAcetone_AsksForAVentedCap()
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("peroxide", "hydrogen peroxide", "water", 30, ML(20)), WeightPercent("acid", "hydrogen chloride", "water", 10, ML(20)), Of("acetone", "acetone", ML(20), Role.Solvent)],
            Vessels = [Flask("one"), Flask("two")],
            Steps = [Step("1", StepAction.Charge, "one", 20, "peroxide", "acid"), Step("2", StepAction.Charge, "two", 20, "acetone")],
            Waste = [new WasteContainer(["peroxide", "acid"], "aqueous waste, capped"), new WasteContainer(["acetone"], "aqueous waste, capped")],
        };
        var findings = Screener.Screen(plan, Policy.Default).Findings;

        Assert.Contains(findings, static finding => finding.Code is "incompatibility.peroxide-with-ketone-and-acid");
        Assert.Equal(Severity.Warning, Assert.Single(findings, static finding => finding.Code is "gas.delayed").Severity);
    }

    /// <summary>
    /// 0.1 mol of sodium borohydride in acid are 0.4 mol of hydrogen, 9.8 L: more than a balloon holds, beside 1 mmol of nitrogen that the plan declares. Where it declares
    /// the hydrogen, but a hundredth of it, the larger counts.
    /// </summary>
    [Theory]
    [InlineData("nitrogen")]
    [InlineData("hydrogen")]
    public void Screen_DeclaredGasUnderABalloon_DoesNotHideTheEncounters(string declared)
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium borohydride", Mmol(100)), Of("acid", "hydrogen chloride", Mmol(500)), Of("other", "benzyl azide", Mmol(1)), Of("thf", "tetrahydrofuran", ML(100), Role.Solvent)],
            Vessels = [Flask("flask", 500)],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 20, "hydride", "other", "thf"), Step("2", StepAction.Seal, "flask") with { Closure = Closure.Balloon },
                Step("3", StepAction.Add, "flask", 20, "acid") with { OverS = 1800 },
            ],
            Reactions = [Reaction("3", ["other"], (declared, Phase.Gas))],
        };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.vent-too-narrow");

        Assert.Equal(9.8, finding.Evidence[0].Value, 0.3);
    }

    /// <summary>A declared amount that is not known hides no known one: 9.8 L from 0.1 mol of borohydride.</summary>
    [Fact]
    public void Screen_DeclaredGasOfUnknownAmount_DoesNotHideTheEncounters()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium borohydride", Mmol(100)), Of("acid", "hydrogen chloride", Mmol(500)), Of("other", "benzyl azide", null), Of("thf", "tetrahydrofuran", ML(100), Role.Solvent)],
            Vessels = [Flask("flask", 500)],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 20, "hydride", "other", "thf"), Step("2", StepAction.Seal, "flask") with { Closure = Closure.Balloon },
                Step("3", StepAction.Add, "flask", 20, "acid") with { OverS = 1800 },
            ],
            Reactions = [Reaction("3", ["other"], ("hydrogen", Phase.Gas))],
        };

        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.vent-too-narrow");
    }

    private static Plan Vented(Closure vent, double? overS, double celsius, params Material[] materials) => new()
    {
        Materials = materials,
        Vessels = [Flask("flask", 100)],
        Steps = [Step("1", StepAction.Charge, "flask", celsius, [.. materials.Select(static material => material.Id)]) with { OverS = overS }, Step("2", StepAction.Seal, "flask") with { Closure = vent }, Step("3", StepAction.Stir, "flask")],
    };

    private static Finding Delayed(Plan plan, string gas) =>
        Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => finding.Code is "gas.delayed" && finding.Statement.Contains(gas, StringComparison.Ordinal));

    private static Plan Stored(params Material[] materials) => new()
    {
        Materials = materials,
        Vessels = [new Vessel { Id = "bottle", Kind = "glass bottle", VolumeM3 = 100e-6 }],
        Steps =
        [
            Step("1", StepAction.Charge, "bottle", 20, [.. materials.Select(static material => material.Id)]), Step("2", StepAction.Seal, "bottle") with { Closure = Closure.Cap },
            Step("3", StepAction.Store, "bottle", 20),
        ],
    };

    private static Plan Gassing(double mmol, Closure vent, double? overS) => new()
    {
        Materials = [Of("azide", "benzyl azide", Mmol(mmol)), Of("phosphine", "triphenylphosphine", Mmol(mmol)), Of("thf", "tetrahydrofuran", ML(100), Role.Solvent)],
        Vessels = [Flask("flask", 500)],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 20, "azide", "thf"), Step("2", StepAction.Seal, "flask") with { Closure = vent },
            Step("3", StepAction.Add, "flask", 20, "phosphine") with { OverS = overS },
        ],
        Reactions = [Reaction("3", ["azide", "phosphine"], ("nitrogen", Phase.Gas))],
    };
}
