using CsCheck;
using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>Heat of a reaction that the plan does not state, criticality and dosing.</summary>
public sealed class ReactionHeatScreenTests
{
    // benzene + 3 H2, −205.5 kJ/mol (CRC Handbook, worked in docs/methods/heats.md)
    [Fact]
    public void Of_BalancedEquation_TakesEnthalpiesOfFormation()
    {
        var plan = new Plan { Materials = [Of("benzene", "benzene", Mmol(10)), Of("gas", "hydrogen", Mmol(30), Role.Gas)], Vessels = [], Steps = [] };
        var reaction = new Reaction
        {
            Step = "1",
            Consumes = [new Consumption("benzene", 1), new Consumption("gas", 3)],
            Produces = [new Production(Substance("cyclohexane"), 1, Phase.Liquid)],
        };
        var heat = ReactionHeatSource.Of(reaction, plan)!;

        Assert.Equal(-205.5, heat.JPerMol / 1000, 2.06);
        Assert.Equal(Quality.Estimated, heat.Quality);
    }

    // textbook ranges after Stoessel 2020, Table 2.1, from memory: azide and alkyne 210 to 270 kJ/mol; nitroarene to amine 552 (CRC Handbook) to 560
    [Theory]
    [InlineData("benzyl azide", "phenylacetylene", -270)]
    [InlineData("hydrogen", "nitrobenzene", -560)]
    [InlineData("acetyl chloride", "morpholine", -150)]
    [InlineData("phenylmagnesium bromide", "acetophenone", -200)]
    public void Of_KnownType_TakesTheStrongestUsualHeat(string first, string second, double kilojoule)
    {
        var plan = new Plan { Materials = [Of("a", first, Mmol(10)), Of("b", second, Mmol(10))], Vessels = [], Steps = [] };
        var heat = ReactionHeatSource.Of(Reaction("1", ["a", "b"]), plan)!;

        Assert.Equal(kilojoule, heat.JPerMol / 1000, 1e-9);
        Assert.Equal(Quality.Assumed, heat.Quality);
    }

    [Fact]
    public void Table_EveryType_NamesFamiliesAndAReference() => Assert.All(EmbeddedTable.Rows("reaction-heats.tsv"), static row =>
    {
        Assert.Contains(row["first"], Hazards.Reactivity.FamilyTable.Default.All, StringComparer.Ordinal);
        Assert.Contains(row["second"], Hazards.Reactivity.FamilyTable.Default.All, StringComparer.Ordinal);
        Assert.All(EmbeddedTable.Entries(row["sources"]), static source => Assert.True(References.IsOwn(source), source));
        Assert.NotEmpty(EmbeddedTable.Entries(row["sources"]));
    });

    // 0.1 mol of 150 kJ/mol, 15 kJ, over 100 g of toluene (170 J/K), 8.7 g of morpholine (16.5 J/K) and 7.9 g of acetyl chloride (11.7 J/K; CRC Handbook): 75.7 K, medium after Stoessel
    [Fact]
    public void Screen_HeatByType_IsACautionThatSaysSo()
    {
        var finding = Assert.Single(Screener.Screen(Acylation(100, null), Policy.Default).Findings, static finding => finding.Code is "heat.reaction");

        Assert.Equal(Severity.Caution, finding.Severity);
        Assert.Contains("heat not stated", finding.Statement, StringComparison.Ordinal);
        Assert.Equal(75.7, finding.Evidence[0].Value, 1.0);
    }

