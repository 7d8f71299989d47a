using CsCheck;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Mixtures;

public sealed class CompressedLiquidTests
{
    private static readonly Substance Toluene = ByName("toluene");

    private static readonly string[] Corrected = ["ethanol", "methanol", "n-hexane", "benzene", "ethylene glycol"];

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

    // Isothermal compressibility, 1e-10/Pa, CRC Handbook, from memory: where it was measured the corrected equation gives it.
    [Theory]
    [InlineData("water", 25, 4.525)]
    [InlineData("acetone", 20, 12.62)]
    [InlineData("benzene", 25, 9.66)]
    [InlineData("toluene", 20, 8.96)]
    [InlineData("carbon tetrachloride", 25, 10.67)]
    [InlineData("n-hexane", 25, 16.69)]
    [InlineData("diethyl ether", 20, 18.65)]
    [InlineData("methanol", 20, 12.14)]
    [InlineData("ethanol", 20, 11.19)]
    public void Compressibility_WhereMeasured_IsTheHandbooks(string name, double celsius, double handbook) =>
        Assert.Equal(1, CompressedLiquid.CompressibilityPerPa(ByName(name), celsius + 273.15, 101_325)!.Value * 1e10 / handbook, 0.005);

    // Values that no correction is taken from, same handbook and unit, from memory: how far the correction carries.
    [Theory]
    [InlineData("ethanol", 70, 15.93, 0.03)]
    [InlineData("methanol", 40, 13.83, 0.03)]
    [InlineData("ethanol", 25, 11.5, 0.03)]
    [InlineData("methanol", 25, 12.5, 0.03)]
    [InlineData("benzene", 45, 11.28, 0.05)]
    [InlineData("acetone", 40, 15.6, 0.1)]
    public void Compressibility_ElsewhereNear_StaysNearTheHandbook(string name, double celsius, double handbook, double within) =>
        Assert.Equal(1, CompressedLiquid.CompressibilityPerPa(ByName(name), celsius + 273.15, 101_325)!.Value * 1e10 / handbook, within);

    // Uncorrected, toluene of the equation: C 0.09530, B 324.4 bar, V/Vs 0.99122 at 34.3 bar and 150 °C (chemicals 1.5.2, COSTALD_compressed): from there on the equation stands alone.
    [Fact]
    public void Compression_At150_IsTheEquationAlone() => Assert.Equal(0.99122, CompressedLiquid.Compression(Toluene, 423.15, 34.3126e5)!.Value, 2e-5);

    // Liquid-full, dP/dT = β/κ in bar/K at 25 °C: toluene 1.07e-3/0.896e-9, water 2.57e-4/0.452e-9, ethanol 1.10e-3/1.15e-9 (CRC Handbook, from memory), within 10 %.
    [Theory]
    [InlineData("toluene", 11.9)]
    [InlineData("water", 5.7)]
    [InlineData("ethanol", 9.6)]
    public void PressureAt_FullAndWarmedByOneKelvin_RisesAsExpansionOverCompressibility(string name, double barPerK)
    {
        var substance = ByName(name);
        LiquidAmount[] liquid = [new(substance, 20e-6 / LiquidVolume.At(substance, 297.65).M3PerMol)];

        Assert.Equal(1, (Pressure(liquid, 298.65) - Pressure(liquid, 297.65)) / 1e5 / barPerK, 0.1);
    }

    [Fact]
    public void PressureAt_CorrectedLiquid_NamesTheMeasurement() =>
        Assert.Contains("crc-compressibility", CompressedLiquid.PressureAt([new(Toluene, 0.19)], 20e-6, 313.15, 8e3).Sources, StringComparer.Ordinal);

    // softer than the equation up to 70 °C, then nearer to it: the pressure still only rises
    [Fact]
    public void Pressure_CorrectedLiquids_NeverFallsWithTemperature() => Check.Sample(
        Gen.Select(Gen.Int[0, 4], Gen.Double[0.86, 0.99], Gen.Double[293.15, 440], Gen.Double[0.01, 20]),
        (which, fill, t, rise) =>
        {
            var substance = ByName(Corrected[which]);
            LiquidAmount[] liquid = [new(substance, fill * 20e-6 / LiquidVolume.At(substance, 293.15).M3PerMol)];
            return Pressure(liquid, t, 1e-4) <= Pressure(liquid, t + rise, 1e-4) * (1 + 1e-9);
        });

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
