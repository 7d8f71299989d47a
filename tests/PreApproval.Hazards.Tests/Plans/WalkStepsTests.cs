using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Plans;

public sealed class WalkStepsTests
{
    /// <summary>Water freezes at 0 °C, ethanol at −114 °C (CRC Handbook, from memory): ethanol keeps the two liquid.</summary>
    [Fact]
    public void Follow_OneLiquidStaysLiquid_IsNotFrozen()
    {
        var plan = Flow([Of("water", "water", ML(5)), Of("ethanol", "ethanol", ML(5))], Step("1", StepAction.Charge, "flask", 20, "water", "ethanol"), Step("2", StepAction.Cool, "flask", -78));

        Assert.DoesNotContain(Walk.Follow(plan, Policy.Default).Issues, static issue => issue.Kind == WalkIssueKind.Frozen);
    }

    /// <summary>
    /// Melting points (CRC Handbook, from memory): tetrahydrofuran −108, diethyl ether −116, benzene 5.5, 1,4-dioxane 11.8, N,N-dimethylformamide −60, toluene −95, water 0, dimethyl sulfoxide 18.5,
    /// acetonitrile −44 °C. Liquid nitrogen freezes every mixture of them; water with dimethyl sulfoxide is liquid down to −73 °C (Rasmussen and MacKenzie 1968, from memory);
    /// benzene and dioxane by ideal solubility with their own heats of fusion (9.87 and 12.84 kJ/mol, from memory) down to about −27 °C.
    /// </summary>
    [Theory]
    [InlineData("tetrahydrofuran", "diethyl ether", -78, false)]
    [InlineData("tetrahydrofuran", "diethyl ether", -100, false)]
    [InlineData("tetrahydrofuran", "diethyl ether", -120, false)]
    [InlineData("tetrahydrofuran", "diethyl ether", -196, true)]
    [InlineData("benzene", "1,4-dioxane", -50, true)]
    [InlineData("benzene", "1,4-dioxane", -26, false)]
    [InlineData("N,N-dimethylformamide", "toluene", -78, false)]
    [InlineData("water", "dimethyl sulfoxide", -40, false)]
    [InlineData("water", "dimethyl sulfoxide", -72, false)]
    [InlineData("water", "dimethyl sulfoxide", -196, true)]
    [InlineData("water", "acetonitrile", -30, false)]
    public void Follow_MixtureCooled_IsFrozenWhereNothingStaysLiquid(string one, string other, double celsius, bool frozen)
    {
        var plan = Flow([Of("one", one, Mmol(100)), Of("other", other, Mmol(100))], Step("1", StepAction.Charge, "flask", 20, "one", "other"), Step("2", StepAction.Cool, "flask", celsius));

        Assert.Equal(frozen, Walk.Follow(plan, Policy.Default).Issues.Any(static issue => issue.Kind == WalkIssueKind.Frozen));
    }

    /// <summary>28 % ammonia is liquid down to about −70 °C and 37 % hydrochloric acid to about −27 °C (supplier data, from memory): dissolved gases are not known to the rule, and it stays silent.</summary>
    [Theory]
    [InlineData("ammonia", 28, -60)]
    [InlineData("hydrogen chloride", 37, -26)]
    public void Follow_SolutionOfAGasCooled_IsNotFrozen(string gas, double percent, double celsius)
    {
        var plan = Flow([WeightPercent("solution", gas, "water", percent, ML(20))], Step("1", StepAction.Charge, "flask", 20, "solution"), Step("2", StepAction.Cool, "flask", celsius));

        Assert.DoesNotContain(Walk.Follow(plan, Policy.Default).Issues, static issue => issue.Kind == WalkIssueKind.Frozen);
    }

    /// <summary>Boiling points 34.6, 78.3 and 110.6 °C (CRC Handbook): the most volatile goes first, and the salt is left dry.</summary>
    [Fact]
    public void Follow_Concentrate_RemovesTheMostVolatileFirstAndLeavesADryResidue()
    {
        var plan = Flow(
            [Of("toluene", "toluene", ML(5)), Of("ethanol", "ethanol", ML(5)), Of("ether", "diethyl ether", ML(5)), Of("azide", "sodium azide", G(1))],
            Step("1", StepAction.Charge, "flask", 20, "toluene", "ethanol", "ether", "azide"), Step("2", StepAction.Concentrate, "flask", 50));

        var state = Walk.Follow(plan, Policy.Default).States[^1];

        Assert.Equal(["ether", "ethanol", "toluene"], state.Evaporated.Select(static content => content.MaterialId!), StringComparer.Ordinal);
        Assert.True(state.LeftDry);
        Assert.Equal("azide", Assert.Single(state.ContentsAfter).MaterialId);
    }

