using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

public sealed class FireScreenTests
{
    /// <summary>TRGS 723, 5.2.3: 80 % of the autoignition temperature in °C; hexane 225, carbon disulfide 90, diethyl ether 160 (lower of IEC 60079-20-1 and NFPA 497).</summary>
    [Theory]
    [InlineData("n-hexane", 180)]
    [InlineData("carbon disulfide", 72)]
    [InlineData("diethyl ether", 128)]
    public void LimitK_LowestPublishedAutoignition_Is80Percent(string substance, double limitC)
    {
        var autoignition = Substance(substance).Known!.AutoignitionK!.Governing.Value;

        Assert.Equal(limitC, HotSurface.LimitK(autoignition, 0.8) - 273.15, 0.05);
    }

    [Theory]
    [InlineData("n-hexane", 200)]
    [InlineData("carbon disulfide", 200)]
    [InlineData("diethyl ether", 200)]
    [InlineData("carbon disulfide", 85)]
    [InlineData("carbon disulfide", 73)]
    public void Screen_SurfaceAboveTheLimit_IsFlagged(string substance, double surfaceC)
    {
        Assert.True(Assert.Single(Findings(substance, 30, surfaceC), static finding => finding.Code is "fire.hot-surface").Severity <= Severity.Warning);
    }

    [Theory]
    [InlineData("carbon disulfide", 71)]
    [InlineData("n-hexane", 179)]
    [InlineData("toluene", 200)]
    public void Screen_SurfaceBelowTheLimit_IsNotFlagged(string substance, double surfaceC)
    {
        Assert.DoesNotContain(Findings(substance, 30, surfaceC), static finding => finding.Code is "fire.hot-surface");
    }

