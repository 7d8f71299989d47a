using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>
/// Gas led into an open vessel, all of it unabsorbed, by the ideal gas law (24.465 L/mol at 25 °C) against the IDLH of the NIOSH list: chlorine 10 ppm, arsine 3, sulfur dioxide 100, ammonia 300.
/// Near field 0.1206 m³/s, a room of 30 m³ with 4 air changes an hour 0.0333 m³/s (docs/methods/airborne.md).
/// </summary>
public sealed class LedInGasTests
{
    /// <summary>
    /// 100 mmol are 2.4465 L: 2447 ppm in 1 m³. Over 30 min 1359 µL/s: 11.3 ppm in the near field and, less than 40.8 in steady flow and 81.6 for all of it, 40.8 ppm in the room: 52.0 ppm beside the vessel.
    /// </summary>
    [Theory]
    [InlineData("chlorine", PlaceKind.Bench, Severity.Danger)]
    [InlineData("arsine", PlaceKind.Bench, Severity.Danger)]
    [InlineData("chlorine", null, Severity.Danger)]
    [InlineData("sulfur dioxide", PlaceKind.Bench, Severity.Warning)]
    public void Screen_ToxicGasLedInOutsideAHood_IsHeldAgainstTheIdlh(string gas, PlaceKind? place, Severity severity)
    {
        var finding = Find(LedIn(gas, 100, 1800, place), "toxicity.gas");

        Assert.Equal(severity, finding.Severity);
        Assert.Equal(2446.5, finding.Evidence[0].Value, 1.0);
        Assert.Equal(52.0, finding.Evidence.Single(static line => line.Name.EndsWith("beside the vessel", StringComparison.Ordinal)).Value, 0.2);
        Assert.Contains("leads in up to 2.4 L", finding.Statement, StringComparison.Ordinal);
        Assert.Contains("counts as unabsorbed", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>Into 0.3 m³/s over 30 min: 1.359e-6/0.3 = 4.5 ppm. Chlorine stays below 10, arsine is above 3 but not threefold.</summary>
    [Theory]
    [InlineData("chlorine", 100, Severity.Notice)]
    [InlineData("arsine", 100, Severity.Caution)]
    [InlineData("arsine", 300, Severity.Warning)]
    public void Screen_ToxicGasLedInInAHood_IsDilutedIntoTheExhaust(string gas, double mmol, Severity severity) =>
        Assert.Equal(severity, Find(LedIn(gas, mmol, 1800, PlaceKind.Hood), "toxicity.gas").Severity);

    /// <summary>
    /// 0.3 mmol in 5 s are 7.3 ppm in 1 m³, and 1.468e-6 m³/s into 0.1206 m³/s with 0.24 in the room are 12.4 ppm beside the vessel, above the IDLH of 10; over 60 s 1.3 ppm there.
    /// </summary>
    [Theory]
    [InlineData(5, PlaceKind.Bench, Severity.Danger, 12.4)]
    [InlineData(5, null, Severity.Danger, 12.4)]
    [InlineData(60, PlaceKind.Bench, Severity.Notice, 1.26)]
    public void Screen_GasBesideTheVesselAboveTheIdlh_IsGradedByIt(double overS, PlaceKind? place, Severity severity, double near)
    {
        var finding = Find(LedIn("chlorine", 0.3, overS, place), "toxicity.gas");

        Assert.Equal(severity, finding.Severity);
        Assert.Equal(near, finding.Evidence.Single(static line => line.Name.EndsWith("beside the vessel", StringComparison.Ordinal)).Value, 0.05);
    }

    /// <summary>
    /// 10 mmol of hypochlorite and acid at once are 181.2 ppm in the 1.35 m³ of a hood; 10 mmol led in over half an hour are 0.45 ppm in 0.3 m³/s: the slow source does not stretch the fast one.
    /// </summary>
    [Fact]
    public void Screen_LedInBesideWhatForms_KeepsEachItsTime()
    {
        var plan = LedIn("chlorine", 10, null, PlaceKind.Hood);
        plan = plan with
        {
            Materials = [.. plan.Materials, Of("bleach", "sodium hypochlorite", Mmol(10)), Molar("acid", "hydrogen chloride", "water", 2, ML(20))],
            Steps =
            [
                plan.Steps[0] with { Materials = [new MaterialUse("solvent", null), new MaterialUse("bleach", null)] },
                plan.Steps[1] with { Materials = [new MaterialUse("gas", null), new MaterialUse("acid", null)], DurationS = 1800 },
            ],
        };

        Assert.Equal(181.7, Find(plan, "toxicity.gas").Evidence[0].Value, 0.2);
    }

    /// <summary>A scrubber takes up what a hood would blow out.</summary>
    [Fact]
    public void Screen_MuchToxicGasIntoAScrubber_IsACaution()
    {
        var plan = LedIn("arsine", 300, 1800, PlaceKind.Hood);

        Assert.Equal(Severity.Caution, Find(plan with { Safeguards = [new Safeguard("scrubber", [], null)] }, "toxicity.gas").Severity);
        Assert.Equal(Severity.Caution, Find(LedIn("arsine", 300, 1800, PlaceKind.HoodWithScrubber), "toxicity.gas").Severity);
    }

    /// <summary>Everyday gases: what is not toxic says nothing, 100 mmol of hydrogen chloride over 30 min are 4.5 ppm in the exhaust against 50, ammonia condenses at −78 °C (5.9 kPa there, from memory).</summary>
    [Theory]
    [InlineData("nitrogen", PlaceKind.Bench, 20)]
    [InlineData("argon", PlaceKind.Bench, 20)]
    [InlineData("helium", PlaceKind.Bench, 20)]
    [InlineData("neon", PlaceKind.Bench, 20)]
    [InlineData("krypton", PlaceKind.Bench, 20)]
    [InlineData("xenon", PlaceKind.Bench, 20)]
    [InlineData("sulfur hexafluoride", PlaceKind.Bench, 20)]
    [InlineData("hydrogen", PlaceKind.Bench, 20)]
    [InlineData("carbon dioxide", PlaceKind.Bench, 20)]
    [InlineData("hydrogen chloride", PlaceKind.Hood, 0)]
    [InlineData("ammonia", PlaceKind.Hood, -78)]
    public void Screen_EverydayGas_SaysNothing(string gas, PlaceKind place, double celsius) =>
        Assert.DoesNotContain(Screener.Screen(LedIn(gas, 100, 1800, place, celsius), Policy.Default).Findings, static finding => finding.Code is "toxicity.gas" or "data.gas-without-limit" or "data.gas-not-counted");

    /// <summary>What the declared reaction of the step takes up does not get out: 100 mmol less 90 are 10 mmol, 245 ppm in 1 m³.</summary>
    [Fact]
    public void Screen_DeclaredReaction_TakesOffWhatItUsesUp()
    {
        var plan = LedIn("chlorine", 100, 1800, PlaceKind.Bench);
        plan = plan with
        {
            Materials = [.. plan.Materials, Of("alkene", "cyclohexene", Mmol(90))],
            Steps = [plan.Steps[0] with { Materials = [new MaterialUse("solvent", null), new MaterialUse("alkene", null)] }, plan.Steps[1]],
            Reactions = [Reaction("2", ["gas", "alkene"])],
        };

        Assert.Equal(244.7, Find(plan, "toxicity.gas").Evidence[0].Value, 0.5);
    }

    /// <summary>Cyanogen has no IDLH on file and is toxic if inhaled (CLP Annex VI: H331).</summary>
    [Theory]
    [InlineData(PlaceKind.Bench, Severity.Warning)]
    [InlineData(PlaceKind.Hood, Severity.Notice)]
    public void Screen_ToxicGasWithoutAnIdlh_IsNotPassedOnABench(PlaceKind place, Severity severity) =>
        Assert.Equal(severity, Find(LedIn("cyanogen", 100, 1800, place), "data.gas-without-limit").Severity);

    /// <summary>Sulfur tetrafluoride is not in the IDLH list of NIOSH and has no harmonised classification (CLP Annex VI), and is as poisonous as phosgene: missing data say nothing good.</summary>
    [Fact]
    public void Screen_GasWithoutIdlhAndStatements_IsNamed() =>
        Assert.Contains("leads sulfur tetrafluoride into", Find(LedIn("sulfur tetrafluoride", 100, 1800, PlaceKind.Hood), "data.gas-without-limit").Statement, StringComparison.Ordinal);

    [Fact]
    public void Screen_AmountNotKnown_GoesToReview() =>
        Assert.True(Find(LedIn("chlorine", null, 1800, PlaceKind.Hood), "data.gas-not-counted").LeavesCheckUndone);

    private static Finding Find(Plan plan, string code) => Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal));

    private static Plan LedIn(string gas, double? mmol, double? overS, PlaceKind? place, double celsius = 20) => new()
    {
        Place = place is { } kind ? new Place("here", kind, null, null) : null,
        Materials = [Of("solvent", "dichloromethane", ML(100), Role.Solvent), Of("gas", gas, mmol is { } amount ? Mmol(amount) : null, Role.Gas)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", celsius, "solvent"), Step("2", StepAction.Add, "flask", celsius, "gas") with { OverS = overS }],
    };
}
