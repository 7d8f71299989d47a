using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>
/// Reactions as every preparative laboratory runs them, and the same done so that they have hurt people. Which is which: Bretherick's Handbook and textbooks of
/// organic chemistry, from memory; amounts and the severities are common practice, no source.
/// </summary>
public sealed class EverydayReactionTests
{
    /// <summary>Ozone into an alkene at −78 °C, then reduced, warmed and evaporated; 3 mL of dimethyl sulfide are 41 mmol (0.846 g/mL, 62.13 g/mol).</summary>
    [Theory]
    [InlineData("dimethyl sulfide", 41, -78, Severity.Caution)]
    [InlineData("triphenylphosphine", 12, -78, Severity.Caution)]
    [InlineData("dimethyl sulfide", 2, -78, Severity.Danger)]
    [InlineData("ethyl acetate", 41, -78, Severity.Danger)]
    [InlineData("ethyl acetate", 41, 0, Severity.Danger)]
    public void Screen_OzonolysisConcentrated_IsDangerUnlessReduced(string added, double mmol, double purgedAt, Severity expected)
    {
        var plan = new Plan
        {
            Materials = [Of("alkene", "1-octene", Mmol(10)), Of("ozone", "ozone", Mmol(10)), Of("dcm", "dichloromethane", ML(60), Role.Solvent), Of("added", added, Mmol(mmol))],
            Vessels = [Flask()],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", -78, "alkene", "dcm"),
                Step("2", StepAction.Add, "flask", -78, "ozone") with { OverS = 1800 },
                Step("3", StepAction.Purge, "flask", purgedAt) with { DurationS = 600, Headspace = Under("nitrogen") },
                Step("4", StepAction.Quench, "flask", -78, "added") with { OverS = 600 },
                Step("5", StepAction.Stir, "flask", 20),
                Step("6", StepAction.Concentrate, "flask", 35),
            ],
        };

