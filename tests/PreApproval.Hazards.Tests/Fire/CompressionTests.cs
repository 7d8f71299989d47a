using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Fire;

/// <summary>Gas that is compressed without losing its heat, after the example of Crowl and Louvar, Chemical Process Safety (adiabatic compression).</summary>
public sealed class CompressionTests
{
    // Crowl and Louvar: air of 560 °R compressed from 14.7 to 500 psia with an exponent of 0.286 reaches 1535 °R, 580 °C by its own rounding
    [Fact]
    public void TemperatureK_OfTheExample_Is1535Rankine()
    {
        var kelvin = AdiabaticCompression.TemperatureK(560 / 1.8, 14.7, 500);

        Assert.Equal(1535, kelvin * 1.8, 1.0);
        Assert.Equal(580, kelvin - 273.15, 1.0);
    }

    [Fact]
    public void TemperatureK_LetDown_StaysAsItIs() => Assert.Equal(300, AdiabaticCompression.TemperatureK(300, 5e5, 1e5));

    [Theory]
    [InlineData(0, 1e5)]
    [InlineData(300, 0)]
    public void TemperatureK_OutsideItsRange_IsRefused(double kelvin, double pascal) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => AdiabaticCompression.TemperatureK(kelvin, pascal, 1e6));

    // by hand, 293.15 K: to 6 bar absolute (6/1.01325)^0.286 = 1.663, 214 °C; to 41 bar 2.882, 572 °C. Autoignition in air: diethyl ether 160 to 175 °C, toluene 480 to 535 °C, 80 % of 480 °C is 384 °C
    // (IEC 60079-20-1, NFPA 497); 21 bar 2.380, 424 °C; 6 bar of toluene is far from it
    [Theory]
    [InlineData("diethyl ether", 6, 214, Severity.Warning)]
    [InlineData("toluene", 41, 572, Severity.Warning)]
    [InlineData("toluene", 21, 424, Severity.Caution)]
    [InlineData("toluene", 6, 0, null)]
    public void Screen_OxygenPressedFastOntoWhatBurns_IsHeldAgainstItsAutoignition(string liquid, double barAbs, double celsius, Severity? severity)
    {
        var finding = Found(Pressed("oxygen", liquid, barAbs, null));

        Assert.Equal(severity, finding?.Severity);
        if (finding is not null)
        {
            Assert.Equal(celsius, finding.Evidence[0].Value, 1.0);
            Assert.Contains("slowly", finding.Statement, StringComparison.Ordinal);
            Assert.Contains("inert gas", finding.Statement, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("nitrous oxide", null, true)]
    [InlineData("air", null, true)]
    [InlineData("oxygen", 10.0, true)]
    [InlineData("oxygen", 120.0, false)]
    [InlineData("nitrogen", null, false)]
    public void Screen_PressedOntoEther_CountsWhereTheGasFeedsAFireAndComesFast(string gas, double? seconds, bool expected) =>
        Assert.Equal(expected, Found(Pressed(gas, "diethyl ether", 11, seconds)) is not null);

    // closed vessel, vapour of a hydrocarbon or an ether in air: about 8 times the pressure (Crowl and Louvar, from memory); 21 bar absolute: 168 bar
    [Theory]
    [InlineData("air", "diethyl ether", 21, 168.0)]
    [InlineData("air", "water", 21, null)]
    [InlineData("nitrogen", "diethyl ether", 21, null)]
    [InlineData("air", "diethyl ether", 1.2, null)]
    public void Screen_AirPressedSlowlyOntoWhatBurns_IsAWarningAllTheSame(string gas, string liquid, double barAbs, double? bar)
    {
        var finding = Screener.Screen(Pressed(gas, liquid, barAbs, 600), Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "fire.air-pressed-on-fuel");

        Assert.Equal(bar is null ? null : Severity.Warning, finding?.Severity);
        Assert.Equal(bar, finding?.Evidence[0].Value);
    }

    private static Finding? Found(Plan plan) => Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "fire.compression-ignition");

    private static Plan Pressed(string gas, string liquid, double barAbs, double? seconds) => new()
    {
        Materials = [Of("liquid", liquid, ML(20), Role.Solvent)],
        Vessels = [new Vessel { Id = "a", Kind = "stainless steel autoclave", VolumeM3 = 100e-6, RatingPaGauge = 100e5 }],
        Steps = [Step("1", StepAction.Charge, "a", 20, "liquid"), Step("2", StepAction.Pressurise, "a", 20) with { Gas = Substance(gas), PressurePaAbs = barAbs * 1e5, DurationS = seconds }],
    };
}
