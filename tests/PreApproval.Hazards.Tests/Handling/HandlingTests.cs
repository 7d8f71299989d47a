using PreApproval.Hazards.Handling;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Handling;

/// <summary>
/// Pyrophorics and water-reactives by amount (university rules: review above 10 mL of 1 mol/L, any neat liquid, tert-butyllithium at any amount, never above 50 mL), poisons with a first aid of their own
/// (Prudent Practices 2011 and NIOSH Pocket Guide, from memory), monomers (Kelly 1996).
/// </summary>
public sealed class HandlingTests
{
    [Theory]
    [InlineData("n-butyllithium", 2.5, 5, Severity.Notice)]
    [InlineData("n-butyllithium", 2.5, 15, Severity.Warning)]
    [InlineData("n-butyllithium", 0.5, 15, Severity.Notice)]
    [InlineData("tert-butyllithium", 1.7, 2, Severity.Warning)]
    [InlineData("tert-butyllithium", 1.7, 60, Severity.Danger)]
    public void Screen_PyrophoricSolution_IsJudgedByVolumeAndStrength(string reagent, double molar, double mL, Severity severity) =>
        Assert.Equal(severity, Only(Charged(Molar("a", reagent, "n-hexane", molar, ML(mL))), "fire.pyrophoric").Severity);

    // 25 mmol of 2.5 mol/L are 10 mL: not above the limit
    [Theory]
    [InlineData(25, Severity.Notice)]
    [InlineData(26, Severity.Warning)]
    public void Screen_PyrophoricByAmountOfSubstance_IsTurnedIntoAVolume(double mmol, Severity severity) =>
        Assert.Equal(severity, Only(Charged(Molar("a", "n-butyllithium", "n-hexane", 2.5, Mmol(mmol))), "fire.pyrophoric").Severity);

    // the contract lets the steps alone give amounts; two draws of 6 mL are 12 mL, above 10 mL
    [Theory]
    [InlineData(4, Severity.Notice)]
    [InlineData(6, Severity.Warning)]
    public void Screen_PyrophoricDrawnInTwoSteps_CountsTheDrawsTogether(double mL, Severity severity) =>
        Assert.Equal(severity, Only(Drawn(Molar("a", "n-butyllithium", "n-hexane", 2.5, null), ML(mL), ML(mL)), "fire.pyrophoric").Severity);

    // more drawn than the list holds: what the steps say counts
    [Fact]
    public void Screen_MoreDrawnThanListed_CountsWhatIsDrawn() =>
        Assert.Equal(Severity.Warning, Only(Drawn(Molar("a", "n-butyllithium", "n-hexane", 2.5, ML(8)), ML(6), ML(6)), "fire.pyrophoric").Severity);

    // an unknown volume counts as above every limit (docs/methods/special-handling.md)
    [Theory]
    [InlineData("n-butyllithium", Severity.Warning)]
    [InlineData("tert-butyllithium", Severity.Danger)]
    public void Screen_PyrophoricOfUnknownVolume_CountsAsAboveTheLimit(string reagent, Severity severity) =>
        Assert.Equal(severity, Only(Drawn(Molar("a", reagent, "n-hexane", 1.7, null), ML(2), null), "fire.pyrophoric").Severity);

    // white phosphorus is kept and cut under water: Prudent Practices 2011, from memory
    [Theory]
    [InlineData(1, Severity.Notice)]
    [InlineData(5, Severity.Caution)]
    public void Screen_WhitePhosphorus_IsNotSaidToBurnWithWater(double grams, Severity severity)
    {
        var plan = Charged(Of("a", "white phosphorus", G(grams)));
        var finding = Only(plan, "fire.pyrophoric");

        Assert.Equal(severity, finding.Severity);
        Assert.DoesNotContain("with water", finding.Statement, StringComparison.Ordinal);
        Assert.Contains("under the liquid", finding.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static other => other.Code is "fire.water-reactive");
    }

