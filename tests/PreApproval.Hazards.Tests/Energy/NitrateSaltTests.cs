using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>
/// Oxidant and fuel in one salt without a metal, and what the least friction sets off. What each substance is: Meyer, Köhler and Homburg, Explosives, and Bretherick's Handbook (from memory).
/// </summary>
public sealed class NitrateSaltTests
{
    // urea nitrate as three spellings and as its two parts, guanidine, methylamine and ethylenediamine nitrates, ammonium dinitramide as drawn by different hands
    [Theory]
    [InlineData("NC(N)=[OH+].[O-][N+](=O)[O-]")]
    [InlineData("NC(=O)[NH3+].[O-][N+](=O)[O-]")]
    [InlineData("N=C(N)[OH2+].[O-]N(=O)=O")]
    [InlineData("NC(N)=O.O[N+](=O)[O-]")]
    [InlineData("NC(N)=[NH2+].[O-][N+](=O)[O-]")]
    [InlineData("C[NH3+].[O-][N+](=O)[O-]")]
    [InlineData("[NH3+]CC[NH3+].[O-][N+](=O)[O-].[O-][N+](=O)[O-]")]
    [InlineData("[NH4+].[O-][N+](=O)[N-][N+](=O)[O-]")]
    [InlineData("[NH4+].[O-][N+](=O)N=[N+]([O-])[O-]")]
    [InlineData("[NH4+].O=N(=O)[N-]N(=O)=O")]
    public void Screen_TwoGramsByStructure_IsADangerGroundDriedOrFiltered(string smiles)
    {
        var plan = SelfFuelledSaltTests.Ground(SelfFuelledSaltTests.Typed(smiles), 2, wet: false);

        Assert.Equal(Severity.Danger, SelfFuelledSaltTests.Isolated(SelfFuelledSaltTests.Typed(smiles), 2, wet: false)?.Severity);
        Assert.Contains(Screener.Screen(plan with { Steps = [plan.Steps[0], plan.Steps[1] with { Action = StepAction.Dry }] }, Policy.Default).Findings, static finding => finding is { Code: "energetic.isolated", Severity: Severity.Danger });
    }

    // too little oxygen, or no fuel that is joined to it
    [Theory]
    [InlineData("[NH3+]c1ccccc1.[O-][N+](=O)[O-]")]
    [InlineData("CCCC[N+](CCCC)(CCCC)CCCC.[O-][N+](=O)[O-]")]
    [InlineData("[Na+].[O-][N+](=O)[O-]")]
    [InlineData("NC(N)=O")]
    public void Screen_OtherSalt_IsNone(string smiles) => Assert.Null(SelfFuelledSaltTests.Isolated(SelfFuelledSaltTests.Typed(smiles), 2, wet: false));

    [Theory]
    [InlineData("urea nitrate", true)]
    [InlineData("uronium nitrate", true)]
    [InlineData("guanidinium nitrate", true)]
    [InlineData("methylammonium nitrate", true)]
    [InlineData("ammonium dinitramide", true)]
    [InlineData("potassium dinitramide", true)]
    [InlineData("cetyltrimethylammonium nitrate", false)]
    [InlineData("tetraethylammonium nitrate", false)]
    [InlineData("thiamine nitrate", false)]
    public void Screen_TwoGramsByName_IsADangerWhereItIsOne(string name, bool expected) =>
        Assert.Equal(expected ? Severity.Danger : null, SelfFuelledSaltTests.Isolated(new PlanSubstance(name, name, null), 2, wet: false)?.Severity);

    // 0.3 g of pentaerythritol tetranitrate is a danger by its row of the encounters; a primary explosive is no less
    [Theory]
    [InlineData("lead azide")]
    [InlineData("mercury(II) fulminate")]
    [InlineData("silver acetylide")]
    [InlineData("lead styphnate")]
    [InlineData("nitrogen triiodide")]
    [InlineData("triacetone triperoxide")]
    [InlineData("hexamethylene triperoxide diamine")]
    public void Screen_ThreeTenthsOfAGramOfAPrimaryExplosive_IsADangerDriedOrGround(string name)
    {
        var plan = SelfFuelledSaltTests.Ground(new PlanSubstance(name, name, null), 0.3, wet: false);
        foreach (var action in (StepAction[])[StepAction.Dry, StepAction.Grind, StepAction.Heat])
        {
            var report = Screener.Screen(plan with { Steps = [plan.Steps[0], plan.Steps[1] with { Action = action }] }, Policy.Default);

            Assert.Contains(report.Findings, static finding => finding is { Code: "energetic.isolated", Severity: Severity.Danger });
        }
    }

    // no acetylene comes of copper acetylide and water, and a fulminate is no cyanide; calcium carbide and sodium cyanide stay what they are
    [Theory]
    [InlineData("[Cu+].[Cu+].[C-]#[C-]", "carbides that give acetylene", false)]
    [InlineData("[Ca+2].[C-]#[C-]", "carbides that give acetylene", true)]
    [InlineData("[Ag+].[C-]#[N+][O-]", "cyanides", false)]
    [InlineData("[Hg+2].[C-]#[N+][O-].[C-]#[N+][O-]", "cyanides", false)]
    [InlineData("[K+].[C-]#N", "cyanides", true)]
    public void Families_OfAPrimaryExplosive_AreItsOwn(string smiles, string family, bool expected) =>
        Assert.Equal(expected, FamilyTable.Default.Of(SelfFuelledSaltTests.Typed(smiles)).Contains(family, StringComparer.Ordinal));
}
