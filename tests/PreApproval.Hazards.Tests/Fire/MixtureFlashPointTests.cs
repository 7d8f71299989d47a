using CsCheck;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Mixtures.MixtureOf;

namespace PreApproval.Hazards.Tests.Fire;

public sealed class MixtureFlashPointTests
{
    private static readonly double[] Shares = [0.2, 0.5, 0.8];

    /// <summary>
    /// Ethanol in water, closed cup, by wt% as a handbook table labels them (another prints the same figures as vol%, see the next test);
    /// ±6 K for the dilute ones, where the label matters most, ±2 K above.
    /// </summary>
    [Theory]
    [InlineData(10, 49, 6)]
    [InlineData(20, 36, 6)]
    [InlineData(30, 29, 2)]
    [InlineData(40, 26, 2)]
    [InlineData(50, 24, 2)]
    [InlineData(70, 21, 2)]
    public void Of_EthanolInWaterByWeight_AsMeasured(double percent, double celsius, double within) =>
        Assert.Equal(celsius, Celsius(Weight(ByName("ethanol"), percent, ByName("water"))), within);

    /// <summary>The same series by volume of ethanol, as an encyclopaedia quotes it (secondary source); densities at 20 °C 0.789 and 0.998 g/mL (CRC Handbook).</summary>
    [Theory]
    [InlineData(10, 49)]
    [InlineData(20, 36)]
    [InlineData(30, 29)]
    [InlineData(40, 26)]
    [InlineData(50, 24)]
    [InlineData(60, 22)]
    [InlineData(70, 21)]
    [InlineData(80, 20)]
    [InlineData(90, 17)]
    public void Of_EthanolInWaterByVolume_WithinThreeKelvinOfMeasured(double percent, double celsius) =>
        Assert.Equal(celsius, Celsius(Mol(("ethanol", percent * 0.789 / 46.07), ("water", (100 - percent) * 0.998 / 18.015))), 3.0);

    /// <summary>The van Laar constants alone, held at those of the boiling points, and a flash point of 13 °C for ethanol: 43.7, 33.6, 29.0, 26.3, 24.4, 21.2 °C (worked by hand elsewhere).</summary>
    [Theory]
    [InlineData(10, 43.7)]
    [InlineData(20, 33.6)]
    [InlineData(30, 29.0)]
    [InlineData(40, 26.3)]
    [InlineData(50, 24.4)]
    [InlineData(70, 21.2)]
    public void VanLaar_BoilingConstants_GiveTheHandCalculatedFlashPoint(double percent, double celsius)
    {
        var (ethanol, water) = (ByName("ethanol"), ByName("water"));
        var mixture = Weight(ethanol, percent, water);
        var pair = VanLaar.Find(mixture)!.Value.Pair;
        var x = mixture.Parts[0].MoleFraction;
        var gamma = (pair with { ColdA12 = pair.BoilingA12 }).ActivityCoefficients(x, 300).First;
        var wanted = VapourPressure.At(ethanol, 286.15).Pascal / (x * gamma);

        Assert.Equal(1, VapourPressure.At(ethanol, celsius + ZeroC).Pascal / wanted, 0.01);
    }

    /// <summary>Ten percent of ethanol by weight measured 49 °C (handbook); the ideal solution gives 75.8 °C, which is 27 K on the unsafe side: it must not be what counts.</summary>
    [Fact]
    public void Of_EthanolInWaterTakenAsIdeal_IsUnsafeAndNotOurAnswer()
    {
        var water = ByName("water");
        var ethanol = WithFlashPoint(ByName("ethanol"), 13);
        var likeWater = Ideal(ethanol, water) with { Identity = ethanol.Identity with { Cas = null, Name = "ideal ethanol" } };

        Assert.Equal(75.8, Celsius(Weight(likeWater, 10, water)), 0.5);
        Assert.True(Celsius(Weight(ethanol, 10, water)) < 49 + 3);
    }

    /// <summary>Acetone in toluene as an ideal solution, flash points −20 and 4 °C (IEC 60079-20-1): −0.3 and −11.8 °C at 0.1 and 0.5 mole fraction (Liaw's rule by hand).</summary>
    [Theory]
    [InlineData(0.1, -0.3)]
    [InlineData(0.5, -11.8)]
    public void Of_AcetoneInTolueneTakenAsIdeal_AgreesWithTheHandCalculation(double x, double celsius)
    {
        var toluene = WithFlashPoint(ByName("toluene"), 4);
        var acetone = Ideal(WithFlashPoint(ByName("acetone"), -20), toluene);

        Assert.Equal(celsius, Celsius(new LiquidMixture([new MixtureComponent(acetone, x), new MixtureComponent(toluene, 1 - x)])), 0.5);
    }

    /// <summary>Vidal, Rogers and Mannan, Process Saf. Environ. Prot. 84 (2006) 1: octane with ethanol and octane with 1-butanol have a minimum below both pure flash points.</summary>
    [Theory]
    [InlineData("ethanol", 0.5)]
    [InlineData("1-butanol", 0.2)]
    public void Of_OctaneWithAnAlcohol_LiesBelowBothPureFlashPoints(string alcohol, double x) =>
        Assert.True(Celsius(Mol((alcohol, x), ("n-octane", 1 - x))) < Math.Min(Celsius(Mol((alcohol, 1))), Celsius(Mol(("n-octane", 1)))) - 0.5);