    // 150 kJ/mol counts for an acid chloride and an amine (Stoessel 2020, Table 2.1, from memory): stated or looked up, it is the same rise in the same closed flask
    [Theory]
    [InlineData(null)]
    [InlineData(-150e3)]
    public void Screen_SameRiseInAClosedVessel_IsAWarningStatedOrLookedUp(double? heat)
    {
        var plan = Acylation(100, heat);
        plan = plan with
        {
            Steps = [plan.Steps[0] with { Materials = [.. plan.Steps[0].Materials, new MaterialUse("a", null)] }, Step("s", StepAction.Seal, "flask"), Step("2", StepAction.Stir, "flask", 20)],
        };

        Assert.Equal(Severity.Warning, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "heat.reaction").Severity);
    }

    [Fact]
    public void Screen_HeatOfAnUnknownType_IsMissing()
    {
        var plan = Acylation(100, null);
        plan = plan with { Materials = [Of("a", "benzoic acid", Mmol(100)), plan.Materials[1], plan.Materials[2]] };

        Assert.Equal(Severity.Notice, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "data.reaction-heat").Severity);
    }

    // the second reaction states no heat: an acid chloride and an amine, 150 kJ/mol after Stoessel 2020, Table 2.1 (from memory), counts as if it were stated
    [Fact]
    public void Screen_SecondReactionWithoutHeat_CountsWithTheHeatOfItsType()
    {
        var looked = Assert.Single(Screener.Screen(TwoReactions("benzoyl chloride", "piperidine", null), Policy.Default).Findings, static finding => finding.Code is "heat.reaction");
        var stated = Assert.Single(Screener.Screen(TwoReactions("benzoyl chloride", "piperidine", -150e3), Policy.Default).Findings, static finding => finding.Code is "heat.reaction");

        Assert.Equal(stated.Evidence[0].Value, looked.Evidence[0].Value, 1e-6);
        Assert.Contains("of another estimated", looked.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_SecondReactionOfUnknownType_IsMissingBesideTheStatedOne()
    {
        var findings = Screener.Screen(TwoReactions("benzoic acid", "acetophenone", null), Policy.Default).Findings;

        Assert.Contains("left out of the rise", Assert.Single(findings, static finding => finding.Code is "data.reaction-heat").Statement, StringComparison.Ordinal);
        Assert.Single(findings, static finding => finding.Code is "heat.reaction");
    }

    [Fact]
    public void Screen_DosedWithoutAnyDensity_IsMissing()
    {
        var plan = Acylation(100, -200e3);
        plan = plan with
        {
            Materials = [.. plan.Materials.Select(static material => material with { Composition = new Composition.Pure(WithoutDensity(((Composition.Pure)material.Composition).Substance)) })],
        };

        Assert.Equal(Severity.Notice, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "data.dosing-volume").Severity);
    }

    /// <summary>
    /// −200 kJ/mol, 0.1 mol: 20 kJ over 198 J/K, MTSR 121 °C; the mixture boils near 100 °C. With 1.70 J/(g K), 20 W/kg at the onset and 50 kJ/mol the temperature for a day is, by hand,
    /// 90 °C for an onset of 200 °C (class 5), 110 °C for 230 °C (class 4) and 124 °C for 250 °C (class 3 after Stoessel).
    /// </summary>
    [Theory]
    [InlineData(200.0, 90, 5)]
    [InlineData(230.0, 110, 4)]
    [InlineData(250.0, 124, 3)]
    public void Screen_DeclaredOnset_GivesTheCriticalityClass(double onset, double day, int expected)
    {
        var plan = Acylation(100, -200e3);
        plan = plan with { Reactions = [plan.Reactions[0] with { DecompositionOnsetK = onset + 273.15 }] };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "heat.reaction");

        Assert.Equal(expected, Assert.Single(finding.Evidence, static evidence => evidence.Name is "criticality class").Value, 1e-9);
        Assert.Equal(day, Assert.Single(finding.Evidence, static evidence => evidence.Name is "temperature for a day to the maximum rate").Value, 1.0);
        Assert.Equal(expected >= 4 ? Severity.Warning : Severity.Caution, finding.Severity);
    }

    // 20 kJ over 1 min are 333 W; 120 mL in a flask give off less than 40 W
    [Fact]
    public void Screen_DosedTooFast_OffersATimeThatClearsIt()
    {
        var plan = Acylation(100, -200e3);
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1] with { OverS = 60 }] };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "heat.dosed-too-fast");

        Assert.Equal(333, finding.Evidence[0].Value, 1.0);
        Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, Assert.Single(finding.ClearedBy)), Policy.Default).Findings, static other => other.Code is "heat.dosed-too-fast");
    }

    [Fact]
    public void Offered_time_of_addition_clears() => Gen.Select(Gen.Double[-400, -80], Gen.Double[50, 400], Gen.Double[30, 3600]).Sample(
        static (kilojoule, grams, over) =>
        {
            var plan = Acylation(grams, kilojoule * 1000);
            plan = plan with { Steps = [plan.Steps[0], plan.Steps[1] with { OverS = over }] };
            foreach (var offer in Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "heat.dosed-too-fast").SelectMany(static finding => finding.ClearedBy))
            {
                Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, offer), Policy.Default).Findings, static finding => finding.Code is "heat.dosed-too-fast");
            }
        },
        iter: 100);

    private static PlanSubstance WithoutDensity(PlanSubstance substance) => substance with { Known = substance.Known! with { DensityKgPerM3 = null } };

    private static Plan TwoReactions(string first, string second, double? heat)
    {
        var plan = Acylation(100, -200e3);
        return plan with
        {
            Materials = [.. plan.Materials, Of("c", first, Mmol(20)), Of("d", second, Mmol(20))],
            Steps = [plan.Steps[0] with { Materials = [.. plan.Steps[0].Materials, new MaterialUse("c", null), new MaterialUse("d", null)] }, plan.Steps[1]],
            Reactions = [.. plan.Reactions, Reaction("2", ["c", "d"]) with { HeatJPerMol = heat }],
        };
    }

    private static Plan Acylation(double grams, double? heat) => new()
    {
        Materials = [Of("a", "acetyl chloride", Mmol(100)), Of("b", "morpholine", Mmol(100)), Of("toluene", "toluene", G(grams), Role.Solvent)],
        Vessels = [Flask(mL: 1000)],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "b", "toluene"), Step("2", StepAction.Add, "flask", 20, "a") with { OverS = 3600 }],
        LimitingMaterial = "a",
        Reactions = [Reaction("2", ["a", "b"]) with { HeatJPerMol = heat }],
    };
}
