using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

/// <summary>Static, inerting and enriched oxygen. Thresholds of volume are common practice, no source.</summary>
public sealed class AtmosphereTests
{
    [Theory]
    [InlineData("n-hexane", 0.4, null)]
    [InlineData("n-hexane", 1, Severity.Notice)]
    [InlineData("toluene", 6, Severity.Caution)]
    [InlineData("n-hexane", 25, Severity.Warning)]
    [InlineData("ethanol", 25, null)]
    [InlineData("acetone", 6, null)]
    public void Screen_LiquidPoured_ChargesByConductivityAndVolume(string substance, double litres, Severity? expected) =>
        Assert.Equal(expected, Static(substance, litres, StepAction.Charge, "glass bottle"));

    [Theory]
    [InlineData("glass funnel", StepAction.Filter, Severity.Caution)]
    [InlineData("steel drum", StepAction.Charge, Severity.Caution)]
    [InlineData("polyethylene carboy", StepAction.Charge, Severity.Caution)]
    public void Screen_FilterOrContainer_CountsOneStepMore(string kind, StepAction action, Severity expected) =>
        Assert.Equal(expected, Static("n-hexane", 1, action, kind));

    [Fact]
    public void Screen_BelowItsFlashPoint_ChargesButLightsNothing() => Assert.Null(Static("n-dodecane", 6, StepAction.Charge, "glass bottle"));

