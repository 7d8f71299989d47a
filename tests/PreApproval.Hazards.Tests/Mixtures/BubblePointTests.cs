using PreApproval.Hazards.Mixtures;
using static PreApproval.Hazards.Tests.Mixtures.MixtureOf;

namespace PreApproval.Hazards.Tests.Mixtures;

public sealed class BubblePointTests
{
    private static readonly double[] Shares = [0.1, 0.5, 0.9];

    // Azeotropes at 101 325 Pa, CRC Handbook of Chemistry and Physics (from memory): mole fraction of the first, boiling point in °C.
    // There the vapour has the composition of the liquid.
    [Theory]
    [InlineData("ethanol", "water", 0.895, 78.2, 0.5, 0.01)]
    [InlineData("benzene", "ethanol", 0.552, 67.9, 1.0, 0.03)]
    [InlineData("acetone", "chloroform", 0.339, 64.4, 1.0, 0.05)]
    [InlineData("acetone", "methanol", 0.788, 55.5, 1.0, 0.04)]
    public void TemperatureAt_Azeotrope_BoilsAsPublishedWithEqualCompositions(string first, string second, double x, double celsius, double within, double equal)
    {
        var point = BubblePoint.TemperatureAt(Mol((first, x), (second, 1 - x)), 101_325);

        Assert.Equal(celsius, point.TemperatureK!.Value - ZeroC, within);
        Assert.Equal(x, point.VapourMoleFractions![0], equal);
    }

    // Heteroazeotropes at 101 325 Pa, CRC Handbook (from memory): toluene/water 84.1 °C with 0.444 toluene in the vapour; n-hexane/water 61.6 °C, 0.789.
    [Theory]
    [InlineData("toluene", "water", 84.1, 0.444)]
    [InlineData("n-hexane", "water", 61.6, 0.789)]
    public void TemperatureAt_LiquidsThatDoNotMix_BoilTogetherAsPublished(string first, string second, double celsius, double vapour)
    {
        var point = BubblePoint.TemperatureAt(Mol((first, 0.5), (second, 0.5)), 101_325);

        Assert.Equal(LiquidModel.TwoLiquids, point.Model);
        Assert.Equal(celsius, point.TemperatureK!.Value - ZeroC, 1.0);
        Assert.Equal(vapour, point.VapourMoleFractions![0], 0.02);
    }

    [Fact]
    public void PressureAt_TwoLiquids_IsTheSameForEveryProportion()
    {
        var pressures = Shares.Select(static x => BubblePoint.PressureAt(Mol(("toluene", x), ("water", 1 - x)), 333.15).PressurePaAbs!.Value).ToArray();

        Assert.All(pressures, pressure => Assert.Equal(1, pressure / pressures[0], 1e-6));
    }

    // Sum of the pure vapour pressures at 60 °C: water 19.95 kPa (IAPWS-IF97), toluene 18.5 kPa (Perry's, 8th ed., table 2-8): never more than that.
    [Fact]
    public void PressureAt_TwoLiquids_StaysBelowTheSumOfVapourPressures() =>
        Assert.InRange(BubblePoint.PressureAt(Mol(("toluene", 0.5), ("water", 0.5)), 333.15).PressurePaAbs!.Value, 37_000, 38_600);

    [Fact]
    public void PressureAt_NoParameters_IsTheSumOfVapourPressuresAndNamesTheGroups()
    {
        var mixture = Mol(("N-methyl-2-pyrrolidone", 0.5), ("dimethyl sulfide", 0.5));
        var point = BubblePoint.PressureAt(mixture, 298.15);
        var sum = mixture.Parts.Sum(static p => VapourPressure.At(p.Substance, 298.15).Pascal);

        Assert.Equal(LiquidModel.Bound, point.Model);
        Assert.Equal(1, point.PressurePaAbs!.Value / sum, 1e-12);
        Assert.Null(point.VapourMoleFractions);
        Assert.Contains(mixture.Notes, static note => note.Contains("NMP with CH2S", StringComparison.Ordinal));
    }

    [Fact]
    public void PressureAt_SaltInIt_IsLeftOutAndSaidSo()
    {
        var with = Mol(("water", 0.8), ("sodium chloride", 0.2));

        Assert.Equal(BubblePoint.PressureAt(Mol(("water", 1)), 323.15).PressurePaAbs!.Value, BubblePoint.PressureAt(with, 323.15).PressurePaAbs!.Value, 1e-6);
        Assert.Contains(with.Notes, static note => note.Contains("sodium chloride", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("hydrogen", "gas above its critical temperature")]
    [InlineData("hydrogen chloride", "no model on file represents hydrogen chloride")]
    public void PressureAt_WhatNoModelHolds_SaysWhy(string solute, string because)
    {
        var point = BubblePoint.PressureAt(Mol(("water", 0.9), (solute, 0.1)), 298.15);

        Assert.Null(point.PressurePaAbs);
        Assert.Contains(because, point.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void PressureAt_NothingVolatile_SaysSo() =>
        Assert.Contains("nothing in it leaves a vapour", BubblePoint.PressureAt(Mol(("sodium chloride", 1)), 298.15).Because, StringComparison.Ordinal);

    [Fact]
    public void TemperatureAt_PressureBeyondTheCriticalPoint_SaysSo() =>
        Assert.Contains("critical point", BubblePoint.TemperatureAt(Mol(("n-hexane", 1)), 1e8).Because, StringComparison.Ordinal);

    [Fact]
    public void DewPressure_SaltInTheVapour_IsRefused() =>
        Assert.Contains("sodium chloride", DewPoint.PressureAt(Mol(("water", 0.9), ("sodium chloride", 0.1)), 373.15).Because, StringComparison.Ordinal);

    [Fact]
    public void Construct_FractionsWithoutSense_Throws()
    {
        Assert.Throws<ArgumentException>(static () => Mol(("water", -0.1), ("ethanol", 1.1)));
        Assert.Throws<ArgumentException>(static () => Mol(("water", 0)));
        Assert.Throws<ArgumentException>(static () => Mol(("water", 0.5), ("water", 0.5)));
    }
}
