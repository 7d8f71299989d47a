using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Confinement;

/// <summary>Peroxide in concentrated sulfuric acid goes on giving oxygen and has burst bottles (Prudent Practices and Bretherick's Handbook, from memory).</summary>
public sealed class PeroxideInAcidTests
{
    /// <summary>As one bottle (5 % peroxide by mass, below what counts alone) or mixed in the flask: shut in a danger, once for the same oxygen.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Screen_PutAwayClosed_IsADanger(bool oneBottle)
    {
        var findings = Screener.Screen(Stored(oneBottle ? [Piranha()] : [WeightPercent("acid", "sulfuric acid", "water", 98, ML(75)), WeightPercent("peroxide", "hydrogen peroxide", "water", 30, ML(25))]), Policy.Default).Findings;

        Assert.Equal(Severity.Danger, Assert.Single(findings, static finding => finding.Code is "gas.delayed").Severity);
    }

    /// <summary>3 % peroxide with nothing beside it stays below what counts (common practice, no source).</summary>
    [Fact]
    public void Screen_DilutePeroxideAlone_IsNone() =>
        Assert.DoesNotContain(Screener.Screen(Stored([WeightPercent("peroxide", "hydrogen peroxide", "water", 3, ML(25))]), Policy.Default).Findings, static finding => finding.Code is "gas.delayed");

    [Theory]
    [InlineData("acid waste, closed bottle", Severity.Danger)]
    // 0.24 mol of peroxide give 2.9 L, above 0.5 L: a cap screwed on by habit is enough
    [InlineData("acid waste", Severity.Danger)]
    [InlineData("acid waste, vented cap", null)]
    public void Screen_InTheWaste_IsJudgedByItsCap(string container, Severity? severity)
    {
        var plan = Stored([Piranha()]);
        plan = plan with { Steps = [plan.Steps[0]], Waste = [new WasteContainer(["piranha"], container)] };

        Assert.Equal(severity, Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "gas.delayed")?.Severity);
    }

    /// <summary>Three volumes of 98 % acid and one of 30 % peroxide, by mass (common practice).</summary>
    private static Material Piranha() => new()
    {
        Id = "piranha",
        Composition = new Composition.Mixture(
        [
            new MixturePart(Substance("sulfuric acid"), 0.816, FractionBasis.Mass), new MixturePart(Substance("hydrogen peroxide"), 0.05, FractionBasis.Mass), new MixturePart(Substance("water"), 0.134, FractionBasis.Mass),
        ]),
        Role = Role.Reagent,
        Amount = G(160),
    };

    private static Plan Stored(IReadOnlyList<Material> materials) => new()
    {
        Materials = materials,
        Vessels = [new Vessel { Id = "bottle", Kind = "screw-cap bottle", VolumeM3 = 250e-6 }],
        Steps =
        [
            Step("1", StepAction.Charge, "bottle", 20, [.. materials.Select(static material => material.Id)]), Step("2", StepAction.Seal, "bottle") with { Closure = Closure.Cap },
            Step("3", StepAction.Store, "bottle", 20),
        ],
    };
}
