using CsCheck;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Mixtures;

public sealed class VapourPressurePropertyTests
{
    [Fact]
    public void Pressure_TemperatureRises_NeverFalls() => Check.Sample(
        Gen.Select(Gen.OneOf(Catalog.Default.Substances.Where(s => !s.Involatile).ToArray()), Gen.Double[200, 670], Gen.Double[0.001, 30]),
        (s, t, rise) =>
        {
            var cold = VapourPressure.At(s, t);
            var hot = VapourPressure.At(s, t + rise);
            return cold.Volatility != Volatility.Condensable || hot.Volatility != Volatility.Condensable || hot.Pascal >= cold.Pascal * (1 - 1e-9);
        },
        iter: 100_000);

    // n-Pentane: Tc 196.6 °C (CRC Handbook 95th ed.).
    [Fact]
    public void At_AboveCriticalTemperature_IsAGasWithoutANumber()
    {
        Assert.True(Catalog.Default.TryFindByName("n-pentane", out var pentane));
        var value = VapourPressure.At(pentane, 480);
        Assert.Equal(Volatility.Gas, value.Volatility);
        Assert.True(double.IsNaN(value.Pascal));
    }

    // Lee and Kesler's own check: at Tr = 0.7 the reduced pressure is 10^-(1 + ω) by the definition of the acentric factor.
    [Theory]
    [InlineData(0.2)]
    [InlineData(0.4)]
    public void LeeKesler_Tr07_MeetsTheDefinitionOfTheAcentricFactor(double omega) =>
        Assert.Equal(-(1 + omega), CorrespondingStates.LeeKesler(0.7, omega) / Math.Log(10), 0.01);

    // N,N-Dimethylacetamide: the correlation ends at 90 °C and would miss the boiling point by 20 K; CRC Handbook 95th ed.: 165.9 °C.
    [Fact]
    public void At_BetweenRangeAndBoilingPoint_PassesThroughTheBoilingPointAsAnEstimate()
    {
        Assert.True(Catalog.Default.TryFindByName("DMAc", out var dmac));
        var value = VapourPressure.At(dmac, dmac.BoilingPointK!.Value);
        Assert.Equal(Quality.Estimated, value.Quality);
        Assert.Equal(101_325, value.Pascal, 10);
        Assert.Equal(439.05, dmac.BoilingPointK.Value, 0.5);
    }
}
