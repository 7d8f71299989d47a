using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>
/// Fuel ligand and oxidising anion in one salt, listed or not: the classes "amminemetal oxosalts" and "hydrazine metal salts" of Bretherick's Handbook (from memory), and the
/// accident of U.S. CSB case study 2010-05-I-TX: 10 g of a nickel hydrazine perchlorate where 0.1 g was meant, ground under hexane.
/// </summary>
public sealed class SelfFuelledSaltTests
{
    // perchlorate with expanded octet, with separated charges, with some of them, bound to the metal, as the free acid; the other salts of the two classes
    public static TheoryData<string> Salts =>
    [
        "[Ni+2].NN.NN.NN.[O-]Cl(=O)(=O)=O.[O-]Cl(=O)(=O)=O",
        "[Ni+2].NN.NN.NN.[O-][Cl+3]([O-])([O-])[O-].[O-][Cl+3]([O-])([O-])[O-]",
        "[Ni+2].NN.NN.[O-][Cl+2](=O)([O-])[O-].[O-][Cl+](=O)(=O)[O-]",
        "NN[Ni](NN)(OCl(=O)(=O)=O)OCl(=O)(=O)=O",
        "[Ni].NN.NN.OCl(=O)(=O)=O.OCl(=O)(=O)=O",
        "[Ni].NN.NN.O=Cl(=O)(=O)[O-].O=Cl(=O)(=O)[O-]",
        "[Co+2].NNC(=O)NN.[O-]Cl(=O)(=O)=O.[O-]Cl(=O)(=O)=O",
        "[Cu+2].NCCN.NCCN.[O-]Cl(=O)=O.[O-]Cl(=O)=O",
        "NCCN[Cu]OCl(=O)=O",
        "[Ni+2].NN.NN.NN.[O-][N+](=O)[O-].[O-][N+](=O)[O-]",
        "[Ni+2].NN.NN.NN.[O-]N(=O)=O.[O-]N(=O)=O",
        "NN[Ni]O[N+](=O)[O-]",
        "[Cu+2].N.N.N.N.[O-][N+](=O)[O-].[O-][N+](=O)[O-]",
        "[Cu+2].N.N.N.N.[O-][Mn](=O)(=O)=O.[O-][Mn](=O)(=O)=O",
        "[Ni+2].NN.NN.[N-]=[N+]=[N-].[N-]=[N+]=[N-]",
        "[Co+3].N.N.N.N.N.N.[O-]c1c(cc(cc1[N+](=O)[O-])[N+](=O)[O-])[N+](=O)[O-]",
        "N[NH3+].[O-]Cl(=O)(=O)=O",
        "O[NH3+].[O-][N+](=O)[O-]",
    ];

    [Theory]
    [MemberData(nameof(Salts))]
    public void Screen_TenGramsGroundBehindAShield_IsADangerDryOrWet(string smiles)
    {
        Assert.Equal(Severity.Danger, Isolated(Typed(smiles), 10, wet: false)?.Severity);
        Assert.Equal(Severity.Danger, Isolated(Typed(smiles), 10, wet: true)?.Severity);
    }

    // 0.1 g is where review begins by the rules; friction needs no mass
    [Theory]
    [MemberData(nameof(Salts))]
    public void Screen_ATenthOfAGramGround_IsAWarning(string smiles) => Assert.Equal(Severity.Warning, Isolated(Typed(smiles), 0.1, wet: true)?.Severity);

    [Fact]
    public void Screen_GroundUnderHexane_SaysThatWetIsNotSafe() =>
        Assert.Contains("dries at the rim", Isolated(Typed("[Ni+2].NN.NN.NN.[O-]Cl(=O)(=O)=O.[O-]Cl(=O)(=O)=O"), 10, wet: true)!.Statement, StringComparison.Ordinal);

    // 10 g in 20 mL of hexane (13 g) is a wet solid; in 200 mL what is dried is the liquid. Stirred without any liquid it is rubbed; 10 g by the limits of the rules
    [Theory]
    [InlineData(StepAction.Dry, 20, true)]
    [InlineData(StepAction.Dry, 200, false)]
    [InlineData(StepAction.Dry, 0, true)]
    [InlineData(StepAction.Stir, 20, false)]
    [InlineData(StepAction.Stir, 0, true)]
    public void Screen_TenGramsDriedOrStirred_IsADangerWhereItIsLeftDry(StepAction action, double hexaneML, bool expected)
    {
        var plan = Ground(Typed("[Ni+2].NN.NN.NN.[O-]Cl(=O)(=O)=O.[O-]Cl(=O)(=O)=O"), 10, wet: hexaneML > 0);
        plan = plan with
        {
            Materials = [.. plan.Materials.Select(material => material.Id is "hexane" ? material with { Amount = ML(hexaneML) } : material)],
            Steps = [plan.Steps[0], plan.Steps[1] with { Action = action }],
        };
        var finding = Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "energetic.isolated");

