using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Plans;

public sealed class ReactionHeatTests
{
    /// <summary>
    /// 0.50 mol giving 55.8 kJ/mol in 220 g of 3.8 J/(g K) rise by 33.4 K (definition). Here in water of 4.18 J/(g K) instead: 27.9 kJ over
    /// 220 g · 4.18 J/(g K) = 919.6 J/K give 30.3 K; the heat capacity of the solid is left out and named.
    /// </summary>
    [Fact]
    public void Follow_NeutralisationInWater_RisesByHeatOverHeatCapacity()
    {
        var heat = Walk.Follow(Exotherm("water", 220, 0.5, -55.8e3, null), Policy.Default).States[^1].ReactionHeat!;

        Assert.Equal(27.9e3, heat.HeatJ!.Value, 1);
        Assert.Equal(30.3, heat.AdiabaticRiseK!.Value, 0.3);
        Assert.Equal(293.15 + 30.3, heat.MtsrK!.Value, 0.3);
        Assert.Contains("benzoic acid", heat.LeftOut, StringComparer.Ordinal);
    }

    /// <summary>ΔT 117.6 K at 30 % accumulation adds 35.3 K (Stoessel's definition MTSR = T + X·ΔT).</summary>
    [Theory]
    [InlineData(0.3, 0.3)]
    [InlineData(null, 1.0)]
    public void Follow_Accumulation_IsTheDeclaredShareOrAll(double? accumulation, double share)
    {
        var heat = Walk.Follow(Exotherm("toluene", 100, 0.1, -200e3, accumulation), Policy.Default).States[^1].ReactionHeat!;

        Assert.Equal(share * heat.AdiabaticRiseK!.Value, heat.MtsrK!.Value - 293.15, 1e-6);
        Assert.Equal(accumulation is not null, heat.AccumulationDeclared);
    }

