using CsCheck;
using PreApproval.Hazards.Energy;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>Worked examples of the kind in F. Stoessel, Thermal Safety of Chemical Processes (2020), and of Townsend and Tou 1980; arithmetic by hand, pages from memory.</summary>
public sealed class RunawayTests
{
    // 0.50 mol of a strong acid neutralised, −55.8 kJ/mol (CRC Handbook), in 220 g of 3.8 J/(g K)
    [Fact]
    public void AdiabaticRise_Neutralisation_Is33K() => Assert.Equal(33.4, Runaway.AdiabaticRiseK(0.5 * 55_800, 0.220 * 3800), 0.5);

    [Theory]
    [InlineData(0.3, 115.3)]
    [InlineData(1.0, 197.6)]
    public void Mtsr_OfAccumulation(double accumulation, double celsius)
    {
        var rise = Runaway.AdiabaticRiseK(200_000, 1700);

        Assert.Equal(117.6, rise, 0.1);
        Assert.Equal(celsius, Runaway.MtsrK(80 + 273.15, accumulation, rise) - 273.15, 0.1);
    }

    // order of the four temperatures in each class: definition of Stoessel, from memory
    [Theory]
    [InlineData(90, 110, 150, 1)]
    [InlineData(120, 180, 150, 2)]
    [InlineData(130, 100, 160, 3)]
    [InlineData(160, 100, 120, 4)]
    [InlineData(150, 180, 110, 5)]
    [InlineData(150, 130, 110, 5)]
    public void CriticalityClass_OfTheOrder(double mtsr, double technical, double day, int expected) =>
        Assert.Equal(expected, CriticalityClass.Of(mtsr + 273.15, technical + 273.15, day + 273.15));

    [Theory]
    [InlineData(120, 150, 2)]
    [InlineData(160, 150, 5)]
    public void CriticalityClass_WithoutABarrier_IsTheWorseOne(double mtsr, double day, int expected) => Assert.Equal(expected, CriticalityClass.Of(mtsr + 273.15, null, day + 273.15));

    [Fact]
    public void Class_never_falls_as_mtsr_rises() => Gen.Select(Gen.Double[250, 600], Gen.Double[0, 100], Gen.Double[280, 500], Gen.Double[250, 600]).Sample(static (mtsr, more, technical, day) =>
        Assert.True(CriticalityClass.Of(mtsr + more, technical, day) >= CriticalityClass.Of(mtsr, technical, day)));

    // cp R T²/(q Ea) by hand: 2000 · 8.314 · 373.15²/(10 · 100 000) = 2315 s
    [Fact]
    public void TimeToMaximumRate_TenWattPerKilogram_Is39Minutes() =>
        Assert.Equal(0.643, Runaway.TimeToMaximumRateS(2000, 373.15, 10, 100_000) / 3600, 0.643 * 0.005);

    [Theory]
    [InlineData(24, 2000, 100, 200, 100, 111.3)]
    [InlineData(24, 2000, 100, 200, 150, 134.3)]
    [InlineData(8, 2000, 100, 200, 100, 126.3)]
    [InlineData(8, 2000, 100, 200, 150, 145.1)]
    [InlineData(24, 1800, 20, 150, 100, 92.6)]
    [InlineData(24, 1800, 20, 150, 50, 57.7)]
    public void TemperatureForTime_OfHeatOutput(double hours, double heatCapacity, double output, double celsius, double kilojoule, double expected) =>
        Assert.Equal(expected, Runaway.TemperatureForTimeK(hours * 3600, heatCapacity, output, celsius + 273.15, kilojoule * 1000)!.Value - 273.15, 0.3);

    [Fact]
    public void Time_at_the_temperature_for_a_time_eq_that_time() => Gen.Select(Gen.Double[4, 48], Gen.Double[1000, 4200], Gen.Double[1, 200], Gen.Double[320, 520], Gen.Double[50_000, 250_000]).Sample(static (hours, heatCapacity, output, known, activation) =>
    {
        var found = Runaway.TemperatureForTimeK(hours * 3600, heatCapacity, output, known, activation)!.Value;
        var time = Runaway.TimeToMaximumRateS(heatCapacity, found, Runaway.HeatOutputWPerKg(found, output, known, activation), activation);
        Assert.Equal(hours * 3600, time, hours * 3600 * 1e-6);
    });

    [Fact]
    public void Lower_activation_energy_leq_temperature_for_a_day() => Gen.Select(Gen.Double[10, 200], Gen.Double[350, 520], Gen.Double[50_000, 100_000]).Sample(static (output, known, activation) =>
        Assert.True(Runaway.TemperatureForTimeK(Runaway.DayS, 2000, output, known, activation) <= Runaway.TemperatureForTimeK(Runaway.DayS, 2000, output, known, activation * 1.5)));

    [Fact]
    public void Dosing_AgainstCooling_IsWithinIt()
    {
        Assert.Equal(16.7, HeatBalance.DosingW(0.10 * 100_000, 600), 0.1);
        Assert.Equal(80, HeatBalance.CoolingW(200, 0.02, 20), 1e-9);
    }

    // sphere: 6/d
    [Theory]
    [InlineData(0.1, 104.2)]
    [InlineData(1, 48.36)]
    [InlineData(10, 22.45)]
    [InlineData(1000, 4.836)]
    public void SphereSurface_OverVolume(double litres, double perMetre) => Assert.Equal(perMetre, HeatBalance.SphereSurfacePerVolume(litres / 1000), perMetre * 0.0005);
}
