using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Exposure;

/// <summary>Gases over their solutions in water, open on the bench: partial pressures of Perry's Handbook (hydrogen chloride, ammonia) and Brosheer 1947 (hydrogen fluoride), from memory.</summary>
public sealed class DissolvedGasTests
{
    /// <summary>
    /// 37 % hydrochloric acid at 20 °C, about 20 kPa: 0.0083 (18/36.46)^(1/3) = 6.56e-3 m/s times 4.5e-4 m² times 20 kPa/(R T) = 24.2e-6 mol/s = 0.58 mL/s, 22 ppm on the bench. Limits on file: ceilings of 2 and 5 ppm, dangerous at 50 ppm.
    /// </summary>
    [Fact]
    public void Screen_HydrochloricAcidOpenOnTheBench_IsAboveItsCeiling()
    {
        var finding = Assert.Single(Findings(Open(PlaceKind.Bench, 20, WeightPercent("acid", "hydrogen chloride", "water", 37, ML(50)))), static finding => finding.Code is "toxicity.airborne");

        Assert.Equal(22, finding.Evidence[0].Value, 3.0);
        Assert.Equal(Severity.Warning, finding.Severity);
    }

    /// <summary>Hot, or of ammonia at 25 %: above what is dangerous at once (50, 30 and 300 ppm).</summary>
    [Theory]
    [InlineData("hydrogen chloride", 37, 60)]
    [InlineData("hydrogen fluoride", 48, 90)]
    [InlineData("ammonia", 25, 60)]
    public void Screen_WarmedOnTheBench_IsADanger(string gas, double percent, double celsius)
    {
        var plan = Open(PlaceKind.Bench, celsius, WeightPercent("gas", gas, "water", percent, ML(200)));
        plan = plan with { Vessels = [plan.Vessels[0] with { Kind = "beaker" }] };

        Assert.Equal(Severity.Danger, Assert.Single(Findings(plan), static finding => finding.Code is "toxicity.airborne").Severity);
    }

    [Fact]
    public void Screen_HydrochloricAcidInAHood_IsNone() =>
        Assert.DoesNotContain(Findings(Open(PlaceKind.Hood, 20, WeightPercent("acid", "hydrogen chloride", "water", 37, ML(50)))), static finding => finding.Code is "toxicity.airborne");

    /// <summary>1 mol/L gives off hardly any: 4 % at 20 °C below 0.1 mmHg (Perry, from memory).</summary>
    [Fact]
    public void Screen_DiluteAcid_IsNone() =>
        Assert.DoesNotContain(Findings(Open(PlaceKind.Bench, 20, Molar("acid", "hydrogen chloride", "water", 1, ML(50)))), static finding => finding.Code is "toxicity.airborne");

    /// <summary>0.6 mol of acid beside 1 mol of sodium hydroxide: neutralised, nothing comes off (textbook acid and base).</summary>
    [Fact]
    public void Screen_AcidThatTheBaseBinds_IsNone() =>
        Assert.DoesNotContain(
            Findings(Open(PlaceKind.Bench, 20, WeightPercent("acid", "hydrogen chloride", "water", 37, ML(50)), WeightPercent("base", "sodium hydroxide", "water", 30, G(133)))),
            static finding => finding.Code is "toxicity.airborne");

    /// <summary>What is held against its limit is no gap.</summary>
    [Fact]
    public void Screen_HeldAgainstItsLimit_IsNoGap() =>
        Assert.DoesNotContain(Findings(Open(PlaceKind.Bench, 20, WeightPercent("acid", "hydrogen chloride", "water", 37, ML(50)))), static finding => finding.Code is "data.airborne-not-checked");

    private static IReadOnlyList<Finding> Findings(Plan plan) => Screener.Screen(plan, Policy.Default).Findings;

    private static Plan Open(PlaceKind place, double celsius, params Material[] materials) => new()
    {
        Materials = materials,
        Vessels = [Flask("flask", 500)],
        Steps = [Step("1", StepAction.Charge, "flask", celsius, [.. materials.Select(static material => material.Id)]) with { DurationS = 3600 }],
        Place = new Place("place", place, null, null),
    };
}
