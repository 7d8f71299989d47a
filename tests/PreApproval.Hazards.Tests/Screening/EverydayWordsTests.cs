using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>What a report says that a chemist would stumble over.</summary>
public sealed class EverydayWordsTests
{
    /// <summary>1,4-Dioxane melts at 11.8 °C (CRC Handbook). 10 mL of 4 mol/L hydrogen chloride in it hold 40 mmol beside about 100 mmol of dioxane: ideal solution, about −4 °C.</summary>
    [Theory]
    [InlineData(true, false)]
    [InlineData(false, true)]
    public void Screen_DioxaneAtZero_IsFrozenOnlyWhenPure(bool solution, bool frozen)
    {
        var plan = new Plan
        {
            Materials = [solution ? Molar("liquid", "hydrogen chloride", "1,4-dioxane", 4, ML(10)) : Of("liquid", "1,4-dioxane", ML(10))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 0, "liquid")],
        };

        Assert.Equal(frozen, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "data.frozen"));
    }

    [Fact]
    public void Screen_Quenched_IsNoLongerAmongTheContents()
    {
        var plan = new Plan
        {
            Materials = [Molar("base", "n-butyllithium", "n-hexane", 2.5, ML(4)), WeightPercent("quench", "ammonium chloride", "water", 20, ML(20))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", -78, "base") with { Headspace = Under("argon") }, Step("2", StepAction.Quench, "flask", 0, "quench") with { OverS = 900 }],
        };
        var timeline = Screener.Screen(plan, Policy.Default).Timeline;

        Assert.Contains(timeline[0].Contents, static content => content.Substance is "109-72-8");
        Assert.DoesNotContain(timeline[1].Contents, static content => content.Substance is "109-72-8");
    }

    [Fact]
    public void Screen_EncounterInWaste_AsksForNoSlowAddition()
    {
        var plan = new Plan
        {
            Materials = [Of("acid", "nitric acid", ML(5)), Of("ethanol", "ethanol", ML(50))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "ethanol")],
            Waste = [new WasteContainer(["acid", "ethanol"], "flammable")],
        };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "incompatibility.nitric-acid-with-alcohol");

        Assert.NotEmpty(finding.Controls);
        Assert.DoesNotContain(finding.Controls, static control => control.Control is "slow addition");
    }

    [Fact]
    public void Screen_ToReview_NamesTheFindingsThatSendIt()
    {
        var plan = new Plan
        {
            Materials = [Of("azide", "sodium azide", G(5)), Of("dcm", "dichloromethane", ML(20))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "azide", "dcm")],
        };
        var report = Screener.Screen(plan, Policy.Default);

        Assert.Contains("incompatibility.azide-with-chlorinated-solvent/flask/1", report.ToReview, StringComparer.Ordinal);
        Assert.All(report.ToReview, id => Assert.Contains(report.Findings, finding => string.Equals(finding.Id, id, StringComparison.Ordinal) && (finding.Severity <= Severity.Warning || finding.LeavesCheckUndone)));
        Assert.Empty(Screener.Screen(plan with { Materials = [Of("azide", "sodium chloride", G(5)), Of("dcm", "dichloromethane", ML(20))] }, Policy.Default).ToReview);
    }
}