    [Fact]
    public void Screen_HydrogenOverAir_NamesTheOxygenToReach()
    {
        var finding = Assert.Single(Hydrogenation(evacuated: false, bar: null), static finding => finding.Code is "fire.gas-over-air");

        Assert.Equal(Severity.Caution, finding.Severity);
        // limiting oxygen 5 % (NFPA 69, from memory), 60 % of it
        Assert.Equal(0.05, finding.Evidence[0].Value, 1e-12);
        Assert.Contains("at most 3 % oxygen", finding.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_EvacuatedBeforeHydrogen_IsNoFinding() => Assert.DoesNotContain(Hydrogenation(evacuated: true, bar: null), static finding => finding.Code is "fire.gas-over-air");

    /// <summary>Air at one atmosphere diluted to the pressure: at 2 bar 10.6 % oxygen stays, above the 5 % at which hydrogen burns; at 10 bar 2.1 %.</summary>
    [Theory]
    [InlineData(2, Severity.Warning, 0.106)]
    [InlineData(10, Severity.Caution, 0.0213)]
    public void Screen_HydrogenPressedOntoAir_IsGraveWhileItStaysExplosive(double bar, Severity expected, double oxygen)
    {
        var finding = Assert.Single(Hydrogenation(evacuated: false, bar), static finding => finding.Code is "fire.gas-over-air");

        Assert.Equal(expected, finding.Severity);
        Assert.Equal(oxygen, finding.Evidence[^1].Value, oxygen * 0.01);
    }

    [Theory]
    [InlineData(true, false)]
    [InlineData(false, true)]
    public void Screen_HydrogenOpenedToAir_IsNamedUnlessPurged(bool purged, bool expected) =>
        Assert.Equal(expected, Hydrogenation(evacuated: true, bar: null, purged).Any(static finding => finding.Code is "fire.gas-opened-to-air"));

    [Theory]
    [InlineData(20, Severity.Caution)]
    [InlineData(60, Severity.Warning)]
    public void Screen_AlcoholUnderOxygen_SaysThatValuesInAirDoNotHold(double celsius, Severity expected)
    {
        var plan = new Plan
        {
            Materials = [Of("alcohol", "benzyl alcohol", ML(10))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "alcohol") with { Headspace = Under("oxygen") }, Step("2", celsius > 30 ? StepAction.Heat : StepAction.Stir, "flask", celsius)],
        };

        Assert.Equal(expected, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.oxygen-enriched").Severity);
    }

    /// <summary>z times the lower limit: hexane burns 9.5 O2; 9.5 times 1.0 % is 9.5 %; where a measured value is on file it counts (12 %, NFPA 69 from memory).</summary>
    [Fact]
    public void LimitingOxygen_OnFileAndEstimated_DifferAsKnown()
    {
        var hexane = Substance("n-hexane").Known!;

        Assert.Equal(0.12, LimitingOxygen.Of(hexane)!.Value, 1e-12);
        Assert.Equal(0.095, FlammableLimits.LimitingOxygen(Combustion.OxygenPerMol(hexane)!.Value, 0.010), 1e-12);
    }

    [Fact]
    public void LimitingOxygen_WhatDoesNotBurn_HasNone() => Assert.Null(LimitingOxygen.Of(Substance("water").Known!));

    /// <summary>A noble metal lights hydrogen and air; it does not light carbon monoxide.</summary>
    [Theory]
    [InlineData("hydrogen", true)]
    [InlineData("carbon monoxide", false)]
    public void Screen_FlammableGasOpenedToAir_NamesACatalystForHydrogenAlone(string gas, bool named)
    {
        var plan = new Plan
        {
            Materials = [Of("solvent", "ethanol", ML(20), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "solvent"), Step("2", StepAction.Stir, "flask") with { Headspace = Under(gas) }, Step("3", StepAction.Open, "flask")],
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.gas-opened-to-air");

        Assert.Equal(named, finding.Statement.Contains("catalyst", StringComparison.Ordinal));
    }

    /// <summary>One reason for two agents is said once.</summary>
    [Fact]
    public void Screen_TwoAgentsBannedForOneReason_SaysItOnce()
    {
        var plan = new Plan
        {
            Materials = [Of("peroxide", "dibenzoyl peroxide", G(5))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "peroxide")],
            FireResponse = Agents(Agent.CarbonDioxide, Agent.DryPowder),
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.agent-forbidden");

        Assert.StartsWith("Carbon dioxide does not put out organic peroxides, nor does dry powder:", finding.Statement, StringComparison.Ordinal);
        Assert.DoesNotContain(";", finding.Statement, StringComparison.Ordinal);
    }

    private static Severity? Static(string substance, double litres, StepAction action, string kind)
    {
        var plan = new Plan
        {
            Materials = [Of("liquid", substance, ML(litres * 1000), Role.Solvent)],
            Vessels = [new Vessel { Id = "vessel", Kind = kind, VolumeM3 = litres * 2e-3 }],
            Steps = [Step("1", StepAction.Charge, "vessel", 20, "liquid"), .. action == StepAction.Charge ? Array.Empty<Step>() : [Step("2", action, "vessel")]],
            FireResponse = Agents(Agent.CarbonDioxide),
        };
        return Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "fire.static").Select(static finding => (Severity?)finding.Severity).Min();
    }

    private static IReadOnlyList<Finding> Hydrogenation(bool evacuated, double? bar, bool purged = false)
    {
        var steps = new List<Step> { Step("1", StepAction.Charge, "flask", 20, "ester") };
        if (evacuated)
        {
            steps.Add(Step("2", StepAction.Evacuate, "flask") with { PressurePaAbs = 5000 });
        }

        steps.Add(bar is { } pressure
            ? Step("3", StepAction.Pressurise, "flask") with { Gas = Substance("hydrogen"), PressurePaAbs = pressure * 1e5 }
            : Step("3", StepAction.Stir, "flask") with { Headspace = Under("hydrogen") });
        if (purged)
        {
            steps.Add(Step("4", StepAction.Purge, "flask") with { Headspace = Under("nitrogen") });
        }

        steps.Add(Step("5", StepAction.Open, "flask"));
        return Screener.Screen(
            new Plan
            {
                Materials = [Of("ester", "ethyl acetate", ML(20), Role.Solvent)],
                Vessels = [Tube(250, 50, "flask")],
                Steps = steps,
                FireResponse = Agents(Agent.CarbonDioxide),
            },
            Policy.Default).Findings;
    }
}
