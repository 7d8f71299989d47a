using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>What one partner gives once, and which gas it is: stoichiometry by hand, 24.465 L/mol at 25 °C, IDLH of the NIOSH list (hydrogen bromide 30 ppm, hydrogen chloride 50).</summary>
public sealed class GasOnceTests
{
    /// <summary>60 mmol of trimethylsilyl cyanide meet acid and water and give 60 mmol of hydrogen cyanide, 1.468 L; with 20 mmol of acid the water still takes the rest.</summary>
    [Theory]
    [InlineData(100, 1.468)]
    [InlineData(20, 1.468)]
    public void Screen_CyanideThatMeetsAcidAndWater_GivesItsGasOnce(double acidMmol, double litres)
    {
        var finding = Find(Add("trimethylsilyl cyanide", 60, acidMmol), "gas.evolved");

        Assert.Equal(litres, finding.Evidence[0].Value, 0.002);
    }

    /// <summary>Two sources that share nothing but the acid in excess add up: 20 mmol of potassium cyanide and 20 mmol of sodium bicarbonate are 20 mmol of each gas, 0.979 L.</summary>
    [Fact]
    public void Screen_DifferentGases_AreBothCounted()
    {
        var plan = Add("potassium cyanide", 20, 200);
        plan = plan with
        {
            Materials = [.. plan.Materials, Of("c", "sodium bicarbonate", Mmol(20))],
            Steps = [plan.Steps[0] with { Materials = [new MaterialUse("a", null), new MaterialUse("c", null)] }, plan.Steps[1]],
        };

        Assert.Equal(0.979, Find(plan, "gas.evolved").Evidence[0].Value, 0.002);
    }

    /// <summary>In a closed tube the same: 60 mmol, 1.5 L, not 3 L.</summary>
    [Fact]
    public void Undeclared_CyanideThatMeetsAcidAndWaterInAClosedTube_GivesItsGasOnce()
    {
        var plan = Add("trimethylsilyl cyanide", 60, 100);
        plan = plan with { Vessels = [Tube(250, 10, "flask")], Steps = [plan.Steps[0], Step("1b", StepAction.Seal, "flask"), plan.Steps[1]] };

        Assert.Equal(0.060, Hazards.Reactivity.GasEvolution.Undeclared(Walk.Follow(plan, Policy.Default).States[^1])!.Mol!.Value, 1e-6);
    }

    /// <summary>10 mmol of a tribromide and water make 30 mmol of hydrogen bromide, a trichloride hydrogen chloride: in 1.35 m³ 544 ppm.</summary>
    [Theory]
    [InlineData("boron tribromide", "hydrogen bromide", 30)]
    [InlineData("phosphorus tribromide", "hydrogen bromide", 30)]
    [InlineData("phosphorus trichloride", "hydrogen chloride", 50)]
    public void Screen_HydrogenHalide_IsThatOfTheHalide(string halide, string gas, double limit)
    {
        var plan = new Plan
        {
            Place = new Place("hood 1", PlaceKind.Hood, null, null),
            Materials = [Of("a", halide, Mmol(10)), Of("b", "water", Mmol(2000), Role.Quench)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 0, "a") with { Headspace = Under("nitrogen") }, Step("2", StepAction.Quench, "flask", 0, "b")],
        };
        var finding = Find(plan, "toxicity.gas");

        Assert.Contains($"taken as {gas}", finding.Statement, StringComparison.Ordinal);
        Assert.Equal(limit, finding.Evidence[0].Limit);
        Assert.Equal(543.7, finding.Evidence[0].Value, 1.0);
    }

    /// <summary>
    /// Declared: 10 mmol of hydride with acid make 10 mmol of hydrogen. Zinc, 20 mmol, is not declared and makes 20 mmol with much acid: 30 mmol, 0.734 L. Of 20 mmol of acid the hydride leaves 10, for
    /// 5 mmol of hydrogen: 15 mmol, 0.367 L. Without zinc the declared hydrogen counts once: 0.245 L.
    /// </summary>
    [Theory]
    [InlineData(20, 200, 0.734)]
    [InlineData(20, 20, 0.367)]
    [InlineData(0, 200, 0.245)]
    public void Screen_DeclaredHydrogenBesideThatOfAnotherPartner_AddsUp(double zincMmol, double acidMmol, double litres)
    {
        var plan = Add("sodium hydride", 10, acidMmol);
        plan = plan with
        {
            Materials = [plan.Materials[0], Of("b", "hydrogen chloride", Mmol(acidMmol)), Of("zinc", "zinc", Mmol(zincMmol))],
            Steps = [plan.Steps[0] with { Materials = zincMmol > 0 ? [new MaterialUse("a", null), new MaterialUse("zinc", null)] : [new MaterialUse("a", null)] }, plan.Steps[1]],
            Reactions = [Reaction("2", ["a", "b"], ("hydrogen", Phase.Gas))],
        };

        Assert.Equal(litres, Find(plan, "gas.evolved").Evidence[0].Value, 0.002);
        Assert.Equal(litres, Find(plan, "fire.gas-cloud").Evidence[0].Value, 0.002);
    }

    private static Finding Find(Plan plan, string code) => Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal));

    private static Plan Add(string first, double mmol, double acidMmol) => new()
    {
        Place = new Place("hood 1", PlaceKind.Hood, null, null),
        Materials = [Of("a", first, Mmol(mmol)), Molar("b", "hydrogen chloride", "water", 2, ML(acidMmol / 2))],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 0, "a") with { Headspace = Under("nitrogen") }, Step("2", StepAction.Add, "flask", 0, "b") with { OverS = 600 }],
    };
}
