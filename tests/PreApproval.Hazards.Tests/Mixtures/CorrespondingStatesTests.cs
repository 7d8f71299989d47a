using CsCheck;
using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Tests.Mixtures;

public sealed class CorrespondingStatesTests
{
    // Poling, Prausnitz and O'Connell, The Properties of Gases and Liquids, 5th ed., section 7-4: ethylbenzene at 347.25 K, 0.1329 bar (measured 0.13332).
    [Fact]
    public void AmbroseWalton_EthylbenzenePolingExample_AgreesToPrintedFigures() =>
        Assert.Equal(0.1329, 36.09 * Math.Exp(CorrespondingStates.AmbroseWalton(347.25 / 617.15, 0.304)), 0.00015);

    // chemicals 1.5.2, Ambrose_Walton and Lee_Kesler.
    [Fact]
    public void Both_Ethylbenzene_MatchReferenceLibrary()
    {
        Assert.Equal(13278.878504306222, 36.09e5 * Math.Exp(CorrespondingStates.AmbroseWalton(347.25 / 617.15, 0.304)), 1e-6);
        Assert.Equal(13078.694162949312, 36e5 * Math.Exp(CorrespondingStates.LeeKesler(347.2 / 617.1, 0.299)), 1e-6);
    }

    // By the definition of the acentric factor the reduced pressure at Tr = 0.7 is 10^-(1 + ω); at the critical point it is 1.
    [Theory]
    [InlineData(0.0)]
    [InlineData(0.2)]
    [InlineData(0.4)]
    [InlineData(0.6)]
    public void AmbroseWalton_MeetsTheDefinitionOfTheAcentricFactor(double omega)
    {
        Assert.Equal(-(1 + omega), CorrespondingStates.AmbroseWalton(0.7, omega) / Math.Log(10), 0.01);
        Assert.Equal(0, CorrespondingStates.AmbroseWalton(1, omega));
    }

    [Fact]
    public void AmbroseWaltonFactor_inverts_AmbroseWalton() => Check.Sample(
        Gen.Select(Gen.Double[0.35, 0.95], Gen.Double[-0.2, 1.2]),
        (tr, omega) => CorrespondingStates.AmbroseWaltonFactor(tr, CorrespondingStates.AmbroseWalton(tr, omega)) is { } factor && Math.Abs(factor - omega) < 1e-6);

    [Fact]
    public void AmbroseWaltonFactor_PressureNoLiquidHas_IsNull() => Assert.Null(CorrespondingStates.AmbroseWaltonFactor(0.7, 0.5));

    [Fact]
    public void Pressure_TemperatureRises_NeverFalls() => Check.Sample(
        Gen.Select(Gen.Double[0.3, 1], Gen.Double[0, 0.1], Gen.Double[-0.2, 1.2]),
        (tr, rise, omega) => CorrespondingStates.AmbroseWalton(Math.Min(tr + rise, 1), omega) >= CorrespondingStates.AmbroseWalton(tr, omega) - 1e-12);
}
