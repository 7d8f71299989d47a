using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Vessels;
using static PreApproval.Reference.Tests.ReferenceValues;

namespace PreApproval.Reference.Tests;

/// <summary>Modified UNIFAC (Dortmund), and the azeotropes of cyclic ethers with water that it is there for.</summary>
public sealed class ModifiedUnifacTests
{
    // thermo 0.6.1 (C. Bell and contributors), modified UNIFAC (Dortmund), 298.15 K: activity coefficients at infinite dilution.
    // That library's value for tetrahydrofuran with water rests on another assignment of groups; the azeotropes below decide ours.
    [Theory]
    [InlineData(new[] { 1, 1, 2, 3, 14, 1 }, new[] { 16, 1 }, 41.950161907122244, 4.67001856954151)]
    [InlineData(new[] { 1, 2, 3, 1, 81, 1 }, new[] { 16, 1 }, 11.905531957683785, 3.3751409887635884)]
    [InlineData(new[] { 1, 1, 18, 1 }, new[] { 16, 1 }, 8.043014887514714, 7.070964698673935)]
    [InlineData(new[] { 1, 1, 18, 1 }, new[] { 1, 2, 2, 3 }, 6.884601601394428, 5.2442447212408805)]
    [InlineData(new[] { 40, 1 }, new[] { 16, 1 }, 11.855320229450072, 8.455663331432634)]
    [InlineData(new[] { 9, 6 }, new[] { 78, 6 }, 1.6394661375806387, 1.7424354139177398)]
    [InlineData(new[] { 47, 1 }, new[] { 15, 1 }, 2.8846746282469646, 16.338922286144804)]
    [InlineData(new[] { 1, 2, 2, 1, 25, 1 }, new[] { 1, 1, 18, 1 }, 2.1551242863880873, 2.2686045048271652)]
    [InlineData(new[] { 1, 1, 2, 1, 21, 1 }, new[] { 1, 1, 2, 1, 14, 1 }, 2.760597788718305, 2.897560292086796)]
    [InlineData(new[] { 15, 1 }, new[] { 9, 5, 11, 1 }, 19.5126912147337, 9.807082324808867)]
    [InlineData(new[] { 1, 2, 2, 4 }, new[] { 1, 1, 2, 1, 14, 1 }, 10.307362944288986, 53.22399510605185)]
    [InlineData(new[] { 9, 5, 11, 1 }, new[] { 1, 2, 2, 5 }, 1.5931012149590875, 1.653779723260031)]
    public void Dortmund_InfiniteDilution_MatchesReferenceLibrary(int[] first, int[] second, double gamma1, double gamma2)
    {
        var model = Unifac.TryCreate(UnifacTable.Dortmund, [Groups(first), Groups(second)], out _)!;
        Near(gamma1, model.ActivityCoefficients(298.15, [0, 1])[0], 0.005);
        Near(gamma2, model.ActivityCoefficients(298.15, [1, 0])[1], 0.005);
    }

    // Azeotropes at 1 atm (CRC Handbook, from memory): tetrahydrofuran with 5.3 wt% water, 64 °C; 1,4-dioxane with 18 wt% water, 87.8 °C.
    [Theory]
    [InlineData("109-99-9", 0.8179, 337.0)]
    [InlineData("123-91-1", 0.4822, 360.95)]
    public void At_CyclicEtherWithWaterAtTheAzeotrope_IsNearOneAtmosphereAndVapourEqualsLiquid(string ether, double x, double temperatureK)
    {
        var input = new ClosedVesselInput
        {
            VesselVolumeM3 = 1e-4,
            Headspace = [],
            Contents = [new ChargedSubstance(ByCas(ether), x), new ChargedSubstance(ByCas("7732-18-5"), 1 - x)],
        };
        var state = ClosedVessel.At(input, temperatureK).Governing;
        Assert.Equal(VesselModel.ModifiedUnifac, state.Model);
        Near(101_325, state.PressurePaAbs!.Value, 0.06);
        Assert.Equal(x, state.PartialPressuresPa[ether] / state.PressurePaAbs.Value, 0.05);
    }

    // Tetrahydrofuran and water mix below 72 °C, and in this proportion at 80 °C too (gap up to x about 0.35 there; Matouš and others 1972, from memory).
    [Fact]
    public void At_MuchTetrahydrofuranWithLittleWater_TheBoundDoesNotGovern()
    {
        var input = new ClosedVesselInput
        {
            VesselVolumeM3 = 2e-5,
            Contents = [new ChargedSubstance(ByCas("109-99-9"), 0.1105), new ChargedSubstance(ByCas("7732-18-5"), 0.0555)],
        };
        Assert.Equal(VesselModel.ModifiedUnifac, ClosedVessel.At(input, 353.15).Governing.Model);
    }

    // Without an assignment or without water, original UNIFAC stays.
    [Theory]
    [InlineData("96-47-9", "7732-18-5")]
    [InlineData("109-99-9", "64-17-5")]
    public void TryCreate_NoCyclicEtherWithGroupsAndWater_IsNull(string first, string second) =>
        Assert.Null(UnifacCyclicEthers.TryCreate([ByCas(first), ByCas(second)]));

    private static Dictionary<int, int> Groups(int[] pairs) => pairs.Chunk(2).ToDictionary(static p => p[0], static p => p[1]);
}
