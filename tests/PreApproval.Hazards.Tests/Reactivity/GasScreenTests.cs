using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>
/// Gas by stoichiometry with molar masses of the CRC Handbook, 24.465 L/mol at 25 °C and 101 325 Pa; dilution into rooms by the ideal
/// gas law; IDLH of the NIOSH list (hydrogen cyanide 50 ppm, chlorine 10, phosgene 2).
/// </summary>
public sealed class GasScreenTests
{
    /// <summary>Gas in mmol for 1.00 g and an excess: molar masses in g/mol beside each, and the equation.</summary>
    [Theory]
    [InlineData("sodium hydride", "water", 0.60, "saline-hydride-with-water", 25.0)] // 60 % in oil: 0.60 g of 23.998, NaH + H2O → H2
    [InlineData("lithium aluminium hydride", "water", 1, "aluminium-hydride-with-water", 105.4)] // 37.955, 4 H2
    [InlineData("sodium borohydride", "hydrogen chloride", 1, "borohydride-with-acid", 105.7)] // 37.83, 4 H2
    [InlineData("calcium hydride", "water", 1, "saline-hydride-with-water", 47.5)] // 42.094, 2 H2
    [InlineData("sodium", "water", 1, "alkali-metal-with-water", 21.75)] // 22.990, ½ H2
    [InlineData("lithium", "water", 1, "alkali-metal-with-water", 72.0)] // 6.94, ½ H2
    [InlineData("aluminium", "hydrogen chloride", 1, "metal-with-acid", 55.6)] // 26.982, 1½ H2
    [InlineData("calcium carbide", "water", 1, "carbide-with-water", 15.6)] // 64.10, C2H2
    [InlineData("sodium azide", "acetic acid", 1, "organic-acid-with-azide", 15.4)] // 65.01, HN3
    [InlineData("potassium cyanide", "acetic acid", 1, "organic-acid-with-cyanide", 15.36)] // 65.12, HCN
    [InlineData("sodium sulfide", "acetic acid", 1, "organic-acid-with-sulfide", 12.81)] // 78.05, H2S
    [InlineData("sodium hypochlorite", "hydrogen chloride", 1, "acid-with-hypochlorite", 13.43)] // 74.44, Cl2
    [InlineData("thionyl chloride", "water", 1.638, "hydrolysable-halide-with-water", 41.3)] // 118.97, SO2 + 2 HCl
    [InlineData("oxalyl chloride", "water", 1.478, "oxalyl-chloride-with-water", 46.6)] // 126.93, CO + CO2 + 2 HCl
    [InlineData("triphosgene", "triethylamine", 1, "phosgene-source-with-amine", 10.1)] // 296.7, 3 COCl2
    [InlineData("copper", "nitric acid", 1, "metal-with-nitric-acid", 31.5)] // 63.546, 2 NO2
    public void Meeting_OneGramInExcess_MakesTheStoichiometricGas(string substance, string excess, double grams, string row, double mmol) =>
        Assert.Equal(mmol * 1e-3, Gas(Of("a", substance, G(grams)), Of("b", excess, Mmol(2000)), row), mmol * 1e-5);

    /// <summary>100 g of 30 % hydrogen peroxide: 0.882 mol of 34.015 g/mol give 0.441 mol of oxygen, 10.8 L.</summary>
    [Fact]
    public void Meeting_PeroxideOverManganeseDioxide_MakesHalfItsOxygen() =>
        Assert.Equal(0.441, Gas(WeightPercent("a", "hydrogen peroxide", "water", 30, G(100)), Of("b", "manganese dioxide", Mmol(1)), "peroxide-with-catalyst"), 0.0044);

    /// <summary>10 mL of 1.6 M butyllithium: 16.0 mmol of butane.</summary>
    [Fact]
    public void Meeting_ButyllithiumSolution_MakesItsButane() =>
        Assert.Equal(0.0160, Gas(Molar("a", "n-butyllithium", "n-hexane", 1.6, ML(10)), Of("b", "water", Mmol(2000)), "organolithium-with-water"), 0.00016);

    /// <summary>The minor partner limits: 2 mmol of water on 50 mmol of hydride.</summary>
    [Fact]
    public void Meeting_LittleWater_LimitsTheHydrogen() =>
        Assert.Equal(2e-3, Gas(Of("a", "sodium hydride", Mmol(50)), Of("b", "water", Mmol(2)), "saline-hydride-with-water"), 1e-9);

