using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>Heat of neutralisation 55.8 kJ/mol (CRC Handbook: ΔfH of water −285.8, of hydroxide ion −230.0 kJ/mol); densities and heat capacities of the CRC Handbook, from memory.</summary>
public sealed class NeutralisationTests
{
    /// <summary>
    /// 20 mL of acetic acid (1.049 g/mL, 60.05 g/mol) are 0.349 mol, as many as 27.9 g of 50 % sodium hydroxide: 19.5 kJ. Acid 0.349 · 123 and water 0.774 · 75.3 J/(mol K), and 14 g of hydroxide with 1.5 J/(g K), are 122 J/K: 160 K, past boiling at about 100 °C.
    /// </summary>
    [Fact]
    public void Screen_GlacialAcidAndStrongHydroxideAtOnce_BoilsOver()
    {
        var finding = Found(Mix(Of("a", "acetic acid", ML(20)), WeightPercent("b", "sodium hydroxide", "water", 50, G(27.9))));

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Equal(160, finding.Evidence[0].Value, 160 * 0.03);
        Assert.Contains("boils over", finding.Statement, StringComparison.Ordinal);
        var offer = Assert.Single(finding.ClearedBy);
        Assert.DoesNotContain(Screener.Screen(Clearings.Apply(Mix(Of("a", "acetic acid", ML(20)), WeightPercent("b", "sodium hydroxide", "water", 50, G(27.9))), offer), Policy.Default).Findings, static other => other.Code is "heat.neutralisation");
    }

    /// <summary>
    /// Neat acids into 30 % alkali, each 0.2 mol and above and past 100 °C: methanesulfonic acid 1.48 g/mL and 96.1 g/mol, trifluoroacetic acid 1.49 and 114.0.
    /// </summary>
    [Theory]
    [InlineData("methanesulfonic acid", "potassium hydroxide", 45)]
    [InlineData("trifluoroacetic acid", "sodium hydroxide", 40)]
    [InlineData("trifluoroacetic acid", "potassium hydroxide", 45)]
    public void Screen_StrongAcidsAtOnce_BoilOver(string acid, string hydroxide, double percent) =>
        Assert.Equal(Severity.Warning, Found(Mix(Of("a", acid, ML(20)), WeightPercent("b", hydroxide, "water", percent, G(40)))).Severity);

    /// <summary>10 mL of 98 % sulfuric acid (1.83 g/mL) are 0.183 mol; two protons and the dilution give 2 · 55.8 + 95.3 = 207 kJ/mol, 38 kJ.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Screen_SulfuricAcidAtOnce_CountsItsDilutionInEitherOrder(bool acidFirst)
    {
        var (lye, acid) = (WeightPercent("b", "sodium hydroxide", "water", 20, G(80)), WeightPercent("a", "sulfuric acid", "water", 98, ML(10)));
        var finding = Found(acidFirst ? Mix(acid, lye) : Mix(lye, acid));

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains("38 kJ", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>2 mol/L each, equal volumes: 55.8 kJ/mol · 1 mol/L over 4.18 kJ/(L K) is 13 K. 6 mol/L each: 40 K, to 60 °C.</summary>
    [Theory]
    [InlineData(2)]
    [InlineData(6)]
    public void Screen_DiluteNeutralisation_IsQuiet(double molPerL) =>
        Assert.DoesNotContain(Findings(Mix(Molar("a", "hydrogen chloride", "water", molPerL, ML(100)), Molar("b", "sodium hydroxide", "water", molPerL, ML(100)))), static finding => finding.Code is "heat.neutralisation");

    /// <summary>12 mol/L into 10 mol/L in equal volumes of 20 mL: 0.2 mol, 11 kJ; dosed over half an hour it boils nowhere.</summary>
    [Fact]
    public void Screen_Dosed_IsQuiet()
    {
        var plan = Mix(Molar("b", "sodium hydroxide", "water", 10, ML(20)), Molar("a", "hydrogen chloride", "water", 12, ML(20)));
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1] with { OverS = 1800 }] };

