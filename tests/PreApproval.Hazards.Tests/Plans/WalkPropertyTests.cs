using CsCheck;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Tests.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Plans;

/// <summary>Whatever order of steps somebody writes down: an answer, the same one again, and no substance made or lost.</summary>
public sealed class WalkPropertyTests
{
    private static readonly string[] Ids = ["ethanol", "water", "azide", "salt", "ice", "amine", "unknown", "bottle"];

    private static readonly Material[] Materials =
    [
        Of("ethanol", "ethanol", ML(20), Role.Solvent), Of("water", "water", ML(30), Role.Quench), Of("azide", "benzyl azide", Mmol(5)), Of("salt", "sodium sulfate", G(2)),
        Of("ice", "carbon dioxide", G(3)), Molar("amine", "n-butyllithium", "n-hexane", 1.6, ML(10)), Of("unknown", "compound 7", null),
        WeightPercent("bottle", "hydrogen peroxide", "water", 30, ML(5)),
    ];

    private static readonly Gen<Step> Steps =
        from action in Gen.Int[0, Enum.GetValues<StepAction>().Length - 1].Select(static index => Enum.GetValues<StepAction>()[index])
        from vessel in Pick("one", "two", "three")
        from to in Pick<string?>(null, "one", "two", "nowhere")
        from celsius in Pick<double?>(null, -196, -78, -20, 20, 60, 150, 300)
        from materials in Gen.Int[0, Ids.Length - 1].Select(static index => Ids[index]).Array[0, 3]
        from amount in Pick<Amount?>(null, new Amount.Volume(2e-6), new Amount.Mass(1e-3), new Amount.Mol(0.1))
        from closure in Pick<Closure?>(null, Closure.Cap, Closure.Septum, Closure.Balloon, Closure.Needle, Closure.Bubbler)
        from gas in Pick<Headspace?>(null, new Headspace.Air(), new Headspace.Vacuum(), Under("argon"), Under("nitrogen"))
        from source in Pick<HeatSource?>(null, HeatSource.IceBath, HeatSource.CryogenicBath, HeatSource.OilBath, HeatSource.WaterBath, HeatSource.HeatGun)
        from pressure in Pick<double?>(null, 100, 5e4, 5e5)
        from over in Pick<double?>(null, 30, 900)
        select new Step
        {
            Id = "",
            Action = action,
            Vessel = vessel,
            ToVessel = to,
            TemperatureK = celsius + 273.15,
            Closure = closure,
            Headspace = gas,
            HeatSource = source,
            PressurePaAbs = pressure,
            OverS = over,
            Materials = [.. materials.Distinct(StringComparer.Ordinal).Select(id => new MaterialUse(id, amount))],
        };

    private static readonly Gen<Plan> Plans =
        from steps in Steps.Array[1, 14]
        from reacting in Gen.Int[0, 13]
        select new Plan
        {
            Materials = Materials,
            Vessels = [Flask("one", 50), Tube(20, 10, "two"), Flask("three") with { VolumeM3 = null, Kind = "conical flask", Closure = "drying tube" }],
            Steps = [.. steps.Select(static (step, index) => step with { Id = Number(index + 1) })],
            Reactions =
            [
                Reaction(Number(reacting + 1), ["azide", "amine"], ("nitrogen", Phase.Gas), ("aniline", Phase.Liquid)) with { HeatJPerMol = -200e3 },
                Reaction(Number((reacting / 2) + 1), ["amine", "water"], ("n-butane", Phase.Gas), ("lithium hydroxide", Phase.Solid)) with { HeatJPerMol = -240e3, Accumulation = 0.3 },
            ],
            Place = new Place(null, PlaceKind.Hood, 40, null),
        };

    [Fact]
    public void any_order_of_steps_gives_a_report() => Plans.Sample(static plan => Assert.NotEmpty(Screener.Screen(plan, Policy.Default).Timeline), iter: 400);

    [Fact]
    public void charged_plus_produced_eq_kept_plus_consumed_plus_removed_plus_given_off() => Plans.Sample(
        static plan =>
        {
            foreach (var entry in Walk.Follow(plan, Policy.Default).Balance.Where(static entry => entry.Complete))
            {
                var into = entry.ChargedMol + entry.ProducedMol + entry.CountedTwiceMol;
                var outOf = entry.InVesselsMol + entry.ConsumedMol + entry.RemovedMol + entry.GivenOffMol;
                Assert.True(Math.Abs(into - outOf) <= 1e-9 * Math.Max(1e-3, into), $"{entry}");
            }
        },
        iter: 2000);

    /// <summary>The balance agrees with what the states themselves say is left.</summary>
    [Fact]
    public void balance_left_eq_sum_over_last_states() => Plans.Sample(
        static plan =>
        {
            var walk = Walk.Follow(plan, Policy.Default);
            var left = walk.States.GroupBy(static state => state.Vessel.Id, StringComparer.Ordinal).SelectMany(static vessel => vessel.Last().ContentsAfter)
                .GroupBy(static content => content.Substance.Key, StringComparer.Ordinal).ToDictionary(static group => group.Key, static group => group.Sum(static content => content.Mol ?? 0), StringComparer.Ordinal);
            foreach (var entry in walk.Balance.Where(static entry => entry.Complete))
            {
                Assert.Equal(left.GetValueOrDefault(entry.Substance.Key), entry.InVesselsMol, 1e-9);
            }
        },
        iter: 1000);

    [Fact]
    public void same_steps_eq_same_report() => Plans.Sample(
        static plan => Assert.Equal(
            Screener.Screen(plan, Policy.Default).Findings.Select(static finding => (finding.Id, finding.Severity, finding.Statement)),
            Screener.Screen(plan with { Lone = plan.Lone }, Policy.Default).Findings.Select(static finding => (finding.Id, finding.Severity, finding.Statement))),
        iter: 100);

    [Fact]
    public void clearedBy_applied_clears_in_any_order_of_steps() => Plans.Sample(
        Offers.AssertEachClears,
        iter: 150);

    [Fact]
    public void finding_ids_are_distinct_in_any_order_of_steps() => Plans.Sample(
        static plan =>
        {
            var ids = Screener.Screen(plan, Policy.Default).Findings.Select(static finding => finding.Id).ToArray();
            Assert.Equal(ids.Length, ids.Distinct(StringComparer.Ordinal).Count);
        },
        iter: 150);

    private static Gen<T> Pick<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(index => values[index]);

    private static string Number(int value) => value.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