    // H250 and H260: both are said
    [Fact]
    public void Screen_PyrophoricSolidThatBurnsWithWater_SaysBoth()
    {
        var statement = Only(Charged(Of("a", "9-borabicyclo[3.3.1]nonane", G(1))), "fire.water-reactive").Statement;

        Assert.Contains("ignites in air", statement, StringComparison.Ordinal);
        Assert.Contains("with water", statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_NeatMetalAlkyl_IsReviewed() => Assert.Equal(Severity.Warning, Only(Charged(Of("a", "diethylzinc", ML(1))), "fire.pyrophoric").Severity);

    [Theory]
    [InlineData(1, Severity.Notice)]
    [InlineData(5, Severity.Caution)]
    public void Screen_WaterReactive_IsJudgedByMass(double grams, Severity severity) =>
        Assert.Equal(severity, Only(Charged(Of("a", "lithium aluminium hydride", G(grams))), "fire.water-reactive").Severity);

    [Theory]
    [InlineData(1, "fire.water-reactive", Severity.Notice)]
    [InlineData(3, "fire.water-reactive", Severity.Caution)]
    public void Screen_WaterReactiveInTwoSteps_CountsBoth(double grams, string code, Severity severity) =>
        Assert.Equal(severity, Only(Drawn(Of("a", "lithium aluminium hydride", null), G(grams), G(grams)), code).Severity);

    [Theory]
    [InlineData(2, Severity.Caution)]
    [InlineData(3, Severity.Warning)]
    public void Screen_CyanideInTwoSteps_CountsBoth(double grams, Severity severity) =>
        Assert.Equal(severity, Only(Drawn(Of("a", "sodium cyanide", null), G(grams), G(grams)), "toxicity.cyanide").Severity);

    /// <summary>A declared product counts with its mass: 0.2 mol of sodium cyanide (49.01 g/mol) are 9.8 g, 20 mmol 1.0 g; 5 g and more are a step worse.</summary>
    [Theory]
    [InlineData(200, Severity.Warning)]
    [InlineData(20, Severity.Caution)]
    public void Screen_CyanideAsADeclaredProduct_CountsItsMass(double mmol, Severity severity)
    {
        var plan = Charged(Of("a", "sodium amide", Mmol(mmol))) with { Reactions = [Reaction("1", ["a"], ("sodium cyanide", Phase.Solid))] };

        Assert.Equal(severity, Only(plan, "toxicity.cyanide").Severity);
    }

    [Fact]
    public void Screen_HydrideThatNothingQuenches_IsFound()
    {
        var plan = Charged(Of("a", "sodium hydride", G(1)));
        var quenched = plan with
        {
            Materials = [.. plan.Materials, Of("q", "2-propanol", ML(50), Role.Quench)],
            Steps = [.. plan.Steps, Step("2", StepAction.Quench, "flask", 0, "q") with { OverS = 1800 }],
        };

        Assert.Equal(["a"], Only(plan, "fire.not-quenched").Materials);
        Assert.DoesNotContain(Screener.Screen(quenched, Policy.Default).Findings, static finding => finding.Code is "fire.not-quenched");
    }

    /// <summary>A work-up with water and lye added drop by drop: 2 mmol of lithium aluminium hydride take 8 mmol of protons (textbook stoichiometry); 0.1 mL of water holds 5.5 mmol.</summary>
    [Theory]
    [InlineData(1, false)]
    [InlineData(0.1, true)]
    public void Screen_HydrideToWhichWaterIsAdded_IsQuenchedByIt(double waterML, bool found)
    {
        var plan = Charged(Of("a", "lithium aluminium hydride", Mmol(2)));
        plan = plan with
        {
            Materials = [.. plan.Materials, Of("water", "water", ML(waterML))],
            Steps = [.. plan.Steps, Step("2", StepAction.Add, "flask", 0, "water") with { OverS = 1800 }],
        };

        Assert.Equal(found, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "fire.not-quenched"));
    }

    /// <summary>Water freezes at 0 °C: at −78 °C nothing is quenched yet, and on warming everything is, with its heat and gas in that step.</summary>
    [Fact]
    public void Follow_WaterAddedFrozen_QuenchesInTheStepThatThawsIt()
    {
        var plan = Charged(Of("a", "lithium aluminium hydride", Mmol(2)));
        plan = plan with
        {
            Materials = [.. plan.Materials, Of("water", "water", ML(1))],
            Steps = [.. plan.Steps, Step("2", StepAction.Add, "flask", -78, "water"), Step("3", StepAction.Stir, "flask", 20), Step("4", StepAction.Stir, "flask", 20)],
        };

        var states = Walk.Follow(plan, Policy.Default).States;

        Assert.False(Hydride(states[1].ContentsAfter).Spent);
        Assert.False(Hydride(states[2].Remaining).Spent);
        Assert.True(Hydride(states[3].Contents).Spent);

        static Content Hydride(IReadOnlyList<Content> contents) => Assert.Single(contents, static content => content.MaterialId is "a");
    }

    [Theory]
    [InlineData("toluene")]
    [InlineData("sodium chloride")]
    public void Screen_PlainMaterial_IsNoHandlingFinding(string name) =>
        Assert.DoesNotContain(Screener.Screen(Charged(Of("a", name, G(50))), Policy.Default).Findings, static finding => finding.Code is "fire.pyrophoric" or "fire.water-reactive" or "fire.not-quenched");

    [Fact]
    public void Screen_CoatAndShieldOfThePlan_CountAsPresent()
    {
        var plan = Charged(Molar("a", "n-butyllithium", "n-hexane", 2.5, ML(15))) with { Protection = new Protection("nitrile", "face shield over safety glasses", "flame-resistant") };
        var controls = Only(plan, "fire.pyrophoric").Controls;

        Assert.Equal(ControlStatus.Present, Assert.Single(controls, static needed => needed.Control is "flame-resistant coat").Status);
        Assert.Equal(ControlStatus.Present, Assert.Single(controls, static needed => needed.Control is "face shield").Status);
        Assert.Equal(ControlStatus.Missing, Assert.Single(controls, static needed => needed.Control is "second person").Status);
    }

    [Theory]
    [InlineData("sodium cyanide", 2, "toxicity.cyanide", Severity.Caution)]
    [InlineData("sodium cyanide", 6, "toxicity.cyanide", Severity.Warning)]
    [InlineData("hydrogen cyanide", 1, "toxicity.hydrogen-cyanide", Severity.Warning)]
    [InlineData("phosgene", 1, "toxicity.phosgene", Severity.Warning)]
    [InlineData("triphosgene", 2, "toxicity.phosgene-source", Severity.Caution)]
    [InlineData("triphosgene", 12, "toxicity.phosgene-source", Severity.Warning)]
    [InlineData("nickel tetracarbonyl", 0.1, "toxicity.nickel-carbonyl", Severity.Danger)]
    [InlineData("dimethylmercury", 0.1, "toxicity.organomercury", Severity.Danger)]
    public void Screen_SpecialPoison_PointsToWhatMustBeAgreed(string name, double grams, string code, Severity severity)
    {
        var finding = Only(Charged(Of("a", name, G(grams))), code);

        Assert.Equal(severity, finding.Severity);
        Assert.Contains("Local rules", finding.Statement, StringComparison.Ordinal);
        Assert.NotEmpty(finding.Controls);
    }

    [Fact]
    public void Screen_HydrofluoricAcid_AsksForGluconateGel()
    {
        var plan = Charged(WeightPercent("a", "hydrogen fluoride", "water", 40, ML(5)));
        var safe = plan with { Safeguards = [new Safeguard("calcium gluconate gel", [], null)] };

        Assert.Equal(ControlStatus.Missing, Assert.Single(Only(plan, "toxicity.hydrogen-fluoride").Controls, static needed => needed.Control is "calcium gluconate gel").Status);
        Assert.Equal(ControlStatus.Present, Assert.Single(Only(safe, "toxicity.hydrogen-fluoride").Controls, static needed => needed.Control is "calcium gluconate gel").Status);
    }

    [Theory]
    [InlineData("carbon monoxide", "toxicity.carbon-monoxide")]
    [InlineData("hydrogen sulfide", "toxicity.hydrogen-sulfide")]
    public void Screen_GasOverTheContents_IsAPoisonToo(string gas, string code)
    {
        var plan = Charged(Of("a", "toluene", ML(20)));

        Assert.Equal(["1"], Only(plan with { Steps = [plan.Steps[0] with { Headspace = Under(gas) }] }, code).Steps);
    }

    [Fact]
    public void Screen_OrganomercuryByStructure_IsFound()
    {
        var ethyl = new Material { Id = "a", Composition = new Composition.Pure(new PlanSubstance("CC[Hg]CC", "diethylmercury", null, "CC[Hg]CC")), Role = Role.Reagent, Amount = G(1) };

        Assert.Equal(Severity.Danger, Only(Charged(ethyl), "toxicity.organomercury").Severity);
        Assert.DoesNotContain(Screener.Screen(Charged(Of("a", "mercury(II) chloride", G(1))), Policy.Default).Findings, static finding => finding.Code is "toxicity.organomercury");
    }

    [Fact]
    public void Screen_OrganomercuryOfTheGroup_IsFoundByItsStructure()
    {
        var known = new Substance { Identity = new Identity { Name = "our ethylmercury", Smiles = "CC[Hg]Cl" }, PhaseAt298K = Phase.Solid };
        var ours = new Material { Id = "a", Composition = new Composition.Pure(new PlanSubstance("ours", "our ethylmercury", known, "CC[Hg]Cl")), Role = Role.Reagent, Amount = G(1) };

        Assert.Equal(Severity.Danger, Only(Charged(ours), "toxicity.organomercury").Severity);
    }

    [Fact]
    public void Table_EveryPoison_HasItsOwnControls() =>
        Assert.All(SpecialPoisonScreen.Keys, static key => Assert.StartsWith("toxicity." + key.Split('-')[0], ControlNeeds.Of("toxicity." + key)!.Code, StringComparison.Ordinal));

    [Theory]
    [InlineData("inhibited with hydroquinone", "nitrogen", true)]
    [InlineData(null, "nitrogen", true)]
    [InlineData("inhibited with hydroquinone", null, false)]
    public void Screen_InhibitedStyreneStored_NeedsAir(string? form, string? gas, bool found) =>
        Assert.Equal(found, Screener.Screen(Stored(form, gas, 100), Policy.Default).Findings.Any(static finding => finding.Code is "peroxide.inhibitor-without-air"));

    [Theory]
    [InlineData("inhibitor removed", 12.0, false)]
    [InlineData("inhibitor removed", 48.0, true)]
    [InlineData("inhibited", 48.0, false)]
    public void Screen_UninhibitedStyreneStored_KeepsADay(string form, double hours, bool found) =>
        Assert.Equal(found, Screener.Screen(Stored(form, null, hours), Policy.Default).Findings.Any(static finding => finding is { Code: "peroxide.uninhibited-kept", Severity: Severity.Warning }));

    [Theory]
    [InlineData(20, false)]
    [InlineData(200, true)]
    public void Screen_SlowFormerEvaporated_CountsFromAVolume(double mL, bool found)
    {
        var plan = new Plan
        {
            Materials = [Of("a", "2-propanol", ML(mL), Role.Solvent) with { OpenedOn = new DateOnly(2026, 5, 1) }],
            Vessels = [Flask(mL: 500)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "a"), Step("2", StepAction.Concentrate, "flask", 40)],
            PlannedOn = new DateOnly(2026, 6, 1),
        };

        Assert.Equal(found, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "peroxide.concentrated"));
    }

    // R. J. Kelly 1996, from memory: a rule, not a measurement; it is evidence only of what stands too long
    [Fact]
    public void Screen_UninhibitedKept_IsTheOnlyMonomerFindingByTheTimeItMayStand()
    {
        var kept = Only(Stored("inhibitor removed", null, 48), "peroxide.uninhibited-kept");

        Assert.Equal((24, "h", Quality.Assumed), Assert.Single(kept.Evidence) is var rule ? (rule.Value, rule.Unit, rule.Quality) : default);
        Assert.Empty(Only(Stored(null, "nitrogen", 100), "peroxide.inhibitor-without-air").Evidence);
    }

    // diethyl ether of 12 months: the age decides when it is overdue, not when it is undated
    [Theory]
    [InlineData("peroxide.overdue", 2025, true)]
    [InlineData("peroxide.undated", null, false)]
    public void Screen_PeroxideFormer_NamesTheKeepingTimeWhereItDecides(string code, int? opened, bool decides)
    {
        var plan = Charged(Of("a", "diethyl ether", ML(50), Role.Solvent) with { OpenedOn = opened is { } year ? new DateOnly(year, 5, 1) : null }) with { PlannedOn = new DateOnly(2026, 6, 1) };

        Assert.Equal(decides ? [(12.0, Quality.Assumed)] : [], Only(plan, code).Evidence.Select(static one => (one.Value, one.Quality)));
    }

    private static Plan Stored(string? form, string? gas, double hours) => new()
    {
        Materials = [Of("a", "styrene", ML(50)) with { Form = form, OpenedOn = new DateOnly(2026, 5, 1) }],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "a") with { Headspace = gas is null ? null : Under(gas) }, Step("2", StepAction.Store, "flask", 5) with { DurationS = hours * 3600 }],
        PlannedOn = new DateOnly(2026, 6, 1),
    };

    /// <summary>One material, drawn in two steps; null: the rest.</summary>
    private static Plan Drawn(Material material, Amount? first, Amount? second) => new()
    {
        Materials = [material],
        Vessels = [Flask()],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 20) with { Headspace = Under("nitrogen"), Materials = [new MaterialUse(material.Id, first)] },
            Step("2", StepAction.Add, "flask", 20) with { Materials = [new MaterialUse(material.Id, second)] },
        ],
    };

    private static Plan Charged(Material material) => new()
    {
        Materials = [material],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, material.Id) with { Headspace = Under("nitrogen") }],
    };

    private static Finding Only(Plan plan, string code) => Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal));
}
