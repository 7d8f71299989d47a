using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>Hydrogen chloride from a silyl chloride in water, with and without a base that keeps it. Stoichiometry of acid and base, one proton each.</summary>
public sealed class HydrogenHalideTests
{
    /// <summary>12 mmol of chloride: 24.47 mL/mmol at 25 °C and 1 atm are 0.294 L; 25 mmol of imidazole keep all of it, 5 mmol leave 0.171 L, acid takes the base first.</summary>
    [Theory]
    [InlineData(25, 0, 0)]
    [InlineData(5, 0, 7)]
    [InlineData(0, 0, 12)]
    [InlineData(25, 20, 7)]
    [InlineData(25, 30, 12)]
    public void Screen_SilylChlorideInWater_FreesWhatTheBaseDoesNotKeep(double imidazole, double acid, double expectedMmol)
    {
        var plan = new Plan
        {
            Materials =
            [
                Of("chloride", "tert-butyldimethylsilyl chloride", Mmol(12)), Of("dmf", "N,N-dimethylformamide", ML(15), Role.Solvent), Of("base", "imidazole", Mmol(imidazole)),
                Of("acid", "acetic acid", Mmol(acid)), Of("water", "water", ML(60)),
            ],
            Vessels = [Flask()],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 20, "chloride", "dmf"),
                .. imidazole > 0 ? [Step("1b", StepAction.Add, "flask", 20, "base")] : Array.Empty<Step>(),
                .. acid > 0 ? [Step("1c", StepAction.Add, "flask", 20, "acid")] : Array.Empty<Step>(),
                Step("2", StepAction.Wash, "flask", 20, "water"),
            ],
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "incompatibility.chlorosilane-with-water");
        var gas = finding.Evidence.Where(static evidence => evidence.Unit is "mol").Sum(static evidence => evidence.Value);

        Assert.Equal(expectedMmol * 1e-3, gas, 1e-6);
        Assert.Equal(expectedMmol < 12, finding.Statement.Contains("the base beside it keeps", StringComparison.Ordinal));
    }

    [Fact]
    public void Screen_BaseOfUnknownAmount_KeepsNothing()
    {
        var plan = new Plan
        {
            Materials = [Of("chloride", "chlorotrimethylsilane", Mmol(12)), Of("base", "triethylamine", null), Of("water", "water", ML(60))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "chloride", "base"), Step("2", StepAction.Wash, "flask", 20, "water")],
        };

        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Statement.Contains("the base beside it keeps", StringComparison.Ordinal));
    }
}
