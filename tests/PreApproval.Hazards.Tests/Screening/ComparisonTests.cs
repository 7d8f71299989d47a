using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>One plan against another, number against number.</summary>
public sealed class ComparisonTests
{
    public static TheoryData<string> Everyday => [.. EverydayPlans.All.Keys];

    /// <summary>Flash point of toluene: 4 °C (NFPA 497); 16 K above it at 20 °C, 4 K at 8 °C.</summary>
    [Theory]
    [InlineData(20, 8, ChangeEffect.Lowered, -16, -4)]
    [InlineData(8, 20, ChangeEffect.Raised, -4, -16)]
    public void Of_OpenSolventColderOrWarmer_GoesTheWayOfItsFlashMargin(double before, double after, ChangeEffect effect, double was, double becomes)
    {
        var change = Assert.Single(Compare(Open("toluene", before), Open("toluene", after)));

        Assert.Equal(("distance below the flash point", effect), (change.Quantity, change.Effect));
        Assert.Equal((was, becomes), (Math.Round(change.Before!.Value, 6), Math.Round(change.After!.Value, 6)));
    }

    /// <summary>Flash points 4 °C (toluene) and −20 °C (acetone) (NFPA 497): another solvent is one change of one number, not one hazard gone and another come.</summary>
    [Fact]
    public void Of_AnotherSolvent_RaisesTheMarginOfTheOldOne()
    {
        var change = Assert.Single(Compare(Open("toluene", 20), Open("acetone", 20)), static change => change.Quantity is "distance below the flash point");

        Assert.Equal((ChangeEffect.Raised, -16, -40), (change.Effect, Math.Round(change.Before!.Value), Math.Round(change.After!.Value)));
    }

    /// <summary>Dimethyl sulfoxide flashes at 87 °C or above (NIOSH Pocket Guide lists none; supplier data 87 to 95 °C, from memory): far from it there is no finding, and the number still tells.</summary>
    [Fact]
    public void Of_MarginThatIsNoFinding_IsCompared()
    {
        var change = Assert.Single(Compare(Open("dimethyl sulfoxide", 20), Open("dimethyl sulfoxide", 50)), static change => change.Quantity is "distance below the flash point");

        Assert.Equal(ChangeEffect.Raised, change.Effect);
        Assert.Null(change.FindingBefore);
        Assert.Null(change.FindingAfter);
        Assert.Equal(30, change.Before!.Value - change.After!.Value, 6);
        Assert.Equal(("flask", "2"), (change.Vessel, change.Steps[^1]));
    }

    /// <summary>Toluene has 2.75 bar at 150 °C (McGarry 1983): closed it presses with that and the air, in a vessel for 50 bar(g) no finding.</summary>
    [Fact]
    public void Of_OpenForClosed_IntroducesAPressureThatIsNoFinding()
    {
        var change = Assert.Single(Compare(Refluxed, Closed(150, 50)), static change => change.Quantity is "worst-case pressure");

        Assert.Equal((Hazard.Pressure, ChangeEffect.Introduced), (change.Hazard, change.Effect));
        Assert.Null(change.FindingAfter);
        Assert.InRange(change.After!.Value, 2.75 - 1.013, 50 * 0.75);
        Assert.Equal(ChangeEffect.Removed, Assert.Single(Compare(Closed(150, 50), Refluxed), static change => change.Quantity is "worst-case pressure").Effect);
    }

    [Fact]
    public void Of_StrongerVessel_LowersTheShareOfItsRatingAndNotThePressure()
    {
        var change = Assert.Single(Compare(Closed(150, 50), Closed(150, 100)));

        Assert.Equal(("share of the rating", ChangeEffect.Lowered), (change.Quantity, change.Effect));
        Assert.Equal(0.5, change.After!.Value / change.Before!.Value, 9);
    }

    [Fact]
    public void Of_HotterClosedStep_RaisesThePressureOnce()
    {
        var change = Assert.Single(Compare(Closed(150, 50), Closed(170, 50)), static change => change.Quantity is "worst-case pressure");

        Assert.Equal(ChangeEffect.Raised, change.Effect);
        Assert.True(change.After!.Value > change.Before!.Value);
        Assert.Equal(["heat"], change.Steps, StringComparer.Ordinal);
    }

    /// <summary>10 L of liquid nitrogen, 808 g/L at its boiling point, are 6.94 m³ of gas (gas-industry leaflets): the larger the room, the more oxygen is left.</summary>
    [Theory]
    [InlineData(60, 80, ChangeEffect.Lowered)]
    [InlineData(80, 60, ChangeEffect.Raised)]
    public void Of_OxygenLeftInTheRoom_LessIsWorse(double before, double after, ChangeEffect effect)
    {
        var change = Assert.Single(Compare(Boiled(before), Boiled(after)), static change => change.Quantity is "oxygen left in the room");

        Assert.Equal(effect, change.Effect);
    }

    /// <summary>Half of an almost empty vessel is emptier still; 5 % is where the policy begins.</summary>
    [Fact]
    public void Of_LowFill_LessIsWorse()
    {
        var change = Assert.Single(Compare(Closed(150, 50, 10), Closed(150, 50, 5)), static change => change.Quantity is "fill of the closed vessel");

        Assert.Equal(ChangeEffect.Raised, change.Effect);
    }

