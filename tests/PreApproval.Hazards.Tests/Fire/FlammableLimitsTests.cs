using CsCheck;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Mixtures.MixtureOf;

namespace PreApproval.Hazards.Tests.Fire;

public sealed class FlammableLimitsTests
{
    // Crowl and Louvar, Chemical Process Safety, Le Chatelier example: 0.8 % hexane, 2.0 % methane, 0.5 % ethylene in air, with two sets of limits.
    [Fact]
    public void LeChatelier_HexaneMethaneEthylene_AgreesWithTheBook()
    {
        Assert.Equal(0.0274, FlammableLimits.LeChatelier([(0.8, 0.012), (2.0, 0.053), (0.5, 0.031)]), 0.0002);
        Assert.Equal(0.0251, FlammableLimits.LeChatelier([(0.8, 0.011), (2.0, 0.050), (0.5, 0.027)]), 0.0002);
        Assert.Equal(0.129, FlammableLimits.LeChatelier([(0.8, 0.075), (2.0, 0.15), (0.5, 0.32)]), 0.0002);
    }

    // Same book, modified Burgess–Wheeler: methane, 5.0 %, 191.8 kcal/mol, 200 °C; and Zabetakis' form.
    [Fact]
    public void LowerAt_MethaneAt200C_AgreesWithTheBook()
    {
        Assert.Equal(0.0432, FlammableLimits.LowerAt(0.05, 473.15, 191.8 * 4184), 0.0001);
        Assert.Equal(0.0437, FlammableLimits.LowerAt(0.05, 473.15), 0.0001);
    }

    // Same book: upper limit 11.0 % at 1 atm, at 6.301 MPa absolute 48.1 %.
    [Fact]
    public void UpperAtPressure_Compressed_AgreesWithTheBook() => Assert.Equal(0.481, FlammableLimits.UpperAtPressure(0.11, 6.301e6), 0.002);

    // Same book: butane, 6.5 mol of oxygen, lower limit 1.9 %: 12.35 %; measured in nitrogen 12.0 % (NFPA 69).
    [Fact]
    public void LimitingOxygen_Butane_AgreesWithTheBook()
    {
        Assert.Equal(6.5, Combustion.OxygenPerMol(Made("C4H10")));
        Assert.Equal(0.1235, FlammableLimits.LimitingOxygen(6.5, 0.019), 0.0005);
    }

    // Same book, Jones 1938: hexane, stoichiometric 2.16 %, limits 1.19 and 7.57 %.
    [Fact]
    public void Jones_Hexane_AgreesWithTheBook()
    {
        var stoichiometric = Combustion.StoichiometricFraction(ByName("n-hexane"))!.Value;

        Assert.Equal(0.0216, stoichiometric, 0.0001);
        Assert.Equal(0.0119, FlammableLimits.LowerFromStoichiometry(stoichiometric), 0.0001);
        Assert.Equal(0.0757, FlammableLimits.UpperFromStoichiometry(stoichiometric), 0.0001);
    }

    // Textbook stoichiometry: moles of oxygen to CO2, H2O, N2, SO2 and HX.
    [Theory]
    [InlineData("CH4", 2)]
    [InlineData("C2H6O", 3)]
    [InlineData("H2", 0.5)]
    [InlineData("CS2", 3)]
    [InlineData("C2H3N", 2.75)]
    [InlineData("CH2Cl2", 1)]
    public void OxygenPerMol_Fuel_IsStoichiometric(string formula, double mol) => Assert.Equal(mol, Combustion.OxygenPerMol(Made(formula))!.Value, 1e-12);

    [Theory]
    [InlineData("CO2")]
    [InlineData("SiO2")]
    [InlineData("N2")]
    public void OxygenPerMol_NothingToBurnOrOutsideTheRule_IsNull(string formula) => Assert.Null(Combustion.OxygenPerMol(Made(formula)));

    // CODATA and CRC Handbook: ΔHf gas of methane −74.6, ethanol −234.8, benzene 82.9 kJ/mol; net heats 802.5, 1277.7, 3169.5 kJ/mol (by hand).
    [Theory]
    [InlineData("CH4", -74_600, 802_500)]
    [InlineData("C2H6O", -234_800, 1_277_700)]
    [InlineData("C6H6", 82_900, 3_169_500)]
    public void Heat_FromEnthalpyOfFormation_AgreesWithTheHandCalculation(string formula, double formation, double heat)
    {
        var substance = Made(formula) with { GasEnthalpyOfFormationJPerMol = new Sourced<double>(formation, Quality.Measured, ["test"]) };

        Assert.Equal(1, Combustion.Heat(substance)!.JPerMol / heat, 0.001);
        Assert.Equal(1, Combustion.Heat(Made(formula))!.JPerMol / heat, 0.06);
        Assert.Equal(Quality.Estimated, Combustion.Heat(Made(formula))!.Quality);
    }

