using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using Xunit;

namespace PreApproval.Hazards.Tests.Solutions;

/// <summary>Pressures over solutions against azeotropes, boiling points, handbook tables and data sheets (each named; all from memory).</summary>
public sealed class SolutionVapourTests
{
    private const double AtmosphereBar = 1.01325;
    private const double MmHgBar = 1.33322e-3;

    // Constant-boiling mixtures at 101 325 Pa: CRC Handbook, table of azeotropes
    [Theory]
    [InlineData("7647-01-0", 20.2, 108.6, 0.10)]
    [InlineData("10035-10-6", 47.5, 126.0, 0.05)]
    [InlineData("10034-85-2", 57.0, 127.0, 0.05)]
    [InlineData("7697-37-2", 68.0, 120.5, 0.05)]
    [InlineData("7664-39-3", 38.2, 112.0, 0.05)]
    public void At_ConstantBoilingAcid_HasOneAtmosphere(string cas, double percent, double celsius, double within) =>
        Assert.Equal(AtmosphereBar, TotalBar(cas, percent, celsius), within * AtmosphereBar);

    // The vapour of an azeotrope has the composition of its liquid: x(HCl) = 0.111, x(HBr) = 0.168, x(HNO3) = 0.378
    [Theory]
    [InlineData("7647-01-0", 20.2, 108.6, 0.111, 0.10)]
    [InlineData("10035-10-6", 47.5, 126.0, 0.168, 0.05)]
    [InlineData("10034-85-2", 57.0, 127.0, 0.157, 0.05)]
    [InlineData("7697-37-2", 68.0, 120.5, 0.378, 0.05)]
    public void At_ConstantBoilingAcid_VapourHasTheCompositionOfTheLiquid(string cas, double percent, double celsius, double share, double within)
    {
        var state = State(cas, percent, celsius);
        Assert.Equal(share, state.PartialPressuresPa[cas] / state.PressurePaAbs!.Value, within * share);
    }

    // Partial pressure of the solute in mmHg. HCl and NH3: Perry's handbook, printed columns; HBr: International Critical Tables; HNO3: Perry
    [Theory]
    [InlineData("7647-01-0", 10, 50, 0.069, 0.10)]
    [InlineData("7647-01-0", 20, 20, 0.205, 0.05)]
    [InlineData("7647-01-0", 20, 25, 0.32, 0.05)]
    [InlineData("7647-01-0", 30, 20, 10.6, 0.05)]
    [InlineData("7647-01-0", 34, 25, 68.5, 0.03)]
    [InlineData("7647-01-0", 36, 20, 105.5, 0.05)]
    [InlineData("7647-01-0", 36, 25, 142, 0.05)]
    [InlineData("7647-01-0", 38, 25, 277, 0.03)]
    [InlineData("7664-41-7", 4.762, 20, 31.7, 0.03)]
    [InlineData("7664-41-7", 9.091, 20, 69.6, 0.03)]
    [InlineData("7664-41-7", 9.091, 60, 361, 0.03)]
    [InlineData("7664-41-7", 13.043, 20, 114, 0.05)]
    [InlineData("7664-41-7", 16.667, 20, 166, 0.03)]
    [InlineData("7664-41-7", 16.667, 40, 395, 0.03)]
    [InlineData("7664-41-7", 23.077, 20, 298, 0.03)]
    [InlineData("7664-41-7", 23.077, 40, 692, 0.03)]
    [InlineData("7664-41-7", 28.571, 20, 470, 0.03)]
    [InlineData("7664-41-7", 33.333, 20, 686, 0.03)]
    [InlineData("10035-10-6", 48, 25, 0.13, 0.35)]
    [InlineData("10035-10-6", 50, 25, 0.37, 0.35)]
    [InlineData("7697-37-2", 70, 25, 4.1, 0.15)]
    [InlineData("7697-37-2", 100, 25, 62, 0.05)]
    public void At_AqueousSolution_HasTheTabulatedPartialPressure(string cas, double percent, double celsius, double mmHg, double within)
    {
        var table = AqueousVapour.Of(cas)!;
        Assert.Equal(mmHg, table.SolutePa(percent / 100, celsius + 273.15) / 133.322, within * mmHg);
    }