        Assert.Equal(expected ? Severity.Danger : null, finding?.Severity);
    }

    // silver azide and ammine perchlorates are insoluble primary explosives that a drying from water leaves dry (Bretherick, from memory); over a drying agent in ether nothing is left dry
    [Theory]
    [InlineData("water", 20, null, true)]
    [InlineData("diethyl ether", 80, null, true)]
    [InlineData("diethyl ether", 20, null, false)]
    [InlineData("water", 20, "sodium sulfate", false)]
    public void Screen_TwoGramsDriedFromMuchLiquid_IsADangerWhereNoneIsLeft(string liquid, double celsius, string? agent, bool expected)
    {
        var dry = Step("2", StepAction.Dry, "dish", celsius, agent is null ? [] : ["agent"]);
        var plan = new Plan
        {
            Materials = [new Material { Id = "salt", Composition = new Composition.Pure(Typed("[Ag]N=[N+]=[N-]")), Role = Role.Reagent, Amount = G(2) }, Of("liquid", liquid, ML(200)), .. agent is null ? Array.Empty<Material>() : [Of("agent", agent, G(5))]],
            Vessels = [Flask("dish")],
            Steps = [Step("1", StepAction.Charge, "dish", 20, "salt", "liquid"), celsius > 20 ? dry with { HeatSource = HeatSource.Oven } : dry],
        };

        Assert.Equal(expected ? Severity.Danger : null, Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "energetic.isolated")?.Severity);
    }

    // 2 mol of perchlorate beside bipyridine, and a quaternary ammonium perchlorate: organic perchlorates may explode when they are rubbed dry (Bretherick)
    [Theory]
    [InlineData("[Ru+2].c1ccnc(c1)-c1ccccn1.c1ccnc(c1)-c1ccccn1.c1ccnc(c1)-c1ccccn1.[O-]Cl(=O)(=O)=O.[O-]Cl(=O)(=O)=O")]
    [InlineData("CCCC[N+](CCCC)(CCCC)CCCC.[O-]Cl(=O)(=O)=O")]
    public void IsExplosive_OrganicPerchlorate_IsTrue(string smiles) => Assert.True(EnergeticProfile.Of(Typed(smiles))!.IsExplosive);

    // ground every day (from memory): no fuel in the salt, or ammonium nitrate, which needs confinement and heat
    [Theory]
    [InlineData("[Li+].[O-]Cl(=O)(=O)=O")]
    [InlineData("[NH4+].[O-][N+](=O)[O-]")]
    [InlineData("[Ag+].[O-][N+](=O)[O-]")]
    [InlineData("[Ni+2].[O-][N+](=O)[O-].[O-][N+](=O)[O-].O.O.O.O.O.O")]
    [InlineData("CCCC[N+](CCCC)(CCCC)CCCC.[O-][N+](=O)[O-]")]
    [InlineData("[Ni+2].c1ccncc1.c1ccncc1.[O-][N+](=O)[O-].[O-][N+](=O)[O-]")]
    [InlineData("[Co+3].N.N.N.N.N.N.[Cl-].[Cl-].[Cl-]")]
    [InlineData("[Na+].[N-]=[N+]=[N-]")]
    public void IsExplosive_OrdinarySalt_IsNot(string smiles) => Assert.NotEqual(true, EnergeticProfile.Of(Typed(smiles))?.IsExplosive);

    [Theory]
    [InlineData("lithium perchlorate")]
    [InlineData("ammonium nitrate")]
    [InlineData("silver nitrate")]
    public void Screen_OrdinaryListedSaltGround_IsNoIsolatedExplosive(string name) => Assert.Null(Isolated(Substance(name), 10, wet: false));

    internal static Finding? Isolated(PlanSubstance substance, double grams, bool wet)
    {
        var report = Screener.Screen(Ground(substance, grams, wet), Policy.Default);
        return report.Findings.SingleOrDefault(static finding => finding.Code is "energetic.isolated");
    }

    internal static Plan Ground(PlanSubstance substance, double grams, bool wet) => new()
    {
        Materials = [new Material { Id = "salt", Composition = new Composition.Pure(substance), Role = Role.Reagent, Amount = G(grams) }, .. wet ? [Of("hexane", "hexane", ML(20), Role.Solvent)] : Array.Empty<Material>()],
        Vessels = [Flask("mortar")],
        Steps = [Step("1", StepAction.Charge, "mortar", 20, wet ? ["salt", "hexane"] : ["salt"]), Step("2", StepAction.Grind, "mortar", 20)],
        Safeguards = [new Safeguard("blast shield", [], null)],
    };

    internal static PlanSubstance Typed(string smiles) => new(smiles, "salt", null, smiles);
}