    [Theory]
    [MemberData(nameof(Everyday))]
    public void Of_TheSamePlan_IsNoChange(string name)
    {
        var plan = EverydayPlans.All[name];

        Assert.Empty(Compare(plan, plan));
        Assert.Empty(Compare(plan, plan with { Steps = [.. plan.Steps.Select(static step => step with { Id = "new-" + step.Id })], Reactions = [.. plan.Reactions.Select(static reaction => reaction with { Step = "new-" + reaction.Step })], Safeguards = [.. plan.Safeguards.Select(static safeguard => safeguard with { Steps = [.. safeguard.Steps.Select(static step => "new-" + step)] })] }));
    }

    /// <summary>
    /// A number is told in whole kelvins, and no pressure here is good to one in a hundred: toluene, d ln p/dT = ΔH/(R T²) near 150 °C 2.3 % per kelvin (Clausius and Clapeyron, 34 kJ/mol), is raised by 4 K and not by 0.2 K;
    /// its distance below the flash point by 1 K and not by 0.4 K.
    /// </summary>
    [Theory]
    [InlineData(150.2, false)]
    [InlineData(154, true)]
    public void Of_PressureThatDiffersByLessThanItCarries_IsNoChange(double celsius, bool expected)
    {
        Assert.Equal(expected, Compare(Closed(150, 50), Closed(celsius, 50)).Any(static change => change is { Quantity: "worst-case pressure", Effect: ChangeEffect.Raised }));
        Assert.Equal(expected, Compare(Closed(celsius, 50), Closed(150, 50)).Any(static change => change is { Quantity: "worst-case pressure", Effect: ChangeEffect.Lowered }));
    }

    [Theory]
    [InlineData(20.4, false)]
    [InlineData(21, true)]
    public void Of_MarginThatDiffersByLessThanAKelvinTold_IsNoChange(double celsius, bool expected) =>
        Assert.Equal(expected, Compare(Open("toluene", 20), Open("toluene", celsius)).Any(static change => change.Quantity is "distance below the flash point"));

    /// <summary>What is worse one way is better the other way.</summary>
    [Fact]
    public void Of_ExchangedPlans_TurnsEveryEffectRound()
    {
        Plan[] plans = [Refluxed, Closed(150, 50), Closed(170, 50), Open("toluene", 8), Open("acetone", 20), Boiled(60)];
        foreach (var one in plans)
        {
            foreach (var other in plans)
            {
                Assert.Equal(Compare(one, other).Select(static change => (change.Quantity, Turned(change.Effect))).Order(), Compare(other, one).Select(static change => (change.Quantity, change.Effect)).Order());
            }
        }
    }

    private static Plan Refluxed => new()
    {
        Materials = [Of("toluene", "toluene", ML(50), Role.Solvent)],
        Vessels = [Flask("flask")],
        Steps = [Step("charge", StepAction.Charge, "flask", 20, "toluene"), Step("reflux", StepAction.Reflux, "flask") with { HeatSource = HeatSource.OilBath }],
    };

    private static ChangeEffect Turned(ChangeEffect effect) => effect switch
    {
        ChangeEffect.Introduced => ChangeEffect.Removed,
        ChangeEffect.Removed => ChangeEffect.Introduced,
        ChangeEffect.Raised => ChangeEffect.Lowered,
        ChangeEffect.Lowered => ChangeEffect.Raised,
    };

    private static IReadOnlyList<HazardChange> Compare(Plan before, Plan after) =>
        Comparison.Of(new ScreenedPlan(before, Screener.Screen(before, Policy.Default), Policy.Default), new ScreenedPlan(after, Screener.Screen(after, Policy.Default), Policy.Default));

    private static Plan Open(string solvent, double celsius) => new()
    {
        Materials = [Of("solvent", solvent, ML(50), Role.Solvent)],
        Vessels = [Flask("flask")],
        Steps = [Step("1", StepAction.Charge, "flask", celsius, "solvent"), Step("2", StepAction.Stir, "flask")],
    };

    private static Plan Closed(double celsius, double barGauge, double mL = 50) => new()
    {
        Materials = [Of("toluene", "toluene", ML(mL), Role.Solvent)],
        Vessels = [new Vessel { Id = "flask", Kind = "stirred metal autoclave", VolumeM3 = 250e-6, RatingPaGauge = barGauge * 1e5, MaximumTemperatureK = 573.15, RatingEvidence = "stamped" }],
        Steps =
        [
            Step("charge", StepAction.Charge, "flask", 20, "toluene"), Step("seal", StepAction.Seal, "flask"), Step("heat", StepAction.Heat, "flask", celsius) with { HeatSource = HeatSource.OilBath },
            Step("cool", StepAction.Cool, "flask", 20), Step("open", StepAction.Open, "flask"),
        ],
    };

    private static Plan Boiled(double roomM3) => new()
    {
        Materials = [Of("liquid nitrogen", "nitrogen", ML(10_000), Role.Other)],
        Vessels = [new Vessel { Id = "dewar", Kind = "stainless steel Dewar", VolumeM3 = 15e-3 }],
        Steps = [Step("1", StepAction.Charge, "dewar", -196, "liquid nitrogen")],
        Place = new Place(null, PlaceKind.Bench, roomM3, null),
    };
}
