using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

public sealed class SplitRowTests
{
    /// <summary>NaBH3CN holds cyanide, NaBH(OAc)3, C6H10BNaO6, no nitrogen: BH(OAc)3⁻ + H⁺ → B(OAc)3 + H2 (textbook stoichiometry, one hydride each).</summary>
    [Theory]
    [InlineData("sodium triacetoxyborohydride", false)]
    [InlineData("sodium cyanoborohydride", true)]
    public void Meet_StrongAcid_FreesHydrogenCyanideOnlyFromCyanide(string reagent, bool cyanide)
    {
        Content[] both = [new(Substance(reagent), "a", 0.01, 1), new(Substance("hydrogen chloride"), "b", 0.1, 0.37)];

        Assert.Equal(cyanide, Meeting.Among(both).Any(static meeting => meeting.Encounter.Consequences.Any(static said => said.Contains("cyanide", StringComparison.Ordinal))));
        Assert.Equal(!cyanide, Meeting.Among(both).Any(static meeting => meeting.Encounter.Gases.Any(static share => share is { Name: "hydrogen", MolPerEquivalent: 1 })));
    }

    /// <summary>14 mmol of the hydride quenched with water give at most 14 mmol of hydrogen, 0.34 L at 25 °C (22.4 L/mol at 0 °C): by hand.</summary>
    [Fact]
    public void Screen_QuenchedAcyloxyborohydride_CountsItsHydrogen()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium triacetoxyborohydride", Mmol(14)), Of("dcm", "dichloromethane", ML(40), Role.Solvent), Of("water", "water", ML(30))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "dcm", "hydride"), Step("2", StepAction.Quench, "flask", 20, "water")],
        };

        Assert.Contains("0.34 L", Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "incompatibility.acyloxyborohydride-with-water").Statement, StringComparison.Ordinal);
    }

    /// <summary>(COCl)2 + Me2SO → Me2SCl⁺ Cl⁻ + CO + CO2 at −60 °C (Mancuso, Huang and Swern, J. Org. Chem. 1978, 43, 2480): the gas comes where the sulfoxide is dosed, not at the quench.</summary>
    [Fact]
    public void Screen_Swern_CountsCarbonMonoxideAtTheActivation()
    {
        var plan = new Plan
        {
            Materials =
            [
                Of("oxalyl", "oxalyl chloride", Mmol(20)), Of("dmso", "dimethyl sulfoxide", Mmol(40)), Of("alcohol", "1-octanol", Mmol(15)), Of("base", "triethylamine", Mmol(80)),
                Of("dcm", "dichloromethane", ML(80), Role.Solvent), Of("water", "water", ML(50)),
            ],
            Vessels = [Flask()],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", -78, "dcm", "oxalyl"),
                Step("2", StepAction.Add, "flask", -78, "dmso") with { OverS = 1200 },
                Step("3", StepAction.Add, "flask", -78, "alcohol") with { OverS = 1200 },
                Step("4", StepAction.Add, "flask", -78, "base") with { OverS = 1200 },
                Step("5", StepAction.Stir, "flask", 20),
                Step("6", StepAction.Quench, "flask", 10, "water"),
            ],
        };

        var monoxide = Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Statement.Contains("carbon monoxide", StringComparison.Ordinal)).SelectMany(static finding => finding.Steps).ToHashSet(StringComparer.Ordinal);

        Assert.Contains("2", monoxide);
        Assert.DoesNotContain("6", monoxide);
    }
}
