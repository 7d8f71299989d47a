using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>Limits: university rules for energetic compounds and the azide rule (Bräse and others 2005); the accident of U.S. CSB case study 2010-05-I-TX.</summary>
public sealed class EnergeticScreenTests
{
    // a metal hydrazine perchlorate as its ions: 10 g where 0.1 g was meant; a shield does not lift it
    [Theory]
    [InlineData(10, Severity.Danger)]
    [InlineData(0.5, Severity.Warning)]
    [InlineData(0.05, Severity.Warning)]
    public void Screen_MetalHydrazinePerchlorateGround_IsJudgedByItsMass(double grams, Severity? severity)
    {
        var plan = new Plan
        {
            Materials = [Salt(grams)],
            Vessels = [Flask("mortar")],
            Steps = [Step("1", StepAction.Charge, "mortar", 20, "salt"), Step("2", StepAction.Grind, "mortar", 20)],
            Safeguards = [new Safeguard("blast shield", [], null)],
        };
        var report = Screener.Screen(plan, Policy.Default);

        Assert.Equal(severity, report.Findings.SingleOrDefault(static finding => finding.Code is "energetic.isolated")?.Severity);
        Assert.Equal(Verdict.Review, report.Verdict);
    }

    // 2 mmol of 1,2-diazidoethane, (C + O)/N 0.33: never isolated
    [Theory]
    [InlineData("C1=CC=CC=C1CN=[N+]=[N-]", 133.15, 0.5, Severity.Caution)]
    [InlineData("C1=CC=CC=C1CN=[N+]=[N-]", 133.15, 2, Severity.Warning)]
    [InlineData("C1=CC=CC=C1CN=[N+]=[N-]", 133.15, 6, Severity.Danger)]
    [InlineData("CCCCCCCCCN=[N+]=[N-]", 169.27, 6, Severity.Warning)]
    [InlineData("CCCCCCCCCN=[N+]=[N-]", 169.27, 25, Severity.Danger)]
    [InlineData("CCCCCCCCCN=[N+]=[N-]", 169.27, 0.5, null)]
    [InlineData("[N-]=[N+]=NCCN=[N+]=[N-]", 112.10, 0.2, Severity.Danger)]
    public void Screen_AzideEvaporated_IsJudgedByTheRule(string smiles, double gramsPerMol, double grams, Severity? severity)
    {
        var plan = new Plan
        {
            Materials = [New("azide", smiles, new Amount.Mol(grams / gramsPerMol)), Of("ether", "diethyl ether", ML(30), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "azide", "ether"), Step("2", StepAction.Concentrate, "flask", 30)],
        };

        Assert.Equal(severity, Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "energetic.isolated")?.Severity);
    }

    [Fact]
    public void Screen_AzideLeftInSolution_IsNotIsolated()
    {
        var plan = new Plan
        {
            Materials = [New("azide", "C1=CC=CC=C1CN=[N+]=[N-]", Mmol(40)), Of("dmf", "N,N-dimethylformamide", ML(60), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "azide", "dmf"), Step("2", StepAction.Stir, "flask", 20)],
        };

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.isolated");
    }

    /// <summary>A product nobody declares counts with its theoretical yield: 50 mmol of 133.15 g/mol are 6.7 g.</summary>
    [Fact]
    public void Screen_EnergeticProduct_CountsItsTheoreticalYield()
    {
        var plan = new Plan
        {
            Materials = [Of("bromide", "benzyl bromide", Mmol(50)), Of("dmf", "N,N-dimethylformamide", ML(100), Role.Solvent), New("azide", "C1=CC=CC=C1CN=[N+]=[N-]", null) with { Role = Role.Product }],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "bromide", "dmf"), Step("2", StepAction.Concentrate, "flask", 60)],
            LimitingMaterial = "bromide",
        };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.isolated");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Equal(6.66, finding.Evidence[0].Value, 0.02);
        Assert.Contains("theoretical", finding.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("4-nitrobenzaldehyde")]
    [InlineData("azobisisobutyronitrile")]
    [InlineData("N-bromosuccinimide")]
    public void Screen_EverydaySolidFilteredAndDried_IsNoMoreThanANotice(string name)
    {
        var plan = new Plan
        {
            Materials = [Of("solid", name, G(5)), Of("ethanol", "ethanol", ML(50), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "solid", "ethanol"), Step("2", StepAction.Filter, "flask")],
        };

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding is { Hazard: Hazard.Energetic, Severity: < Severity.Notice });
    }

    /// <summary>
    /// Energy over the whole mass: 5 g of 4-nitrobenzaldehyde (upper end 360/151.12 = 2.38 kJ/g) in 15 g of 1,2-dichlorobenzene are 596 J/g; in 150 g, 77 J/g, no finding.
    /// </summary>
    [Theory]
    [InlineData(15, Severity.Warning)]
    [InlineData(150, null)]
    public void Screen_NitroareneNearItsOnset_IsJudgedByTheMixture(double grams, Severity? severity)
    {
        var plan = new Plan
        {
            Materials = [Of("nitro", "4-nitrobenzaldehyde", G(5)), Of("solvent", "1,2-dichlorobenzene", G(grams), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "nitro", "solvent"), Step("2", StepAction.Heat, "flask", 160) with { HeatSource = HeatSource.OilBath }],
        };
        var finding = Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "energetic.near-onset");

        Assert.Equal(severity, finding?.Severity);
        Assert.True(finding is null || Math.Abs(finding.Evidence[0].Value - 596) < 3);
    }

    // glycidyl azide, 3.43 kJ/g by hand: 5 g in 20 g are 858 J/g, 10 K below the usual onset of the azide; the ring has no onset on file and is named
    [Fact]
    public void Screen_AzideBesideAGroupWithoutOnset_IsNearItsOnset()
    {
        var finding = Assert.Single(Screener.Screen(HeatedTo(110, "C1OC1CN=[N+]=[N-]", G(5), 15), Policy.Default).Findings, static finding => finding.Code is "energetic.near-onset");

        Assert.True(finding.Severity <= Severity.Warning);
        Assert.Equal(858, finding.Evidence[0].Value, 3.0);
        Assert.Contains("three-membered heterocycle", finding.Statement, StringComparison.Ordinal);
    }

    // 4-nitroazobenzene, 1.58 kJ/g: 1 g in 150 g of solvent is 10 J/g and near nothing, but the azo group was not judged
    [Fact]
    public void Screen_GroupWithoutFigureFarFromTheOnset_IsNamed()
    {
        var report = Screener.Screen(HeatedTo(110, "c1ccccc1N=Nc1ccc(cc1)[N+](=O)[O-]", G(1), 150), Policy.Default);

        Assert.DoesNotContain(report.Findings, static finding => finding.Code is "energetic.near-onset");
        Assert.Contains("aromatic azo compound", Assert.Single(report.Findings, static finding => finding.Code is "data.energetic-figures").Statement, StringComparison.Ordinal);
    }

    // warmed as solutes: the nitro group has a heat and an onset on file, the aromatic azo group has neither
    [Theory]
    [InlineData("CCc1ccc(cc1)[N+](=O)[O-]", false)]
    [InlineData("CCc1ccccc1N=Nc1ccccc1", true)]
    [InlineData("CCc1ccccc1N=Nc1ccc(cc1)[N+](=O)[O-]", true)]
    public void Screen_UnlistedEnergeticSoluteWarmed_IsUndoneWhereNoFigureJudgesIt(string smiles, bool undone) =>
        Assert.Equal(undone, Assert.Single(Screener.Screen(HeatedTo(60, smiles, G(1), 150), Policy.Default).Findings, static finding => finding.Code is "data.unknown-substance").LeavesCheckUndone);

    // no mass of the azide: 40 mL of solvent may be enough or not
    [Fact]
    public void Screen_AzideOfUnknownMassStoredInASolvent_CountsAsUndiluted()
    {
        var plan = new Plan
        {
            Materials = [New("azide", "C1=CC=CC=C1CN=[N+]=[N-]", null), Of("dmf", "N,N-dimethylformamide", ML(40), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "azide", "dmf"), Step("2", StepAction.Store, "flask", 20)],
        };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.isolated");

        Assert.True(finding.LeavesCheckUndone);
        Assert.Equal(Severity.Warning, finding.Severity);
    }

    [Fact]
    public void Screen_SubstanceWithoutStructure_IsNeverClear()
    {
        var plan = new Plan
        {
            Materials = [Of("x", "compound 12 of the old box", G(1))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "x")],
        };

        Assert.Equal(Verdict.Review, Screener.Screen(plan, Policy.Default).Verdict);
    }

    [Fact]
    public void Screen_EnergeticReagent_IsDescribedWithItsNumbers()
    {
        var plan = new Plan
        {
            Materials = [Of("azide", "tosyl azide", Mmol(2)), Of("toluene", "toluene", ML(20), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "azide", "toluene")],
        };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.groups");

        Assert.Equal(Severity.Notice, finding.Severity);
        Assert.Equal(3.0, Assert.Single(finding.Evidence, static evidence => evidence.Name.StartsWith("(C + O)/N", StringComparison.Ordinal)).Value, 1e-9);
        Assert.All(finding.Evidence, static evidence => Assert.NotEmpty(evidence.Sources));
    }

    private static Plan HeatedTo(double celsius, string smiles, Amount amount, double solventG) => new()
    {
        Materials = [New("x", smiles, amount), Of("solvent", "1,2-dichlorobenzene", G(solventG), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "x", "solvent"), Step("2", StepAction.Heat, "flask", celsius) with { HeatSource = HeatSource.OilBath }],
    };

    private static Material Salt(double grams) =>
        New("salt", "[Ni+2].NN.NN.NN.[O-]Cl(=O)(=O)=O.[O-]Cl(=O)(=O)=O", G(grams));

    private static Material New(string id, string smiles, Amount? amount) => new()
    {
        Id = id,
        Composition = new Composition.Pure(new PlanSubstance(smiles, id, null, smiles)),
        Role = Role.Reagent,
        Amount = amount,
    };
}
