using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>Everyday work that is no danger, and mistakes that are one. Severities are common practice, no source.</summary>
public sealed class MistakenSeverityTests
{
    /// <summary>A water bath no warmer than the room has no heater on; above it, it overshoots.</summary>
    [Theory]
    [InlineData(20, 0)]
    [InlineData(25, 0)]
    [InlineData(40, 15)]
    public void Overshoot_WaterBath_NeedsAHeater(double celsius, double kelvin) =>
        Assert.Equal(kelvin, HeaterOvershoot.K(HeatSource.WaterBath, celsius + 273.15, independentCutOut: false, Policy.Default), 1e-9);

    /// <summary>Bromobenzene and magnesium all at once in ether, 290 kJ/mol: 3 mol at once are a danger, 0.03 mol in as little ether are not, nor is bromide dosed over an hour.</summary>
    [Theory]
    [InlineData(3000, 1500, null, Severity.Danger)]
    [InlineData(30, 15, null, Severity.Warning)]
    [InlineData(3000, 1500, 3600.0, Severity.Warning)]
    public void Screen_LargeExothermAtOnce_IsADanger(double mmol, double mL, double? overS, Severity severity)
    {
        var plan = new Plan
        {
            Materials = [Of("metal", "magnesium", Mmol(mmol)), Of("bromide", "bromobenzene", Mmol(mmol)), Of("ether", "diethyl ether", ML(mL), Role.Solvent)],
            Vessels = [Flask(mL: mL * 2)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "metal", "ether"), Step("2", StepAction.Add, "flask", 20, "bromide") with { OverS = overS }, Step("3", StepAction.Reflux, "flask", 35) with { HeatSource = HeatSource.Mantle }],
            Reactions = [Reaction("3", ["bromide", "metal"], ("phenylmagnesium bromide", Hazards.Substances.Phase.Solid)) with { HeatJPerMol = -290e3 }],
            LimitingMaterial = "bromide",
        };

        Assert.Equal(severity, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "heat.reaction").Severity);
    }

    /// <summary>tert-Butyl alcohol (25.7 °C, CRC Handbook, from memory) freezes in a condenser on tap water and closes it: to review.</summary>
    [Fact]
    public void Screen_CondenserThatFreezes_GoesToReview()
    {
        var plan = new Plan
        {
            Materials = [Of("solvent", "tert-butyl alcohol", ML(50), Role.Solvent)],
            Vessels = [Flask(mL: 100)],
            Steps = [Step("1", StepAction.Charge, "flask", 30, "solvent"), Step("2", StepAction.Distil, "flask", 83) with { HeatSource = HeatSource.OilBath }],
        };

        Assert.Equal(Severity.Warning, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.condenser-freezes").Severity);
    }

    /// <summary>Nickel tetracarbonyl: 0.001 ppm (NIOSH, from memory) is no limit of 0 ppm.</summary>
    [Fact]
    public void Screen_LimitOfAThousandthPpm_IsWritten()
    {
        var plan = new Plan
        {
            Materials = [Of("carbonyl", "nickel tetracarbonyl", G(5)), Of("solvent", "tetrahydrofuran", ML(30), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "carbonyl", "solvent")],
            Place = new Place(null, PlaceKind.Bench, null, null),
        };

        Assert.Contains(" of 0.001 ppm", Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "toxicity.airborne").Statement, StringComparison.Ordinal);
    }

    /// <summary>Names of trade and of catalysts, and iron(III) oxide beside aluminium, the usual thermite.</summary>
    [Fact]
    public void Catalogue_UsualNames_AreKnown()
    {
        Assert.All((string[])["toluol", "benzyl azide", "camphor", "trans-stilbene", "2-chloropyridine", "V2O5", "Fe2O3"], static name => Assert.NotNull(Substance(name).Known));
        var plan = new Plan
        {
            Materials = [Of("oxide", "iron(III) oxide", G(8)), Of("metal", "aluminium", G(3))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "oxide", "metal")],
        };

        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "incompatibility.thermite");
    }
}
