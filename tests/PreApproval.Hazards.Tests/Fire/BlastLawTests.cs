using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

/// <summary>Equivalent of trinitrotoluene, scaled distance and overpressure after the example of Crowl and Louvar, Chemical Process Safety (1000 kg of methane).</summary>
public sealed class BlastLawTests
{
    // Crowl and Louvar: 1000 kg of methane (818.7 kJ/mol, 16.04 g/mol), 2 % as blast, 4686 kJ/kg: 218 kg; at 50 m Z = 8.3 m/kg^⅓
    [Fact]
    public void CloudTntKg_OfTheExample_Is218Kg()
    {
        var tnt = BlastLaw.CloudTntKg(1000 / 0.01604 * 818.7e3, 0.02, 4686e3);

        Assert.Equal(218, tnt, 0.005 * 218);
        Assert.Equal(8.3, BlastLaw.ScaledDistance(50, tnt), 0.005 * 8.3);
    }

    // the same example reads an overpressure of 25 kPa off the curve for TNT (from memory)
    [Fact]
    public void OverpressurePa_AtTheScaledDistanceOfTheExample_IsNear25KPa() => Assert.Equal(25e3, BlastLaw.OverpressurePa(8.3), 1.5e3);

    // one kilogram: eardrums tear from 35 kPa, windows break from 7 kPa; 6.8 and 25 m worked by hand from the formula of Kinney and Graham, which is no outside value
    [Theory]
    [InlineData(BlastLaw.EardrumPa, 6.77)]
    [InlineData(BlastLaw.WindowPa, 24.7)]
    public void DistanceM_OfAKilogram_IsTheScaledDistance(double pascal, double metre)
    {
        Assert.Equal(metre, BlastLaw.DistanceM(pascal, 1), 0.01 * metre);
        Assert.Equal(metre / 10, BlastLaw.DistanceM(pascal, 1e-3), 0.01 * metre / 10);
        Assert.Equal(pascal, BlastLaw.OverpressurePa(BlastLaw.ScaledDistance(BlastLaw.DistanceM(pascal, 5), 5)), 0.005 * pascal);
    }

    [Fact]
    public void Laws_OutsideTheirRange_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(static () => BlastLaw.CloudTntKg(1, 1.1));
        Assert.Throws<ArgumentOutOfRangeException>(static () => BlastLaw.ScaledDistance(1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(static () => BlastLaw.DistanceM(0, 1));
    }

    /// <summary>
    /// Methane, 1 L at 21 bar absolute less a bar of air, is 0.82 mol at 20 °C (ideal gas), 802 kJ/mol with water as vapour (CRC Handbook): 66 kJ shared by 10 % and 4.5 MJ/kg are 14.6 g. A tenth of a litre of
    /// butane vapour at one bar holds 0.2 g: fragments hurt, not the blast.
    /// </summary>
    [Theory]
    [InlineData(21, 14.6)]
    [InlineData(1.5, 0)]
    public void Screen_CloudOfMethane_SaysItsEquivalentFromAGram(double barAbs, double grams)
    {
        var plan = new Plan
        {
            Materials = [Of("water", "water", ML(10), Role.Solvent)],
            Vessels = [new Vessel { Id = "a", Kind = "stainless steel autoclave", VolumeM3 = 1010e-6, RatingPaGauge = 100e5 }],
            Steps = [Step("1", StepAction.Charge, "a", 20, "water"), Step("2", StepAction.Pressurise, "a", 20) with { Gas = Substance("methane"), PressurePaAbs = barAbs * 1e5 }],
        };
        var release = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.release");
        var equivalent = release.Evidence.SingleOrDefault(static evidence => evidence.Name is "equivalent of trinitrotoluene of the cloud");

        Assert.Equal(grams, equivalent?.Value ?? 0, 0.4);
    }
}
