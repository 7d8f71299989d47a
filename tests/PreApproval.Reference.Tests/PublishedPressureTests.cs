using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using static PreApproval.Reference.Tests.ReferenceValues;

namespace PreApproval.Reference.Tests;

/// <summary>Pressures from steam tables, handbooks, and arithmetic done by hand.</summary>
public sealed class PublishedPressureTests
{
    // IAPWS-IF97 saturation tables (steam tables in any thermodynamics text), kPa.
    [Theory]
    [InlineData(100, 101.4)]
    [InlineData(120, 198.7)]
    [InlineData(150, 476.2)]
    [InlineData(180, 1002.8)]
    [InlineData(200, 1554.9)]
    public void VapourPressure_Water_MatchesSteamTables(double celsius, double kilopascal) => Near(kilopascal * 1000, Pressure("water", celsius), 0.005);

    // McGarry 1983, Perry's Handbook 8th ed. Table 2-8, and Poling 5th ed. give these to the tolerance shown, bar.
    [Theory]
    [InlineData("ethanol", 100, 2.25, 0.02)]
    [InlineData("acetone", 100, 3.72, 0.02)]
    [InlineData("dichloromethane", 80, 3.47, 0.02)]
    [InlineData("diethyl ether", 60, 2.31, 0.02)]
    [InlineData("tetrahydrofuran", 100, 2.72, 0.03)]
    [InlineData("acetonitrile", 150, 5.97, 0.03)]
    [InlineData("toluene", 150, 2.75, 0.02)]
    [InlineData("carbon disulfide", 100, 4.48, 0.03)]
    [InlineData("methanol", 120, 6.39, 0.02)]
    [InlineData("DMF", 150, 0.966, 0.04)]
    public void VapourPressure_CommonSolvent_MatchesHandbooks(string name, double celsius, double bar, double tolerance) => Near(bar * 1e5, Pressure(name, celsius), tolerance);

    // Normal boiling points, CRC Handbook 95th ed., °C, within 0.5 K.
    [Theory]
    [InlineData("acetone", 56.1)]
    [InlineData("dichloromethane", 39.7)]
    [InlineData("tetrahydrofuran", 66.0)]
    [InlineData("carbon disulfide", 46.2)]
    [InlineData("methanol", 64.5)]
    [InlineData("toluene", 110.7)]
    [InlineData("acetonitrile", 81.5)]
    public void VapourPressure_NormalBoilingPoint_IsOneAtmosphere(string name, double celsius)
    {
        Assert.InRange(101_325, Pressure(name, celsius - 0.5), Pressure(name, celsius + 0.5));
    }

    // Hand calculation: handbook vapour pressure (as above) plus the air left after saturation at closing, heated as an ideal gas in the
    // space that the swollen liquid leaves (densities of CRC Handbook and Perry 8th ed.), bar absolute.
    [Theory]
    [InlineData("ethanol", 20, 10, 25, 120, 5.64, 0.02)]
    [InlineData("dichloromethane", 8, 3, 25, 80, 3.99, 0.03)]
    [InlineData("water", 10, 5, 25, 200, 17.3, 0.02)]
    [InlineData("acetonitrile", 10, 5, 25, 150, 7.5, 0.04)]
    [InlineData("DMF", 10, 5, 25, 150, 2.6, 0.05)]
    [InlineData("ethanol", 20, 5, 20, 100, 3.5, 0.04)]
    public void At_SealedTube_MatchesHandCalculation(string name, double vesselMl, double chargeMl, double closedC, double celsius, double bar, double tolerance)
    {
        var substance = ByName(name);
        var mol = chargeMl * 1e-6 / LiquidVolume.At(substance, closedC + 273.15).M3PerMol;
        var state = ClosedVessel.At(
            new ClosedVesselInput
            {
                VesselVolumeM3 = vesselMl * 1e-6,
                FillTemperatureK = closedC + 273.15,
                SaturatedAtClosing = true,
                Contents = [new ChargedSubstance(substance, mol)],
            },
            celsius + 273.15);
        Near(bar * 1e5, state.Governing.PressurePaAbs!.Value, tolerance);
    }