    /// <summary>1.00 g of potassium cyanide: 7.5 ppm in 50 m³ and 376 ppm in 1 m³; of sodium sulfide 6.3 ppm in 50 m³; 100 mL of 5.25 % bleach (1.07 g/mL) 36.9 ppm; 1.00 g of triphosgene 4.9 ppm.</summary>
    [Theory]
    [InlineData(1 / 65.12, 50, 7.5)]
    [InlineData(1 / 65.12, 1, 376)]
    [InlineData(1 / 78.05, 50, 6.3)]
    [InlineData(100 * 1.07 * 0.0525 / 74.44, 50, 36.9)]
    [InlineData(3 / 296.7, 50, 4.9)]
    public void PpmIn_GasOfTheExamples_IsTheirDilution(double mol, double spaceM3, double ppm) =>
        Assert.Equal(ppm, GasDilution.PpmIn(mol, spaceM3), ppm * 0.01);

    /// <summary>Orifice by hand: 1 L/min of 1.2 kg/m³ at 1 kPa flows at 40.8 m/s, so A = 1.667e-5/(0.6 · 40.8) = 6.80e-7 m², 0.931 mm.</summary>
    [Fact]
    public void BoreM_OneLitreAMinute_IsTheOrificeWorkedByHand() => Assert.Equal(0.931e-3, GasDilution.BoreM(1e-3 / 60, 1000, 1.2), 0.001e-3);

    /// <summary>Hydrogen at 25 °C and 101 325 Pa: 2.016 g/mol in 24.465 L, 0.0824 kg/m³.</summary>
    [Fact]
    public void DensityKgPerM3_Hydrogen_IsItsMassInAMolarVolume() => Assert.Equal(0.0824, GasDilution.DensityKgPerM3(2.016e-3), 0.0001);