    // Total pressures in bar. 37 % HCl, 25 and 32 % NH3: safety data sheets; H2O2: producers' data at 30 °C
    [Theory]
    [InlineData("7647-01-0", 37, 20, 0.20, 0.10)]
    [InlineData("7664-41-7", 25, 20, 0.483, 0.03)]
    [InlineData("7664-41-7", 32, 20, 0.854, 0.05)]
    [InlineData("7664-41-7", 25, 38, AtmosphereBar, 0.08)]
    [InlineData("7722-84-1", 35, 30, 23.3 * MmHgBar, 0.05)]
    [InlineData("7722-84-1", 50, 30, 18.3 * MmHgBar, 0.05)]
    [InlineData("7722-84-1", 70, 30, 11.1 * MmHgBar, 0.07)]
    public void At_AqueousSolution_HasTheMeasuredPressure(string cas, double percent, double celsius, double bar, double within) =>
        Assert.Equal(bar, TotalBar(cas, percent, celsius), within * bar);

    // Solubility under one atmosphere of the gas, saturated with water vapour, in g per 100 g of water: CRC Handbook and Merck Index
    [Theory]
    [InlineData("10035-10-6", 193, 25, 0.05)]
    [InlineData("10035-10-6", 221, 0, 0.05)]
    [InlineData("10035-10-6", 130, 100, 0.15)]
    [InlineData("7446-09-5", 9.4, 25, 0.16)]
    [InlineData("7446-09-5", 11.28, 20, 0.16)]
    [InlineData("7783-06-4", 0.343, 25, 0.05)]
    [InlineData("124-38-9", 0.145, 25, 0.05)]
    [InlineData("124-38-9", 0.169, 20, 0.05)]
    [InlineData("7782-50-5", 0.73, 20, 0.08)]
    public void Aqueous_SaturatedSolution_HasOneAtmosphere(string cas, double gramsPer100G, double celsius, double within)
    {
        var gas = Find(cas);
        var waterPa = VapourPressure.At(Find("7732-18-5"), celsius + 273.15).Pascal;
        var pressures = SolutionVapour.Aqueous(gas, gramsPer100G / 1000 / gas.Identity.MolarMassKgPerMol!.Value, 0.1 / 0.018015, celsius + 273.15)!.Value;
        Assert.Equal(AtmosphereBar, (pressures.SolutePa + (pressures.WaterActivity * waterPa)) / 1e5, within * AtmosphereBar);
    }

    // Boiling points of the bottles at one atmosphere: safety data sheets. UNIFAC carries the amines and errs to the safe side, by a third at most
    [Theory]
    [InlineData("74-89-5", 40, 48)]
    [InlineData("124-40-3", 40, 52)]
    [InlineData("75-04-7", 70, 38)]
    public void At_AqueousAmine_BoilsWhereItDoesOrBelow(string cas, double percent, double celsius) =>
        Assert.InRange(TotalBar(cas, percent, celsius), 0.92 * AtmosphereBar, 1.34 * AtmosphereBar);

    [Theory]
    [InlineData("7647-01-0", 37)]
    [InlineData("7664-41-7", 28)]
    [InlineData("7697-37-2", 68)]
    [InlineData("10035-10-6", 48)]
    public void At_Solution_NeverTakesThePressureOfThePureSolute(string cas, double percent)
    {
        var pure = VapourPressure.At(Find(cas), 293.15).Pascal;
        Assert.All(ClosedVessel.At(Input(cas, percent, 1.5), 293.15).Models.Where(static model => model.PartialPressuresPa.Count > 0 && model.Model is not VesselModel.PengRobinson), model =>
            Assert.True(model.PartialPressuresPa[cas] < 0.5 * pure));
    }

    [Theory]
    [InlineData("7647-01-0", 37, 20)]
    [InlineData("7647-01-0", 37, 80)]
    [InlineData("7664-41-7", 28, 60)]
    [InlineData("10035-10-6", 62, 90)]
    [InlineData("7697-37-2", 90, 80)]
    [InlineData("7446-09-5", 6, 60)]
    public void n_Is_LiquidPlusVapour(string cas, double percent, double celsius)
    {
        var input = Input(cas, percent, 5);
        var state = ClosedVessel.At(input, celsius + 273.15).Governing;
        var solute = input.Contents.First(content => string.Equals(content.Substance.Key, cas, StringComparison.Ordinal)).Mol;
        var water = input.Contents.First(static content => content.Substance.Key is "7732-18-5").Mol;
        var room = input.VesselVolumeM3 * (1 - state.LiquidVolumeFraction!.Value) / (8.31446261815324 * (celsius + 273.15));
        var soluteLeft = solute - (state.PartialPressuresPa[cas] * room);
        var waterLeft = water - (state.PartialPressuresPa["7732-18-5"] * room);
        Assert.Equal(state.LiquidMoleFractions[cas], soluteLeft / (soluteLeft + waterLeft), 1e-6);
    }