    // Steam distillation, any physical chemistry text: 1.013 + 0.740 bar at 100 °C, not Raoult's law.
    [Fact]
    public void At_WaterWithToluene_BoundGovernsWithSumOfPressures()
    {
        var state = ClosedVessel.At(
            new ClosedVesselInput
            {
                VesselVolumeM3 = 100e-6,
                Headspace = [],
                Contents = [new ChargedSubstance(ByName("water"), 1), new ChargedSubstance(ByName("toluene"), 0.2)],
            },
            373.15);
        Assert.Equal(VesselModel.ImmiscibleBound, state.Governing.Model);
        Near(1.75e5, state.Governing.PressurePaAbs!.Value, 0.01);
    }

    // AIBN 1.00 g (164.21 g/mol) decomposed: one N2 each, 20 mL, 80 °C: 8.94 bar of nitrogen. NaHCO3 1.00 g: 5.90 bar CO2 in 50 mL at 25 °C.
    [Theory]
    [InlineData(1.00 / 164.21, 20, 80, 8.94)]
    [InlineData(1.00 / 84.007, 50, 25, 5.90)]
    public void At_GasEvolved_AddsIdealGasPressure(double mol, double vesselMl, double celsius, double bar)
    {
        var state = ClosedVessel.At(new ClosedVesselInput { VesselVolumeM3 = vesselMl * 1e-6, Headspace = [], Contents = [], GasEvolvedMol = mol }, celsius + 273.15);
        Near(bar * 1e5, state.Governing.PressurePaAbs!.Value, 0.01);
    }

    // Dry ice in 100 mL at 25 °C: 10 g all gas, 56.3 bar by the ideal gas law; 20 g capped at the vapour pressure, 64.5 bar.
    [Theory]
    [InlineData(10, 56.3, VesselPhase.Vapour)]
    [InlineData(20, 64.5, VesselPhase.TwoPhase)]
    public void At_DryIce_IsAllGasOrCappedAtVapourPressure(double grams, double bar, VesselPhase phase)
    {
        var raoult = ClosedVessel.At(
            new ClosedVesselInput { VesselVolumeM3 = 100e-6, Headspace = [], Contents = [new ChargedSubstance(ByName("carbon dioxide"), grams / 44.009)] },
            298.15).Models.Single(m => m.Model == VesselModel.ModifiedRaoult);
        Assert.Equal(phase, raoult.Phase);
        Near(bar * 1e5, raoult.PressurePaAbs!.Value, 0.02);
    }

    // IAPWS-95 saturated densities: the largest cold fill of water that is not liquid-full at the temperature, per cent.
    [Theory]
    [InlineData(150, 92.0)]
    [InlineData(200, 86.7)]
    [InlineData(250, 80.1)]
    [InlineData(300, 71.4)]
    [InlineData(350, 57.6)]
    public void At_WaterFill_TurnsLiquidFullAtTheDensityRatio(double celsius, double percent)
    {
        Assert.False(Fill(percent - 0.8).LiquidFull);
        Assert.True(Fill(percent + 0.8).LiquidFull);

        VesselState Fill(double share) => ClosedVessel.At(
            new ClosedVesselInput
            {
                VesselVolumeM3 = 100e-6,
                FillTemperatureK = 298.15,
                Contents = [new ChargedSubstance(ByName("water"), share * 1e-6 * 997.05 / 0.018015)],
            },
            celsius + 273.15);
    }

    private static double Pressure(string name, double celsius)
    {
        var value = VapourPressure.At(ByName(name), celsius + 273.15);
        Assert.Equal(Quality.Correlated, value.Quality);
        return value.Pascal;
    }
}
