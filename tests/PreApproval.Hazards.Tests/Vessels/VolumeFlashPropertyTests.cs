using CsCheck;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Tests.Vessels;

/// <summary>
/// Identities of the flash at fixed temperature, volume and amounts, over random mixtures of the catalogue from gas to compressed liquid.
/// The environment variable PREAPPROVAL_LONG_PROPERTIES=1 asks for 150 000 inputs each instead of 3000.
/// </summary>
public sealed class VolumeFlashPropertyTests
{
    private static readonly long Inputs = Environment.GetEnvironmentVariable("PREAPPROVAL_LONG_PROPERTIES") is "1" ? 150_000 : 3000;

    private static readonly Substance[] WithConstants = [.. Catalog.Default.Substances.Where(static s => CriticalConstants.Of(s) is not null && !s.Involatile)];
    private static readonly Substance[] Solvents = [.. WithConstants.Where(static s => s.Identity.Cas is not null && PsrkGroups.Of(s) is not null && s.VapourPressure.Count > 0)];

    // A temperature from 0.45 to 1.6 of the mean critical one, a volume from 1.1 to 100 000 co-volumes, spread evenly over the logarithms.
    private static readonly Gen<(Substance[] Picked, double[] Amounts, double Reduced, double Packing)> Charges = Gen.Select(
        Gen.Shuffle(WithConstants, 1, 6), Gen.Double[-6, 0].Select(static e => Math.Pow(10, e)).Array[6], Gen.Double[0.45, 1.6], Gen.Double[Math.Log(1.1), Math.Log(1e5)].Select(Math.Exp));

    [Fact]
    public void PengRobinson_AnyValidInput_fugacities_and_pressures_eq_and_volume_eq_sum() => Sample(
        Charges,
        static c =>
        {
            var critical = Array.ConvertAll(c.Picked, static s => CriticalConstants.Of(s)!.Value);
            var temperatureK = c.Reduced * critical.Average(static k => k.TcK);
            return Balances(new PengRobinson(critical, temperatureK), c.Amounts[..critical.Length], c.Packing);
        });

    [Fact]
    public void Psrk_AnyValidInput_fugacities_and_pressures_eq_and_volume_eq_sum() => Sample(
        Gen.Select(Gen.Shuffle(Solvents, 1, 5), Gen.Double[-5, 0].Select(static e => Math.Pow(10, e)).Array[5], Gen.Double[0.5, 1.4], Gen.Double[Math.Log(1.1), Math.Log(1e5)].Select(Math.Exp)),
        static c =>
        {
            var (picked, amounts, reduced, packing) = c;
            var critical = Array.ConvertAll(picked, static s => CriticalConstants.Of(s)!.Value);
            var temperatureK = reduced * critical.Average(static k => k.TcK);
            var model = Unifac.TryCreate(UnifacTable.Psrk, [.. picked.Select(static s => PsrkGroups.Of(s)!)], out _);
            var saturation = Array.ConvertAll(picked, s => VapourPressure.At(s, temperatureK).Pascal);
            return model is null ? true : Balances(new Psrk(critical, saturation, model.At(temperatureK), temperatureK), amounts[..critical.Length], packing);
        });

    // Carbon dioxide around its critical point (304.13 K, 467.6 kg/m³: Span and Wagner 1996).
    [Fact]
    public void PengRobinson_NearCriticalCarbonDioxide_Settles() => Sample(
        Gen.Select(Gen.Double[300, 308], Gen.Double[0.6, 1.6]),
        static c =>
        {
            var (temperatureK, density) = c;
            Assert.True(Catalog.Default.TryFindByCas("124-38-9", out var substance));
            var equation = new PengRobinson([CriticalConstants.Of(substance)!.Value], temperatureK);
            return Balances(equation, [1], 0.04401 / (467.6 * density) / equation.CoVolume([1]));
        });

    // Found by the first property: two phases, both packed closer than any vapour that the fixed point may take, at 6100 bar by this equation.
    [Fact]
    public void PengRobinson_TwoDensePhases_Balance()
    {
        var critical = Array.ConvertAll(["phenylhydrazine", "benzoic acid", "phosphorus pentasulfide"], static name => CriticalConstants.Of(ClosedVesselTests.ByName(name))!.Value);

        Assert.True(Balances(new PengRobinson(critical, 934.6666666666666), [0.008257902294435513, 0.1528306732658769, 1], 1.127849292737227));
    }