    /// <summary>Where saturated vapour at 101 325 Pa reaches 3.3 % (ethanol), 2.5 % (acetone), 1.1 % (toluene): 10.9, −22.6, 3.2 °C, near the measured 12 to 13, −20 and 4 °C (NFPA 497).</summary>
    [Theory]
    [InlineData("ethanol", 0.033, 10.9)]
    [InlineData("acetone", 0.025, -22.6)]
    [InlineData("toluene", 0.011, 3.2)]
    public void Of_PureLiquidWithoutFlashPoint_TakesPartByItsLowerLimit(string name, double lower, double celsius)
    {
        var value = new Sourced<double>(lower, Quality.Measured, ["test"]);
        var substance = ByName(name) with { FlashPointK = null, LowerFlammableLimit = new Published(value, [value]) };

        Assert.Equal(celsius, Celsius(new LiquidMixture([new MixtureComponent(substance, 1)])), 1.0);
    }

    [Theory]
    [InlineData("acetone", "toluene")]
    [InlineData("ethanol", "n-octane")]
    [InlineData("anisole", "water")]
    public void InAnyAmounts_TwoLiquids_IsBelowEveryMixtureOfThem(string first, string second)
    {
        var lowest = MixtureFlashPoint.InAnyAmounts([ByName(first), ByName(second)]);

        Assert.Equal(LiquidModel.Bound, lowest.Liquid);
        Assert.All(Shares, share => Assert.True(lowest.FlashPointK <= MixtureFlashPoint.Of(Mol((first, share), (second, 1 - share))).FlashPointK + 1e-6));
    }

    [Theory]
    [InlineData("toluene")]
    [InlineData("ethyl acetate")]
    [InlineData("n-heptane")]
    public void Of_PureLiquid_IsItsPublishedFlashPoint(string name) =>
        Assert.Equal(ByName(name).FlashPointK!.Governing.Value, MixtureFlashPoint.Of(Mol((name, 1))).FlashPointK);

    [Fact]
    public void Of_DichloromethaneInIt_GivesNoMarginAndSaysFromWhereTheVapourBurns()
    {
        var flash = MixtureFlashPoint.Of(Mol(("dichloromethane", 0.5), ("methanol", 0.5)));

        Assert.Null(flash.FlashPointK);
        Assert.NotNull(flash.LowerExplosionPointK);
        Assert.Contains("no flash point is a valid margin", flash.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_ChloroformInIt_WarnsThatNoDistanceIsValid() =>
        Assert.Contains(MixtureFlashPoint.Of(Mol(("chloroform", 0.5), ("methanol", 0.5))).Warnings, static w => w.Contains("no distance to the flash point is a valid margin", StringComparison.Ordinal));

    [Fact]
    public void Of_TraceOfEthanolInWater_BoilsFirst() =>
        Assert.Contains("boils before", MixtureFlashPoint.Of(Mol(("ethanol", 0.0005), ("water", 0.9995))).Because, StringComparison.Ordinal);

    [Fact]
    public void Of_NothingThatBurns_HasNone() =>
        Assert.Contains("nothing in it is known to burn", MixtureFlashPoint.Of(Mol(("water", 0.5), ("chloroform", 0.5))).Because, StringComparison.Ordinal);

    // Both liquids flash together: more water under toluene changes nothing.
    [Fact]
    public void Of_TolueneOverWater_FlashesNearPureTolueneInEveryProportion()
    {
        var points = Shares.Select(static x => MixtureFlashPoint.Of(Mol(("toluene", x), ("water", 1 - x)))).ToArray();

        Assert.All(points, point => Assert.Equal(LiquidModel.TwoLiquids, point.Liquid));
        Assert.All(points, point => Assert.Equal(points[0].FlashPointK!.Value, point.FlashPointK!.Value, 1e-3));
        Assert.Equal(Celsius(Mol(("toluene", 1))), points[0].FlashPointK!.Value - ZeroC, 0.5);
    }

    [Fact]
    public void Of_NoParameters_IsALowerBound()
    {
        var flash = MixtureFlashPoint.Of(Mol(("N-methyl-2-pyrrolidone", 0.5), ("dimethyl sulfide", 0.5)));

        Assert.Equal(LiquidModel.Bound, flash.Liquid);
        Assert.Contains(flash.Warnings, static w => w.Contains("lower bound", StringComparison.Ordinal));
    }

    [Fact]
    public void Permutation_changes_nothing() => Check.Sample(
        Gen.Double[0.01, 1].Array[4],
        static x =>
        {
            string[] names = ["acetone", "ethanol", "toluene", "water"];
            var a = MixtureFlashPoint.Of(Mol([.. names.Zip(x)])).FlashPointK;
            var b = MixtureFlashPoint.Of(Mol([.. names.Zip(x).Reverse()])).FlashPointK;
            return Math.Abs(a!.Value - b!.Value) < 1e-6;
        },
        iter: 100);

    // With alike liquids (γ near 1) the flash point lies between those of the components.
    [Fact]
    public void Alkanes_flash_between_pure_flash_points() => Check.Sample(
        Gen.Double[0.01, 0.99],
        static x => Celsius(Mol(("n-octane", x), ("n-heptane", 1 - x))) is var t && t > Celsius(Mol(("n-heptane", 1))) && t < Celsius(Mol(("n-octane", 1))),
        iter: 50);

    [Fact]
    public void Water_added_raises_flash_point_of_methanol() => Check.Sample(
        Gen.Double[0.05, 0.9],
        static x => Celsius(Mol(("methanol", x), ("water", 1 - x))) > Celsius(Mol(("methanol", x + 0.05), ("water", 0.95 - x))),
        iter: 50);

    private static double Celsius(LiquidMixture mixture) => MixtureFlashPoint.Of(mixture).FlashPointK!.Value - ZeroC;
}