    /// <summary>Hydrazine: NFPA 497 prints 23 °C, which holds on rusty iron; about 270 °C on glass (from memory), of which 80 % is 216 °C.</summary>
    [Theory]
    [InlineData("stirred steel autoclave", 60, Severity.Danger)]
    [InlineData("round-bottom flask", 60, null)]
    [InlineData("round-bottom flask", 220, Severity.Warning)]
    public void Screen_HydrazineOnMetalOrGlass_TakesTheValueOfThatSurface(string kind, double surfaceC, Severity? severity)
    {
        var plan = new Plan
        {
            Materials = [Of("hydrazine", "hydrazine", ML(10))],
            Vessels = [Flask() with { Kind = kind }],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "hydrazine"), Step("2", StepAction.Heat, "flask", 50) with { SurfaceTemperatureK = surfaceC + 273.15 }],
        };
        var finding = Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "fire.hot-surface");

        Assert.Equal(severity, finding?.Severity);
        if (finding is not null)
        {
            Assert.Contains(finding.Evidence, static evidence => evidence.Value is > 22.9 and < 23.1 && evidence.Model.Contains("on rusty iron", StringComparison.Ordinal));
            Assert.Contains(finding.Evidence, static evidence => evidence.Value is > 269 and < 271 && evidence.Model.Contains("on glass", StringComparison.Ordinal));
        }
    }

    /// <summary>IEC 60079-20-1 prints 375 °C for 1,4-dioxane, NFPA 497 180 °C.</summary>
    [Fact]
    public void Screen_DioxaneWhereStandardsDisagree_ShowsBothAndTakesTheLower()
    {
        var finding = Assert.Single(Findings("1,4-dioxane", 100, 160), static finding => finding.Code is "fire.hot-surface");

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains("180 °C", finding.Statement, StringComparison.Ordinal);
        Assert.Contains("375 °C", finding.Statement, StringComparison.Ordinal);
        Assert.Equal([180, 375], finding.Evidence.Skip(1).Select(static evidence => Math.Round(evidence.Value)));
    }

    /// <summary>740 mL in the open is worth naming; the sentence rounds to 10 mL.</summary>
    [Theory]
    [InlineData(740, "740 mL")]
    [InlineData(1234, "1230 mL")]
    public void Screen_LargeOpenVolumeHeated_NamesTheVolume(double mL, string named)
    {
        var plan = new Plan
        {
            Materials = [Of("ether", "diethyl ether", ML(mL), Role.Solvent)],
            Vessels = [Flask(mL: 2000)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "ether"), Step("2", StepAction.Heat, "flask", 34) with { HeatSource = HeatSource.WaterBath }],
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.heated-openly");

        Assert.Contains(named, finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>20 mL of ethanol in 80 mL of water, about 20 vol%: flash point 36 °C measured; ethanol alone 12 °C (IEC 60079-20-1).</summary>
    [Fact]
    public void Screen_AqueousEthanolHeatedOpenly_NamesTheFlashPointOfTheMixture()
    {
        var finding = Assert.Single(HeatedOpenly("ethanol", 20, "water", 80, 60, PlaceKind.Hood));
        var together = Assert.Single(finding.Evidence, static evidence => evidence.Name is "flash point of the liquids together");

        Assert.Equal(Severity.Notice, finding.Severity);
        Assert.Equal(36, together.Value, 3.0);
        Assert.Contains("the liquids together flash at about", finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>A place that is not stated has no hood: as grave as on a bench (common practice, no source).</summary>
    [Theory]
    [InlineData(null)]
    [InlineData(PlaceKind.Bench)]
    public void Screen_HeatedOpenlyWithoutAHood_IsCaution(PlaceKind? place) =>
        Assert.Equal(Severity.Caution, Assert.Single(HeatedOpenly("ethanol", 20, "water", 80, 60, place)).Severity);

    /// <summary>Ethanol and n-octane flash below either alone (Vidal 2006), and a mixture wants 15 K: −6 °C is near enough, though 12 and 13 °C are not within 5 K.</summary>
    [Fact]
    public void Screen_MixtureBelowBothPureFlashPoints_IsNamed() =>
        Assert.Contains("of the flash point of the liquids together", Assert.Single(HeatedOpenly("ethanol", 20, "n-octane", 20, -6)).Statement, StringComparison.Ordinal);

    [Fact]
    public void Screen_WaterWithATraceOfEthanolBelowItsFlashPoint_StillNamesEthanol() =>
        Assert.Contains("of its flash point: keep", Assert.Single(HeatedOpenly("ethanol", 0.5, "water", 100, 40)).Statement, StringComparison.Ordinal);

    [Fact]
    public void Screen_CarbonDisulfideOnBlock_OffersATemperatureThatHolds()
    {
        var offer = Assert.Single(Findings("carbon disulfide", 60, null), static finding => finding.Code is "fire.hot-surface").ClearedBy[0];

        // 72 °C less 15 K overshoot
        Assert.Equal(57, offer.Value);
        Assert.Equal("/steps/1/temperature", offer.Path);
    }

    /// <summary>EN 2 and NFPA 10: gas is class C in the one and class B in the other.</summary>
    [Fact]
    public void Words_GasAndMetal_NameBothSchemes() =>
        Assert.Equal("EN 2 class C and D (NFPA 10 class B and D)", FireClass.Words([Burning.Gas, Burning.Metal]));

    /// <summary>1 % in water: hexane does not mix (9.5 mg/L at 25 °C, CRC Handbook, from memory) and burns on top, ethanol mixes in every proportion and does not.</summary>
    [Theory]
    [InlineData("hexane", true)]
    [InlineData("ethanol", false)]
    public void Of_OnePercentInWater_BurnsWhereItFloats(string liquid, bool burns)
    {
        Content[] contents = [new(Substance("water"), "w", 99 / 18.015, null), new(Substance(liquid), "l", 1 / (liquid is "hexane" ? 86.18 : 46.07), null)];

        Assert.Equal(burns, BurningMaterials.Of(contents).Contains(Burning.Liquid));
    }

    [Theory]
    [InlineData("ethanol", Burning.Liquid)]
    [InlineData("hydrogen", Burning.Gas)]
    [InlineData("sodium", Burning.Metal)]
    [InlineData("lithium aluminium hydride", Burning.Metal)]
    [InlineData("naphthalene", Burning.Solid)]
    public void Of_Substance_BurnsAs(string substance, Burning expected) => Assert.Equal(expected, BurningMaterials.Of(Substance(substance)));

    [Theory]
    [InlineData("water")]
    [InlineData("sodium chloride")]
    [InlineData("nitrogen")]
    [InlineData("carbon dioxide")]
    [InlineData("potassium carbonate")]
    public void Of_WhatDoesNotBurn_IsNull(string substance) => Assert.Null(BurningMaterials.Of(Substance(substance)));

    [Fact]
    public void Screen_SodiumUnderToluene_FitsOnlyWhatServesBoth()
    {
        var plan = Plan("sodium", "toluene", Agents(Agent.DrySand));
        var report = Screener.Screen(plan, Policy.Default);

        Assert.DoesNotContain(report.Findings, static finding => finding.Code is "fire.agent-forbidden" or "fire.no-agent-fits");
        Assert.Contains("class D powder and dry sand fit", Assert.Single(report.Findings, static finding => finding.Code is "fire.class").Statement, StringComparison.Ordinal);
    }

    /// <summary>Ordinary foam collapses on liquids that mix with water (EN 1568-4 tests foams for those apart).</summary>
    [Theory]
    [InlineData("ethanol", "acetone", "alcohol-resistant foam")]
    [InlineData("n-hexane", "toluene", "; foam")]
    public void Screen_FoamOnSolvents_SaysWhichKind(string one, string other, string words) =>
        Assert.Contains(words, Assert.Single(Screener.Screen(Plan(one, other, Agents(Agent.CarbonDioxide)), Policy.Default).Findings, static finding => finding.Code is "fire.class").Statement, StringComparison.Ordinal);

    [Theory]
    [InlineData("sodium", Agent.Water)]
    [InlineData("sodium", Agent.CarbonDioxide)]
    [InlineData("lithium aluminium hydride", Agent.CarbonDioxide)]
    [InlineData("n-butyllithium", Agent.Foam)]
    public void Screen_ForbiddenAgent_IsDanger(string substance, Agent agent)
    {
        var finding = Assert.Single(Screener.Screen(Plan(substance, "toluene", Agents(agent)), Policy.Default).Findings, static finding => finding.Code is "fire.agent-forbidden");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.NotEmpty(finding.ClearedBy);
    }

    /// <summary>By mass: below 20 mg a trace, below 100 mg one step less grave (common practice, no source); an unknown amount lowers nothing.</summary>
    [Theory]
    [InlineData(5.0, Severity.Danger)]
    [InlineData(0.05, Severity.Warning)]
    [InlineData(0.01, Severity.Notice)]
    [InlineData(null, Severity.Danger)]
    public void Screen_ForbiddenAgent_IsGradedByAmount(double? grams, Severity severity)
    {
        var plan = Plan("sodium", "toluene", Agents(Agent.Water));
        plan = plan with { Materials = [plan.Materials[0] with { Amount = grams is { } stated ? G(stated) : null }, plan.Materials[1]] };

        Assert.Equal(severity, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.agent-forbidden").Severity);
    }

    [Fact]
    public void Screen_WaterAgainstBurningSolvent_DoesNotServe()
    {
        Assert.Single(Screener.Screen(Plan("benzoic acid", "toluene", Agents(Agent.Water)), Policy.Default).Findings, static finding => finding is { Code: "fire.no-agent-fits", Severity: Severity.Warning });
    }

    [Fact]
    public void Screen_FlammablesWithoutAgents_IsCaution()
    {
        Assert.Single(Screener.Screen(Plan("benzoic acid", "toluene", null), Policy.Default).Findings, static finding => finding is { Code: "fire.agents-not-stated", Severity: Severity.Caution });
    }

    [Fact]
    public void Screen_HeatedVolatileWithoutAutoignition_IsADataFinding()
    {
        var thf = Substance("tetrahydrofuran");
        var unknown = thf with { Known = thf.Known! with { AutoignitionK = null } };
        var plan = Plan("benzoic acid", "toluene", null);
        plan = plan with
        {
            Materials = [plan.Materials[0], plan.Materials[1] with { Composition = new Composition.Pure(unknown) }],
            Steps = [.. plan.Steps, Step("2", StepAction.Heat, "flask", 60) with { HeatSource = HeatSource.OilBath, SurfaceTemperatureK = 423.15 }],
        };

        Assert.True(Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "data.autoignition").LeavesCheckUndone);
    }

    [Fact]
    public void Screen_HeatedInvolatileSalt_ForcesNothing()
    {
        var plan = Plan("sodium chloride", "water", null);
        plan = plan with { Steps = [.. plan.Steps, Step("2", StepAction.Heat, "flask", 95) with { HeatSource = HeatSource.OilBath }] };

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "data.autoignition");
    }

    /// <summary>Ninety-nine rounds of heating say one thing once; the project's own rule.</summary>
    [Fact]
    public void Screen_HeatedAgainAndAgain_IsNamedOnceWithEveryStep()
    {
        var plan = new Plan
        {
            Materials = [Of("toluene", "toluene", ML(10), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("0", StepAction.Charge, "flask", 20, "toluene"), .. Enumerable.Range(1, 198).Select(static number => Step(number.ToString(System.Globalization.CultureInfo.InvariantCulture), number % 2 == 1 ? StepAction.Heat : StepAction.Cool, "flask", number % 2 == 1 ? 80 : 20))],
            Place = new Place(null, PlaceKind.Hood, null, null),
        };

        Assert.Equal(99, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.heated-openly").Steps.Count);
    }

    private static IEnumerable<Finding> HeatedOpenly(string one, double mLOne, string other, double mLOther, double celsius, PlaceKind? place = null) => Screener.Screen(
        new Plan
        {
            Materials = [Of("one", one, ML(mLOne), Role.Solvent), Of("other", other, ML(mLOther), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", -20, "one", "other"), Step("2", StepAction.Heat, "flask", celsius) with { HeatSource = HeatSource.WaterBath }],
            Place = place is null ? null : new Place("here", place, null, null),
        },
        Policy.Default).Findings.Where(static finding => finding.Code is "fire.heated-openly");

    private static Plan Plan(string one, string solvent, FireResponse? response) => new()
    {
        Materials = [Of("one", one, G(1)), Of("solvent", solvent, ML(50), Role.Solvent)],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "one", "solvent") with { Headspace = Under("argon") }],
        FireResponse = response,
    };

    private static IReadOnlyList<Finding> Findings(string substance, double celsius, double? surfaceC) => Screener.Screen(
        new Plan
        {
            Materials = [Of("solvent", substance, ML(20), Role.Solvent)],
            Vessels = [Flask()],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 20, "solvent"),
                Step("2", StepAction.Heat, "flask", celsius) with { HeatSource = HeatSource.MetalBlock, SurfaceTemperatureK = surfaceC + 273.15 },
            ],
        },
        Policy.Default).Findings;
}