    // Found by the first property: a drop of 2e-8 of the volume in gas, hydrogen bromide with a trace of 2,4,6-trinitrotoluene. Numbers outside: the same three
    // equations solved with 50 digits (mpmath 1.3.0, findroot).
    [Fact]
    public void PengRobinson_DropInGas_Balances()
    {
        double[] n = [1, 1.231015598105691E-06];
        var equation = new PengRobinson([new CriticalConstants(363.2, 8551830, 0.063), new CriticalConstants(828, 3040000, 0.897)], 288.77330788505697);
        var dense = new double[2];

        var state = VolumeFlash.Solve(equation, n, 0.011082786476643016, [100, 100], 0.005, dense);

        Assert.True(Balances(equation, n, 403.4287934927351));
        Assert.Equal(FlashPhases.Two, state.Phases);
        Assert.InRange(Relative(state.DenseM3, 2.3314633867953177e-10), 0, 1e-12);
        Assert.InRange(Relative(state.PressurePa, 212816.98426615754), 0, 1e-12);
        Assert.InRange(Relative(dense[0], 1.5951320079723234e-07), 0, 1e-11);
        Assert.InRange(Relative(dense[1], 1.229901037041553e-06), 0, 1e-12);
    }

    // Two liquids and a gas are three phases, which two cannot balance: liquids such as water with an alkane, met by chance. Everything else must balance.
    private static void Sample<T>(Gen<T> inputs, Func<T, bool?> balances)
    {
        var threePhases = 0;
        inputs.Sample(
            input =>
            {
                var answer = balances(input);
                threePhases += answer is null ? 1 : 0;
                return answer ?? true;
            },
            iter: Inputs,
            threads: 1);
        Assert.True(threePhases <= 1 + (Inputs / 2000), $"{threePhases} of {Inputs}");
    }

    private static bool? Balances(CubicEquation equation, double[] n, double packing)
    {
        var count = n.Length;
        var volume = packing * equation.CoVolume(n);
        var dense = new double[count];
        var guess = new double[count];
        for (var i = 0; i < count; i++)
        {
            guess[i] = 100;
        }

        var state = VolumeFlash.Solve(equation, n, volume, guess, 0.5 * volume, dense);
        switch (state.Phases)
        {
            case FlashPhases.TooDense:
                return false;
            case FlashPhases.One:
                return state.PressurePa <= 0 && count > 1 ? null : state.PressurePa > 0 && Relative(Phase(equation, n, volume).PressurePa, state.PressurePa) < 1e-9;
            case FlashPhases.Two:
                break;
        }

        var thin = n.Select((mol, i) => mol - dense[i]).ToArray();
        var first = Phase(equation, dense, state.DenseM3);
        var second = Phase(equation, thin, volume - state.DenseM3);
        // the dense pressure is as exact as the compressibility of a liquid lets it be: compare on the scale R T/v
        var scale = 8.31446261815324 * equation.TemperatureK * dense.Sum() / state.DenseM3;
        // the thin phase is a difference here: a trace of a component in it is known to the last digits of the whole only
        var fugacities = Enumerable.Range(0, count).All(i => Math.Min(dense[i], thin[i]) < 1e-12 * n[i] || Math.Abs(first.LogFugacity[i] - second.LogFugacity[i]) < 1e-6 + (1e-14 * n[i] / Math.Min(dense[i], thin[i])));
        return state.PressurePa > 0
            && fugacities && Math.Abs(first.PressurePa - second.PressurePa) < 1e-7 * scale;
    }

    private static double Relative(double a, double b) => Math.Abs((a / b) - 1);

    private static (double PressurePa, double[] LogFugacity) Phase(CubicEquation equation, double[] n, double volume)
    {
        var total = n.Sum();
        var x = Array.ConvertAll(n, mol => mol / total);
        var partial = new double[n.Length];
        var log = new double[n.Length];
        var b = equation.CoVolume(x);
        var q = equation.Mix(x, b, partial);
        equation.LogFugacityOverConcentration(b, q, partial, volume / total, log);
        return (equation.Pressure(b, q, volume / total), [.. log.Select((l, i) => l + Math.Log(n[i] / volume))]);
    }
}
