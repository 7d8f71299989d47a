using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Tests.Vessels;

public sealed class ClosedVesselTests
{
    [Fact]
    public void At_Always_ListsFourModels()
    {
        var state = ClosedVessel.At(Vessel(20, ("ethanol", 0.05)), 373.15);
        Assert.Equal([VesselModel.ModifiedRaoult, VesselModel.PengRobinson, VesselModel.Psrk, VesselModel.ImmiscibleBound], state.Models.Select(m => m.Model));
    }

    [Fact]
    public void At_PolarMixture_ModifiedRaoultGoverns()
    {
        var state = ClosedVessel.At(Vessel(20, ("ethanol", 0.05), ("acetone", 0.05)), 373.15);
        Assert.Equal(VesselModel.ModifiedRaoult, state.Governing.Model);
        Assert.Empty(state.Missing);
    }

    /// <summary>Where two models are credible, the higher pressure counts: cold toluene by modified Raoult, hot n-hexane by whichever is higher.</summary>
    [Theory]
    [InlineData("toluene", 383.15)]
    [InlineData("n-hexane", 373.15)]
    [InlineData("n-hexane", 473.15)]
    public void At_Hydrocarbon_TheHighestCredibleModelGoverns(string name, double temperatureK)
    {
        var state = ClosedVessel.At(Vessel(20, (name, 0.05)), temperatureK);
        var credible = state.Models.Where(model => model.Model is VesselModel.ModifiedRaoult or VesselModel.PengRobinson).ToArray();
        Assert.All(credible, model => Assert.NotNull(model.PressurePaAbs));
        Assert.Equal(credible.Max(model => model.PressurePaAbs), state.Governing.PressurePaAbs);
    }

    [Fact]
    public void At_SaltDissolved_ChangesOnlyTheRoomItTakes()
    {
        var without = ClosedVessel.At(Vessel(20, ("water", 0.3)), 373.15).Governing;
        var with = ClosedVessel.At(Vessel(20, ("water", 0.3), ("sodium chloride", 0.02)), 373.15).Governing;
        Assert.Equal(1, with.LiquidMoleFractions["7732-18-5"]);
        Assert.Equal(without.PartialPressuresPa["7732-18-5"], with.PartialPressuresPa["7732-18-5"], 1e-6);
    }

    // Thionyl chloride has no UNIFAC groups on file: its full vapour pressure comes on top of the solvent's.
    [Fact]
    public void At_VolatileWithoutGroups_AddsItsFullVapourPressure()
    {
        var alone = ClosedVessel.At(Vessel(50, ("thionyl chloride", 0.1)), 333.15).Governing.PartialPressuresPa["7719-09-7"];
        var state = ClosedVessel.At(Vessel(50, ("thionyl chloride", 0.1), ("toluene", 0.1)), 333.15);
        Assert.Equal(VesselModel.ModifiedRaoult, state.Governing.Model);
        Assert.Equal(alone, state.Governing.PartialPressuresPa["7719-09-7"], 1e-6);
        Assert.Equal(1, state.Governing.LiquidMoleFractions["108-88-3"]);
    }