    /// <summary>At 40 °C toluene has 79 mbar and N,N-dimethylformamide 13 mbar (CRC Handbook, from memory): at 50 mbar only the first goes.</summary>
    [Fact]
    public void Follow_ConcentrateAtAStatedPressure_LeavesWhatDoesNotBoilThere()
    {
        var plan = Flow(
            [Of("toluene", "toluene", ML(5)), Of("dmf", "N,N-dimethylformamide", ML(5))],
            Step("1", StepAction.Charge, "flask", 20, "toluene", "dmf"), Step("2", StepAction.Concentrate, "flask", 40) with { PressurePaAbs = 5000 });

        var state = Walk.Follow(plan, Policy.Default).States[^1];

        Assert.Equal("toluene", Assert.Single(state.Evaporated).MaterialId);
        Assert.Equal("dmf", Assert.Single(state.ContentsAfter).MaterialId);
        Assert.False(state.LeftDry);
    }

    /// <summary>Toluene boils at 110.6 °C (CRC Handbook); Antoine's equation with the constants of Lange's Handbook, from memory (6.95464, 1344.8, 219.482 for mmHg and °C), gives 45.3 °C at 100 mbar.</summary>
    [Theory]
    [InlineData(null, 110.6)]
    [InlineData(1e4, 45.3)]
    public void Follow_DistilWithoutATemperature_BoilsAtTheStatedPressure(double? pressurePa, double celsius)
    {
        var plan = Flow([Of("toluene", "toluene", ML(50))], Step("1", StepAction.Charge, "flask", 20, "toluene"), Step("2", StepAction.Distil, "flask") with { PressurePaAbs = pressurePa });

        Assert.Equal(celsius, Walk.Follow(plan, Policy.Default).States[^1].TemperatureK - 273.15, 0.5);
    }

    [Fact]
    public void Follow_FilterOfADryingAgent_StaysOnTheFilter()
    {
        var plan = Flow(
            [Of("ether", "diethyl ether", ML(20)), Of("drying", "magnesium sulfate", G(2)), Of("product", "benzoic acid", G(1))],
            Step("1", StepAction.Charge, "flask", 20, "ether", "drying", "product"), Step("2", StepAction.Filter, "flask") with { ToVessel = "other" });

        var states = Walk.Follow(plan, Policy.Default).States;

        Assert.Equal(["drying", "product"], states[1].ContentsAfter.Select(static content => content.MaterialId!), StringComparer.Ordinal);
        Assert.Equal(["ether", "product"], states[2].ContentsAfter.Select(static content => content.MaterialId!), StringComparer.Ordinal);
    }

    /// <summary>A distillation has no target (docs/methods/walk.md): the cautious reading leaves residue and distillate together.</summary>
    [Fact]
    public void Follow_Distil_LeavesEverythingInTheVessel()
    {
        var plan = Flow(
            [Of("ether", "diethyl ether", ML(20)), Of("product", "benzoic acid", G(1))],
            Step("1", StepAction.Charge, "flask", 20, "ether", "product"), Step("2", StepAction.Distil, "flask", 40) with { ToVessel = "other" });

        var states = Walk.Follow(plan, Policy.Default).States;

        Assert.Equal(2, states.Count);
        Assert.Equal(["ether", "product"], states[1].ContentsAfter.Select(static content => content.MaterialId!), StringComparer.Ordinal);
    }

    [Fact]
    public void Follow_DiscardIntoAVesselOfThePlan_IsThereAfterwards()
    {
        var plan = Flow([Of("ether", "diethyl ether", ML(20))], Step("1", StepAction.Charge, "flask", 20, "ether"), Step("2", StepAction.Discard, "flask") with { ToVessel = "other" });

        var walk = Walk.Follow(plan, Policy.Default);

        Assert.Equal("ether", Assert.Single(walk.States[^1].ContentsAfter).MaterialId);
        Assert.Equal(0, Assert.Single(walk.Balance).RemovedMol);
    }

    /// <summary>A solution counts by its solute: once 16 mmol of butyllithium are used up, a second reaction must not take the hexane.</summary>
    [Fact]
    public void Follow_SoluteUsedUp_SolventIsNotConsumed()
    {
        var plan = Flow(
            [Molar("buli", "n-butyllithium", "n-hexane", 1.6, ML(10)), Of("alcohol", "ethanol", Mmol(100))],
            Step("1", StepAction.Charge, "flask", 0, "buli"), Step("2", StepAction.Add, "flask", 0, "alcohol"), Step("3", StepAction.Stir, "flask", 20)) with
        {
            Reactions = [Reaction("2", ["buli", "alcohol"]), Reaction("3", ["buli"])],
        };

        var walk = Walk.Follow(plan, Policy.Default);

        // 10 mL of 1.6 mol/L: 16.0 mmol by definition
        Assert.Equal(16.0e-3, walk.Balance.Single(static entry => entry.Substance.Name is "n-butyllithium").ConsumedMol, 1e-9);
        Assert.Equal(0, walk.Balance.Single(static entry => entry.Substance.Name is "n-hexane").ConsumedMol);
    }

