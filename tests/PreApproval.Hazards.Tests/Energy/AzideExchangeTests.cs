using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>What an azide salt makes of a halide that the plan does not follow any further. Formulas and masses by hand from atomic weights; the rule of (C + O)/N: Bräse and others 2005.</summary>
public sealed class AzideExchangeTests
{
    /// <summary>Benzyl azide C7H7N3 133.15; butyl azide C4H9N3 99.14; 1,3-diazidopropane C3H6N6 126.12; methyl azide CH3N3 57.06; hexyl azide from its tosylate C6H13N3 127.19; of 4-bromobenzyl chloride the chlorine goes: C7H6BrN3 212.05.</summary>
    [Theory]
    [InlineData("BrCc1ccccc1", 1, 133.15, 2.333)]
    [InlineData("CCCCBr", 1, 99.14, 1.333)]
    [InlineData("BrCCCBr", 2, 126.12, 0.5)]
    [InlineData("CI", 1, 57.06, 0.333)]
    [InlineData("CCCCCCOS(=O)(=O)c1ccc(C)cc1", 1, 127.19, 2.0)]
    [InlineData("CCCCOS(C)(=O)=O", 1, 99.14, 1.333)]
    [InlineData("ClCc1ccc(Br)cc1", 1, 212.05, 2.333)]
    public void Of_HalideOrSulfonate_GivesMassAndRatioOfTheAzide(string smiles, int groups, double grams, double ratio)
    {
        var azide = AzideExchange.Of(new PlanSubstance(smiles, smiles, null, smiles), groups);

        Assert.Equal(groups, azide!.Azides);
        Assert.Equal(grams, azide.KgPerMol * 1000, 0.02);
        Assert.Equal(ratio, OxygenBalance.CarbonAndOxygenPerNitrogen(azide.Formula)!.Value, 0.001);
    }

    [Fact]
    public void Of_NothingThatLeaves_IsNull() => Assert.Null(AzideExchange.Of(Substance("toluene"), 1));

    /// <summary>70 mmol of benzyl bromide beside 100 mmol of sodium azide: 70 mmol of benzyl azide, 9.3 g, above 5 g; 5 mmol are 0.67 g, above 0.1 g.</summary>
    [Theory]
    [InlineData(70, StepAction.Concentrate, Severity.Danger)]
    [InlineData(5, StepAction.Concentrate, Severity.Caution)]
    [InlineData(70, StepAction.Distil, Severity.Danger)]
    [InlineData(70, StepAction.Filter, Severity.Danger)]
    [InlineData(70, StepAction.Stir, null)]
    public void Screen_AzideNobodyDeclared_IsJudgedWhereItIsLeft(double mmol, StepAction action, Severity? severity)
    {
        var finding = Screener.Screen(Made("benzyl bromide", mmol, action), Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "energetic.formed-isolated");

        Assert.Equal(severity, finding?.Severity);
        if (finding is not null)
        {
            Assert.Equal(mmol * 0.13315, finding.Evidence[0].Value, 0.01);
        }
    }

    /// <summary>What a reaction declares is judged by that (energetic.isolated), not twice.</summary>
    [Fact]
    public void Screen_AzideThatAReactionDeclares_IsNotSaidTwice()
    {
        var plan = Made("benzyl bromide", 70, StepAction.Concentrate);
        plan = plan with { Reactions = [Reaction("1", ["halide", "azide"], ("benzyl azide", Phase.Liquid))] };
        var findings = Screener.Screen(plan, Policy.Default).Findings;

        Assert.DoesNotContain(findings, static finding => finding.Code is "energetic.formed-isolated");
        Assert.Contains(findings, static finding => finding.Code is "energetic.isolated");
    }

    /// <summary>Diazidomethane CH2N6, 1/6 = 0.17: never isolated.</summary>
    [Fact]
    public void Screen_DichloromethaneOverAzideConcentrated_IsADanger()
    {
        var finding = Assert.Single(Screener.Screen(Made("dichloromethane", 300, StepAction.Concentrate), Policy.Default).Findings, static finding => finding.Code is "energetic.formed-isolated");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Contains("never isolated", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>2-Azidoethyl nitrate C2H4N4O3: without the oxygen of the nitrate 2/4 = 0.5, never isolated; 6-azidohexyl nitrate, 6/4 = 1.5, is judged as the nitrate ester, a danger from 1 g; hexyl azide, 6/3 = 2, a warning from 1 g.</summary>
    [Theory]
    [InlineData("[N-]=[N+]=NCCO[N+](=O)[O-]", 4, Severity.Danger)]
    [InlineData("[N-]=[N+]=NCCCCCCO[N+](=O)[O-]", 2, Severity.Danger)]
    [InlineData("[N-]=[N+]=NCCCCCC", 2, Severity.Warning)]
    public void Screen_AzideWithANitrateEster_IsJudgedByTheGraver(string smiles, double grams, Severity severity)
    {
        var plan = new Plan
        {
            Materials = [new Material { Id = "x", Composition = new Composition.Pure(new PlanSubstance(smiles, smiles, null, smiles)), Role = Role.Reagent, Amount = G(grams) }, Of("solvent", "dichloromethane", ML(20), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "x", "solvent"), Step("2", StepAction.Concentrate, "flask", 40)],
        };

        Assert.Equal(severity, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.isolated").Severity);
    }

    private static Plan Made(string halide, double mmol, StepAction last) => new()
    {
        Materials = [Of("azide", "sodium azide", Mmol(100)), Of("halide", halide, Mmol(mmol)), Of("ether", "diethyl ether", ML(60), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "azide", "halide", "ether"), Step("2", StepAction.Stir, "flask"), Step("3", last, "flask", 40)],
    };
}
