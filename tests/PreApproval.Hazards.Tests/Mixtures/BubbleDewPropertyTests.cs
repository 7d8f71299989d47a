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

            // acetonitrile, hexane and water make three liquids in places: the bound stands in there and the pressure jumps
            return Math.Abs(back.TemperatureK!.Value - t) < 1e-5 || ((there.Model == LiquidModel.Bound || back.Model == LiquidModel.Bound) && mixture.Parts.All(static p => p.Substance.Identity.Name is "acetonitrile" or "n-hexane" or "water"));
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

    // Where the liquid stays one, the vapour over it condenses, at that pressure and no lower one, to that liquid.
    [Fact]
    public void DewPressure_of_bubbleVapour_eq_bubblePressure() => Check.Sample(
        Gen.Select(Mixtures, Temperatures),
        static (mixture, t) =>
        {
            var bubble = BubblePoint.PressureAt(mixture, t);
            if (bubble.Model == LiquidModel.Bound)
            {
                return true;
            }

            var vapour = new LiquidMixture([.. mixture.Parts.Select((p, i) => p with { MoleFraction = bubble.VapourMoleFractions![i] })]);
            var dew = DewPoint.PressureAt(vapour, t);
            return Math.Abs((dew.PressurePaAbs!.Value / bubble.PressurePaAbs!.Value) - 1) < 1e-6;
        },
        iter: 300);

    [Fact]
    public void DewPressure_le_bubblePressure_of_same_composition() => Check.Sample(
        Gen.Select(Mixtures, Temperatures),
        static (mixture, t) => DewPoint.PressureAt(mixture, t).PressurePaAbs <= BubblePoint.PressureAt(mixture, t).PressurePaAbs * (1 + 1e-9),
        iter: 300);

    [Fact]
    public void BubblePressure_rises_with_T() => Check.Sample(
        Gen.Select(Mixtures, Temperatures, Gen.Double[0.1, 20]),
        static (mixture, t, step) => BubblePoint.PressureAt(mixture, t + step).PressurePaAbs > BubblePoint.PressureAt(mixture, t).PressurePaAbs,
        iter: 300);

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
    public void Vapour_sums_to_1_and_two_liquids_have_equal_activities() => Check.Sample(
        Gen.Select(Mixtures, Temperatures),
        static (mixture, t) =>
        {
            var point = BubblePoint.PressureAt(mixture, t);
            if (point.Split is { } split)
            {
                var names = mixture.MixingParts.Select(i => mixture.Parts[i].Substance.UnifacGroups!.Value).ToArray();
                var model = Unifac.TryCreate(names, out _)!;
                var first = model.ActivityCoefficients(t, [.. split.First]);
                var second = model.ActivityCoefficients(t, [.. split.Second]);
                for (var i = 0; i < first.Length; i++)
                {
                    var total = (split.First[i] * (1 - split.SecondShare)) + (split.Second[i] * split.SecondShare);
                    if (Math.Abs((first[i] * split.First[i]) - (second[i] * split.Second[i])) > 2e-7 || Math.Abs(total - mixture.Parts[mixture.MixingParts[i]].MoleFraction) > 1e-8)
                    {
                        return false;
                    }
                }
            }

            return point.VapourMoleFractions is null || Math.Abs(point.VapourMoleFractions.Sum() - 1) < 1e-12;
        },
        iter: 300);

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
}
