using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>Everyday handling beside the grave thing it resembles. Common practice, no source.</summary>
public sealed class EverydayHeatingTests
{
    // dried in vacuum at 160 °C every day; the danger is the mixture with a fuel (Bretherick's Handbook, from memory)
    [Theory]
    [InlineData("lithium perchlorate", null, Severity.Notice)]
    [InlineData("sodium perchlorate", null, Severity.Notice)]
    [InlineData("magnesium perchlorate", null, Severity.Notice)]
    [InlineData("lithium perchlorate", "sodium chloride", Severity.Notice)]
    [InlineData("lithium perchlorate", "sucrose", Severity.Warning)]
    [InlineData("lithium perchlorate", "magnesium", Severity.Warning)]
    [InlineData("ammonium perchlorate", null, Severity.Warning)]
    [InlineData("silver perchlorate", null, Severity.Warning)]
    public void Screen_PerchlorateHeatedDry_IsGraveWithAFuel(string salt, string? beside, Severity severity)
    {
        var plan = Dried(salt, beside, StepAction.Dry);

        Assert.Equal(severity, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.perchlorate-heated").Severity);
    }

    [Theory]
    [InlineData("lithium perchlorate", null, Severity.Notice)]
    [InlineData("lithium perchlorate", "sucrose", Severity.Danger)]
    [InlineData("ammonium perchlorate", null, Severity.Danger)]
    public void Screen_PerchlorateGround_IsGraveWithAFuel(string salt, string? beside, Severity severity) =>
        Assert.Equal(severity, Assert.Single(Screener.Screen(Dried(salt, beside, StepAction.Grind), Policy.Default).Findings, static finding => finding.Code is "energetic.perchlorate-ground").Severity);

    // 3 g of lithium aluminium hydride (37.95 g/mol) are 0.079 mol, 5 g are 0.132 mol; sodium is 22.99 g/mol
    [Theory]
    [InlineData("lithium aluminium hydride", 3, HeatSource.IceBath, 0, Severity.Caution)]
    [InlineData("lithium aluminium hydride", 5, HeatSource.IceBath, 0, Severity.Warning)]
    [InlineData("lithium aluminium hydride", 1, HeatSource.WaterBath, 60, Severity.Warning)]
    [InlineData("sodium", 0.5, HeatSource.IceBath, 0, Severity.Warning)]
    public void Screen_OverABath_IsGraveForMuchOrHotOrAMetal(string substance, double grams, HeatSource bath, double celsius, Severity severity)
    {
        var plan = new Plan
        {
            Materials = [Of("reagent", substance, G(grams)), Of("solvent", "tetrahydrofuran", ML(80), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", celsius, "solvent", "reagent") with { HeatSource = bath, Headspace = Under("nitrogen") }],
        };

        Assert.Equal(severity, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "incompatibility.water-bath").Severity);
    }

    private static Plan Dried(string salt, string? beside, StepAction action) => new()
    {
        Materials = beside is null ? [Of("salt", salt, G(10))] : [Of("salt", salt, G(10)), Of("beside", beside, G(5))],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, beside is null ? ["salt"] : ["salt", "beside"]), Step("2", StepAction.Evacuate, "flask"), Step("3", action, "flask", 160) with { HeatSource = HeatSource.OilBath }],
    };
}
