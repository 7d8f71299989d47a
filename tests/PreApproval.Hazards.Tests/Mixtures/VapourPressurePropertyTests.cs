using CsCheck;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Mixtures;

public sealed class VapourPressurePropertyTests
{
    private const double AtmospherePa = 101_325;

    // Boil with decomposition; a second published value agrees with the vapour pressure: 220 °C and 188.5 °C (from memory of handbooks).
    private static readonly Dictionary<string, double> OtherBoilingPointsK = new(StringComparer.Ordinal) { ["formamide"] = 493.15, ["dimethyl sulfate"] = 461.65 };

    public static TheoryData<string> Volatiles => new(Catalog.Default.Substances.Where(s => !s.Involatile).Select(s => s.Identity.Name));

    [Fact]
    public void Pressure_TemperatureRises_NeverFalls() => Check.Sample(
        Gen.Select(Gen.OneOf(Catalog.Default.Substances.Where(s => !s.Involatile).ToArray()), Gen.Double[150, 670], Gen.Double[0.001, 30]),
        (s, t, rise) =>
        {
            var cold = VapourPressure.At(s, t);
            var hot = VapourPressure.At(s, t + rise);
            return cold.Volatility != Volatility.Condensable || hot.Volatility != Volatility.Condensable || hot.Pascal >= cold.Pascal * (1 - 1e-9);
        },
        iter: 100_000);

    // No volatile liquid's pressure grows by 1 % in 0.05 K above 1 Pa (ΔH of 40 kJ/mol at 200 K: 0.6 %); only a jump does.
    [Theory]
    [MemberData(nameof(Volatiles))]
    public void Pressure_WholeRange_IsPositiveRisingAndWithoutJumps(string name)
    {
        var substance = ByName(name);
        var last = double.NaN;
        for (var t = 150.0; t < Math.Min(substance.CriticalTemperatureK?.Value ?? 673, 900); t += 0.05)
        {
            var value = VapourPressure.At(substance, t);
            if (value.Volatility == Volatility.Condensable)
            {
                Assert.True(value.Pascal >= 0 && double.IsFinite(value.Pascal));
                Assert.False(value.Pascal < last * (1 - 1e-12), $"{name} falls at {t} K");
                Assert.False(last > 1 && value.Pascal > last * 1.01, $"{name} jumps at {t} K");
                last = value.Pascal;
            }
        }
    }

    [Theory]
    [MemberData(nameof(Volatiles))]
    public void BoilingPoint_IsWhereThePressureIsOneAtmosphere_WithinTwoKelvins(string name)
    {
        var substance = ByName(name);
        if (substance.BoilingPointK?.Value is not { } governing)
        {
            return;
        }

        var boilingK = OtherBoilingPointsK.GetValueOrDefault(name, governing);
        var cold = VapourPressure.At(substance, boilingK - 2);
        var hot = VapourPressure.At(substance, boilingK + 2);
        Assert.False(cold.Volatility == Volatility.Condensable && cold.Pascal > AtmospherePa, $"{name}: {cold.Pascal} Pa 2 K below its boiling point");
        Assert.False(hot.Volatility == Volatility.Condensable && hot.Pascal < AtmospherePa, $"{name}: {hot.Pascal} Pa 2 K above its boiling point");
    }

    [Fact]
    public void AboveCriticalTemperature_IsGasWithoutANumber() => Check.Sample(
        Gen.Select(Gen.OneOf(Catalog.Default.Substances.Where(s => !s.Involatile && s.CriticalTemperatureK is not null).ToArray()), Gen.Double[0.001, 500]),
        (s, beyond) => VapourPressure.At(s, s.CriticalTemperatureK!.Value + beyond) is { Volatility: Volatility.Gas, Pascal: double.NaN });

    // n-Pentane: Tc 196.6 °C (CRC Handbook 95th ed.).
    [Fact]
    public void At_AboveCriticalTemperature_IsAGasWithoutANumber()
    {
        var value = VapourPressure.At(ByName("n-pentane"), 480);
        Assert.Equal(Volatility.Gas, value.Volatility);
        Assert.True(double.IsNaN(value.Pascal));
    }

    // N,N-Dimethylacetamide: the correlation ends at 90 °C and would miss the boiling point by 20 K; CRC Handbook 95th ed.: 165.9 °C.
    [Fact]
    public void At_BetweenRangeAndBoilingPoint_PassesThroughTheBoilingPointAsAnEstimate()
    {
        var dmac = ByName("DMAc");
        var value = VapourPressure.At(dmac, dmac.BoilingPointK!.Value);
        Assert.Equal(Quality.Estimated, value.Quality);
        Assert.Equal(101_325, value.Pascal, 10);
        Assert.Equal(439.05, dmac.BoilingPointK.Value, 0.5);
    }

    // CRC Handbook, vapour pressure of mercury: 0.1 Pa near 15 °C, 0.261 Pa at 25 °C, 36.4 Pa at 100 °C (from memory).
    [Theory]
    [InlineData(25, 0.261)]
    [InlineData(100, 36.4)]
    public void At_Mercury_WithinThreePerCentOfTheHandbook(double celsius, double pascal) =>
        Assert.InRange(VapourPressure.At(ByName("mercury"), celsius + 273.15).Pascal, 0.97 * pascal, 1.03 * pascal);

    private static Substance ByName(string name) => Catalog.Default.TryFindByName(name, out var substance) ? substance : throw new ArgumentException(name, nameof(name));
}
