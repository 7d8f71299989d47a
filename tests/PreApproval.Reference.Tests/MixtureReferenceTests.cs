using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using static PreApproval.Reference.Tests.ReferenceValues;

namespace PreApproval.Reference.Tests;

public sealed class MixtureReferenceTests
{
    public static TheoryData<string, string, double, double, double, double> Activities => new(
        Read("activity-coefficients.tsv").Select(r => (r[0], r[1], Number(r[2]), Number(r[3]), Number(r[4]), Number(r[5]))));

    [Theory]
    [MemberData(nameof(Activities))]
    public void Unifac_Binary_MatchesReferenceLibrary(string first, string second, double temperatureK, double x, double gamma1, double gamma2)
    {
        var model = Unifac.TryCreate([ByCas(first).UnifacGroups!.Value, ByCas(second).UnifacGroups!.Value], out _);
        var gamma = model!.ActivityCoefficients(temperatureK, [x, 1 - x]);
        Near(gamma1, gamma[0], 1e-6);
        Near(gamma2, gamma[1], 1e-6);
    }

    // J. R. Elliott and C. T. Lira, Introductory Chemical Engineering Thermodynamics, 2nd ed., workbook ACTCOEFF, 353.52 K:
    // 2-propanol, water, propionic acid, ethanol, n-pentane.
    [Theory]
    [InlineData(new[] { 0.1, 0.1, 0.8 }, new[] { 0.996889053562564, 2.17095770844183, 1.00112091118954 })]
    [InlineData(new[] { 0.01, 0.01, 0.01, 0.97 }, new[] { 1.01725621578056, 2.72188794765512, 0.987247728010945, 1.00019062409551 })]
    [InlineData(new[] { 0.1, 0.05, 0.1, 0.25, 0.5 }, new[] { 1.27735571375805, 8.0171468628111, 1.12821165768618, 1.48586094816255, 1.75742650584157 })]
    public void Unifac_ElliottLiraWorkbook_AgreesToAllFigures(double[] x, double[] expected)
    {
        IReadOnlyDictionary<int, int>[] groups =
        [
            new Dictionary<int, int> { [1] = 2, [3] = 1, [14] = 1 },
            new Dictionary<int, int> { [16] = 1 },
            new Dictionary<int, int> { [1] = 1, [2] = 1, [42] = 1 },
            new Dictionary<int, int> { [1] = 1, [2] = 1, [14] = 1 },
            new Dictionary<int, int> { [1] = 2, [2] = 3 },
        ];
        var gamma = Unifac.TryCreate(groups[..x.Length], out _)!.ActivityCoefficients(353.52, x);
        for (var i = 0; i < x.Length; i++)
        {
            Near(expected[i], gamma[i], 1e-9);
        }
    }

    // Poling, Prausnitz, O'Connell, The Properties of Gases and Liquids, 5th ed., Example 8-12: acetone and n-pentane, 307 K.
    [Fact]
    public void Unifac_PolingExample812_AgreesToPrintedFigures()
    {
        var gamma = Unifac.TryCreate([ByName("acetone").UnifacGroups!.Value, ByName("n-pentane").UnifacGroups!.Value], out _)!.ActivityCoefficients(307, [0.047, 0.953]);
        Assert.Equal(4.99, gamma[0], 0.005);
        Assert.Equal(1.005, gamma[1], 0.0005);
    }

    // S. M. Walas, Phase Equilibria in Chemical Engineering, Example 4.14: ethanol and benzene, 345 K.
    [Fact]
    public void Unifac_WalasExample414_AgreesWithinHalfAPercent()
    {
        var gamma = Unifac.TryCreate([ByName("ethanol").UnifacGroups!.Value, ByName("benzene").UnifacGroups!.Value], out _)!.ActivityCoefficients(345, [0.2, 0.8]);
        Near(2.9119, gamma[0], 0.005);
        Near(1.10832, gamma[1], 0.005);
    }
}
