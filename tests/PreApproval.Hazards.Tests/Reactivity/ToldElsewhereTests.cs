using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>Rows that would say of a mixture what another one says rightly. Textbook chemistry; severities common practice, no source.</summary>
public sealed class ToldElsewhereTests
{
    /// <summary>Methyl benzoate nitrated after Organic Syntheses, 1 g, mixed acid dosed over 20 min at 5 °C and stirred at room temperature: neither an ester as solvent nor water on sulfuric acid, and no danger.</summary>
    [Fact]
    public void Screen_SmallNitrationDosedCold_IsNoDanger()
    {
        var findings = Screener.Screen(Nitration(1), Policy.Default).Findings;

        Assert.DoesNotContain(findings, static finding => finding.Code is "incompatibility.nitric-acid-with-solvent" or "incompatibility.sulfuric-acid-with-water");
        Assert.Equal(Severity.Caution, Assert.Single(findings, static finding => finding.Code is "incompatibility.mixed-acid-with-arene").Severity);
    }

    /// <summary>At once, the same is a danger.</summary>
    [Fact]
    public void Screen_SmallNitrationAtOnce_IsADanger()
    {
        var plan = Nitration(1);
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1] with { OverS = null }, plan.Steps[2]] };

        Assert.Equal(Severity.Danger, Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "incompatibility.mixed-acid-with-arene").Min(static finding => finding.Severity));
    }

    /// <summary>An ester as solvent of strong nitric acid without mixed acid stays a danger.</summary>
    [Fact]
    public void Screen_NitricAcidInAnEster_StaysADanger()
    {
        var plan = new Plan
        {
            Materials = [Of("ester", "ethyl acetate", ML(20), Role.Solvent), WeightPercent("nitric", "nitric acid", "water", 70, ML(5))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 5, "ester"), Step("2", StepAction.Add, "flask", 5, "nitric") with { OverS = 1200 }],
        };

        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding is { Code: "incompatibility.nitric-acid-with-solvent", Severity: Severity.Danger });
    }

    /// <summary>Fluoride and hydrogen fluoride give HF2−; another acid frees it.</summary>
    [Theory]
    [InlineData("hydrogen fluoride", 48, false)]
    [InlineData("hydrogen chloride", 37, true)]
    public void Screen_AcidOnFluoride_FreesHydrogenFluorideUnlessItIsThat(string acid, double percent, bool frees)
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("acid", acid, "water", percent, ML(50)), Of("fluoride", "sodium fluoride", G(5))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "acid", "fluoride")],
        };

        Assert.Equal(frees, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "incompatibility.acid-with-fluoride-salt"));
    }

    /// <summary>As2O3 + 6 Zn + 12 HCl gives 2 AsH3: 5 g of As2O3 (197.84 g/mol) give at most 50.5 mmol, 1.24 L at 25 °C, beside 10 g of zinc (153 mmol, a third of it 51 mmol).</summary>
    [Fact]
    public void Screen_ArsenicTrioxideZincAndAcid_IsLimitedByTheArsenic()
    {
        var plan = new Plan
        {
            Materials = [Of("oxide", "arsenic trioxide", G(5)), Of("zinc", "zinc", G(10)), Molar("acid", "hydrogen chloride", "water", 6, ML(200))],
            Vessels = [Flask(mL: 500)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "oxide", "zinc"), Step("2", StepAction.Add, "flask", 20, "acid") with { OverS = 180 }],
        };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "incompatibility.arsenic-with-metal-and-acid");

        Assert.Equal(0.0505, finding.Evidence[0].Value, 0.0005);
    }

    /// <summary>Acetone put into permanganate in concentrated sulfuric acid: dimanganese heptoxide lights it (Bretherick's Handbook, from memory).</summary>
    [Fact]
    public void Screen_AcetoneIntoPermanganateInSulfuricAcid_IsADanger()
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("acid", "sulfuric acid", "water", 98, ML(20)), Of("permanganate", "potassium permanganate", G(5)), Of("acetone", "acetone", ML(10))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "acid"), Step("2", StepAction.Add, "flask", 20, "permanganate"), Step("3", StepAction.Add, "flask", 20, "acetone")],
        };

        Assert.Equal(["3"], Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding is { Code: "incompatibility.manganese-heptoxide-with-ketone", Severity: Severity.Danger }).Steps);
    }

    private static Plan Nitration(double grams) => new()
    {
        Materials = [Of("ester", "methyl benzoate", G(grams)), WeightPercent("sulfuric", "sulfuric acid", "water", 98, null), WeightPercent("nitric", "nitric acid", "water", 70, ML(0.7)), Of("ice", "water", ML(30), Role.Quench)],
        Vessels = [Flask(mL: 50), new Vessel { Id = "beaker", Kind = "beaker", VolumeM3 = 250e-6 }],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 0, "ester") with { Materials = [new MaterialUse("ester", null), new MaterialUse("sulfuric", ML(2.5))], HeatSource = HeatSource.IceBath },
            Step("2", StepAction.Add, "flask", 5) with { Materials = [new MaterialUse("nitric", null), new MaterialUse("sulfuric", ML(1))], OverS = 1200, HeatSource = HeatSource.IceBath },
            Step("3", StepAction.Stir, "flask", 20) with { DurationS = 900 },
            Step("4", StepAction.Charge, "beaker", 0, "ice"),
            Step("5", StepAction.Transfer, "flask") with { ToVessel = "beaker", OverS = 300 },
        ],
    };
}
