using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>
/// Where one partner only sets off the other, the other alone is measured. That amines polymerise hydrogen cyanide, that Lewis acids polymerise epoxides and that amines turn triphosgene to three
/// phosgene: Urben (ed.), Bretherick's Handbook of Reactive Chemical Hazards, 8th ed. 2017, from memory. Amounts by hand.
/// </summary>
public sealed class CatalystTests
{
    /// <summary>0.05 mmol of it in 1 mol is as grave as 1 mol of each.</summary>
    [Theory]
    [InlineData("hydrogen cyanide", 1000, "triethylamine", 0.05, "amine-with-hydrogen-cyanide", Severity.Danger)]
    [InlineData("propylene oxide", 1000, "aluminium chloride", 0.05, "epoxide-with-lewis-acid", Severity.Danger)]
    [InlineData("benzoyl peroxide", 0.05, "styrene", 1000, "organic-peroxide-with-monomer", Severity.Danger)]
    [InlineData("maleic anhydride", 1000, "sodium hydroxide", 0.05, "maleic-anhydride-with-base", Severity.Danger)]
    [InlineData("hydrogen cyanide", 0.05, "triethylamine", 1000, "amine-with-hydrogen-cyanide", Severity.Caution)]
    public void Screen_TraceOfACatalyst_LowersNothing(string first, double firstMmol, string second, double secondMmol, string row, Severity severity)
    {
        var plan = new Plan
        {
            Materials = [Of("a", first, Mmol(firstMmol)), Of("b", second, Mmol(secondMmol))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "a", "b") with { Headspace = Under("nitrogen") }],
        };

        Assert.Equal(severity, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, "incompatibility." + row, StringComparison.Ordinal)).Severity);
    }

    /// <summary>10 mmol of triphosgene are 30 mmol of phosgene, of a cyanohydrin 10 mmol of hydrogen cyanide, of an azide 10 mmol of nitrogen, of di-tert-butyl dicarbonate 20 mmol of carbon dioxide, whatever the trace.</summary>
    [Theory]
    [InlineData("phosgene-source-with-amine", "triphosgene", 10, "triethylamine", 0.1, 30)]
    [InlineData("cyanohydrin-with-amine", "acetone cyanohydrin", 10, "triethylamine", 0.1, 10)]
    [InlineData("cyanohydrin-with-hydroxide", "acetone cyanohydrin", 10, "sodium hydroxide", 0.1, 10)]
    [InlineData("cyanohydrin-with-carbonate", "acetone cyanohydrin", 10, "potassium carbonate", 0.1, 10)]
    [InlineData("strong-acid-with-organic-azide", "sulfuric acid", 0.1, "benzyl azide", 10, 10)]
    [InlineData("acid-with-boc-anhydride", "hydrogen chloride", 0.1, "di-tert-butyl dicarbonate", 10, 20)]
    public void Gas_OfATraceOfACatalyst_IsThatOfTheOther(string row, string first, double firstMmol, string second, double secondMmol, double expectedMmol) =>
        Assert.Equal(expectedMmol * 1e-3, EquationTests.Meet(row, Of("a", first, Mmol(firstMmol)), Of("b", second, Mmol(secondMmol))).GasMol!.Value, 1e-9);

    /// <summary>Of the side that is measured an amount is missing: the catalyst does not stand for it.</summary>
    [Fact]
    public void Gas_OfAnUnknownAmount_IsUnknown()
    {
        var meeting = EquationTests.Meet("acid-with-boc-anhydride", Of("a", "hydrogen chloride", Mmol(0.1)), Of("b", "di-tert-butyl dicarbonate", null));

        Assert.Null(meeting.GasMol);
        Assert.Null(meeting.CountedGasMol);
    }

    /// <summary>
    /// 1 mmol of butyllithium dosed in the cold to 10 mmol of a ketone is gone as a reagent, and water finds none of it; declared as a catalyst it is still there, and water meets it. And 2 mmol of
    /// the ketone declared as a catalyst do not take 1 mmol of butyllithium away either. By definition of a catalyst (IUPAC Gold Book: not consumed), from memory.
    /// </summary>
    [Theory]
    [InlineData(Role.Reagent, Role.Reagent, 10, false)]
    [InlineData(Role.Catalyst, Role.Reagent, 10, true)]
    [InlineData(Role.Reagent, Role.Catalyst, 2, true)]
    public void Screen_DeclaredCatalyst_IsNeverTheOneThatIsUsedUp(Role lithium, Role ketone, double ketoneMmol, bool waterMeetsIt)
    {
        var plan = new Plan
        {
            Materials = [Of("thf", "tetrahydrofuran", ML(50), Role.Solvent), Of("ketone", "acetophenone", Mmol(ketoneMmol), ketone), Molar("lithium", "n-butyllithium", "n-hexane", 1.6, Mmol(1), lithium), Of("water", "water", ML(5))],
            Vessels = [Flask()],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", -78, "thf", "ketone") with { Headspace = Under("nitrogen") },
                Step("2", StepAction.Add, "flask", -78, "lithium") with { OverS = 1800 },
                Step("3", StepAction.Add, "flask", 0, "water"),
            ],
        };

        Assert.Equal(waterMeetsIt, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "incompatibility.organolithium-with-water"));
    }
}
