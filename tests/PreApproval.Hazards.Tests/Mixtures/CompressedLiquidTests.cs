using CsCheck;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Mixtures;

public sealed class CompressedLiquidTests
{
    private static readonly Substance Toluene = ByName("toluene");

    // DIPPR procedure 4C, worked example (as quoted by chemicals 1.5.2, COSTALD_compressed): 92.87482879788505 cm³/mol.
    [Fact]
    public void Compression_DipprExample_AgreesToAllFigures() =>
        Assert.Equal(92.87482879788505, 105.047 * Costald.Compression(303 / 466.7, 3_640_000, 0.281, 9.8e7, 85_857.9), 1e-9);

    // IAPWS R7-97(2012), table 5.
    [Theory]
    [InlineData(300, 3e6, 0.100215168e-2)]
    [InlineData(300, 80e6, 0.971180894e-3)]
    [InlineData(500, 3e6, 0.120241800e-2)]
    public void WaterVolume_CheckValues_AgreeToAllFigures(double temperatureK, double pascal, double m3PerKg) =>
        Assert.Equal(1, WaterVolume.At(temperatureK, pascal) / m3PerKg, 1e-8);

    [Theory]
    [InlineData(273, 1e6)]
    [InlineData(624, 20e6)]
    [InlineData(300, 101e6)]
    public void WaterVolume_OutsideRegion1_Throws(double temperatureK, double pascal) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => WaterVolume.At(temperatureK, pascal));

    // Isothermal compressibility, 1e-10/Pa. CRC Handbook: water 4.525 at 25 °C, benzene 9.66, toluene 8.96, tetrachloromethane 10.67, acetone 12.62, hexane 16.69 (from memory).
    // The equation makes hydrocarbons 22 to 36 % too soft there; it is known for less near saturation than at high pressure.
    [Theory]
    [InlineData("water", 4.525, 0.995, 1.005)]
    [InlineData("acetone", 12.62, 0.9, 1.1)]
    [InlineData("benzene", 9.66, 1.0, 1.36)]
    [InlineData("toluene", 8.96, 1.0, 1.36)]
    [InlineData("carbon tetrachloride", 10.67, 1.0, 1.36)]
    [InlineData("n-hexane", 16.69, 1.0, 1.36)]
    public void Compressibility_25C_WithinTheStatedBand(string name, double handbook, double low, double high) =>
        Assert.InRange(CompressedLiquid.CompressibilityPerPa(ByName(name), 298.15, 101_325)!.Value * 1e10, handbook * low, handbook * high);

    // Alcohols come out about three times too stiff (methanol 12.5, ethanol 11.5): a pressure on the high, cautious side.
    [Theory]
    [InlineData("methanol", 12.5)]
    [InlineData("ethanol", 11.5)]
    public void Compressibility_Alcohols_IsBelowTheHandbook(string name, double handbook) =>
        Assert.InRange(CompressedLiquid.CompressibilityPerPa(ByName(name), 298.15, 101_325)!.Value * 1e10, handbook * 0.25, handbook);

    // Water at constant volume: dP/dT = α/κ = 2.57e-4/4.525e-10 = 5.7 bar/K at 25 °C (CRC Handbook, thermal expansion and compressibility of water).
    [Fact]
    public void PressureAt_WaterWarmedByOneKelvin_RisesAsExpansionOverCompressibility()
    {
        var water = ByName("water");
        LiquidAmount[] liquid = [new(water, 20e-6 / LiquidVolume.At(water, 297.65).M3PerMol)];
        var rise = (Pressure(liquid, 298.65) - Pressure(liquid, 297.65)) / 1e5;
        Assert.InRange(rise, 5.7 * 0.97, 5.7 * 1.03);
    }

    // Steam tables, compressed liquid at 100 °C: 1.0290 dm³/kg at 30 MPa (Çengel and Boles, Thermodynamics, table A-7), which is the saturated volume at 80 °C, 1.029 dm³/kg.
    [Fact]
    public void PressureAt_WaterFullAt80HeatedTo100_MatchesSteamTables()
    {
        var water = ByName("water");
        LiquidAmount[] liquid = [new(water, 20e-6 / LiquidVolume.At(water, 353.15).M3PerMol)];
        Assert.InRange(Pressure(liquid, 373.15), 28e6, 32e6);
    }

    // chemicals 1.5.2: temperatures at which toluene charged at 20 °C fills 20 mL, °C.
    [Theory]
    [InlineData(0.1602371099086351, 148.82146129849968)]
    [InlineData(0.16494996608241846, 129.50021769293875)]
    [InlineData(0.17437567842998525, 88.19214988617159)]
    public void FillTemperature_Toluene_MatchesReferenceLibrary(double mol, double celsius) =>
        Assert.Equal(celsius, CompressedLiquid.FillTemperatureK([new(Toluene, mol)], 20e-6, 293.15)!.Value - 273.15, 0.002);

    [Fact]
    public void FillTemperature_HalfFull_IsNull() => Assert.Null(CompressedLiquid.FillTemperatureK([new(ByName("water"), 0.2)], 20e-6, 293.15));

    [Fact]
    public void FillTemperature_FullFromTheStart_IsTheStart() => Assert.Equal(293.15, CompressedLiquid.FillTemperatureK([new(Toluene, 0.2)], 20e-6, 293.15));

    [Fact]
    public void PressureAt_NoModelForTheLiquid_SaysSo()
    {
        var answer = CompressedLiquid.PressureAt([new(ByName("sulfuric acid"), 0.4)], 20e-6, 298.15, 0);
        Assert.Null(answer.Pascal);
        Assert.Contains("compressibility", answer.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void PressureAt_NearTheCriticalTemperature_SaysSo()
    {
        var answer = CompressedLiquid.PressureAt([new(Toluene, 0.1)], 10e-6, 570, 3e6);
        Assert.Null(answer.Pascal);
        Assert.Contains("critical", answer.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void PressureAt_BeyondTheModels_IsNullNotAnExtrapolation() =>
        Assert.Null(CompressedLiquid.PressureAt([new(Toluene, 0.2)], 15e-6, 423.15, 275_000).Pascal);

    [Fact]
    public void PressureAt_GasBesideTheLiquid_NeverLessThanWithout() => Check.Sample(
        Gen.Select(Gen.Double[0.16, 0.175], Gen.Double[0, 1e-3]),
        (mol, gas) => CompressedLiquid.PressureAt([new(Toluene, mol)], 20e-6, 423.15, 274_965, gas).Pascal >= CompressedLiquid.PressureAt([new(Toluene, mol)], 20e-6, 423.15, 274_965).Pascal);

    [Fact]
    public void Pressure_TemperatureRises_NeverFalls() => Check.Sample(
        Gen.Select(Gen.Double[0.155, 0.172], Gen.Double[293.15, 480], Gen.Double[0.01, 10]),
        (mol, t, rise) =>
        {
            LiquidAmount[] liquid = [new(Toluene, mol)];
            return CompressedLiquid.PressureAt(liquid, 20e-6, t + rise, VapourPressure.At(Toluene, t + rise).Pascal, 1e-4).Pascal is not { } hot || Pressure(liquid, t, 1e-4) <= hot * (1 + 1e-9);
        });

    // The volumes of the parts under the answer add up to the vessel.
    [Fact]
    public void Volume_eq_liquid_plus_gas()
    {
        var acetone = ByName("acetone");
        const double t = 400;
        var pascal = CompressedLiquid.PressureAt([new(Toluene, 0.1), new(acetone, 0.1)], 20e-6, t, 4e5, 1e-4).Pascal!.Value;
        var liquid = new[] { Toluene, acetone }.Sum(s => 0.1 * LiquidVolume.At(s, t).M3PerMol * CompressedLiquid.Compression(s, t, pascal)!.Value);
        Assert.Equal(1, (liquid + (1e-4 * 8.31446261815324 * t / (pascal - 4e5))) / 20e-6, 1e-7);
    }

    private static double Pressure(LiquidAmount[] liquid, double temperatureK, double gasMol = 0) =>
        CompressedLiquid.PressureAt(liquid, 20e-6, temperatureK, VapourPressure.At(liquid[0].Substance, temperatureK).Pascal, gasMol).Pascal ?? double.PositiveInfinity;

    private static Substance ByName(string name) => Catalog.Default.TryFindByName(name, out var substance) ? substance : throw new ArgumentException(name, nameof(name));
}