        Assert.DoesNotContain(Findings(plan), static finding => finding.Code is "heat.neutralisation");
    }

    /// <summary>What a declared reaction takes up has its own finding; and what was neutral before is not neutralised again.</summary>
    [Fact]
    public void Screen_DeclaredOrNeutralBefore_IsNotCountedTwice()
    {
        var plan = Mix(Of("a", "acetic acid", ML(20)), WeightPercent("b", "sodium hydroxide", "water", 50, G(27.9)));
        var declared = plan with { Reactions = [Reaction("2", ["a", "b"], ("sodium acetate", Phase.Solid))] };
        var again = plan with { Materials = [.. plan.Materials, Of("more", "acetic acid", ML(20))], Steps = [.. plan.Steps, Step("3", StepAction.Add, "flask", 20, "more")] };

        Assert.DoesNotContain(Findings(declared), static finding => finding.Code is "heat.neutralisation");
        Assert.Equal("2", Assert.Single(Found(again).Steps));
    }

    /// <summary>Poured together, in a closed vessel, it bursts what it cannot leave.</summary>
    [Fact]
    public void Screen_InAClosedVessel_IsDanger()
    {
        var plan = Mix(Of("a", "acetic acid", ML(20)), WeightPercent("b", "sodium hydroxide", "water", 50, G(27.9)));
        plan = plan with { Vessels = [Tube(100, 10, "flask")], Steps = [plan.Steps[0], Step("1b", StepAction.Seal, "flask"), plan.Steps[1]] };

        Assert.Equal(Severity.Danger, Found(plan).Severity);
    }

    /// <summary>Common practice, no source: an acid into a base of unknown amount is named, with what to state, and goes to review in a closed vessel.</summary>
    [Theory]
    [InlineData(null, false, Severity.Caution)]
    [InlineData(900.0, false, Severity.Notice)]
    [InlineData(900.0, true, Severity.Caution)]
    public void Screen_UnknownAmount_IsNamedWithWhatToState(double? overS, bool closed, Severity severity)
    {
        var plan = Mix(Of("acid", "acetic acid", ML(20)), WeightPercent("lye", "sodium hydroxide", "water", 50, null));
        plan = plan with { Steps = [plan.Steps[0], .. closed ? [Step("1b", StepAction.Seal, "flask")] : Array.Empty<Step>(), plan.Steps[1] with { OverS = overS }] };
        var finding = Assert.Single(Findings(plan), static finding => finding.Code is "data.neutralisation");

        Assert.Equal(severity, finding.Severity);
        Assert.Equal(closed, finding.LeavesCheckUndone);
        Assert.Equal(["lye"], finding.Materials);
        Assert.Contains("state how much of “lye” there is, in g, mL or mmol, and its strength", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>A mixture by volume with a solid of unknown density: its strength is not known, though 20 mL are stated.</summary>
    [Fact]
    public void Screen_UnknownStrength_IsNamedWithWhatIsMissing()
    {
        PlanSubstance acid = new("unlisted sulfonic acid", "unlisted sulfonic acid", null, "CC(C)c1ccc(cc1)S(=O)(=O)O");
        var mixture = new Material
        {
            Id = "acid",
            Composition = new Composition.Mixture([new MixturePart(acid, 0.6, FractionBasis.Volume), new MixturePart(Substance("water"), 0.4, FractionBasis.Volume)]),
            Role = Role.Reagent,
            Amount = ML(20),
        };
        var finding = Assert.Single(Findings(Mix(mixture, WeightPercent("lye", "sodium hydroxide", "water", 50, G(27.9)))), static finding => finding.Code is "data.neutralisation");

        Assert.Equal(["acid"], finding.Materials);
        Assert.Contains("without the density of unlisted sulfonic acid, so state it in g or mmol", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>0.1 mol of hydroxide in 100 mL of water gives 5.6 kJ over 418 J/K at most, 13 K, however much acid is added; and what stands there already is not asked for again.</summary>
    [Fact]
    public void Screen_UnknownAmountThatCannotMatter_IsQuiet()
    {
        var bounded = Mix(Molar("lye", "sodium hydroxide", "water", 1, ML(100)), Molar("acid", "hydrogen chloride", "water", 1, null));
        var standing = Mix(Of("acid", "acetic acid", ML(20)), WeightPercent("lye", "sodium hydroxide", "water", 50, null));
        standing = standing with { Steps = [.. standing.Steps, Step("3", StepAction.Stir, "flask", 20)] };

        Assert.DoesNotContain(Findings(bounded), static finding => finding.Code is "data.neutralisation");
        Assert.Equal("2", Assert.Single(Assert.Single(Findings(standing), static finding => finding.Code is "data.neutralisation").Steps));
    }

    /// <summary>A declared reaction has its own word on a heat that is not computed.</summary>
    [Fact]
    public void Screen_UnknownAmountOfADeclaredReaction_IsNotAskedTwice()
    {
        var plan = Mix(Of("acid", "acetic acid", ML(20)), WeightPercent("lye", "sodium hydroxide", "water", 50, null));

        Assert.DoesNotContain(Findings(plan with { Reactions = [Reaction("2", ["acid", "lye"], ("sodium acetate", Phase.Solid))] }), static finding => finding.Code is "data.neutralisation");
    }

    private static IReadOnlyList<Finding> Findings(Plan plan) => Screener.Screen(plan, Policy.Default).Findings;

    private static Finding Found(Plan plan) => Assert.Single(Findings(plan), static finding => finding.Code is "heat.neutralisation");

    private static Plan Mix(Material first, Material second) => new()
    {
        Materials = [first, second],
        Vessels = [Flask("flask", 500)],
        Steps = [Step("1", StepAction.Charge, "flask", 20, first.Id), Step("2", StepAction.Add, "flask", 20, second.Id)],
    };
}
