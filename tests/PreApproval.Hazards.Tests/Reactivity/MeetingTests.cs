using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>What raises and lowers an encounter, and gas by stoichiometry (molar masses of the CRC Handbook).</summary>
public sealed class MeetingTests
{
    /// <summary>Gas in mol for 1.00 g: NaH 23.998, CaH2 42.094 (2 H2), NaN3 65.010, KCN 65.116, Na2S 78.045 g/mol.</summary>
    [Theory]
    [InlineData("sodium hydride", "water", 41.67)]
    [InlineData("calcium hydride", "water", 47.51)]
    [InlineData("sodium azide", "acetic acid", 15.38)]
    [InlineData("potassium cyanide", "acetic acid", 15.36)]
    [InlineData("sodium sulfide", "acetic acid", 12.81)]
    public void Screen_OneGramInExcess_MakesTheStoichiometricGas(string substance, string excess, double mmol)
    {
        var finding = Find(substance, G(1.00), excess, Mmol(500));

        Assert.Equal(mmol * 1e-3, Assert.Single(finding.Evidence).Value, mmol * 1e-5);
    }

    [Fact]
    public void Screen_LimitingPartner_LimitsTheGas() =>
        Assert.Equal(2e-3, Assert.Single(Find("sodium hydride", Mmol(50), "water", Mmol(2)).Evidence).Value, 1e-9);

    /// <summary>Lithium aluminium hydride (4 hydrides) in methanol, undosed at room temperature: 40 mg, 8 mg and 0.8 mg. Common practice, no source.</summary>
    [Theory]
    [InlineData(1.0, Severity.Danger)]
    [InlineData(0.2, Severity.Warning)]
    [InlineData(0.02, Severity.Caution)]
    public void Screen_LittleOfTheLimitingPartner_IsLower(double mmol, Severity expected) =>
        Assert.Equal(expected, Find("lithium aluminium hydride", Mmol(mmol), "methanol", Mmol(500)).Severity);

    /// <summary>Sodium borohydride in methanol is no matter for review on a small scale.</summary>
    [Theory]
    [InlineData(0.2, Severity.Notice)]
    [InlineData(2.0, Severity.Caution)]
    public void Screen_LittleBorohydrideInMethanol_IsNoMatterForReview(double mmol, Severity expected) =>
        Assert.Equal(expected, Find("sodium borohydride", Mmol(mmol), "methanol", Mmol(500)).Severity);

