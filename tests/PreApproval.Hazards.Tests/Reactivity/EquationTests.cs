using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Reactivity;

/// <summary>
/// Gas by the published equation, whichever partner limits. Equations: Greenwood and Earnshaw, Chemistry of the Elements, 2nd ed. 1997
/// (chapters on the halogens, manganese and chromium), from memory:
/// 2 KMnO4 + 16 HCl → 5 Cl2; H2O2 + 2 HCl → Cl2; MnO2 + 4 HCl → Cl2; PbO2 + 4 HCl → Cl2; Pb(OAc)4 + 4 HCl → PbCl2 + Cl2; NH4⁺ + OH⁻ or CH3O⁻ → NH3, CaO + 2 NH4Cl → 2 NH3 (up to one for each ammonium); K2Cr2O7 + 14 HCl → 3 Cl2;
/// NaOCl + 2 HCl → Cl2; NaOCl + H2O2 → O2; 5 NaClO2 + 4 HCl → 4 ClO2; HNO3 + 3 HCl → NOCl + Cl2;
/// COCl2 + H2O → CO2 + 2 HCl; ClSO3H + H2O → H2SO4 + HCl; 2 NH4Cl + Na2S → 2 NaCl + 2 NH3 + H2S; KHSO5 + 2 HCl → KHSO4 + Cl2 + H2O, with two KHSO5 in the triple salt.
/// </summary>
public sealed class EquationTests
{
    [Theory]
    [InlineData("hydrogen-chloride-with-permanganate", "potassium permanganate", 20, "hydrogen chloride", 1000, "chlorine", 50)]
    [InlineData("hydrogen-chloride-with-permanganate", "potassium permanganate", 1000, "hydrogen chloride", 160, "chlorine", 50)]
    [InlineData("hydrogen-chloride-with-peroxide", "hydrogen peroxide", 10, "hydrogen chloride", 1000, "chlorine", 10)]
    [InlineData("hydrogen-chloride-with-peroxide", "hydrogen peroxide", 1000, "hydrogen chloride", 20, "chlorine", 10)]
    [InlineData("hydrogen-chloride-with-manganese-dioxide", "manganese dioxide", 10, "hydrogen chloride", 1000, "chlorine", 10)]
    [InlineData("hydrogen-chloride-with-manganese-dioxide", "manganese dioxide", 1000, "hydrogen chloride", 40, "chlorine", 10)]
    [InlineData("hydrogen-chloride-with-lead-dioxide", "lead dioxide", 1000, "hydrogen chloride", 40, "chlorine", 10)]
    [InlineData("lead-tetraacetate-with-hydrogen-chloride", "lead tetraacetate", 10, "hydrogen chloride", 1000, "chlorine", 10)]
    [InlineData("lead-tetraacetate-with-hydrogen-chloride", "lead tetraacetate", 1000, "hydrogen chloride", 40, "chlorine", 10)]
    [InlineData("alkoxide-with-ammonium-salt", "sodium methoxide", 30, "ammonium chloride", 20, "ammonia", 20)]
    [InlineData("calcium-oxide-with-ammonium-salt", "calcium oxide", 30, "ammonium chloride", 20, "ammonia", 20)]
    [InlineData("hydroxide-with-ammonium-salt", "sodium hydroxide", 100, "ammonium sulfide", 20, "ammonia", 40)]
    [InlineData("hydrogen-chloride-with-chromium-six", "potassium dichromate", 10, "hydrogen chloride", 1000, "chlorine", 30)]
    [InlineData("acid-with-hypochlorite", "sodium hypochlorite", 10, "hydrogen chloride", 1000, "chlorine", 10)]
    [InlineData("acid-with-hypochlorite", "sodium hypochlorite", 1000, "hydrogen chloride", 20, "chlorine", 10)]
    [InlineData("hypochlorite-with-peroxide", "sodium hypochlorite", 10, "hydrogen peroxide", 1000, "oxygen", 10)]
    [InlineData("hypochlorite-with-peroxide", "sodium hypochlorite", 1000, "hydrogen peroxide", 10, "oxygen", 10)]
    [InlineData("acid-with-chlorite", "sodium chlorite", 50, "hydrogen chloride", 1000, "chlorine dioxide", 40)]
    [InlineData("acid-with-chlorite", "sodium chlorite", 1000, "hydrogen chloride", 40, "chlorine dioxide", 40)]
    [InlineData("nitric-acid-with-hydrochloric-acid", "nitric acid", 10, "hydrogen chloride", 1000, "chlorine", 10)]
    [InlineData("nitric-acid-with-hydrochloric-acid", "nitric acid", 1000, "hydrogen chloride", 30, "nitrosyl chloride", 10)]
    [InlineData("phosgene-source-with-water", "phosgene", 10, "water", 1000, "hydrogen chloride", 20)]
    [InlineData("phosgene-source-with-water", "triphosgene", 10, "water", 1000, "carbon dioxide", 30)]
    [InlineData("chlorosulfonic-acid-with-water", "chlorosulfonic acid", 10, "water", 1000, "hydrogen chloride", 10)]
    [InlineData("ammonium-salt-with-sulfide", "ammonium chloride", 1000, "sodium sulfide", 10, "hydrogen sulfide", 10)]
    [InlineData("ammonium-salt-with-sulfide", "ammonium chloride", 20, "sodium sulfide", 10, "hydrogen sulfide", 10)]
    [InlineData("peroxymonosulfate-with-hydrogen-chloride", "potassium peroxymonosulfate triple salt", 10, "hydrogen chloride", 1000, "chlorine", 20)]
    [InlineData("peroxymonosulfate-with-hydrogen-chloride", "potassium peroxymonosulfate triple salt", 1000, "hydrogen chloride", 40, "chlorine", 20)]
    public void Gas_OfTheLimitingPartner_IsThatOfTheEquation(string row, string first, double firstMmol, string second, double secondMmol, string gas, double expectedMmol)
    {
        var meeting = Meet(row, Of("a", first, Mmol(firstMmol)), Of("b", second, Mmol(secondMmol)));

        var share = Assert.Single(meeting.Encounter.Gases, share => string.Equals(share.Name, gas, StringComparison.Ordinal));
        Assert.Equal(expectedMmol * 1e-3, meeting.LimitingEquivalents!.Value * share.MolPerEquivalent, 1e-9);
    }

    /// <summary>For hydrogen chloride that limits, dichromate takes 14 for 3 Cl2 and chromium trioxide 12: the row counts as the trioxide, the more cautious.</summary>
    [Fact]
    public void Gas_OfChromiumSixWithLittleAcid_IsNotBelowTheEquation()
    {
        var meeting = Meet("hydrogen-chloride-with-chromium-six", Of("a", "potassium dichromate", Mmol(1000)), Of("b", "hydrogen chloride", Mmol(140)));

        Assert.InRange(meeting.GasMol!.Value, 30e-3, 35e-3);
    }

    internal static Meeting Meet(string row, Material a, Material b)
    {
        var plan = new Plan { Materials = [a, b], Vessels = [Flask()], Steps = [Step("1", StepAction.Charge, "flask", 20, "a", "b") with { Headspace = Under("nitrogen") }] };
        var state = Assert.Single(Walk.Follow(plan, Policy.Default).States);
        return Assert.Single(Meeting.At(state), meeting => string.Equals(meeting.Encounter.Key, row, StringComparison.Ordinal));
    }
}