    /// <summary>20 mmol of hydride: 0.489 L of hydrogen, over 15 min 0.0326 L/min.</summary>
    [Fact]
    public void Screen_DosedQuench_NamesGasRateAndWayOut()
    {
        var finding = Find(Quench("sodium hydride", Mmol(20), "water", 900), "gas.evolved");

        Assert.Equal(Severity.Notice, finding.Severity);
        Assert.Equal(0.489, finding.Evidence[0].Value, 0.001);
        Assert.Equal(0.0326, finding.Evidence[1].Value, 0.0002);
        Assert.Contains("limited by sodium hydride", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>0.3 mol of carbonate gives 7.3 L of carbon dioxide: more than 5 L is a caution.</summary>
    [Fact]
    public void Screen_MuchGas_IsACaution() =>
        Assert.Equal(Severity.Caution, Find(Quench("sodium bicarbonate", Mmol(300), "acetic acid", 1800), "gas.evolved").Severity);

    /// <summary>20 mmol of cyanide over 10 min into 0.3 m³/s: 8.2e-7 m³/s, 2.7 ppm; at once into 1.35 m³: 362 ppm, above three times 50 ppm, and no scrubber.</summary>
    [Fact]
    public void Screen_ToxicGasInAHood_IsHeldAgainstTheIdlh()
    {
        var dosed = Screener.Screen(Quench("potassium cyanide", Mmol(20), "acetic acid", 600), Policy.Default);
        var atOnce = Find(Quench("potassium cyanide", Mmol(20), "acetic acid", null), "toxicity.gas");

        Assert.DoesNotContain(dosed.Findings, static finding => finding.Code is "toxicity.gas");
        Assert.Equal(Severity.Warning, atOnce.Severity);
        Assert.Equal(362, atOnce.Evidence[0].Value, 1.0);
        Assert.Equal(50, atOnce.Evidence[0].Limit);
    }

    /// <summary>
    /// 10 mmol of hypochlorite and acid on a bench: 0.2447 L of chlorine, 245 ppm in the nearest cubic metre, against 10. Over 15 min 0.272 mL/s: 2.3 ppm in the near field (0.1206 m³/s)
    /// and 8.2 ppm in 30 m³ are above 10; over 30 min 1.1 ppm and 4.1 ppm (0.0333 m³/s) are below.
    /// </summary>
    [Theory]
    [InlineData(900, Severity.Danger)]
    [InlineData(1800, Severity.Warning)]
    public void Screen_ToxicGasOnABench_IsGradedByWhatIsBreathed(double overS, Severity severity)
    {
        var finding = Find(Quench("sodium hypochlorite", Mmol(10), "hydrogen chloride", overS) with { Place = new Place("bench 3", PlaceKind.Bench, null, null) }, "toxicity.gas");

        Assert.Equal(severity, finding.Severity);
        Assert.Equal(244.7, finding.Evidence[0].Value, 0.5);
    }

    /// <summary>0.2 mol of cyanide into acid in 1 min: above the IDLH in the exhaust; the longer time that is offered clears it.</summary>
    [Fact]
    public void Screen_ToxicGasTooFast_OffersATimeThatClearsIt()
    {
        var plan = Quench("potassium cyanide", Mmol(200), "acetic acid", 60);
        var offer = Assert.Single(Find(plan, "toxicity.gas").ClearedBy);

        Assert.Equal("min", offer.Unit);
        Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, offer), Policy.Default).Findings, static finding => finding.Code is "toxicity.gas");
    }

    /// <summary>A place that is not stated has the air of a bench: 20 mmol of hydrogen cyanide are 0.489 L, 489 ppm in the nearest cubic metre, against 50; it goes to review.</summary>
    [Fact]
    public void Screen_ToxicGasPlaceNotStated_CountsAsABenchAndGoesToReview()
    {
        var finding = Find(Quench("potassium cyanide", Mmol(20), "acetic acid", 600) with { Place = null }, "toxicity.gas");

        Assert.Equal(Severity.Caution, finding.Severity);
        Assert.True(finding.LeavesCheckUndone);
        Assert.Equal(489, finding.Evidence[0].Value, 1.0);
        Assert.Contains("for want of a stated place", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>The carbon dioxide that the plan declares does not hide the hydrogen cyanide that it does not: 362 ppm in the air standing in a hood, as without the declaration.</summary>
    [Fact]
    public void Screen_DeclaredGasBesideAnEncounter_HidesNoOtherGas()
    {
        var quench = Quench("potassium cyanide", Mmol(20), "acetic acid", null);
        var plan = quench with
        {
            Materials = [.. quench.Materials, Of("c", "potassium bicarbonate", Mmol(20))],
            Steps = [quench.Steps[0] with { Materials = [new MaterialUse("a", null), new MaterialUse("c", null)] }, quench.Steps[1]],
            Reactions = [Reaction("2", ["c"], ("carbon dioxide", Phase.Gas))],
        };

        Assert.Equal(362, Find(plan, "toxicity.gas").Evidence[0].Value, 1.0);
        // 20 mmol of each, the declared carbon dioxide once: 0.979 L
        Assert.Equal(0.979, Find(plan, "gas.evolved").Evidence[0].Value, 0.001);
    }

    /// <summary>Two declared sources of 10 mmol of hydrogen cyanide each are 20 mmol in one air: 362 ppm, not 181.</summary>
    [Fact]
    public void Screen_TwoSourcesOfOneToxicGas_AddUp()
    {
        var quench = Quench("potassium cyanide", Mmol(10), "acetic acid", null);
        var plan = quench with
        {
            Materials = [.. quench.Materials, Of("c", "sodium cyanide", Mmol(10))],
            Steps = [quench.Steps[0] with { Materials = [new MaterialUse("a", null), new MaterialUse("c", null)] }, quench.Steps[1]],
            Reactions = [Reaction("2", ["a"], ("hydrogen cyanide", Phase.Gas)), Reaction("2", ["c"], ("hydrogen cyanide", Phase.Gas))],
        };

        Assert.Equal(362, Find(plan, "toxicity.gas").Evidence[0].Value, 1.0);
    }

    /// <summary>Hydrogen cyanide has an IDLH (NIOSH) and is fatal if inhaled; hydrogen has neither (CLP Annex VI: H220 alone).</summary>
    [Theory]
    [InlineData("potassium cyanide", "acetic acid", true)]
    [InlineData("sodium hydride", "water", false)]
    public void Screen_AmountMissing_SendsAToxicGasToReview(string first, string second, bool undone) =>
        Assert.Equal(undone, Find(Quench(first, null, second, null) with { Materials = [Of("a", first, null), Of("b", second, null, Role.Quench)] }, "data.gas-not-counted").LeavesCheckUndone);

    /// <summary>Hydrazoic acid is not in the IDLH list of NIOSH; hydrogen is not either, and by CLP Annex VI it harms nobody's health by itself.</summary>
    [Theory]
    [InlineData("sodium azide", "acetic acid", true)]
    [InlineData("sodium hydride", "water", false)]
    public void Screen_GasWithoutAnIdlh_IsNamed(string first, string second, bool named) =>
        Assert.Equal(named, Screener.Screen(Quench(first, Mmol(20), second, 900), Policy.Default).Findings.Any(static finding => finding.Code is "data.gas-without-limit"));

    /// <summary>Half a millimole of known hydride beside hydride of unknown amount: neither the side nor its gas is known; the half counts where it may only raise.</summary>
    [Fact]
    public void Meeting_MemberOfUnknownAmount_LeavesItsSideUnknown()
    {
        var meeting = Assert.Single(Meeting.At(Assert.Single(Walk.Follow(TwoHydrides(null), Policy.Default).States)), static meeting => meeting.Encounter.Key is "saline-hydride-with-water");

        Assert.Null(meeting.AEquivalents);
        Assert.Null(meeting.GasMol);
        Assert.Equal(0.5e-3, meeting.CountedGasMol!.Value, 1e-9);
    }

    [Fact]
    public void Screen_TraceBesideAnUnknownAmount_LowersNothing() =>
        Assert.DoesNotContain("less than 1 mmol", Find(TwoHydrides(Mmol(300)), "incompatibility.saline-hydride-with-water").Statement, StringComparison.Ordinal);

    [Fact]
    public void Screen_AmountMissing_SaysThatTheGasIsNotCounted()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium hydride", null), Of("water", "water", null, Role.Quench)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "hydride") with { Headspace = Under("nitrogen") }, Step("2", StepAction.Quench, "flask", 0, "water")],
        };

        Assert.Contains("hydrogen", Find(plan, "data.gas-not-counted").Statement, StringComparison.Ordinal);
    }

    /// <summary>In a closed vessel the gas is pressure (GasEvolutionTests), not a cloud.</summary>
    [Fact]
    public void Screen_ClosedVessel_HasNoGasInTheOpen()
    {
        var open = Quench("sodium bicarbonate", Mmol(50), "acetic acid", 900);
        var closed = open with { Vessels = [Tube(250, 10, "flask")], Steps = [open.Steps[0], Step("1b", StepAction.Seal, "flask"), open.Steps[1]] };

        Assert.DoesNotContain(Screener.Screen(closed, Policy.Default).Findings, static finding => finding.Code is "gas.evolved");
        Assert.Contains(Screener.Screen(closed, Policy.Default).Findings, static finding => finding.Hazard == Hazard.Pressure);
    }

    private static Finding Find(Plan plan, string code) => Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal));

    private static Plan TwoHydrides(Amount? water) => new()
    {
        Materials = [Of("a", "sodium hydride", Mmol(0.5)), Of("more", "sodium hydride", null), Of("b", "water", water)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "a", "more", "b") with { Headspace = Under("nitrogen") }],
    };

    private static Plan Quench(string first, Amount? amount, string second, double? overS) => new()
    {
        Place = new Place("hood 1", PlaceKind.Hood, null, null),
        Materials = [Of("a", first, amount), Of("b", second, Mmol(1000), Role.Quench)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 0, "a") with { Headspace = Under("nitrogen") }, Step("2", StepAction.Quench, "flask", 0, "b") with { OverS = overS }],
    };

    private static double Gas(Material a, Material b, string row)
    {
        var plan = new Plan { Materials = [a, b], Vessels = [Flask()], Steps = [Step("1", StepAction.Charge, "flask", 20, "a", "b") with { Headspace = Under("nitrogen") }] };
        var state = Assert.Single(Walk.Follow(plan, Policy.Default).States);
        return Assert.Single(Meeting.At(state), meeting => string.Equals(meeting.Encounter.Key, row, StringComparison.Ordinal)).GasMol!.Value;
    }
}