    // Crowl and Louvar's out-of-service fuel concentration, LFL/(1 − LOC/21): for 5 % and 12 % oxygen, by hand, 11.7 %.
    [Fact]
    public void NeverFlammableBelow_Methane_AgreesWithTheHandCalculation()
    {
        Assert.Equal(0.1167, FlammableLimits.NeverFlammableBelow(0.05, 0.12), 0.0001);
        Assert.Equal(1, FlammableLimits.NeverFlammableBelow(0.05, 0.22));
    }

    // On the line from such a gas to air, the fuel is below its limit or the oxygen below the limiting fraction.
    [Fact]
    public void Below_that_share_no_air_makes_it_flammable() => Check.Sample(
        Gen.Select(Gen.Double[0.005, 0.1], Gen.Double[0.03, 0.2], Gen.Double[0, 1], Gen.Double[0.01, 0.999]),
        static (lower, oxygen, air, part) =>
        {
            var share = FlammableLimits.NeverFlammableBelow(lower, oxygen) * part;
            return (1 - air) * share < lower || air * Combustion.OxygenInAir <= oxygen;
        },
        iter: 2000);

    [Fact]
    public void At_OneFuel_IsItsOwnLimit()
    {
        var limits = VapourLimits.At(Mol(("toluene", 1)).Parts, [1], 298.15);

        Assert.Equal(ByName("toluene").LowerFlammableLimit!.Governing.Value, limits.Lower.Fraction!.Value, 1e-12);
        Assert.Equal(ByName("toluene").UpperFlammableLimit!.Governing.Value, limits.Upper.Fraction!.Value, 1e-12);
    }

    // Water in the vapour dilutes, it does not change the limit of the combustible part.
    [Fact]
    public void At_WaterInTheVapour_LeavesTheLimitsOfTheCombustiblePart()
    {
        var limits = VapourLimits.At(Mol(("ethanol", 0.5), ("water", 0.5)).Parts, [0.4, 0.6], 298.15);

        Assert.Equal(ByName("ethanol").LowerFlammableLimit!.Governing.Value, limits.Lower.Fraction!.Value, 1e-12);
        Assert.Equal(0.4, limits.CombustibleShare);
        Assert.DoesNotContain(limits.Warnings, static w => w.Contains("not flammable with any", StringComparison.Ordinal));
        Assert.Contains(VapourLimits.At(Mol(("ethanol", 0.5), ("water", 0.5)).Parts, [0.02, 0.98], 298.15).Warnings, static w => w.Contains("not flammable with any", StringComparison.Ordinal));
    }

    [Fact]
    public void At_LimitsNotOnFile_AreEstimatedAndMarked()
    {
        var hexane = ByName("n-hexane") with { LowerFlammableLimit = null, UpperFlammableLimit = null };
        var limits = VapourLimits.At([new MixtureComponent(hexane, 1)], [1], 298.15);

        Assert.Equal(0.0119, limits.Lower.Fraction!.Value, 0.0001);
        Assert.Equal(0.0757, limits.Upper.Fraction!.Value, 0.0001);
        Assert.Contains(limits.Warnings, static w => w.Contains("estimated from its formula", StringComparison.Ordinal));
    }

    [Fact]
    public void At_HalogenatedWithoutLimits_IsNotEstimated()
    {
        var dichloromethane = ByName("dichloromethane") with { LowerFlammableLimit = null };

        Assert.Contains("cannot be estimated", VapourLimits.At([new MixtureComponent(dichloromethane, 1)], [1], 298.15).Lower.Because, StringComparison.Ordinal);
    }

    [Fact]
    public void At_NothingBurns_SaysSo() =>
        Assert.Contains("nothing in the vapour is known to burn", VapourLimits.At(Mol(("water", 1)).Parts, [1], 298.15).Upper.Because, StringComparison.Ordinal);

    [Fact]
    public void Mixture_limit_lies_between_pure_limits() => Check.Sample(
        Gen.Select(Gen.Double[0.001, 0.05].Array[3], Gen.Double[0.01, 1].Array[3]),
        static (limits, shares) =>
        {
            var mixed = FlammableLimits.LeChatelier([.. shares.Zip(limits)]);
            return mixed >= limits.Min() * (1 - 1e-12) && mixed <= limits.Max() * (1 + 1e-12);
        });

    private static Substance Made(string formula) => new() { Identity = new Identity { Name = formula, Formula = formula }, PhaseAt298K = Phase.Gas };
}
