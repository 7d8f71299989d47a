using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>What loses gas when it is warmed, by its published equation.</summary>
public sealed class LostGasTests
{
    /// <summary>
    /// HOOC-CH2-COOH → CH3COOH + CO2 (organic textbooks); ArSO2NHNH2 → ArSO2H + N2 + H2 or the disulfide and thiosulfonate with water: one N2 each, 120 mL/g as blowing agent (from memory), 186.2 g/mol.
    /// p = nRT/V in 40 mL less the liquid: more than 20 mmol in the empty 50 mL (13 bar at 125 °C; 14 bar at 150 °C), by hand.
    /// </summary>
    [Theory]
    [InlineData("malonic acid", "pyridine", 110, "malonic-acid-heated", 13)]
    [InlineData("tosylhydrazide", "ethylene glycol", 135, "sulfonyl-hydrazide-heated", 14)]
    public void Screen_HeatedWhileClosed_CountsTheGas(string substance, string solvent, double celsius, string row, double leastBar)
    {
        var report = Screener.Screen(Closed(substance, solvent, celsius), Policy.Default);

        Assert.Single(report.Findings, finding => finding.Code.EndsWith(row, StringComparison.Ordinal) && finding.Severity <= Severity.Warning);
        Assert.Contains(report.Findings, finding => finding is { Hazard: Hazard.Pressure, Severity: Severity.Danger } && finding.Evidence.Any(evidence => evidence.Unit is "bar(g)" && evidence.Value >= leastBar));
    }

    /// <summary>Cold, both keep for years in the bottle (reagent catalogues, from memory); a sulfonyl hydrazide is no salt.</summary>
    [Theory]
    [InlineData("malonic acid", "pyridine")]
    [InlineData("tosylhydrazide", "ethylene glycol")]
    public void Screen_Cold_LosesNothing(string substance, string solvent) =>
        Assert.DoesNotContain(Screener.Screen(Closed(substance, solvent, 25), Policy.Default).Findings, static finding =>
            finding.Code.EndsWith("-heated", StringComparison.Ordinal) || finding.Statement.Contains("the salt decomposes", StringComparison.Ordinal));

    /// <summary>β-Keto acids and malonic half esters lose carbon dioxide as malonic acid does; γ-keto acids and β-keto esters keep it (organic textbooks).</summary>
    [Theory]
    [InlineData("CC(=O)CC(O)=O", true)]
    [InlineData("CCOC(=O)CC(O)=O", true)]
    [InlineData("CC(=O)CCC(O)=O", false)]
    [InlineData("CC(=O)CC(=O)OCC", false)]
    public void Of_Structure_IsOfTheFamily(string smiles, bool member) =>
        Assert.Equal(member, FamilyTable.Default.Of(new PlanSubstance("unlisted", "unlisted", null, smiles)).Contains("malonic and beta-keto acids", StringComparer.Ordinal));

    private static Plan Closed(string substance, string solvent, double celsius) => new()
    {
        Materials = [Of("a", substance, Mmol(20)), Of("solvent", solvent, ML(20), Role.Solvent)],
        Vessels = [Tube(50, 10)],
        Steps = [Step("1", StepAction.Charge, "tube", 20, "a", "solvent"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", celsius) with { HeatSource = HeatSource.OilBath }],
    };
}
