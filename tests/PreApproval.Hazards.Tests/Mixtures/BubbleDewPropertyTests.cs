using CsCheck;
using PreApproval.Hazards.Mixtures;
using static PreApproval.Hazards.Tests.Mixtures.MixtureOf;

namespace PreApproval.Hazards.Tests.Mixtures;

public sealed class BubbleDewPropertyTests
{
    private static readonly string[] Solvents = ["acetone", "methanol", "ethanol", "toluene", "n-hexane", "ethyl acetate", "chloroform", "water", "acetonitrile", "diethyl ether"];

    private static readonly Gen<LiquidMixture> Mixtures = Gen.Shuffle(Solvents, 3).SelectMany(
        static names => Gen.Double[0.001, 1].Array[3].Select(x => new LiquidMixture([.. names.Select((n, i) => new MixtureComponent(ByName(n), x[i]))])));

    private static readonly Gen<double> Temperatures = Gen.Double[270, 400];

    [Fact]
    public void BubbleTemperature_of_bubblePressure_eq_T() => Check.Sample(
        Gen.Select(Mixtures, Temperatures),
        static (mixture, t) =>
        {
            var there = BubblePoint.PressureAt(mixture, t);
            var back = BubblePoint.TemperatureAt(mixture, there.PressurePaAbs!.Value);
            return Math.Abs(back.TemperatureK!.Value - t) < 1e-5;
        },
        iter: 300);

    [Fact]
    public void DewTemperature_of_dewPressure_eq_T() => Check.Sample(
        Gen.Select(Mixtures, Temperatures),
        static (mixture, t) =>
        {
            var there = DewPoint.PressureAt(mixture, t);
            var back = DewPoint.TemperatureAt(mixture, there.PressurePaAbs!.Value);
            return Math.Abs(back.TemperatureK!.Value - t) < 1e-5;
        },
        iter: 200);

    // The vapour over a liquid condenses, at that pressure and no lower one, to that liquid.
    [Fact]
    public void DewPressure_of_bubbleVapour_eq_bubblePressure() => Check.Sample(Gen.Select(Mixtures, Temperatures), CondensesAtItsBubblePressure, iter: 300);

    [Fact]
    public void DewPressure_le_bubblePressure_of_same_composition() => Check.Sample(
        Gen.Select(Mixtures, Temperatures),
        static (mixture, t) => DewPoint.PressureAt(mixture, t).PressurePaAbs <= BubblePoint.PressureAt(mixture, t).PressurePaAbs * (1 + 1e-9),
        iter: 300);

    [Fact]
    public void BubblePressure_rises_with_T() => Check.Sample(Gen.Select(Mixtures, Temperatures, Gen.Double[0.1, 20]), Rises, iter: 300);

    [Fact]
    public void Permutation_changes_nothing() => Check.Sample(
        Gen.Select(Mixtures, Temperatures),
        static (mixture, t) =>
        {
            var turned = new LiquidMixture([.. mixture.Parts.Reverse()]);
            var a = BubblePoint.PressureAt(mixture, t);
            var b = BubblePoint.PressureAt(turned, t);
            return Math.Abs((a.PressurePaAbs!.Value / b.PressurePaAbs!.Value) - 1) < 1e-7
                && Math.Abs((DewPoint.PressureAt(mixture, t).PressurePaAbs!.Value / DewPoint.PressureAt(turned, t).PressurePaAbs!.Value) - 1) < 1e-7
                && (a.VapourMoleFractions is null || a.VapourMoleFractions.Zip(b.VapourMoleFractions!.Reverse()).All(static p => Math.Abs(p.First - p.Second) < 1e-7));
        },
        iter: 200);

    [Fact]
    public void Vapour_sums_to_1_and_liquids_have_equal_activities() => Check.Sample(Gen.Select(Mixtures, Temperatures), LiquidsAgree, iter: 300);