    [Fact]
    public void Screen_DosedColdOpenQuench_IsLowerAndSaysWhy()
    {
        var wild = Quench(20, null);
        var careful = Quench(0, 900);

        Assert.Equal(Severity.Danger, wild.Severity);
        Assert.Equal(Severity.Caution, careful.Severity);
        Assert.Contains("dosed, cooled and open", careful.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_AcidOnCyanideDosedAndCold_StaysDanger()
    {
        var plan = Plan("sodium cyanide", "hydrogen chloride", 0, 3600);

        Assert.Equal(Severity.Danger, Single(plan, "incompatibility.acid-with-cyanide").Severity);
    }

    [Fact]
    public void Screen_CarbonateAndAcidClosed_IsWorseThanOpen()
    {
        var open = Plan("sodium bicarbonate", "acetic acid", 20, null);
        var closed = open with { Vessels = [Tube(250, 10, "flask")], Steps = [open.Steps[0], open.Steps[1], Step("3", StepAction.Seal, "flask")] };

        Assert.Equal(Severity.Notice, Single(open, "incompatibility.carbonate-with-organic-acid").Severity);
        Assert.Equal(Severity.Caution, Single(closed, "incompatibility.carbonate-with-organic-acid").Severity);
    }

    [Fact]
    public void Screen_OneBottle_IsNoEncounter()
    {
        var plan = new Plan
        {
            Materials = [Molar("base", "n-butyllithium", "n-hexane", 1.6, ML(10)), Molar("acid", "hydrogen chloride", "water", 12, ML(5))],
            Vessels = [Flask(), Flask("other")],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "base") with { Headspace = Under("argon") }, Step("2", StepAction.Charge, "other", 20, "acid")],
        };

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Hazard == Hazard.Incompatibility);
    }

    [Fact]
    public void Screen_DiluteNitricAcidWithEthanol_IsNotTheStrongAcid()
    {
        var plan = new Plan
        {
            Materials = [WeightPercent("acid", "nitric acid", "water", 5, ML(10)), Of("ethanol", "ethanol", ML(10), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "acid", "ethanol")],
        };

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "incompatibility.nitric-acid-with-alcohol");
    }

    [Fact]
    public void Screen_UnknownSmilesWithAzide_JoinsTheAzides()
    {
        var azide = new PlanSubstance("own azide", "own azide", null, "CCCN=[N+]=[N-]");

        Assert.Contains("organic azides", PreApproval.Hazards.Reactivity.FamilyTable.Default.Of(azide), StringComparer.Ordinal);
    }

    [Fact]
    public void Screen_BleachByNameWithHydrochloricAcidByName_IsChlorine()
    {
        var report = Screener.Screen(Plan("bleach", "hydrochloric acid", 20, null), Policy.Default);

        Assert.Equal(Severity.Danger, Assert.Single(report.Findings, static finding => finding.Code is "incompatibility.acid-with-hypochlorite").Severity);
        Assert.Contains(report.Findings, static finding => finding.Code is "data.unknown-substance" && finding.Statement.Contains("sodium hypochlorite 12.5 %, water", StringComparison.Ordinal));
    }

    /// <summary>
    /// Ground joints, scratches and sharp edges set diazomethane off, smooth joints do not (Urben, Bretherick's Handbook, from memory). A flask with necks has ground joints unless its words say that they are smooth.
    /// </summary>
    [Theory]
    [InlineData("round-bottom flask", true)]
    [InlineData("three-necked flask with ground joints", true)]
    [InlineData("round-bottom flask with smooth joints", false)]
    [InlineData("flask without ground joints", false)]
    [InlineData("conical flask", false)]
    [InlineData("fire-polished round-bottom flask", false)]
    public void Screen_DiazomethaneInAFlask_IsDangerUnlessItsJointsAreSmooth(string kind, bool found)
    {
        var plan = new Plan
        {
            Materials = [Molar("diazo", "diazomethane", "diethyl ether", 0.3, ML(20))],
            Vessels = [new Vessel { Id = "flask", Kind = kind, VolumeM3 = 100e-6 }],
            Steps = [Step("1", StepAction.Charge, "flask", 0, "diazo") with { Headspace = Under("nitrogen") }],
        };

        Assert.Equal(found, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "energetic.diazomethane-in-ground-joints" && finding.Severity == Severity.Danger));
    }

    /// <summary>Neat propargyl bromide is not to be distilled; the 80 % solution in toluene is how it is sold and used (Prudent Practices; Bretherick's Handbook; from memory).</summary>
    [Theory]
    [InlineData(100, true)]
    [InlineData(80, false)]
    public void Screen_PropargylBromideDistilled_IsDangerWhenNeat(double percent, bool danger)
    {
        var material = percent >= 100 ? Of("bromide", "propargyl bromide", G(10)) : WeightPercent("bromide", "propargyl bromide", "toluene", percent, G(10));
        var plan = new Plan { Materials = [material], Vessels = [Flask()], Steps = [Step("1", StepAction.Charge, "flask", 20, "bromide"), Step("2", StepAction.Distil, "flask", 90)] };

        Assert.Equal(danger, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "energetic.neat-propargyl-halide-concentrated"));
        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "energetic.propargyl-halide-heated");
    }

    /// <summary>What is shut in or led away counts: 50 mmol of ammonium chloride with methoxide, or with carbonate at 60 °C, free up to 50 mmol of ammonia, 1.2 L (24.465 L/mol); with carbonate in the cold little.</summary>
    [Theory]
    [InlineData("sodium methoxide", "methanol", 20, true)]
    [InlineData("potassium carbonate", "water", 60, true)]
    [InlineData("potassium carbonate", "water", 20, false)]
    public void Screen_AmmoniumSaltWithABase_CountsItsAmmoniaAsGas(string @base, string solvent, double celsius, bool counted)
    {
        var plan = new Plan
        {
            Materials = [Of("salt", "ammonium chloride", Mmol(50)), Of("base", @base, Mmol(60)), Of("solvent", solvent, ML(50), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", celsius, "salt", "base", "solvent") with { Headspace = Under("nitrogen") }],
        };
        var gas = Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "gas.evolved");

        Assert.Equal(counted, gas?.Statement.Contains("1.2 L of ammonia", StringComparison.Ordinal) ?? false);
    }

    // Yang 2019 and common practice: a warning only when small, short, cool and vented
    [Theory]
    [InlineData("N,N-dimethylformamide", 0.5, 0.5, false, Severity.Warning)]
    [InlineData("N,N-dimethylformamide", 0.5, 0.5, true, Severity.Danger)]
    [InlineData("N,N-dimethylformamide", 2, 0.5, false, Severity.Danger)]
    [InlineData("N,N-dimethylformamide", 0.5, 12, false, Severity.Danger)]
    [InlineData("dimethyl sulfoxide", 0.5, 0.5, false, Severity.Warning)]
    [InlineData("dimethyl sulfoxide", 0.5, 12, true, Severity.Danger)]
    public void Screen_SodiumHydrideInADipolarSolventAtRoomTemperature_IsWarningOnlySmallShortAndVented(string solvent, double grams, double hours, bool closed, Severity expected)
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium hydride", G(grams)), Of("solvent", solvent, ML(20), Role.Solvent)],
            Vessels = [Tube(50, 10, "flask")],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 20, "hydride", "solvent") with { Headspace = Under("nitrogen") },
                Step("2", closed ? StepAction.Seal : StepAction.Stir, "flask", 20),
                Step("3", StepAction.Store, "flask", 20) with { DurationS = hours * 3600 },
            ],
        };

        Assert.Equal(expected, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Hazard == Hazard.Incompatibility).Severity);
    }

    [Fact]
    public void Screen_RowWithoutGasClosed_IsWorseThanOpen()
    {
        var open = Plan("sodium perchlorate", "ethanol", 20, null);
        var closed = open with { Vessels = [Tube(250, 10, "flask")], Steps = [open.Steps[0], open.Steps[1], Step("3", StepAction.Seal, "flask")] };

        Assert.Equal(Severity.Warning, Single(open, "incompatibility.perchlorate-with-alcohol").Severity);
        Assert.Equal(Severity.Danger, Single(closed, "incompatibility.perchlorate-with-alcohol").Severity);
    }

    [Fact]
    public void Screen_SameEncounterInASecondVessel_IsReportedThereToo()
    {
        var plan = new Plan
        {
            Materials = [Of("n1", "sodium azide", G(5)), Of("d1", "dichloromethane", ML(20)), Of("n2", "sodium azide", G(5)), Of("d2", "dichloromethane", ML(20))],
            Vessels = [Flask("a"), Flask("b"), Flask("c")],
            Steps = [Step("1", StepAction.Charge, "a", 20, "n1", "d1"), Step("2", StepAction.Charge, "b", 20, "n2", "d2"), Step("3", StepAction.Transfer, "b", null) with { ToVessel = "c" }],
        };

        // what was merely moved on is not told again
        Assert.Equal(["a", "b"], Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "incompatibility.azide-with-chlorinated-solvent").Select(static finding => finding.Vessel), StringComparer.Ordinal);
    }

    [Fact]
    public void Screen_OneBottleNotAmongTheStockSolutions_IsAnEncounter()
    {
        var azide = new Plan
        {
            Materials = [Molar("azide", "sodium azide", "dichloromethane", 1, ML(5))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "azide")],
        };
        var stock = azide with { Materials = [Molar("azide", "diisobutylaluminium hydride", "dichloromethane", 1, ML(5))], Steps = [azide.Steps[0] with { Headspace = Under("nitrogen") }] };

        Assert.Equal(Severity.Danger, Single(azide, "incompatibility.azide-with-chlorinated-solvent").Severity);
        Assert.DoesNotContain(Screener.Screen(stock, Policy.Default).Findings, static finding => finding.Hazard == Hazard.Incompatibility);
    }

    [Theory]
    [InlineData(true, 0)]
    [InlineData(false, 1)]
    public void Screen_ActivatedSulfoxideWarmed_IsDangerUnlessTheAlcoholCameInTheCold(bool alcohol, int dangers)
    {
        var plan = new Plan
        {
            Materials =
            [
                Of("chloride", "oxalyl chloride", Mmol(12)), Of("dmso", "dimethyl sulfoxide", Mmol(24)), Of("alcohol", "benzyl alcohol", Mmol(10)), Of("dcm", "dichloromethane", ML(60), Role.Solvent),
                Of("water", "water", ML(50), Role.Quench),
            ],
            Vessels = [Flask()],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", -78, "dcm", "chloride") with { Headspace = Under("nitrogen") },
                Step("2", StepAction.Add, "flask", null, "dmso") with { OverS = 1200 },
                .. alcohol ? [Step("3", StepAction.Add, "flask", null, "alcohol") with { OverS = 600 }] : Array.Empty<Step>(),
                Step("4", StepAction.Stir, "flask", 0),
                .. alcohol ? [Step("5", StepAction.Quench, "flask", null, "water")] : Array.Empty<Step>(),
            ],
        };

        Assert.Equal(dangers, Screener.Screen(plan, Policy.Default).Findings.Count(static finding => finding.Severity == Severity.Danger));
    }

    [Fact]
    public void Screen_OneMillimoleOfHydrideInADosedOpenQuench_IsCaution()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium hydride", Mmol(1)), Of("thf", "tetrahydrofuran", ML(20), Role.Solvent), WeightPercent("quench", "ammonium chloride", "water", 20, ML(20), Role.Quench)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "hydride", "thf") with { Headspace = Under("nitrogen") }, Step("2", StepAction.Quench, "flask", 20, "quench") with { OverS = 600 }],
        };

        Assert.Equal(Severity.Caution, Single(plan, "incompatibility.saline-hydride-with-water").Severity);
    }

    private static Finding Find(string substance, Amount amount, string excess, Amount much)
    {
        var plan = new Plan
        {
            Materials = [Of("one", substance, amount), Of("two", excess, much)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "one", "two") with { Headspace = Under("argon") }],
        };
        return Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Hazard == Hazard.Incompatibility);
    }

    private static Finding Quench(double celsius, double? overS) =>
        Single(Plan("lithium aluminium hydride", "water", celsius, overS), "incompatibility.aluminium-hydride-with-water");

    private static Finding Single(Plan plan, string code) =>
        Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal));

    private static Plan Plan(string one, string two, double celsius, double? overS) => new()
    {
        Materials = [Of("one", one, Mmol(5)), Of("two", two, Mmol(100))],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", celsius, "one") with { Headspace = Under("argon") }, Step("2", StepAction.Quench, "flask", celsius, "two") with { OverS = overS }],
    };
}
