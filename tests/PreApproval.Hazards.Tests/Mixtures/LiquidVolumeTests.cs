using CsCheck;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Mixtures;

public sealed class LiquidVolumeTests
{
    private static readonly Substance[] All = [.. Catalog.Default.Substances];

    // API Technical Data Book, procedure 6A2.13: propane at 30 °F, 530.3 kg/m³ (as quoted by chemicals 1.5.2, COSTALD).
    [Fact]
    public void Costald_PropaneApiExample_AgreesToPrintedFigures() =>
        Assert.Equal(530.3, 0.044097 / (200.08161e-6 * Costald.ReducedVolume(272.03889 / 369.83333, 0.1532)), 0.05);

    // IAPWS SR1-86(1992), table 1: the computer-programme check values, kg/m³.
    [Theory]
    [InlineData(273.16, 999.789)]
    [InlineData(373.1243, 958.365)]
    public void Water_SaturatedLiquid_MatchesTheRelease(double temperatureK, double kilogramPerM3) =>
        Assert.Equal(kilogramPerM3, DensityKgPerM3("water", temperatureK), 0.002);

    // CRC Handbook 95th ed., density at 25 °C of common solvents, kg/m³ (from memory, 0.5 %).
    [Theory]
    [InlineData("acetone", 784.5)]
    [InlineData("benzene", 873.7)]
    [InlineData("toluene", 862.2)]
    [InlineData("ethanol", 785.1)]
    [InlineData("methanol", 786.4)]
    [InlineData("chloroform", 1478.8)]
    [InlineData("dichloromethane", 1316.8)]
    [InlineData("n-hexane", 654.8)]
    [InlineData("acetonitrile", 776.0)]
    [InlineData("tetrahydrofuran", 883.3)]
    [InlineData("water", 997.05)]
    public void At_25C_MatchesHandbook(string name, double kilogramPerM3) =>
        Assert.InRange(DensityKgPerM3(name, 298.15), kilogramPerM3 * 0.995, kilogramPerM3 * 1.005);

    [Fact]
    public void Volume_TemperatureRises_NeverShrinks() => Check.Sample(
        Gen.Select(Gen.OneOf(All), Gen.Double[278, 673], Gen.Double[0.001, 30]),
        (s, t, rise) => LiquidVolume.At(s, t + rise).M3PerMol >= LiquidVolume.At(s, t).M3PerMol * (1 - 1e-9),
        iter: 50_000);

    [Fact]
    public void Volume_AtTheEndsOfACorrelation_IsContinuous()
    {
        var ends = All.SelectMany(s => s.LiquidDensity.SelectMany(c => new[] { (Substance: s, EndK: c.MinimumK, Outward: -1e-9), (Substance: s, EndK: c.MaximumK, Outward: 1e-9) })).Where(e => e.EndK < 0.99 * e.Substance.CriticalTemperatureK?.Value).ToList();
        Assert.True(ends.Count > 100);
        foreach (var (substance, endK, outward) in ends)
        {
            Assert.Equal(1, LiquidVolume.At(substance, endK + outward).M3PerMol / LiquidVolume.At(substance, endK).M3PerMol, 1e-6);
        }
    }

    [Fact]
    public void At_BeyondTheRange_IsEstimatedByCorrespondingStates()
    {
        var substance = All.First(s => s.LiquidDensity.Count == 1 && s.CriticalTemperatureK is not null && s.AcentricFactor is not null && s.LiquidDensity[0].MinimumK > 200);
        var value = LiquidVolume.At(substance, substance.LiquidDensity[0].MinimumK - 5);
        Assert.Equal(Quality.Estimated, value.Quality);
        Assert.Equal("hankinson-thomson1979", value.Source);
    }

    // Benzene with nothing on file but its critical constants (CRC Handbook: 562.05 K, 48.95 bar, 256 cm³/mol, ω 0.21): COSTALD with V* = Vc. Density 873.7 kg/m³ at 25 °C.
    [Fact]
    public void At_CriticalConstantsOnly_WithinFivePerCent()
    {
        Assert.True(Catalog.Default.TryFindByName("benzene", out var benzene));
        var bare = benzene with { LiquidDensity = [], DensityKgPerM3 = null };
        var value = LiquidVolume.At(bare, 298.15);
        Assert.Equal("hankinson-thomson1979", value.Source);
        Assert.InRange(0.078114 / value.M3PerMol, 873.7 * 0.95, 873.7 * 1.05);
    }

    private static double DensityKgPerM3(string name, double temperatureK) =>
        Catalog.Default.TryFindByName(name, out var s) ? s.Identity.MolarMassKgPerMol!.Value / LiquidVolume.At(s, temperatureK).M3PerMol : throw new ArgumentException(name, nameof(name));
}
