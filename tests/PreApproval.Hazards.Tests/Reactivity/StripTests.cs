using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>The strip of a step tells every pair that newly meets there, once, as hazard, none known or not assessed.</summary>
public sealed class StripTests
{
    private static readonly Plan Quench = new()
    {
        Materials = [Of("hydride", "sodium hydride", Mmol(20)), Of("thf", "tetrahydrofuran", ML(20), Role.Solvent), Of("water", "water", ML(10), Role.Quench), Of("hexane", "n-hexane", ML(5), Role.Solvent)],
        Vessels = [Flask()],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 20, "hydride", "thf") with { Headspace = Under("nitrogen") },
            Step("2", StepAction.Stir, "flask", 20),
            Step("3", StepAction.Quench, "flask", 0, "water") with { OverS = 900 },
            Step("4", StepAction.Add, "flask", 20, "hexane"),
        ],
        Waste = [new WasteContainer(["thf", "hexane"], "solvents")],
        FireResponse = Agents(Agent.Water, Agent.DrySand),
    };

    [Fact]
    public void Screen_StepThatBringsNothingNew_HasNoStrip() =>
        Assert.DoesNotContain(Strips(Quench), static strip => strip.Step is "2");

    [Fact]
    public void Screen_Quench_TellsTheHazardByItsFindingAndTheRestAsNoneKnown()
    {
        var report = Screener.Screen(Quench, Policy.Default);
        var strip = Assert.Single(report.Encounters, static strip => strip is { Place: StripPlace.Vessel, Step: "3" });

        Assert.Equal("incompatibility.saline-hydride-with-water", Assert.Single(report.Findings, finding => string.Equals(finding.Id, strip.Findings[0], StringComparison.Ordinal)).Code);
        Assert.Contains(Pairs(strip), static pair => pair is { A: "tetrahydrofuran", B: "water" });
        Assert.DoesNotContain(Pairs(strip), static pair => pair is { A: "sodium hydride", B: "water" });
    }

    [Fact]
    public void Screen_FirstStep_TellsTheGasOverIt() =>
        Assert.Contains(Pairs(Strips(Quench).First(static strip => strip.Step is "1")), static pair => pair is { A: "tetrahydrofuran", B: "nitrogen" });

    [Fact]
    public void Screen_OpenFlask_MeetsAir()
    {
        var plan = Quench with { Steps = [Step("1", StepAction.Charge, "flask", 20, "thf")], Waste = [], FireResponse = null };

        Assert.Equal(new StripPair("tetrahydrofuran", "air"), Assert.Single(Pairs(Assert.Single(Strips(plan)))));
    }

    [Fact]
    public void Screen_Waste_TellsItsPairs() =>
        Assert.Equal(new StripPair("tetrahydrofuran", "n-hexane"), Assert.Single(Pairs(Assert.Single(Strips(Quench), static strip => strip.Place == StripPlace.Waste))));

    [Fact]
    public void Screen_AcetoneIntoPeroxideWaste_TellsTheFinding()
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("peroxide", "hydrogen peroxide", "water", 30, ML(50)), Of("acetone", "acetone", ML(50))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "peroxide")],
            Waste = [new WasteContainer(["peroxide", "acetone"], "aqueous")],
        };
        var report = Screener.Screen(plan, Policy.Default);

        Assert.Contains("incompatibility.peroxide-with-ketone", string.Join(' ', Assert.Single(report.Encounters, static strip => strip.Place == StripPlace.Waste).Findings), StringComparison.Ordinal);
    }

    /// <summary>Water on a hydride makes hydrogen; dry sand is not said to be without hazard, only not banned.</summary>
    [Fact]
    public void Screen_WaterAsAgent_TellsWhatItDoesToTheHydride()
    {
        var strip = Assert.Single(Strips(Quench), static strip => strip is { Place: StripPlace.Agent, Where: "water" });

        Assert.Contains(strip.Hazards, static hazard => hazard.Severity == Severity.Danger && hazard.Statement.StartsWith("Sodium hydride under water", StringComparison.Ordinal));
        Assert.DoesNotContain(Strips(Quench), static strip => strip is { Place: StripPlace.Agent, Where: "dry sand" });
    }

    [Fact]
    public void Screen_UnknownSubstance_IsNotAssessedWithEveryPartner()
    {
        var plan = Quench with { Materials = [.. Quench.Materials, Of("powder", "powder from the shelf", G(1))], Steps = [Step("1", StepAction.Charge, "flask", 20, "thf", "powder")], Waste = [], FireResponse = null };

        Assert.Equal(["tetrahydrofuran", "powder from the shelf"], Assert.Single(Strips(plan)).NotAssessed.Select(static pair => pair.A), StringComparer.Ordinal);
    }

    /// <summary>A row that did not fire is no reason to say that two keep in one bottle: the methoxide and the methanol must come from one material (sold so: 25 % in methanol, reagent catalogues, from memory).</summary>
    [Theory]
    [InlineData("solution", "solution", true)]
    [InlineData("solid", "solvent", false)]
    public void Add_RowThatDidNotFire_IsOneBottleOnlyWithinOneMaterial(string first, string second, bool keeps)
    {
        Content[] here = [new Content(Substance("sodium methoxide"), first, 0.01, null), new Content(Substance("methanol"), second, 0.1, null)];
        var pairs = new StripPairs();
        pairs.Add(Partner(here[0]), Partner(here[1]), isTold: false, here);

        Assert.Equal(keeps ? 1 : 0, pairs.NoneKnown().Count);
        Assert.Equal(keeps ? 0 : 1, pairs.NotAssessed().Count);

        static PairPartner Partner(Content content) => new(content.Substance.Name, FamilyTable.Default.Of(content.Substance, null));
    }

    /// <summary>Every pair of contents is told exactly once, in whatever order the materials stand.</summary>
    [Fact]
    public void Screen_EveryPair_IsToldOnce()
    {
        string[] names = ["toluene", "water", "ethanol", "acetic acid", "triethylamine", "benzyl bromide"];
        foreach (var order in new[] { names, [.. names.Reverse()] })
        {
            var plan = new Plan
            {
                Materials = [.. order.Select(static name => Of(name, name, Mmol(10)))],
                Vessels = [Flask()],
                Steps = [Step("1", StepAction.Charge, "flask", 20, [.. order.Take(3)]), Step("2", StepAction.Add, "flask", 20, [.. order.Skip(3)])],
            };
            var report = Screener.Screen(plan, Policy.Default);
            var quiet = report.Encounters.SelectMany(static strip => Pairs(strip).Concat(strip.NotAssessed)).Select(static pair => string.Join('+', new[] { pair.A, pair.B }.Order(StringComparer.Ordinal))).ToArray();

            Assert.Equal(quiet.Distinct(StringComparer.Ordinal), quiet, StringComparer.Ordinal);
            // amine and acid, amine and bromide react; all other pairs of six, and each with air, are told
            Assert.Equal(15 - 2 + 6, quiet.Length);
        }
    }

    private static IReadOnlyList<Strip> Strips(Plan plan) => Screener.Screen(plan, Policy.Default).Encounters;

    private static IEnumerable<StripPair> Pairs(Strip strip) => strip.NoneKnown.SelectMany(static group => group.Pairs);
}
