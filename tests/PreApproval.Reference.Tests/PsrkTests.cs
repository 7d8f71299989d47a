using PreApproval.Hazards.Vessels;
using static PreApproval.Reference.Tests.ReferenceValues;

namespace PreApproval.Reference.Tests;

/// <summary>PSRK against published solubilities and mixtures.</summary>
public sealed class PsrkTests
{
    // Henry's constants of carbon dioxide at 25 °C in bar, from mole fraction solubilities at 1 atm (Fogg and Gerrard, Solubility of Gases in Liquids,
    // 1991, from memory): water 6.1e-4, methanol 6.3e-3, ethanol 6.4e-3, acetone 1.9e-2, n-hexane 1.2e-2. PSRK's own publications claim about 10 to 20 %.
    [Theory]
    [InlineData("7732-18-5", 5, 1650)]
    [InlineData("67-56-1", 2, 160)]
    [InlineData("64-17-5", 1.5, 158)]
    [InlineData("67-64-1", 1.5, 53)]
    [InlineData("110-54-3", 0.8, 84)]
    public void Psrk_CarbonDioxideInSolvents_NearPublishedHenryConstants(string solvent, double mol, double henryBar)
    {
        var state = Psrk(150, 298.15, ("124-38-9", 0.005), (solvent, mol));
        Near(henryBar * 1e5, state.PartialPressuresPa["124-38-9"] / state.LiquidMoleFractions["124-38-9"], 0.2);
    }

    // Ethanol and water, x = 0.5, 78.15 °C: 0.94 bar (isobaric tables at 1 atm give 79.8 °C for x = 0.5; from memory).
    [Fact]
    public void Psrk_EthanolWater_NearTheIsobaricTable() =>
        Near(1.013e5, Psrk(40, 352.95, ("64-17-5", 0.3), ("7732-18-5", 0.3)).PressurePaAbs!.Value, 0.05);

    // A pure liquid has its vapour pressure on file: PSRK's attraction is fitted to it.
    [Theory]
    [InlineData("67-56-1", 373.15)]
    [InlineData("7732-18-5", 453.15)]
    [InlineData("67-64-1", 400)]
    public void Psrk_PureLiquid_HasTheVapourPressureOnFile(string cas, double temperatureK) =>
        Near(Hazards.Mixtures.VapourPressure.At(ByCas(cas), temperatureK).Pascal, Psrk(40, temperatureK, (cas, 0.3)).PressurePaAbs!.Value, 1e-6);

    [Fact]
    public void Psrk_NoParameters_NamesTheGroups()
    {
        var state = ClosedVessel.At(Input(50, ("7647-01-0", 0.05), ("123-91-1", 0.3)), 293.15);
        var psrk = state.Models.Single(m => m.Model == VesselModel.Psrk);
        Assert.Null(psrk.PressurePaAbs);
        Assert.Contains("CH2O with HCL", psrk.Because, StringComparison.Ordinal);
        Assert.NotEqual(VesselModel.Psrk, state.Governing.Model);
    }

    // Hydrogen chloride ionises in water: PSRK has parameters, and must not govern all the same.
    [Fact]
    public void At_HydrochloricAcid_PsrkDoesNotGovern() =>
        Assert.Equal(VesselModel.ModifiedRaoult, ClosedVessel.At(Input(50, ("7647-01-0", 0.1), ("7732-18-5", 1)), 293.15).Governing.Model);

    [Fact]
    public void At_DryIceInAcetone_PsrkGoverns() =>
        Assert.Equal(VesselModel.Psrk, ClosedVessel.At(Input(100, ("124-38-9", 0.1), ("67-64-1", 0.5)), 308.15).Governing.Model);

    private static ModelState Psrk(double millilitres, double temperatureK, params (string Cas, double Mol)[] contents) =>
        ClosedVessel.At(Input(millilitres, contents) with { Headspace = [] }, temperatureK).Models.Single(m => m.Model == VesselModel.Psrk);

    private static ClosedVesselInput Input(double millilitres, params (string Cas, double Mol)[] contents) => new()
    {
        VesselVolumeM3 = millilitres * 1e-6,
        Contents = [.. contents.Select(c => new ChargedSubstance(ByCas(c.Cas), c.Mol))],
    };
}