    [Fact]
    public void PureLimit_eq_Psat() => Check.Sample(
        Gen.Select(Gen.Int[0, Solvents.Length - 1], Temperatures),
        static (index, t) =>
        {
            var name = Solvents[index];
            var psat = VapourPressure.At(ByName(name), t).Pascal;
            return Math.Abs((BubblePoint.PressureAt(Mol((name, 1)), t).PressurePaAbs!.Value / psat) - 1) < 1e-12
                && Math.Abs((DewPoint.PressureAt(Mol((name, 1)), t).PressurePaAbs!.Value / psat) - 1) < 1e-12;
        },
        iter: 100);

    // Found by the properties above. Two liquids so alike that substitution creeps; three liquids, of which the third is gone at 401 K; and a liquid at the
    // critical end of its gap, which parts by two millionths of the energy.
    [Fact]
    public void TwoLiquidsThatAreNearlyOne_HaveEqualActivities() =>
        Assert.True(LiquidsAgree(Mol(("acetone", 0.5718185935883355), ("n-hexane", 0.11958102818392193), ("water", 0.3086003782277426)), 398.1706870585936));

    [Fact]
    public void ThreeLiquids_BoilTogether_AndThePressureRisesWhereOneGoes()
    {
        var mixture = Mol(("n-hexane", 0.12739049589602702), ("acetonitrile", 0.32099214129480347), ("water", 0.5516173628091695));

        Assert.Equal(LiquidModel.MoreLiquids, BubblePoint.PressureAt(mixture, 396).Model);
        Assert.Equal(LiquidModel.TwoLiquids, BubblePoint.PressureAt(mixture, 402.421875).Model);
        Assert.True(LiquidsAgree(mixture, 396));
        Assert.True(CondensesAtItsBubblePressure(mixture, 396));
        Assert.True(Rises(mixture, 396, 6.421875));
    }

    [Fact]
    public void LiquidThatOnlyJustParts_CondensesAtItsBubblePressure() =>
        Assert.True(CondensesAtItsBubblePressure(Mol(("n-hexane", 1), ("methanol", 1), ("ethyl acetate", 1)), 270));

    private static bool CondensesAtItsBubblePressure(LiquidMixture mixture, double t)
    {
        var bubble = BubblePoint.PressureAt(mixture, t);
        var vapour = new LiquidMixture([.. mixture.Parts.Select((p, i) => p with { MoleFraction = bubble.VapourMoleFractions![i] })]);
        var dew = DewPoint.PressureAt(vapour, t);
        return Math.Abs((dew.PressurePaAbs!.Value / bubble.PressurePaAbs!.Value) - 1) < 1e-6;
    }

    private static bool Rises(LiquidMixture mixture, double t, double step) => BubblePoint.PressureAt(mixture, t + step).PressurePaAbs > BubblePoint.PressureAt(mixture, t).PressurePaAbs;

    private static bool LiquidsAgree(LiquidMixture mixture, double t)
    {
        var point = BubblePoint.PressureAt(mixture, t);
        var model = Unifac.TryCreate([.. mixture.MixingParts.Select(i => mixture.Parts[i].Substance.UnifacGroups!.Value)], out _)!;
        var activities = point.Liquids.Select(liquid => model.ActivityCoefficients(t, [.. liquid.MoleFractions]).Zip(liquid.MoleFractions, static (gamma, x) => gamma * x).ToArray()).ToArray();
        for (var i = 0; i < mixture.MixingParts.Count && activities.Length > 0; i++)
        {
            var total = point.Liquids.Sum(liquid => liquid.Share * liquid.MoleFractions[i]);
            if (activities.Any(each => Math.Abs(each[i] - activities[0][i]) > 2e-7) || Math.Abs(total - mixture.Parts[mixture.MixingParts[i]].MoleFraction) > 1e-8)
            {
                return false;
            }
        }

        return point.Model != LiquidModel.Bound && Math.Abs(point.VapourMoleFractions!.Sum() - 1) < 1e-12;
    }
}