        Assert.Equal(expected, Worst(plan, "ozon"));
        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code.Contains("oxygen-with", StringComparison.Ordinal));
    }

    /// <summary>Sodium hydroxide into nitromethane and an aldehyde in the cold, acidified before anything is filtered; without the acid the wet salt is on the filter.</summary>
    [Theory]
    [InlineData(5, 1200.0, true, Severity.Caution)]
    [InlineData(5, 1200.0, false, Severity.Danger)]
    [InlineData(25, null, true, Severity.Danger)]
    public void Screen_NitroaldolWithHydroxide_IsDangerUnlessDosedColdAndAcidified(double celsius, double? overS, bool acidified, Severity expected)
    {
        var plan = new Plan
        {
            Materials =
            [
                Of("aldehyde", "benzaldehyde", Mmol(50)), Of("nitro", "nitromethane", Mmol(50)), Of("methanol", "methanol", ML(20), Role.Solvent),
                Molar("base", "sodium hydroxide", "water", 10, ML(5.3)), Molar("acid", "hydrogen chloride", "water", 4, ML(25)),
            ],
            Vessels = [Flask(), Flask("filtrate")],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", celsius, "aldehyde", "nitro", "methanol"),
                Step("2", StepAction.Add, "flask", celsius, "base") with { OverS = overS },
                Step("3", StepAction.Stir, "flask", celsius) with { DurationS = 900 },
                .. acidified ? [Step("4", StepAction.Quench, "flask", celsius, "acid") with { OverS = 900 }] : Array.Empty<Step>(),
                Step("5", StepAction.Filter, "flask", null) with { ToVessel = "filtrate" },
            ],
        };

        Assert.Equal(expected, Worst(plan, "nitroalkane-with-hydroxide"));
    }

    /// <summary>Chromium trioxide in water and sulfuric acid dosed into an alcohol in acetone, against the dry oxide put or tipped onto the alcohol.</summary>
    [Fact]
    public void Screen_ChromicAcidDosedIntoAnAlcohol_IsCautionAndTheDrySolidDanger()
    {
        Material[] materials =
        [
            Of("alcohol", "cyclohexanol", Mmol(20)), Of("acetone", "acetone", ML(40), Role.Solvent), Of("oxide", "chromium trioxide", Mmol(26.7)), Of("water", "water", ML(7)),
            WeightPercent("acid", "sulfuric acid", "water", 98, ML(2.3)),
        ];
        var dissolved = new Plan
        {
            Materials = materials,
            Vessels = [Flask(), Flask("beaker")],
            Steps =
            [
                Step("1", StepAction.Charge, "beaker", 0, "water", "oxide"),
                Step("2", StepAction.Add, "beaker", 0, "acid") with { OverS = 600 },
                Step("3", StepAction.Charge, "flask", 0, "alcohol", "acetone"),
                Step("4", StepAction.Transfer, "beaker", 5) with { ToVessel = "flask", OverS = 1800 },
                Step("5", StepAction.Stir, "flask", 15) with { DurationS = 1800 },
            ],
        };
        var tipped = dissolved with { Steps = [Step("1", StepAction.Charge, "beaker", 20, "oxide"), Step("3", StepAction.Charge, "flask", 20, "alcohol", "acetone"), Step("4", StepAction.Transfer, "beaker", 20) with { ToVessel = "flask" }] };
        var put = dissolved with { Steps = [Step("3", StepAction.Charge, "flask", 20, "alcohol", "acetone"), Step("4", StepAction.Add, "flask", 20, "oxide")] };

        Assert.Equal(Severity.Caution, Worst(dissolved, "oxidant-with-alcohol"));
        Assert.Equal(Severity.Danger, Worst(tipped, "oxidant-with-alcohol"));
        Assert.Equal(Severity.Danger, Worst(put, "oxidant-with-alcohol"));
        Assert.All([dissolved, tipped, put], static plan => Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Statement.Contains("manganese", StringComparison.OrdinalIgnoreCase)));
    }

    /// <summary>An ester dosed in the cold to a hydride in excess (25 mmol of LiAlH4 are 100 mmol of hydride, the ester takes two) is gone when the flask warms.</summary>
    [Theory]
    [InlineData(0, 1800.0, Severity.Notice)]
    [InlineData(20, null, Severity.Warning)]
    public void Screen_EsterAndAluminiumHydride_IsNoticeWhenDosedCold(double celsius, double? overS, Severity expected) =>
        Assert.Equal(expected, Worst(Reduction(celsius, overS, []), "aluminium-hydride-with-ester"));

    /// <summary>The alcohol that the hydride makes is its alkoxide; an alcohol poured in is not.</summary>
    [Theory]
    [InlineData(false, null)]
    [InlineData(true, Severity.Danger)]
    public void Screen_AlcoholMadeByTheHydride_MeetsItNoMore(bool poured, Severity? expected)
    {
        var reaction = new Reaction { Step = "2", Consumes = [new Consumption("ester", 1), new Consumption("hydride", 0.5)], Produces = [new Production(Substance("benzyl alcohol"), 1, null)] };
        var plan = Reduction(0, 1800, [reaction]);
        plan = poured ? plan with { Steps = [.. plan.Steps, Step("4", StepAction.Add, "flask", 20, "alcohol")] } : plan;

        Assert.Equal(expected, Find(plan, "aluminium-hydride-with-alcohol").Select(static finding => (Severity?)finding.Severity).Min());
    }

    /// <summary>Azodicarboxylate in what is evaporated: 4 mmol not reacted, 0.04 mmol left over, and 4 mmol that a phosphine took up in the cold.</summary>
    [Theory]
    [InlineData(4, false, Severity.Warning)]
    [InlineData(0.04, false, Severity.Caution)]
    [InlineData(4, true, null)]
    public void Screen_AzodicarboxylateConcentrated_GoesByWhatIsLeft(double mmol, bool phosphine, Severity? expected)
    {
        var plan = new Plan
        {
            Materials = [Of("azo", "diisopropyl azodicarboxylate", Mmol(mmol)), Of("thf", "tetrahydrofuran", ML(20), Role.Solvent), Of("phosphine", "triphenylphosphine", Mmol(mmol))],
            Vessels = [Flask()],
            Steps =
            [
                phosphine ? Step("1", StepAction.Charge, "flask", 0, "thf", "phosphine") : Step("1", StepAction.Charge, "flask", 0, "thf"),
                Step("2", StepAction.Add, "flask", 0, "azo") with { OverS = 900 },
                Step("3", StepAction.Stir, "flask", 20),
                Step("4", StepAction.Concentrate, "flask", 40),
            ],
        };

        Assert.Equal(expected, Find(plan, "azo-oxidant-concentrated").Select(static finding => (Severity?)finding.Severity).Min());
    }

    private static Plan Reduction(double celsius, double? overS, IReadOnlyList<Reaction> reactions) => new()
    {
        Materials = [Molar("hydride", "lithium aluminium hydride", "tetrahydrofuran", 1, ML(25)), Of("ester", "methyl benzoate", Mmol(20)), Of("alcohol", "ethanol", ML(10))],
        Vessels = [Flask()],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", celsius, "hydride") with { Headspace = Under("nitrogen") },
            Step("2", StepAction.Add, "flask", celsius, "ester") with { OverS = overS },
            Step("3", StepAction.Stir, "flask", 20) with { DurationS = 7200 },
        ],
        Reactions = reactions,
    };

    private static Finding[] Find(Plan plan, string code) =>
        [.. Screener.Screen(plan, Policy.Default).Findings.Where(finding => finding.Code.Contains(code, StringComparison.Ordinal))];

    private static Severity Worst(Plan plan, string code) => Find(plan, code).Min(static finding => finding.Severity);
}
