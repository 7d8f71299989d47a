using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>One event is one line, with numbers that show what changed; and a protection that is gone is told.</summary>
public sealed class OneEventTests
{
    /// <summary>The pressure is the same in both; the share of 3 and of 6 bar(g) that it is goes from one to the half.</summary>
    [Fact]
    public void Of_StrongerVesselWithAFindingInBoth_TellsTheShareOfTheRatingAlone()
    {
        var change = Assert.Single(Compare(Closed(150, 3), Closed(150, 6)), static change => change.Hazard == Hazard.Pressure);

        Assert.Equal(("share of the rating", 0.5), (change.Quantity, Math.Round(change.After!.Value / change.Before!.Value, 9)));
    }

    /// <summary>A finding that only one side has still has a number on the other.</summary>
    [Fact]
    public void Of_PressureThatBecomesAFinding_IsOneLineWithBothNumbers()
    {
        var change = Assert.Single(Compare(Closed(110, 6), Closed(165, 6)), static change => change.Quantity is "worst-case pressure");

        Assert.Equal(ChangeEffect.Introduced, change.Effect);
        Assert.Null(change.FindingBefore);
        Assert.True(change.Before!.Value < change.After!.Value);
    }

    /// <summary>Stirred at the temperature at which it is then opened, the vessel has one pressure: at worst, and at opening.</summary>
    [Fact]
    public void Of_PressureAtWorstAndAtOpeningTheSame_IsOneLine()
    {
        var lines = Compare(Pressed(8.2), Pressed(8.8)).Where(static change => change is { Hazard: Hazard.Pressure, Effect: ChangeEffect.Raised }).ToArray();

        var change = Assert.Single(lines);
        Assert.Equal("pressure at opening", change.Quantity);
        Assert.Equal(["worst-case pressure"], change.Also.Select(static one => one.Quantity).Distinct(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.Contains("open", change.Steps, StringComparer.Ordinal);
    }

    [Fact]
    public void Of_FindingsWithoutANumber_StayLinesOfTheirOwn()
    {
        var open = Hydride("methanol", closed: false) with { Vessels = [new Vessel { Id = "flask", Kind = "round-bottom flask" }] };
        var closed = Hydride("methanol", closed: true) with { Vessels = [new Vessel { Id = "flask", Kind = "round-bottom flask" }] };

        Assert.All(Compare(open, closed).Where(static change => change.Before is null && change.After is null), static change => Assert.Empty(change.Also));
    }

    [Fact]
    public void Of_ReliefDeviceGone_IsIntroducedAndBackIsRemoved()
    {
        var with = Closed(150, 10, new Relief(ReliefKind.Valve, 8e5));
        var gone = Assert.Single(Compare(with, Closed(150, 10)), static change => change.Quantity is "missing relief device");
        var back = Assert.Single(Compare(Closed(150, 10), with), static change => change.Quantity is "missing relief device");

        Assert.Equal((ChangeEffect.Introduced, 8, "flask"), (gone.Effect, gone.Before!.Value, gone.Vessel));
        Assert.Equal(["seal", "heat", "cool"], gone.Steps, StringComparer.Ordinal);
        Assert.Equal((ChangeEffect.Removed, 8), (back.Effect, back.After!.Value));
    }

    /// <summary>Sodium borohydride gives 4 mol of hydrogen per mol with water and alcohols (Prudent Practices, hydrides); a dry solvent is never quite dry.</summary>
    [Theory]
    [InlineData("methanol")]
    [InlineData("tetrahydrofuran")]
    public void Of_ClosedVesselForAnOpenOneOverABorohydride_IsTold(string solvent)
    {
        var change = Assert.Single(Compare(Hydride(solvent, closed: false), Hydride(solvent, closed: true)), static change => change.Quantity is "sodium borohydride in a closed vessel");

        Assert.Equal((Hazard.Gas, ChangeEffect.Introduced, "flask"), (change.Hazard, change.Effect, change.Vessel));
        Assert.Equal(ChangeEffect.Removed, Assert.Single(Compare(Hydride(solvent, closed: true), Hydride(solvent, closed: false)), static one => one.Quantity is "sodium borohydride in a closed vessel").Effect);
    }

    private static IReadOnlyList<HazardChange> Compare(Plan before, Plan after) =>
        Comparison.Of(new ScreenedPlan(before, Screener.Screen(before, Policy.Default), Policy.Default), new ScreenedPlan(after, Screener.Screen(after, Policy.Default), Policy.Default));

    private static Vessel Autoclave(double barGauge, Relief? relief = null) =>
        new() { Id = "flask", Kind = "stirred metal autoclave", VolumeM3 = 250e-6, RatingPaGauge = barGauge * 1e5, MaximumTemperatureK = 573.15, RatingEvidence = "stamped", Relief = relief };

    private static Plan Closed(double celsius, double barGauge, Relief? relief = null) => new()
    {
        Materials = [Of("toluene", "toluene", ML(50), Role.Solvent)],
        Vessels = [Autoclave(barGauge, relief)],
        Steps =
        [
            Step("charge", StepAction.Charge, "flask", 20, "toluene"), Step("seal", StepAction.Seal, "flask"), Step("heat", StepAction.Heat, "flask", celsius) with { HeatSource = HeatSource.OilBath },
            Step("cool", StepAction.Cool, "flask", 20), Step("open", StepAction.Open, "flask"),
        ],
    };

    private static Plan Pressed(double barGauge) => new()
    {
        Materials = [Of("toluene", "toluene", ML(50), Role.Solvent)],
        Vessels = [Autoclave(10)],
        Steps =
        [
            Step("charge", StepAction.Charge, "flask", 20, "toluene"), Step("seal", StepAction.Seal, "flask"),
            Step("press", StepAction.Pressurise, "flask") with { Gas = Substance("nitrogen"), PressurePaAbs = (barGauge * 1e5) + 101_325 },
            Step("open", StepAction.Open, "flask"),
        ],
    };

    private static Plan Hydride(string solvent, bool closed) => new()
    {
        Materials = [Of("solvent", solvent, ML(30), Role.Solvent), Of("hydride", "sodium borohydride", G(0.4), Role.Reagent)],
        Vessels = [Flask("flask")],
        Steps =
        [
            Step("charge", StepAction.Charge, "flask", 20, "solvent", "hydride"),
            .. closed ? [Step("seal", StepAction.Seal, "flask")] : Array.Empty<Step>(),
            Step("stir", StepAction.Stir, "flask") with { DurationS = 7200 },
            .. closed ? [Step("open", StepAction.Open, "flask")] : Array.Empty<Step>(),
        ],
    };
}
