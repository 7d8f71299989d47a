using System.Text.Json;
using System.Text.Json.Serialization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;
using static PreApproval.Hazards.Tests.Screening.EverydayPlans;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>No member of the policy is a setting that changes nothing. Own scenarios; no outside numbers.</summary>
public sealed class PolicyEffectTests
{
    private const int Points = 20;

    private static readonly JsonSerializerOptions Json = new() { NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals };

    private static readonly Plan[] Plans =
    [
        Closed(Tube(35, 10), 110, Of("a", "ethanol", ML(20))),
        Closed(Tube(35, 10), 110, Of("a", "ethanol", ML(20))) is var blocked ? blocked with { Steps = [.. blocked.Steps.Select(static step => step with { IndependentCutOut = true })] } : blocked,
        Closed(Tube(35, 10), 80, Of("a", "ethanol", ML(28))),
        Closed(Tube(50, 10), 80, Of("a", "ethanol", ML(1))),
        Closed(Autoclave(25), 200, Of("a", "water", ML(60))),
        Closed(Autoclave(100), 250, Of("a", "water", ML(60))),
        Closed(Tube(50, null), 30, Of("a", "dichloromethane", ML(20))),
        Plan([Of("a", "sodium bicarbonate", G(5)), Molar("b", "hydrogen chloride", "water", 2, ML(30))], [Flask()],
            S("1", StepAction.Charge, 20, "a"), S("2", StepAction.Add, null, "b"), S("3", StepAction.Stir, 20) with { DurationS = 300 }, S("4", StepAction.Seal, null)),
        Open(60, Of("a", "diethyl ether", ML(20))),
        Open(40, Of("a", "ethanol", ML(10)), Of("b", "water", ML(90))),
    ];

    public static TheoryData<string> Members => [.. PolicyThreshold.All.Select(static threshold => threshold.Member)];

    [Theory]
    [MemberData(nameof(Members))]
    public void Screen_MemberMovedWithinItsRange_ChangesAReport(string member)
    {
        var threshold = PolicyThreshold.All.Single(threshold => string.Equals(threshold.Member, member, StringComparison.Ordinal));
        var allowed = Enumerable.Range(0, Points + 1)
            .Select(point => Math.Round(threshold.Lowest + ((threshold.Highest - threshold.Lowest) * point / Points), threshold.Unit is "months" ? 0 : 6))
            .Select(value => threshold.Set(Policy.Default, value))
            .Where(policy => policy != Policy.Default && PolicyRules.Faults(policy).Count == 0)
            .ToArray();

        Assert.NotEmpty(allowed);
        Assert.Contains(allowed, policy => Array.Exists(Plans, plan => !string.Equals(Told(plan, policy), Told(plan, Policy.Default), StringComparison.Ordinal)));
    }

    [Fact]
    public void Screen_ReviewFrom_DecidesWhatGoesToReview()
    {
        var plan = Open(40, Of("a", "ethanol", ML(10)), Of("b", "water", ML(90)));
        var report = Screener.Screen(plan, Policy.Default);
        Assert.DoesNotContain(report.Findings, static finding => finding.Severity <= Severity.Warning || finding.LeavesCheckUndone);
        Assert.NotEmpty(report.Findings);

        Assert.Equal(Verdict.Clear, report.Verdict);
        Assert.Equal(Verdict.Review, Screener.Screen(plan, Policy.Default with { ReviewFrom = Severity.Notice }).Verdict);
    }

    /// <summary>BG RCI on TRGS 721 gives the defaults; dimethylformamide flashes at 58 °C, so at 35 °C it is 23 K below.</summary>
    [Theory]
    [InlineData(5, false)]
    [InlineData(30, true)]
    public void Screen_OpenLiquid_IsJudgedByTheMarginOfTheGroup(double marginK, bool found)
    {
        var plan = Open(35, Of("a", "N,N-dimethylformamide", ML(50)));
        var policy = Policy.Default with { FlashMarginK = marginK, FlashMarginMixtureK = Math.Max(marginK, 15) };

        var finding = Screener.Screen(plan, policy).Findings.SingleOrDefault(static finding => finding.Code is "fire.heated-openly");

        Assert.Equal(found, finding is not null);
        if (finding is not null)
        {
            Assert.Contains("within 30 K", finding.Statement, StringComparison.Ordinal);
            Assert.Contains(finding.Evidence, static line => line.Limit == 30 && line.Sources[0].StartsWith("set by the group", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Screen_OpenMixture_IsJudgedByTheMarginOfTheGroup()
    {
        var plan = Open(40, Of("a", "ethanol", ML(10)), Of("b", "water", ML(90)));
        double At(double marginK) => Screener.Screen(plan, Policy.Default with { FlashMarginMixtureK = marginK }).Findings
            .Single(static finding => finding.Code is "fire.heated-openly").Evidence.Single(static line => line.Name is "distance below the flash point of the liquids together").Limit!.Value;

        Assert.Equal(15, At(15));
        Assert.Equal(25, At(25));
    }

    private static string Told(Plan plan, Policy policy) => JsonSerializer.Serialize(Screener.Screen(plan, policy).Findings, Json);

    private static Plan Closed(Vessel vessel, double celsius, params Material[] materials) => Plan(
        materials,
        [vessel with { Id = "flask", RatingEvidence = "engraved", InspectedOn = new DateOnly(2030, 1, 7) }],
        S("1", StepAction.Charge, 20, Ids(materials)),
        S("2", StepAction.Seal, null),
        S("3", celsius > 30 ? StepAction.Heat : StepAction.Store, celsius) with { DurationS = 3600, HeatSource = celsius > 30 ? HeatSource.MetalBlock : null });

    private static Plan Open(double celsius, params Material[] materials) => Plan(
        materials, [Flask()], S("1", StepAction.Charge, 20, Ids(materials)), S("2", StepAction.Heat, celsius) with { HeatSource = HeatSource.OilBath, SurfaceTemperatureK = celsius + 293.15 });

    private static Vessel Autoclave(double barGauge) => new() { Id = "flask", Kind = "steel autoclave", VolumeM3 = 100e-6, RatingPaGauge = barGauge * 1e5 };

    private static string[] Ids(IEnumerable<Material> materials) => [.. materials.Select(static material => material.Id)];
}