    [Theory]
    [InlineData("7647-01-0", 37)]
    [InlineData("10035-10-6", 48)]
    [InlineData("7664-41-7", 28)]
    [InlineData("7697-37-2", 68)]
    [InlineData("7722-84-1", 30)]
    [InlineData("7446-09-5", 6)]
    public void p_RisesWith_T_And_Charge(string cas, double percent)
    {
        double before = 0;
        for (var celsius = 0; celsius <= 200; celsius += 10)
        {
            var pressure = ClosedVessel.At(Input(cas, percent, 3), celsius + 273.15).Governing.PressurePaAbs!.Value;
            Assert.True(pressure > before, $"{celsius} °C");
            before = pressure;
        }

        Assert.True(ClosedVessel.At(Input(cas, percent, 2.5), 353.15).Governing.PressurePaAbs > ClosedVessel.At(Input(cas, percent, 5), 353.15).Governing.PressurePaAbs);
    }

    // Gerrard 1976: about 0.5 mol of HCl per mol of solution at one atmosphere and 10 to 20 °C in ethers and alcohols; the bottles are weaker
    [Theory]
    [InlineData("123-91-1", 4, 1050, 0.1, 0.65)]
    [InlineData("60-29-7", 2, 736, 0.6, 1.0)]
    [InlineData("67-56-1", 3, 850, 0.15, 0.5)]
    public void At_HydrogenChlorideInAnOrganicSolvent_StaysWithinWhatTheBottleHolds(string solvent, double molPerL, double density, double least, double most)
    {
        var liquid = Find(solvent);
        var solventMol = ((density / 1000) - (molPerL * 0.03646)) / liquid.Identity.MolarMassKgPerMol!.Value / 1000 * 10;
        var input = new ClosedVesselInput
        {
            VesselVolumeM3 = 15e-6,
            Headspace = [],
            Contents = [new ChargedSubstance(Find("7647-01-0"), molPerL * 10e-3), new ChargedSubstance(liquid, solventMol)],
        };
        Assert.InRange(ClosedVessel.At(input, 293.15).Governing.PressurePaAbs!.Value / 1e5, least, most);
    }

    [Fact]
    public void At_HydrogenChlorideInWaterAndDioxane_SaysWhatIsNotPublished()
    {
        var input = Input("7647-01-0", 37, 3);
        var state = ClosedVessel.At(input with { Contents = [.. input.Contents, new ChargedSubstance(Find("123-91-1"), 0.3)] }, 353.15);
        Assert.NotNull(state.Governing.PressurePaAbs);
        Assert.Contains(state.Warnings, static warning => warning.Contains("what 1,4-dioxane changes in the pressure of hydrogen chloride", StringComparison.Ordinal));
    }

    private static double TotalBar(string cas, double percent, double celsius) => State(cas, percent, celsius).PressurePaAbs!.Value / 1e5;

    private static ModelState State(string cas, double percent, double celsius) => ClosedVessel.At(Input(cas, percent, 1.4), celsius + 273.15).Governing;

    /// <summary>100 g of solution in a vessel of some times 100 mL, under vacuum.</summary>
    private static ClosedVesselInput Input(string cas, double percent, double room) => new()
    {
        VesselVolumeM3 = room * 100e-6,
        FillTemperatureK = 273.15,
        Headspace = [],
        Contents =
        [
            new ChargedSubstance(Find(cas), percent / 1000 / Find(cas).Identity.MolarMassKgPerMol!.Value),
            new ChargedSubstance(Find("7732-18-5"), (100 - percent) / 1000 / 0.018015),
        ],
    };

    private static Substance Find(string cas)
    {
        Assert.True(Catalog.Default.TryFindByCas(cas, out var substance));
        return substance;
    }
}
