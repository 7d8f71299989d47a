using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Handling.Charges;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Handling;

/// <summary>Pyrophorics and water-reactives by amount (university rules: review above 10 mL of 1 mol/L, any neat liquid, tert-butyllithium at any amount, never above 50 mL).</summary>
public sealed class PyrophoricTests
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
}
