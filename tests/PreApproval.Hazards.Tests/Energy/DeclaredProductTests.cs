using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>
/// What a step declares as its product is judged as if it were a material: diazomethane by Prudent Practices in the Laboratory (2011), the rule (C + O)/N by Bräse and others (2005). Amounts by hand.
/// </summary>
public sealed class DeclaredProductTests
{
    /// <summary>89 mmol of diazomethane, 42.04 g/mol, are 3.7 g; (C + O)/N is 1/2, below 1: never without a solvent. Above 50 °C and in ground joints it explodes.</summary>
    [Theory]
    [InlineData("energetic.isolated")]
    [InlineData("energetic.diazomethane-heated")]
    [InlineData("energetic.diazomethane-in-ground-joints")]
    public void Screen_ExplosiveGasDeclaredAsProduct_IsDanger(string code)
    {
        var plan = Made("diazomethane", Phase.Gas, 89, 60);
        plan = plan with { Vessels = [plan.Vessels[0] with { Kind = "round-bottom flask, ground joints" }] };

        Assert.Equal(Severity.Danger, Find(plan, code).Severity);
        Assert.Equal(3.74, Find(plan, "energetic.isolated").Evidence[0].Value, 0.01);
    }

    /// <summary>0.2 mol of methyl azide, CH3N3, 57.06 g/mol, known by its structure alone: 11.4 g, (C + O)/N 1/3.</summary>
    [Fact]
    public void Screen_ExplosiveGasKnownByItsStructure_IsDanger()
    {
        var plan = Made("diazomethane", Phase.Gas, 200, 70);
        var azide = new PlanSubstance("methyl azide", "methyl azide", null) { Smiles = "CN=[N+]=[N-]" };
        plan = plan with { Reactions = [plan.Reactions[0] with { Produces = [new Production(azide, 1, Phase.Gas)] }] };
        var finding = Find(plan, "energetic.isolated");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Equal(11.4, finding.Evidence[0].Value, 0.1);
    }

    /// <summary>Led in as a gas it is as undiluted as when it is made.</summary>
    [Fact]
    public void Screen_ExplosiveGasLedIn_IsDanger()
    {
        var plan = new Plan
        {
            Place = new Place("hood", PlaceKind.HoodWithScrubber, null, null),
            Materials = [Of("acid", "benzoic acid", Mmol(5)), Of("ether", "diethyl ether", ML(50), Role.Solvent), Of("gas", "diazomethane", Mmol(10), Role.Gas)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 0, "acid", "ether"), Step("2", StepAction.Add, "flask", 0, "gas") with { OverS = 600 }],
        };

        Assert.Equal(Severity.Danger, Find(plan, "energetic.isolated").Severity);
    }

    /// <summary>A gas that ignites in air, declared as product of an open step over air (CRC Handbook: silane ignites by itself).</summary>
    [Theory]
    [InlineData("silane", true)]
    [InlineData("carbon dioxide", false)]
    public void Screen_GasDeclaredOverAir_MeetsTheAir(string gas, bool ignites) =>
        Assert.Equal(ignites, Screener.Screen(Made(gas, Phase.Gas, 20, 20), Policy.Default).Findings.Any(static finding => finding.Code is "incompatibility.phosphorus-in-air"));

    /// <summary>A liquid that the last step makes is nowhere else in the walk: phenyl azide above the usual onset of azides (120 °C).</summary>
    [Fact]
    public void Screen_ProductOfTheLastStep_IsHeldAgainstItsOnset()
    {
        var plan = Made("phenyl azide", Phase.Liquid, 200, 125);

        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.near-onset");
        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.organic-azide-heated");
    }

    /// <summary>1.07 g of N-methyl-N-nitroso-p-toluenesulfonamide (214.24 g/mol) and base: 5.0 mmol of diazomethane, 0.122 L, although nobody declares it.</summary>
    [Theory]
    [InlineData("N-methyl-N-nitroso-p-toluenesulfonamide", "potassium hydroxide", "hydroxide")]
    [InlineData("N-methyl-N-nitrosourea", "potassium hydroxide", "hydroxide")]
    [InlineData("MNNG", "potassium hydroxide", "hydroxide")]
    [InlineData("80-11-5", "sodium ethoxide", "alkoxide")]
    public void Screen_NitrosoAmideWithBase_MakesDiazomethane(string amide, string @base, string row)
    {
        var plan = new Plan
        {
            Place = new Place("hood", PlaceKind.Hood, null, null),
            Materials = [Of("amide", amide, Mmol(5)), Of("ether", "diethyl ether", ML(50), Role.Solvent), Of("base", @base, Mmol(20))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 0, "amide", "ether"), Step("2", StepAction.Add, "flask", 0, "base") with { OverS = 600 }],
        };
        var finding = Find(plan, "incompatibility.nitroso-amide-with-" + row);

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Equal(5e-3, finding.Evidence[0].Value, 1e-6);
        Assert.Contains("diazomethane", finding.Statement, StringComparison.Ordinal);
    }

    private static Finding Find(Plan plan, string code) => Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal));

    private static Plan Made(string product, Phase state, double mmol, double celsius) => new()
    {
        Place = new Place("hood", PlaceKind.HoodWithScrubber, null, null),
        Materials = [Of("a", "p-toluidine", Mmol(mmol))],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", celsius, "a")],
        Reactions = [Reaction("1", ["a"], (product, state))],
    };
}