    [Fact]
    public void Screen_HeatCapacityNotOnFile_SaysThatItIsNotComputed()
    {
        var plan = Exotherm("something new", 100, 0.1, -200e3, null);

        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "data.reaction-heat");
        Assert.Null(Walk.Follow(plan, Policy.Default).States[^1].ReactionHeat!.MtsrK);
    }

    /// <summary>Toluene 1.70 J/(g K): 20 kJ in 100 g rise by about 117 K, the middle of Stoessel's bands; 6 kJ by 35 K, the low one.</summary>
    [Theory]
    [InlineData(-200e3, null, false, Severity.Caution)]
    [InlineData(-60e3, null, false, null)]
    [InlineData(-450e3, null, false, Severity.Warning)]
    [InlineData(-200e3, 380.0, false, Severity.Danger)]
    [InlineData(-200e3, null, true, Severity.Warning)]
    public void Screen_DeclaredHeat_IsGradedByRiseOnsetAndClosure(double heat, double? onsetK, bool closed, Severity? severity)
    {
        var plan = Exotherm("toluene", 100, 0.1, heat, null, closed);
        plan = plan with { Reactions = [plan.Reactions[0] with { DecompositionOnsetK = onsetK }] };

        Assert.Equal(severity, Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "heat.reaction")?.Severity);
    }

    [Theory]
    [InlineData(HeatSource.WaterBath, 60, 75)]
    [InlineData(HeatSource.WaterBath, 95, 100)]
    [InlineData(HeatSource.WaterBath, 120, 135)]
    [InlineData(HeatSource.Steam, 98, 100)]
    [InlineData(HeatSource.OilBath, 95, 110)]
    public void Follow_Heated_GoesNoFurtherThanTheHeaterCan(HeatSource source, double celsius, double worstCelsius)
    {
        var plan = new Plan
        {
            Materials = [Of("oil", "diphenyl ether", ML(10), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "oil"), Step("2", StepAction.Heat, "flask", celsius) with { HeatSource = source }],
        };

        Assert.Equal(worstCelsius, Walk.Follow(plan, Policy.Default).States[^1].WorstTemperatureK - 273.15, 1e-9);
    }

    [Fact]
    public void Follow_ClosedWithDeclaredAccumulation_TakesItsTemperatureAsTheWorst()
    {
        var plan = Exotherm("toluene", 100, 0.1, -200e3, 0.5, closed: true);
        var state = Walk.Follow(plan, Policy.Default).States[^1];

        Assert.Equal(state.ReactionHeat!.MtsrK!.Value, state.WorstTemperatureK, 1e-9);
        Assert.True(state.SurfaceTemperatureK < state.WorstTemperatureK);
    }

    /// <summary>MTSR = T + X·ΔT with X = 1 where nothing is declared (F. Stoessel, Thermal Safety of Chemical Processes, 2nd ed., ch. 3): all of a batch is there when the cooling fails.</summary>
    [Fact]
    public void Follow_ClosedBatchWithoutAccumulation_CountsAllOfTheReagent()
    {
        var state = Walk.Follow(Exotherm("toluene", 100, 0.1, -200e3, null, closed: true), Policy.Default).States[^1];

        Assert.Equal(state.TemperatureK + state.ReactionHeat!.AdiabaticRiseK!.Value, state.WorstTemperatureK, 1e-9);
        Assert.True(state.ReactionGoverns);
    }

    /// <summary>
    /// Benzoyl chloride and aniline, 0.1 mol each in 100 mL of toluene: acylation of an amine 150 kJ/mol (Stoessel, strongest of the range), 15 kJ. Toluene alone takes up 0.941 mol · 157 J/(mol K) = 148 J/K (101 K), with some 0.2 kJ/(mol K)
    /// for each of the others 188 J/K (80 K): it is as hot as if the heat were stated, and less with an accumulation that is.
    /// </summary>
    [Fact]
    public void Follow_ClosedWithAHeatThatIsLookedUp_TakesItAsIfItWereStated()
    {
        var looked = Walk.Follow(Acylation(null, null, closed: true), Policy.Default).States[^1];
        var stated = Walk.Follow(Acylation(-150e3, null, closed: true), Policy.Default).States[^1];
        var dosed = Walk.Follow(Acylation(null, 0.3, closed: true), Policy.Default).States[^1];

        Assert.Equal(stated.WorstTemperatureK, looked.WorstTemperatureK, 1e-9);
        Assert.InRange(looked.WorstTemperatureK - looked.TemperatureK, 75, 102);
        Assert.Equal(0.3 * (looked.WorstTemperatureK - looked.TemperatureK), dosed.WorstTemperatureK - dosed.TemperatureK, 1e-6);
        Assert.True(looked.ReactionGoverns);
        Assert.Contains("acylation of an amine", Assert.Single(looked.ReactionHeat!.LookedUp), StringComparison.Ordinal);
        Assert.Empty(stated.ReactionHeat!.LookedUp);
        Assert.True(looked.ReactionHeat.Quality >= Quality.Estimated);
        Assert.Contains(Screener.Screen(Acylation(null, null, closed: true), Policy.Default).Findings.SelectMany(static finding => finding.Evidence), static evidence => evidence is { Name: "worst credible temperature" } && evidence.Model.Contains("heat not stated, estimated", StringComparison.Ordinal));
    }

    [Fact]
    public void Follow_OpenWithAHeatThatIsLookedUp_IsNoHotterThanItsHeater()
    {
        var state = Walk.Follow(Acylation(null, null, closed: false), Policy.Default).States[^1];

        Assert.Equal(state.TemperatureK, state.WorstTemperatureK, 1e-9);
    }

    private static Plan Acylation(double? joulePerMol, double? accumulation, bool closed) => new()
    {
        Materials = [Of("toluene", "toluene", ML(100), Role.Solvent), Of("chloride", "benzoyl chloride", Mmol(100)), Of("amine", "aniline", Mmol(100))],
        Vessels = [Tube(250, 20)],
        Steps = [Step("1", StepAction.Charge, "tube", 20, "toluene", "chloride", "amine"), .. closed ? [Step("2", StepAction.Seal, "tube")] : Array.Empty<Step>(), Step("3", StepAction.Stir, "tube", 20)],
        Reactions = [Reaction("3", ["chloride", "amine"]) with { HeatJPerMol = joulePerMol, Accumulation = accumulation }],
        LimitingMaterial = "chloride",
    };

    [Fact]
    public void Follow_OpenBatch_IsNoHotterThanItsHeater()
    {
        var state = Walk.Follow(Exotherm("toluene", 100, 0.1, -200e3, null), Policy.Default).States[^1];

        Assert.Equal(state.TemperatureK, state.WorstTemperatureK, 1e-9);
    }

    /// <summary>Dosed over ten minutes into a cold vessel, or one with cooling, the reagent reacts as it comes; hot and uncooled nothing shows that the heat goes anywhere (common practice, no source).</summary>
    [Theory]
    [InlineData(20, 10, null, false)]
    [InlineData(20, 9, null, true)]
    [InlineData(60, 30, null, true)]
    [InlineData(60, 30, "cooling bath", false)]
    public void Follow_DosedIntoAClosedVessel_CountsTheHeatUnlessItIsHeld(double celsius, double minutes, string? safeguard, bool governs)
    {
        var plan = Exotherm("toluene", 100, 0.1, -200e3, null, closed: true);
        plan = plan with
        {
            Steps = [Step("1", StepAction.Charge, "tube", 20, "solvent"), plan.Steps[1], Step("3", StepAction.Add, "tube", celsius, "limiting") with { OverS = minutes * 60 }],
            Safeguards = safeguard is null ? [] : [new Safeguard(safeguard, [], null)],
        };

        Assert.Equal(governs, Walk.Follow(plan, Policy.Default).States[^1].ReactionGoverns);
    }

    /// <summary>The sentence calls it what it is, no overshoot of a heater.</summary>
    [Fact]
    public void Screen_ClosedBatch_SaysThatTheReactionReachesIt()
    {
        var plan = Exotherm("tetrahydrofuran", 100, 0.2, -200e3, null, closed: true);

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code.StartsWith("pressure.", StringComparison.Ordinal) && finding.Severity is Severity.Danger);

        Assert.Contains("which the reaction reaches from 20 °C without cooling", finding.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain("overshoot", finding.Statement, StringComparison.Ordinal);
    }

    private static Plan Exotherm(string solvent, double grams, double mol, double heat, double? accumulation, bool closed = false) => new()
    {
        Materials = [Of("limiting", "benzoic acid", new Amount.Mol(mol)), Of("solvent", solvent, G(grams), Role.Solvent)],
        Vessels = [Tube(500, 10)],
        Steps =
        [
            Step("1", StepAction.Charge, "tube", 20, "limiting", "solvent"), Step("2", closed ? StepAction.Seal : StepAction.Stir, "tube"), Step("3", StepAction.Stir, "tube", 20),
        ],
        LimitingMaterial = "limiting",
        Reactions = [Reaction("3", ["limiting"]) with { HeatJPerMol = heat, Accumulation = accumulation }],
    };
}
