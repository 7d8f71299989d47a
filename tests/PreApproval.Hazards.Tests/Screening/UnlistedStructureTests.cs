using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Tests.Plans;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>What the finding on an unlisted substance says of its structure. Own scenarios, common practice, no source.</summary>
public sealed class UnlistedStructureTests
{
    [Fact]
    public void Find_UnlistedStructure_SaysWhatWasReadAndWhatWasNot()
    {
        var finding = Unknown("Nc1ccc(CN=[N+]=[N-])cc1");
        Assert.Contains("fire, vapour pressure and stability cannot be assessed", finding.Statement, StringComparison.Ordinal);
        Assert.Contains("organic azides", finding.Statement, StringComparison.Ordinal);
        Assert.Contains("release energy by itself", finding.Statement, StringComparison.Ordinal);
        Assert.Contains(finding.Evidence, e => e.Name is "oxygen balance" && e.Sources.Count > 0);
    }

    [Fact]
    public void Find_KinOfAListedSubstance_SaysThatItsValuesAreNotTaken() =>
        Assert.Contains("isotopologue of iodomethane, values not taken", Unknown("[13CH3]I").Statement, StringComparison.Ordinal);

    [Fact]
    public void Find_UnreadableStructure_NamesTheCharacterAndGoesToReview()
    {
        var finding = Unknown("CC(C");
        Assert.Contains("its structure cannot be read (character 3: this parenthesis is never closed)", finding.Statement, StringComparison.Ordinal);
        Assert.True(finding.LeavesCheckUndone);
    }

    [Fact]
    public void Find_EstimatedBoilingPoint_NamesModelErrorAndSource()
    {
        var evidence = Assert.Single(Unknown("CCc1ccc(cc1)C(C)=O").Evidence);
        Assert.Contains($"±{JobackEstimate.BoilingPointErrorK:0} K", evidence.Model, StringComparison.Ordinal);
        Assert.NotEmpty(evidence.Sources);
    }

    // Prudent Practices in the Laboratory (2011), 6.G: azides with chlorinated solvents. The azide is known by its structure alone.
    [Fact]
    public void Screen_UnlistedAzideSaltInDichloromethane_IsFoundLikeAListedOne() =>
        Assert.Contains(Report("[Cs+].[N-]=[N+]=[N-]").Findings, f => f.Code is "incompatibility.azide-with-chlorinated-solvent");

    [Fact]
    public void Screen_UnlistedEtherInDichloromethane_IsNoSuchFinding() =>
        Assert.DoesNotContain(Report("COc1ccc(OCC)cc1CCC").Findings, f => f.Code is "incompatibility.azide-with-chlorinated-solvent");

    [Theory]
    [InlineData("CCOCC", true)]
    [InlineData("CC(", true)]
    [InlineData("COC", false)]
    public void Find_StructureBesideAnotherName_IsAFinding(string smiles, bool undone)
    {
        var finding = Assert.Single(Beside("ethanol", smiles).Findings, f => f.Code is "data.structure-differs");
        Assert.Equal((undone, true), (finding.LeavesCheckUndone, finding.Statement.Contains("ethanol was screened", StringComparison.Ordinal)));
    }

    [Fact]
    public void Find_StructureBesideItsOwnName_IsNoFinding() =>
        Assert.DoesNotContain(Beside("ethanol", "OCC").Findings, f => f.Code is "data.structure-differs");

    private static Report Beside(string name, string smiles) => ReportOf(new PlanSubstance(name, name, PlanOf.Substance(name).Known, smiles));

    private static Finding Unknown(string smiles) => Assert.Single(Report(smiles).Findings, f => f.Code is "data.unknown-substance");

    private static Report Report(string smiles) => ReportOf(new PlanSubstance("compound x", "compound x", null, smiles));

    private static Report ReportOf(PlanSubstance substance) => Screener.Screen(
        new Plan
        {
            Materials =
            [
                new Material { Id = "x", Composition = new Composition.Pure(substance), Role = Role.Reagent, Amount = PlanOf.Mmol(5) },
                PlanOf.Of("solvent", "dichloromethane", PlanOf.ML(20), Role.Solvent),
            ],
            Vessels = [PlanOf.Flask()],
            Steps = [PlanOf.Step("1", StepAction.Charge, "flask", 20, "x", "solvent")],
        },
        Policy.Default);
}
