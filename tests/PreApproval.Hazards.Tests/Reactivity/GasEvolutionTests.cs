using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

public sealed class GasEvolutionTests
{
    /// <summary>2 g of sodium borohydride (37.83 g/mol) in methanol: 0.211 mol of hydrogen; 73 bar in the 70 mL left (ideal gas law).</summary>
    [Fact]
    public void Screen_SmallDeclaredGasOfOthers_HidesNothing()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium borohydride", G(2)), Of("methanol", "methanol", ML(30)), Of("acetone", "acetone", Mmol(0.01))],
            Vessels = [new Vessel { Id = "bottle", Kind = "bottle", VolumeM3 = 100e-6, RatingPaGauge = 5e5 }],
            Steps = [Step("1", StepAction.Charge, "bottle", null, "hydride", "methanol", "acetone"), Step("2", StepAction.Seal, "bottle"), Step("3", StepAction.Stir, "bottle")],
            Reactions = [Reaction("2", ["acetone"], ("nitrogen", Phase.Gas))],
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.exceeds-rating");

        Assert.InRange(finding.Evidence.First(static evidence => evidence.Name is "worst-case pressure").Value, 65, 80);
    }

    /// <summary>Gas declared of the same partners counts once: 23.8 mmol of carbon dioxide from 2 g of sodium hydrogencarbonate (84.01 g/mol), 8.3 bar in 70 mL.</summary>
    [Fact]
    public void Screen_GasDeclaredOfTheSamePartners_CountsOnce()
    {
        var plan = Neutralisation("charge carbonate", "seal", "add acid") with { Reactions = [Reaction("3", ["carbonate"], ("carbon dioxide", Phase.Gas))] };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.exceeds-rating");

        Assert.InRange(finding.Evidence.First(static evidence => evidence.Name is "worst-case pressure").Value, 8, 9.5);
    }

    [Fact]
    public void Screen_AcidAddedToTheClosedVessel_CountsTheGas()
    {
        var findings = Screener.Screen(Neutralisation("charge carbonate", "seal", "add acid"), Policy.Default).Findings;

        Assert.Contains(findings, static finding => finding is { Code: "pressure.exceeds-rating", Severity: Severity.Danger });
    }

    /// <summary>What foamed away in the open is not shut in; whether it has stopped is for the plan to say.</summary>
    [Fact]
    public void Screen_MixedInTheOpenThenClosed_AsksWhetherTheGasHasStopped()
    {
        var findings = Screener.Screen(Neutralisation("charge carbonate", "add acid", "seal", "store"), Policy.Default).Findings;

        Assert.DoesNotContain(findings, static finding => finding.Code is "pressure.exceeds-rating");
        Assert.Equal(Severity.Warning, Assert.Single(findings, static finding => finding.Code is "gas.closed-while-gassing").Severity);
    }

    /// <summary>
    /// 50 mmol of carbon dioxide in 100 mL at 20 °C: 0.05·8.314·293.15/1·10⁻⁴ Pa = 12.2 bar by hand. A tenth of it is twice the 0.5 bar of an unrated flask, and nothing was given time to leave;
    /// up to two minutes the liquid is still full of it, five make it a question (common practice, no source).
    /// </summary>
    [Theory]
    [InlineData(null, Severity.Danger)]
    [InlineData(10.0, Severity.Danger)]
    [InlineData(60.0, Severity.Danger)]
    [InlineData(300.0, Severity.Warning)]
    public void Screen_ClosedAtOnceOverMoreThanTheFlaskStands_IsDangerAndNamedAtOpening(double? seconds, Severity expected)
    {
        var plan = Neutralisation("charge carbonate", "add acid", "seal", "store", "open") with
        {
            Materials = [Of("carbonate", "sodium bicarbonate", Mmol(60)), Of("acid", "acetic acid", Mmol(50))],
            Vessels = [new Vessel { Id = "bottle", Kind = "round-bottom flask", VolumeM3 = 100e-6 }],
        };
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1] with { OverS = seconds }, .. plan.Steps.Skip(2)] };

        var findings = Screener.Screen(plan, Policy.Default).Findings;

        Assert.Equal(expected, Assert.Single(findings, static finding => finding.Code is "gas.closed-while-gassing").Severity);
        var opened = Assert.Single(findings, static finding => finding.Code is "gas.opened-after-gassing");
        Assert.Equal(Severity.Warning, opened.Severity);
        Assert.Equal(12.2, opened.Evidence[0].Value, 0.1);
    }

    [Fact]
    public void Screen_MixedInTheOpenAndStirredUntilItStops_IsQuiet()
    {
        var findings = Screener.Screen(Neutralisation("charge carbonate", "add acid", "stir", "seal", "store"), Policy.Default).Findings;

        // that it foamed in the open is named; nothing is said of the closed vessel
        Assert.DoesNotContain(findings, static finding => finding.Hazard is Hazard.Pressure || (finding.Hazard is Hazard.Gas && finding.Code is not "gas.evolved"));
    }

    /// <summary>Borohydride in methanol gives hydrogen for hours: what met in the open still gasses when closed.</summary>
    [Fact]
    public void Screen_SlowGasMixedInTheOpenThenClosed_StillCounts()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium borohydride", G(2)), Of("methanol", "methanol", ML(30))],
            Vessels = [new Vessel { Id = "bottle", Kind = "bottle", VolumeM3 = 100e-6, RatingPaGauge = 5e5 }],
            Steps = [Step("1", StepAction.Charge, "bottle", null, "hydride", "methanol"), Step("2", StepAction.Stir, "bottle") with { DurationS = 900 }, Step("3", StepAction.Seal, "bottle")],
        };

        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding is { Code: "pressure.exceeds-rating", Severity: Severity.Danger });
    }

    private static Plan Neutralisation(params string[] acts) => new()
    {
        Materials = [Of("carbonate", "sodium bicarbonate", G(2)), Molar("acid", "hydrogen chloride", "water", 2, ML(30), Role.Quench)],
        Vessels = [new Vessel { Id = "bottle", Kind = "bottle", VolumeM3 = 100e-6, RatingPaGauge = 5e5 }],
        Steps = [.. acts.Select(static (act, index) => (act.Split(' ') is [_, var material] ? Step(Id(index), Action(act), "bottle", null, material) : Step(Id(index), Action(act), "bottle")) with { DurationS = act is "stir" ? 900 : null })],
    };

    private static string Id(int index) => (index + 1).ToString(System.Globalization.CultureInfo.InvariantCulture);

    private static StepAction Action(string act) => Enum.Parse<StepAction>(act.Split(' ')[0], ignoreCase: true);
}
