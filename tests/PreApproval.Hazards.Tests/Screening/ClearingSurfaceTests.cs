using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>The rule is the project's own: a set temperature goes down together with the stated surface, by the same difference.</summary>
public sealed class ClearingSurfaceTests
{
    /// <summary>The surface stands 10 K above the contents, so it stays 10 K above what is offered.</summary>
    [Fact]
    public void ClearedBy_SetTemperatureWithAStatedSurface_NamesTheSurfaceToo()
    {
        var offer = Assert.Single(Overfilled(170).SelectMany(static finding => finding.ClearedBy).Where(static offer => offer.Path is "/steps/2/temperature").Distinct());

        Assert.Equal("/steps/2/surfaceTemperature", offer.With!.Path);
        Assert.Equal(offer.Value!.Value + 10, offer.With.Celsius);
    }

    [Fact]
    public void ClearedBy_SetTemperatureWithoutASurface_NamesNone() =>
        Assert.All(Overfilled(null).SelectMany(static finding => finding.ClearedBy), static offer => Assert.Null(offer.With));

    /// <summary>A document states at most 10 000 bar absolute (docs/document.md). 0.5 mol of argon in 1 mL is 0.5·8.314·293/10⁻⁶ Pa = 12 180 bar by hand, were it ideal.</summary>
    [Fact]
    public void ClearedBy_RatingThatNoDocumentMayState_IsNotOffered()
    {
        var plan = new Plan
        {
            Materials = [Of("gas", "argon", Mmol(500), Role.Gas)],
            Vessels = [new Vessel { Id = "cylinder", Kind = "gas cylinder", VolumeM3 = 1e-6 }],
            Steps = [Step("1", StepAction.Charge, "cylinder", 20, "gas"), Step("2", StepAction.Seal, "cylinder")],
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.unknown-rating");
        Assert.DoesNotContain(finding.ClearedBy, static offer => offer.Path.EndsWith("/rating", StringComparison.Ordinal));
    }

    private static IEnumerable<Finding> Overfilled(double? surfaceC) => Screener.Screen(
        new Plan
        {
            Materials = [Of("toluene", "toluene", ML(28), Role.Solvent)],
            Vessels = [Tube(30, 10, maximumC: 200)],
            Steps =
            [
                Step("1", StepAction.Charge, "tube", 20, "toluene"),
                Step("2", StepAction.Seal, "tube") with { Closure = Closure.Plug },
                Step("3", StepAction.Heat, "tube", 160) with { HeatSource = HeatSource.OilBath, IndependentCutOut = true, SurfaceTemperatureK = surfaceC + 273.15 },
            ],
        },
        Policy.Default).Findings;
}
