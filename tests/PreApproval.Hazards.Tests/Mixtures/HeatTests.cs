using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Tests.Mixtures;

public sealed class HeatTests
{
    // Enthalpy of vaporisation at 25 °C, kJ/mol: CRC Handbook 95th ed., section 6 (water: steam tables); typed from memory.
    [Theory]
    [InlineData("water", 43.99)]
    [InlineData("methanol", 37.43)]
    [InlineData("ethanol", 42.32)]
    [InlineData("acetone", 30.99)]
    [InlineData("benzene", 33.83)]
    [InlineData("toluene", 38.01)]
    [InlineData("n-hexane", 31.56)]
    [InlineData("diethyl ether", 27.10)]
    [InlineData("dichloromethane", 28.82)]
    [InlineData("tetrahydrofuran", 31.99)]
    [InlineData("ethyl acetate", 35.60)]
    public void EnthalpyOfVaporisation_25C_WithinTwoPerCentOfHandbook(string name, double kilojoule)
    {
        var substance = ByName(name);
        Assert.InRange(EnthalpyOfVaporisation.At(substance, 298.15)!.Value / 1000, kilojoule * 0.98, kilojoule * 1.02);
        Assert.InRange(EnthalpyOfVaporisation.Clapeyron(substance, 298.15)!.Value / 1000, kilojoule * 0.975, kilojoule * 1.025);
    }

    [Fact]
    public void EnthalpyOfVaporisation_AtTheBoilingPoint_IsThePublishedValue()
    {
        var ethanol = ByName("ethanol");
        Assert.Equal(ethanol.EnthalpyOfVaporisationJPerMol, EnthalpyOfVaporisation.At(ethanol, ethanol.BoilingPointK!.Value));
        Assert.Equal(38_560, ethanol.EnthalpyOfVaporisationJPerMol!.Value); // CRC Handbook 95th ed.
    }

    [Fact]
    public void EnthalpyOfVaporisation_TowardsTheCriticalPoint_FallsToZeroAndIsMissingAbove()
    {
        var ethanol = ByName("ethanol");
        var critical = ethanol.CriticalTemperatureK!.Value;
        Assert.True(EnthalpyOfVaporisation.At(ethanol, 450)!.Value < EnthalpyOfVaporisation.At(ethanol, 350)!.Value);
        Assert.Equal(0, EnthalpyOfVaporisation.At(ethanol, critical)!.Value);
        Assert.Null(EnthalpyOfVaporisation.At(ethanol, critical + 1));
    }

    // Without the value at the boiling point: the slope of the vapour pressure, against the CRC Handbook at 25 °C (from memory).
    [Theory]
    [InlineData("cyclohexane", 33.01)]
    [InlineData("chloroform", 31.28)]
    public void EnthalpyOfVaporisation_NoValueOnFile_ComesFromTheVapourPressure(string name, double kilojoule)
    {
        var value = EnthalpyOfVaporisation.At(ByName(name) with { EnthalpyOfVaporisationJPerMol = null }, 298.15)!;
        Assert.Equal(Quality.Estimated, value.Quality);
        Assert.Equal("haggenmacher1946", value.Sources[^1]);
        Assert.InRange(value.Value / 1000, kilojoule * 0.98, kilojoule * 1.02);
    }

    // Water 4.18 kJ/(kg K), acetone 2.15 (CRC Handbook, from memory).
    [Theory]
    [InlineData("water", 4180)]
    [InlineData("acetone", 2150)]
    public void LiquidHeatCapacity_25C_MatchesHandbook(string name, double joule) =>
        Assert.InRange(LiquidHeatCapacity.JPerKgK(ByName(name), 298.15)!.Value, joule * 0.99, joule * 1.01);

    [Fact]
    public void LiquidHeatCapacity_FarFromRoomTemperature_IsMarkedEstimated() =>
        Assert.Equal(Quality.Estimated, LiquidHeatCapacity.JPerMolK(ByName("acetone"), 373.15)!.Quality);

    [Fact]
    public void LiquidHeatCapacity_NothingOnFileOrAboveTc_IsMissing()
    {
        var acetone = ByName("acetone");
        Assert.Null(LiquidHeatCapacity.JPerMolK(acetone with { LiquidHeatCapacityJPerMolK = null }, 298.15));
        Assert.Null(LiquidHeatCapacity.JPerMolK(acetone, 600));
    }

    private static Substance ByName(string name) => Catalog.Default.TryFindByName(name, out var substance) ? substance : throw new ArgumentException(name, nameof(name));
}
