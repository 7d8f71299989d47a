using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;
using static PreApproval.Hazards.Tests.Screening.EverydayPlans;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>
/// What has killed or maimed, told in every safety course: the right code at the right step, at least as grave as said.
/// Own scenarios; no outside numbers.
/// </summary>
public sealed class DeadlyTests
{
    public static TheoryData<string, string, Severity, string> Cases => new()
    {
        { "azide extracted with dichloromethane", "incompatibility.azide-with-chlorinated-solvent", Severity.Danger, "2" },
        { "azide sold in dichloromethane", "incompatibility.azide-with-chlorinated-solvent", Severity.Danger, "1" },
        { "acetone in acidic peroxide", "incompatibility.peroxide-with-ketone-and-acid", Severity.Danger, "2" },
        { "bleach and hydrochloric acid by name", "incompatibility.acid-with-hypochlorite", Severity.Danger, "2" },
        { "cyanide and acid", "incompatibility.acid-with-cyanide", Severity.Danger, "2" },
        { "cyanide quenched with ammonium chloride", "incompatibility.ammonium-salt-with-cyanide", Severity.Danger, "2" },
        { "sulfide and acid", "incompatibility.acid-with-sulfide", Severity.Danger, "2" },
        { "hydride in warm dimethylformamide, closed", "incompatibility.saline-hydride-with-dipolar-amide-warm", Severity.Danger, "3" },
        { "hydride in dimethylformamide, closed overnight", "incompatibility.saline-hydride-with-dipolar-amide", Severity.Danger, "1" },
        { "lithium aluminium hydride and water at once", "incompatibility.aluminium-hydride-with-water", Severity.Danger, "2" },
        { "zinc and hydrochloric acid, closed", "incompatibility.metal-with-acid", Severity.Danger, "2" },
        { "aqua regia, capped", "incompatibility.nitric-acid-with-hydrochloric-acid", Severity.Danger, "3" },
        { "peroxide and manganese dioxide, capped", "incompatibility.peroxide-with-catalyst", Severity.Danger, "2" },
        { "formic acid and sulfuric acid", "incompatibility.strong-acid-with-formic-acid", Severity.Danger, "2" },
        { "nitric acid and ethanol", "incompatibility.nitric-acid-with-alcohol", Severity.Danger, "2" },
        { "nitric acid and dichloromethane", "incompatibility.nitric-acid-with-chlorinated-solvent", Severity.Danger, "2" },
        { "sulfuric acid, peroxide and organic matter", "incompatibility.strong-acid-with-peroxide", Severity.Danger, "2" },
        { "sodium and dichloromethane", "incompatibility.alkali-metal-with-chlorinated-solvent", Severity.Danger, "1" },
        { "tert-butyllithium in air", "incompatibility.organolithium-in-air", Severity.Danger, "1" },
        { "chloroform, acetone and hydroxide", "incompatibility.ketone-with-haloform-and-base", Severity.Danger, "2" },
        { "phosphoryl chloride and sulfoxide", "incompatibility.acyl-halide-with-sulfoxide", Severity.Danger, "2" },
        { "perchloric acid and ethanol evaporated", "energetic.perchloric-acid-concentrated", Severity.Danger, "3" },
        { "silyl azide in methanol", "incompatibility.silyl-azide-with-alcohol", Severity.Danger, "1" },
        { "hydrazine and perchlorate", "incompatibility.hydrazine-with-perchlorate", Severity.Danger, "1" },
        { "picric acid ground", "energetic.explosive-ground", Severity.Danger, "2" },
        { "picric acid dried in an oven", "energetic.explosive-dried", Severity.Danger, "2" },
        { "diazomethane distilled", "energetic.diazomethane-concentrated", Severity.Danger, "2" },
        { "azide residue evaporated", "energetic.organic-azide-concentrated", Severity.Danger, "2" },
        { "ketone peroxide heated", "energetic.organic-peroxide-heated", Severity.Warning, "2" },
        { "initiator heated, closed", "energetic.azo-initiator-heated", Severity.Warning, "3" },
        { "hydrogen over catalyst in air", "incompatibility.hydrogen-over-catalyst-in-air", Severity.Danger, "2" },
        { "acetylene at three bar", "energetic.acetylene-under-pressure", Severity.Danger, "2" },
        { "carbon disulfide on a hotplate, closed", "fire.hot-surface", Severity.Danger, "3" },
        { "substance nobody knows", "data.unknown-substance", Severity.Caution, "1" },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Screen_DeadlyProcedure_GivesTheCodeAtTheStepAndGoesToReview(string name, string code, Severity atLeast, string step)
    {
        var report = Screener.Screen(Scene(name), Policy.Default);

        Assert.Contains(report.Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal) && finding.Severity <= atLeast && finding.Steps.Contains(step, StringComparer.Ordinal));
        Assert.Equal(Verdict.Review, report.Verdict);
    }

