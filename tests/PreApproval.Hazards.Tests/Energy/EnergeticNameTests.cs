using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>Words of a name, where a name is all there is. What each substance is: Meyer, Köhler and Homburg, Explosives, and Bretherick's Handbook (from memory).</summary>
public sealed class EnergeticNameTests
{
    [Theory]
    [InlineData("nickel hydrazine perchlorate")]
    [InlineData("Tris(hydrazine)nickel(II) nitrate")]
    [InlineData("hexaamminecobalt(III) perchlorate")]
    [InlineData("tetraamminecopper(II) permanganate")]
    [InlineData("bis(ethylenediamine)copper(II) chlorate")]
    [InlineData("silver azide")]
    [InlineData("2-azidoethyl tosylate")]
    [InlineData("mercury(II) fulminate")]
    [InlineData("lead styphnate")]
    [InlineData("potassium picrate")]
    [InlineData("copper acetylide")]
    [InlineData("triacetone triperoxide")]
    [InlineData("tert-butylperoxy acetate")]
    [InlineData("erythritol tetranitrate")]
    [InlineData("isopropyl nitrate")]
    [InlineData("4-chlorobenzenediazonium chloride")]
    [InlineData("diazodinitrophenol")]
    [InlineData("tetrabutylammonium perchlorate")]
    public void Screen_TenGramsGroundByNameAlone_IsADangerThatIsAssumed(string name)
    {
        var finding = SelfFuelledSaltTests.Isolated(Named(name), 10, wet: false);

        Assert.Equal(Severity.Danger, finding?.Severity);
        Assert.Contains("by the words of its name, so assumed", finding!.Statement, StringComparison.Ordinal);
        Assert.Equal(Quality.Assumed, finding.Evidence[0].Quality);
    }

    [Theory]
    [InlineData("nickel hydrazine perchlorate")]
    [InlineData("lead styphnate")]
    [InlineData("compound 7b")]
    [InlineData("zinc perchlorate hexahydrate")]
    public void Screen_ATenthOfAGramOfAnUnknownName_GoesToReview(string name)
    {
        var report = Screener.Screen(SelfFuelledSaltTests.Ground(Named(name), 0.1, wet: true), Policy.Default);

        Assert.Equal(Verdict.Review, report.Verdict);
        Assert.Contains("data.unknown-substance", report.Findings.Where(finding => report.ToReview.Contains(finding.Id, StringComparer.Ordinal)).Select(static finding => finding.Code), StringComparer.Ordinal);
    }

    // nothing that burns beside the anion, or a word that only sounds alike
    [Theory]
    [InlineData("zinc perchlorate hexahydrate")]
    [InlineData("yttrium(III) nitrate hexahydrate")]
    [InlineData("ceric ammonium nitrate")]
    [InlineData("barium peroxide")]
    [InlineData("urea hydrogen peroxide")]
    [InlineData("potassium peroxydisulfate")]
    [InlineData("benzoic hydrazide")]
    [InlineData("cerium hexamethyldisilazide")]
    [InlineData("1,3,4-thiadiazole")]
    [InlineData("1,8-diazobicyclo[5.4.0]undec-7-ene")]
    [InlineData("uranyl nitrate")]
    [InlineData("horseradish peroxidase")]
    [InlineData("sodium hexachloroplatinate")]
    [InlineData("compound 7b")]
    public void Of_NameThatTellsNothing_IsNull(string name) => Assert.Null(EnergeticProfile.Of(Named(name)));

    // a whole structure outweighs the name; half a salt does not
    [Theory]
    [InlineData("[Ni+2].NN.NN", true)]
    [InlineData("CC(=O)NC", false)]
    public void Of_NameBesideAStructure_IsHeardOnlyWhereAnIonIsMissing(string smiles, bool explosive) =>
        Assert.Equal(explosive, EnergeticProfile.Of(new PlanSubstance("x", "nickel hydrazine perchlorate", null, smiles))?.IsExplosive ?? false);

    private static PlanSubstance Named(string name) => new(name, name, null);
}
