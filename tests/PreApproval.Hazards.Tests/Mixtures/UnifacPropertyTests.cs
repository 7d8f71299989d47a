using CsCheck;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Tests.Vessels;

namespace PreApproval.Hazards.Tests.Mixtures;

public sealed class UnifacPropertyTests
{
    private static readonly Unifac Model = Unifac.TryCreate(
        [.. new[] { "acetone", "methanol", "water", "toluene" }.Select(n => ClosedVesselTests.ByName(n).UnifacGroups!.Value)], out _)!;

    private static readonly Gen<double[]> Compositions = Gen.Double[0.02, 1].Array[4].Select(a => Array.ConvertAll(a, v => v / a.Sum()));

    [Fact]
    public void GibbsDuhem_sum_x_dlngamma_eq_0() => Check.Sample(
        Gen.Select(Compositions, Compositions, Gen.Double[280, 420]),
        (x, towards, t) =>
        {
            const double step = 1e-5;
            var up = Moved(x, towards, step);
            var down = Moved(x, towards, -step);
            var above = Model.ActivityCoefficients(t, up);
            var below = Model.ActivityCoefficients(t, down);
            var sum = 0.0;
            for (var i = 0; i < x.Length; i++)
            {
                sum += x[i] * (Math.Log(above[i]) - Math.Log(below[i])) / (2 * step);
            }

            return Math.Abs(sum) < 1e-6;
        },
        iter: 500);

    [Fact]
    public void PureComponent_gamma_eq_1() => Check.Sample(
        Gen.Select(Gen.Int[0, 3], Gen.Double[280, 420]),
        (i, t) =>
        {
            var x = new double[4];
            x[i] = 1;
            return Math.Abs(Model.ActivityCoefficients(t, x)[i] - 1) < 1e-12;
        },
        iter: 100);

    [Fact]
    public void TryCreate_InteractionNotPublished_NamesThePair()
    {
        var model = Unifac.TryCreate([ClosedVesselTests.ByName("N-methyl-2-pyrrolidone").UnifacGroups!.Value, ClosedVesselTests.ByName("dimethyl sulfide").UnifacGroups!.Value], out var missing);
        Assert.Null(model);
        Assert.Contains(missing, m => m.Contains("NMP", StringComparison.Ordinal) && m.Contains("CH2S", StringComparison.Ordinal));
    }

    // Known to separate (any physical chemistry text): water with toluene, water with hexane, methanol with hexane. Known to mix: the others.
    [Theory]
    [InlineData("water", "toluene", 298.15, false)]
    [InlineData("water", "n-hexane", 353.15, false)]
    [InlineData("methanol", "n-hexane", 293.15, false)]
    [InlineData("water", "acetone", 298.15, true)]
    [InlineData("water", "ethanol", 298.15, true)]
    [InlineData("ethyl acetate", "n-hexane", 298.15, true)]
    [InlineData("dichloromethane", "methanol", 298.15, true)]
    public void IsOneLiquid_KnownPairs_AsObserved(string first, string second, double temperatureK, bool mixes)
    {
        var model = Unifac.TryCreate([ClosedVesselTests.ByName(first).UnifacGroups!.Value, ClosedVesselTests.ByName(second).UnifacGroups!.Value], out _)!;
        Assert.Equal(mixes, LiquidStability.IsOneLiquid(model.At(temperatureK), [0.5, 0.5]));
    }

    private static double[] Moved(double[] x, double[] towards, double step)
    {
        var moved = new double[x.Length];
        for (var i = 0; i < x.Length; i++)
        {
            moved[i] = x[i] + (step * (towards[i] - x[i]));
        }

        return moved;
    }
}