    /// <summary>Where a closed vessel makes gas nobody declared, the pressure says so too.</summary>
    [Theory]
    [InlineData("zinc and hydrochloric acid, closed", "hydrogen")]
    [InlineData("aqua regia, capped", "chlorine")]
    [InlineData("peroxide and manganese dioxide, capped", "oxygen")]
    [InlineData("initiator heated, closed", "nitrogen")]
    public void Screen_GasInAClosedVessel_IsCountedInThePressure(string name, string gas) =>
        Assert.Contains(Screener.Screen(Scene(name), Policy.Default).Findings, finding => finding is { Hazard: Hazard.Pressure, Severity: Severity.Danger } && finding.Statement.Contains(gas, StringComparison.Ordinal));

    private static Plan Scene(string name) => name switch
    {
        "azide extracted with dichloromethane" => Two(Of("a", "sodium azide", G(3)), Of("b", "dichloromethane", ML(60)), StepAction.Extract),
        "azide sold in dichloromethane" => One(Molar("a", "sodium azide", "dichloromethane", 0.5, ML(10))),
        "acetone in acidic peroxide" => Plan(
            [WeightPercent("p", "hydrogen peroxide", "water", 5, ML(30)), Of("k", "acetone", ML(30)), WeightPercent("s", "sulfuric acid", "water", 5, ML(10))], [Flask()], S("1", StepAction.Charge, 20, "p", "k"), S("2", StepAction.Add, null, "s")),
        "bleach and hydrochloric acid by name" => Two(Of("a", "bleach", ML(50)), Of("b", "hydrochloric acid", ML(20))),
        "cyanide and acid" => Two(Of("a", "potassium cyanide", G(1)), Molar("b", "hydrogen chloride", "water", 1, ML(20))),
        "cyanide quenched with ammonium chloride" => Two(Of("a", "sodium cyanide", G(1)), WeightPercent("b", "ammonium chloride", "water", 20, ML(20)), StepAction.Quench),
        "sulfide and acid" => Two(Of("a", "sodium sulfide", G(4)), WeightPercent("b", "hydrogen chloride", "water", 10, ML(20))),
        "hydride in warm dimethylformamide, closed" => Closed(Tube(50, 10, "flask"), 70, Of("a", "sodium hydride", G(2)), Of("b", "N,N-dimethylformamide", ML(20))),
        "hydride in dimethylformamide, closed overnight" => Closed(Flask(), 20, Of("a", "sodium hydride", G(2)), Of("b", "N,N-dimethylformamide", ML(20))),
        "lithium aluminium hydride and water at once" => Two(Of("a", "lithium aluminium hydride", G(2)), Of("b", "water", ML(20)), StepAction.Quench),
        "zinc and hydrochloric acid, closed" => Closed(Tube(100, 2, "flask"), 20, Of("a", "zinc", G(5)), WeightPercent("b", "hydrogen chloride", "water", 20, ML(40))),
        "aqua regia, capped" => Plan(
            [WeightPercent("h", "hydrogen chloride", "water", 37, ML(60)), WeightPercent("n", "nitric acid", "water", 68, ML(20))], [Tube(250, 2, "flask")], S("1", StepAction.Charge, 20, "h"), S("2", StepAction.Add, null, "n"), S("3", StepAction.Seal, null)),
        "peroxide and manganese dioxide, capped" => Closed(Tube(100, 2, "flask"), 20, WeightPercent("a", "hydrogen peroxide", "water", 30, ML(20)), Of("b", "manganese dioxide", G(0.5))),
        "formic acid and sulfuric acid" => Two(Of("a", "formic acid", ML(10)), Of("b", "sulfuric acid", ML(10))),
        "nitric acid and ethanol" => Two(WeightPercent("a", "nitric acid", "water", 68, ML(20)), Of("b", "ethanol", ML(20))),
        "nitric acid and dichloromethane" => Two(WeightPercent("a", "nitric acid", "water", 90, ML(20)), Of("b", "dichloromethane", ML(20))),
        "sulfuric acid, peroxide and organic matter" => Two(Of("a", "sulfuric acid", ML(30)), WeightPercent("b", "hydrogen peroxide", "water", 30, ML(10))),
        "sodium and dichloromethane" => One(Of("a", "sodium", G(1)), Of("b", "dichloromethane", ML(20))),
        "tert-butyllithium in air" => Plan([Molar("a", "tert-butyllithium", "n-pentane", 1.7, ML(10))], [Flask()], S("1", StepAction.Charge, 20, "a")),
        "chloroform, acetone and hydroxide" => Plan([Of("c", "chloroform", ML(40)), Of("k", "acetone", ML(5)), Of("h", "potassium hydroxide", G(5))], [Flask()], S("1", StepAction.Charge, 20, "c", "k"), S("2", StepAction.Add, null, "h")),
        "phosphoryl chloride and sulfoxide" => Two(Of("a", "dimethyl sulfoxide", ML(20)), Of("b", "phosphoryl chloride", ML(5))),
        "perchloric acid and ethanol evaporated" => Plan([WeightPercent("a", "perchloric acid", "water", 70, ML(20)), Of("b", "ethanol", ML(2))], [Flask()], S("1", StepAction.Charge, 20, "b"), S("2", StepAction.Add, null, "a"), S("3", StepAction.Concentrate, 60)),
        "silyl azide in methanol" => One(Of("a", "azidotrimethylsilane", ML(5)), Of("b", "methanol", ML(20))),
        "hydrazine and perchlorate" => One(Of("a", "hydrazine hydrate", ML(3)), Of("b", "sodium perchlorate", G(3))),
        "picric acid ground" => Then(StepAction.Grind, 20, Of("a", "picric acid", G(5))),
        "picric acid dried in an oven" => Then(StepAction.Dry, 90, Of("a", "picric acid", G(5))),
        "diazomethane distilled" => Then(StepAction.Distil, 40, Molar("a", "diazomethane", "diethyl ether", 0.4, ML(20))),
        "azide residue evaporated" => Then(StepAction.Concentrate, 50, Of("a", "phenyl azide", G(10)), Of("b", "ethyl acetate", ML(20))),
        "ketone peroxide heated" => Then(StepAction.Heat, 80, Of("a", "2-butanone peroxide", G(5))),
        "initiator heated, closed" => Closed(Tube(30, 10, "flask"), 80, Of("a", "azobisisobutyronitrile", G(1)), Of("b", "toluene", ML(10))),
        "hydrogen over catalyst in air" => Gas("hydrogen", 5, Of("a", "palladium", G(0.2)), Of("b", "ethanol", ML(20))),
        "acetylene at three bar" => Gas("acetylene", 3, Of("a", "1,4-dioxane", ML(20))),
        "carbon disulfide on a hotplate, closed" => Plan([Of("a", "carbon disulfide", ML(10))], [Tube(20, null, "flask")], S("1", StepAction.Charge, 20, "a"), S("2", StepAction.Seal, null), S("3", StepAction.Heat, 80) with { HeatSource = HeatSource.Hotplate }),
        "substance nobody knows" => One(Of("a", "compound 12 of the old box", G(1))),
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, "no such scene"),
    };

    private static Plan One(params Material[] materials) =>
        Plan(materials, [Flask()], S("1", StepAction.Charge, 20, Ids(materials)) with { Headspace = Under("nitrogen") });

    private static Plan Two(Material first, Material second, StepAction action = StepAction.Add) =>
        Plan([first, second], [Flask()], S("1", StepAction.Charge, 20, first.Id) with { Headspace = Under("nitrogen") }, S("2", action, null, second.Id));

    private static Plan Then(StepAction action, double celsius, params Material[] materials) =>
        Plan(materials, [Flask()], S("1", StepAction.Charge, 20, Ids(materials)) with { Headspace = Under("nitrogen") }, S("2", action, celsius));

    private static Plan Closed(Vessel vessel, double celsius, params Material[] materials) => Plan(
        materials, [vessel], S("1", StepAction.Charge, 20, Ids(materials)) with { Headspace = Under("nitrogen") }, S("2", StepAction.Seal, null), S("3", celsius > 30 ? StepAction.Heat : StepAction.Store, celsius) with { DurationS = 43_200 });

    private static Plan Gas(string gas, double barGauge, params Material[] materials) => Plan(
        materials, [new Vessel { Id = "flask", Kind = "steel autoclave", VolumeM3 = 100e-6, RatingPaGauge = 50e5 }], S("1", StepAction.Charge, 20, Ids(materials)),
        S("2", StepAction.Pressurise, 20) with { Gas = Substance(gas), PressurePaAbs = 101_325 + (barGauge * 1e5) });

    private static string[] Ids(IEnumerable<Material> materials) => [.. materials.Select(static material => material.Id)];
}
