using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Plans;

public sealed class QuenchTests
{
    /// <summary>5 g of lithium aluminium hydride (37.95 g/mol) give 0.527 mol of hydrogen, 12.7 L at 20 °C (LiAlH4 + 4 H2O, ideal gas law).</summary>
    [Theory]
    [InlineData("toluene", 5)]
    [InlineData("ethyl acetate", 0.05)]
    public void Screen_QuenchThatCannotDestroyTheHydride_LeavesItForTheWater(string quench, double mL)
    {
        var report = Screener.Screen(Reduction(quench, mL), Policy.Default);

        var finding = Assert.Single(report.Findings, static finding => finding.Code is "incompatibility.aluminium-hydride-with-water");
        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Contains("3", finding.Steps, StringComparer.Ordinal);
        Assert.InRange(finding.Evidence.First(static evidence => evidence.Unit is "mol").Value, 0.51, 0.53);
    }

    /// <summary>0.527 mol of hydride in four equivalents each, 0.26 mol of ethyl acetate at two each.</summary>
    [Fact]
    public void Screen_QuenchWithEnoughEster_DestroysIt()
    {
        var report = Screener.Screen(Reduction("ethyl acetate", 40), Policy.Default);

        Assert.DoesNotContain(report.Findings, static finding => finding.Code is "incompatibility.aluminium-hydride-with-water");
    }

    /// <summary>Half of the hydride: 0.5 · 0.527 mol of equivalents, 4.74 mL of water (18.02 g/mol).</summary>
    [Fact]
    public void Follow_WaterForHalfTheEquivalents_LeavesHalf()
    {
        var contents = Walk.Follow(Reduction("water", 4.75), Policy.Default).States[1].ContentsAfter;

        Assert.Equal(0.0659, contents.Where(static content => !content.Spent && content.MaterialId is "hydride").Sum(static content => content.Mol!.Value), 0.002);
        Assert.Equal(0.0659, contents.Where(static content => content.Spent).Sum(static content => content.Mol!.Value), 0.002);
    }

    [Fact]
    public void Follow_QuenchOfUnknownAmount_DestroysNothing()
    {
        var plan = Reduction("water", 5);
        plan = plan with { Materials = [.. plan.Materials.Select(static material => material.Id is "quench" ? material with { Amount = null } : material)] };

        Assert.DoesNotContain(Walk.Follow(plan, Policy.Default).States[1].ContentsAfter, static content => content.Spent);
    }

    /// <summary>A ketone does not protonate sodium.</summary>
    [Fact]
    public void Follow_KetoneOverSodium_DestroysNothing()
    {
        var plan = Reduction("acetone", 50) with { };
        plan = plan with { Materials = [Of("hydride", "sodium", G(1)), .. plan.Materials.Skip(1)] };

        Assert.DoesNotContain(Walk.Follow(plan, Policy.Default).States[1].ContentsAfter, static content => content.Spent);
    }

    private static Plan Reduction(string quench, double mL) => new()
    {
        Materials = [Of("hydride", "lithium aluminium hydride", G(5)), Of("thf", "tetrahydrofuran", ML(100), Role.Solvent), Of("quench", quench, ML(mL), Role.Quench), Of("water", "water", ML(50), Role.Quench)],
        Vessels = [Flask(mL: 500)],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", null, "thf", "hydride") with { Headspace = Under("nitrogen") },
            Step("2", StepAction.Quench, "flask", 0, "quench") with { OverS = 1200 },
            Step("3", StepAction.Add, "flask", null, "water"),
        ],
    };
}