    [Fact]
    public void Follow_Dosed_GivesTheDoseRate()
    {
        var plan = Flow([Of("amine", "benzylamine", Mmol(60))], Step("1", StepAction.Charge, "flask", 0, "amine") with { OverS = 600 });

        // 60 mmol over 600 s
        Assert.Equal(1e-4, Assert.Single(Walk.Follow(plan, Policy.Default).States[0].Additions).MolPerS!.Value, 1e-12);
    }

    [Theory]
    [InlineData(-78, true)]
    [InlineData(20, false)]
    public void Screen_DosedColderThanItReacts_IsAccumulated(double celsius, bool named)
    {
        var plan = Flow(
            [Of("amine", "benzylamine", Mmol(60)), Of("thf", "tetrahydrofuran", ML(50)), Of("bromide", "bromobenzene", Mmol(60))],
            Step("1", StepAction.Charge, "flask", celsius, "thf", "bromide"), Step("2", StepAction.Add, "flask", null, "amine") with { OverS = 900 }, Step("3", StepAction.Stir, "flask", 20)) with
        {
            Reactions = [Reaction("3", ["amine", "bromide"]) with { HeatJPerMol = -100e3 }],
        };

        Assert.Equal(named, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "heat.accumulated"));
    }

    /// <summary>Water and toluene hardly mix, water and ethanol mix in all proportions (CRC Handbook).</summary>
    [Theory]
    [InlineData("toluene", false)]
    [InlineData("ethanol", true)]
    public void Of_WaterAndASolvent_SaysWhetherTheyMix(string solvent, bool mix)
    {
        var contents = Walk.Follow(Flow([Of("water", "water", ML(20)), Of("solvent", solvent, ML(20))], Step("1", StepAction.Extract, "flask", 25, "water", "solvent")), Policy.Default).States[0].Contents;

        var layers = LiquidLayers.Of(contents, 298.15);

        Assert.Equal(mix, layers.Mix);
        if (!mix)
        {
            var water = layers.Shares.Single(static share => share.Substance.Name is "water");
            Assert.True(water.AqueousMol > 0.99 * (water.AqueousMol + water.OrganicMol));
            Assert.Equal(contents[0].Mol!.Value, water.AqueousMol + water.OrganicMol, 1e-12);
        }
    }

    [Fact]
    public void Screen_ExtractionThatFormsNoLayers_IsNoticed() =>
        Assert.Contains(
            Screener.Screen(Flow([Of("water", "water", ML(20)), Of("solvent", "ethanol", ML(20))], Step("1", StepAction.Charge, "flask", 25, "water"), Step("2", StepAction.Extract, "flask", 25, "solvent")), Policy.Default).Findings,
            static finding => finding is { Code: "data.no-layers", Severity: Severity.Notice });

    /// <summary>Dichloromethane boils at 39.6 °C (CRC Handbook, from memory).</summary>
    [Theory]
    [InlineData(60, StepAction.Open, Severity.Warning)]
    [InlineData(60, StepAction.Vent, Severity.Caution)]
    [InlineData(38, StepAction.Open, null)]
    public void Screen_OpenedAboveTheBoilingPoint_ClearsWhenCooled(double celsius, StepAction action, Severity? severity)
    {
        var plan = Flow([Of("dcm", "dichloromethane", ML(10))], Step("1", StepAction.Charge, "flask", 20, "dcm"), Step("2", StepAction.Seal, "flask"), Step("3", StepAction.Heat, "flask", celsius), Step("4", action, "flask"));
        var finding = Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "pressure.opened-above-boiling");

        Assert.Equal(severity, finding?.Severity);
        if (finding is not null)
        {
            Assert.InRange(finding.Evidence[0].Limit!.Value, 39.1, 40.1);
            Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, Assert.Single(finding.ClearedBy)), Policy.Default).Findings, static other => other.Code is "pressure.opened-above-boiling");
        }
    }

    private static Plan Flow(Material[] materials, params Step[] steps) => new() { Materials = materials, Vessels = [Flask("flask", 100), Flask("other", 100)], Steps = steps };
}