    [Fact]
    public void At_GroupsWithoutInteractions_BoundGovernsAndThePairIsNamed()
    {
        var state = ClosedVessel.At(Vessel(20, ("N-methyl-2-pyrrolidone", 0.03), ("dimethyl sulfide", 0.05)), 393.15);
        Assert.Equal(VesselModel.ImmiscibleBound, state.Governing.Model);
        Assert.Contains("interaction parameters for", state.Because, StringComparison.Ordinal);
        Assert.Contains("NMP", state.Because, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ammonia", "DMF")]
    [InlineData("hydrogen fluoride", "1,4-dioxane")]
    public void At_GasInSolution_IsMissingNotThePureGas(string gas, string solvent)
    {
        var state = ClosedVessel.At(Vessel(50, (gas, 0.05), (solvent, 0.5)), 303.15);
        Assert.Null(state.Governing.PressurePaAbs);
        Assert.Contains(state.Missing, key => string.Equals(key, ByName(gas).Key, StringComparison.Ordinal));
        Assert.Null(ClosedVessel.HighestTemperatureK(Vessel(50, (gas, 0.05), (solvent, 0.5)), 1e6));
    }

    [Fact]
    public void At_LiquidOfUnknownVapourPressure_IsMissing()
    {
        var unknown = new Substance { Identity = new Identity { Name = "new amine", MolarMassKgPerMol = 0.15 }, PhaseAt298K = Phase.Liquid };
        var state = ClosedVessel.At(Vessel(20, ("ethanol", 0.05)) with { Contents = [new ChargedSubstance(unknown, 0.01), new ChargedSubstance(ByName("ethanol"), 0.05)] }, 353.15);
        Assert.Equal(["new amine"], state.Missing);
        Assert.NotNull(state.Governing.PressurePaAbs);
        Assert.Contains(state.Warnings, w => w.Contains("new amine", StringComparison.Ordinal));
    }

    [Fact]
    public void At_HydrogenCharged_JoinsTheHeadspace()
    {
        var state = ClosedVessel.At(Vessel(100, ("methanol", 0.5), ("hydrogen", 0.01)), 298.15);
        var without = ClosedVessel.At(Vessel(100, ("methanol", 0.5)), 298.15);
        Assert.False(state.Governing.PartialPressuresPa.ContainsKey("1333-74-0"));
        Assert.True(state.Governing.PartialPressuresPa["headspace"] > without.Governing.PartialPressuresPa["headspace"]);
    }

    [Fact]
    public void At_ContentPassesItsCriticalTemperature_ModifiedRaoultIsNull()
    {
        // ethanol: Tc 241 °C (CRC Handbook 95th ed.)
        var state = ClosedVessel.At(Vessel(100, ("ethanol", 0.1)), 523.15);
        var raoult = state.Models.Single(m => m.Model == VesselModel.ModifiedRaoult);
        Assert.Null(raoult.PressurePaAbs);
        Assert.Contains("critical", raoult.Because, StringComparison.Ordinal);
        Assert.Equal(VesselPhase.Supercritical, state.Models.Single(m => m.Model == VesselModel.PengRobinson).Phase);
        Assert.NotNull(state.Governing.PressurePaAbs);
    }

    // Toluene 17 mL in 20 mL is full near 150 °C: density 867 kg/m³ at 20 °C against 737 kg/m³ at 150 °C (Perry 8th ed., Table 2-32).
    [Fact]
    public void At_Toluene17In20AboveItsFillLimit_IsLiquidFullWhateverTheEquationSays()
    {
        var state = ClosedVessel.At(Vessel(20, ("toluene", 0.1602)), 424.15);
        Assert.True(state.LiquidFull);
        // chemicals 1.5.2, compressed liquid with the air beside it: 34.3 bar at 150 °C, and more here, 1 K above
        Assert.InRange(state.Governing.PressurePaAbs!.Value, 34.3e5, 50e5);
    }

    [Fact]
    public void At_Vacuum_HasNoHeadspace() =>
        Assert.False(ClosedVessel.At(Vessel(20, ("acetone", 0.05)) with { Headspace = [] }, 323.15).Governing.PartialPressuresPa.ContainsKey("headspace"));

    [Fact]
    public void At_SaturatedAtClosingAndUnheated_IsOneAtmosphere()
    {
        var input = Vessel(20, ("diethyl ether", 0.05), ("acetone", 0.02)) with { SaturatedAtClosing = true };
        Assert.Equal(101_325, ClosedVessel.At(input, 293.15).Governing.PressurePaAbs!.Value, 1);
    }

    [Fact]
    public void HighestTemperatureK_Found_HoldsThereAndNotAbove()
    {
        var input = Vessel(20, ("acetone", 0.06), ("water", 0.1));
        var highest = ClosedVessel.HighestTemperatureK(input, 5e5)!.Value;
        Assert.True(ClosedVessel.At(input, highest).Governing.PressurePaAbs <= 601_325);
        Assert.True(ClosedVessel.At(input, highest + 0.01).Governing.PressurePaAbs > 601_325);
    }

    [Fact]
    public void HighestTemperatureK_FillAlreadyAbove_IsNull() => Assert.Null(ClosedVessel.HighestTemperatureK(Vessel(20, ("acetone", 0.06)), 0));

    [Fact]
    public void HighestTemperatureK_LiquidFillsTheVessel_StopsBelow()
    {
        var input = Vessel(20, ("toluene", 0.1602));
        var highest = ClosedVessel.HighestTemperatureK(input, 1e9)!.Value;
        Assert.InRange(highest, 413.15, 424.15);
        Assert.False(ClosedVessel.At(input, highest).LiquidFull);
    }

    internal static Substance ByName(string name) =>
        Catalog.Default.TryFindByName(name, out var substance) ? substance : throw new ArgumentException(name, nameof(name));

    internal static ClosedVesselInput Vessel(double millilitres, params (string Name, double Mol)[] contents) => new()
    {
        VesselVolumeM3 = millilitres * 1e-6,
        Contents = [.. contents.Select(c => new ChargedSubstance(ByName(c.Name), c.Mol))],
    };
}
