using CsCheck;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Tests.Vessels;

/// <summary>Identities that hold for every vessel.</summary>
public sealed class ClosedVesselPropertyTests
{
    private const double GasConstant = 8.31446261815324;
    private static readonly string[] Solvents = ["acetone", "ethanol", "methanol", "ethyl acetate", "tetrahydrofuran", "dichloromethane", "water", "toluene", "acetonitrile", "n-hexane", "DMF", "diglyme"];

    private static readonly Gen<ClosedVesselInput> Vessels =
        from picked in Gen.Shuffle(Solvents, 1, 4)
        from amounts in Gen.Double[0.05, 1].Array[4]
        from fill in Gen.Double[0.02, 0.6]
        from evolved in Gen.OneOf(0, 0.002)
        select Make(picked, amounts, fill, evolved);

    [Fact]
    public void Pressure_TemperatureRises_NeverFalls() => Check.Sample(
        Gen.Select(Vessels, Gen.Double[293.15, 470], Gen.Double[0.1, 40]),
        (vessel, t, rise) => Raoult(vessel, t).PressurePaAbs is not { } cold || Raoult(vessel, t + rise) is not { PressurePaAbs: { } hot } || hot >= cold * (1 - 1e-9),
        iter: 2000);

    // Without air: at a fixed filling pressure more liquid shuts in less air, and near dry-out that alone can lower the pressure a little.
    // One liquid only: where the liquid splits, a single-liquid solution has no meaning and the bound governs.
    [Fact]
    public void Pressure_EverythingScaledUpInTheSameVessel_NeverFalls() => Check.Sample(
        Gen.Select(Vessels.Select(v => v with { Headspace = [] }), Gen.Double[293.15, 450], Gen.Double[1.01, 1.5]),
        (vessel, t, factor) => OneLiquid(vessel, t) is not { } less
            || OneLiquid(vessel with { Contents = Scaled(vessel, factor) }, t) is not { } more || more >= less * (1 - 1e-9),
        iter: 2000);

    [Fact]
    public void State_ContentsPermuted_IsUnchanged() => Check.Sample(
        Gen.Select(Vessels, Gen.Double[293.15, 450]),
        (vessel, t) => ClosedVessel.At(vessel, t).Governing.PressurePaAbs == ClosedVessel.At(vessel with { Contents = [.. vessel.Contents.Reverse()] }, t).Governing.PressurePaAbs,
        iter: 500);

    [Fact]
    public void Pressure_VesselAndChargeScaledTogether_IsUnchanged() => Check.Sample(
        Gen.Select(Vessels, Gen.Double[293.15, 450], Gen.Double[0.01, 100]),
        (vessel, t, factor) => Same(
            ClosedVessel.At(vessel, t).Governing.PressurePaAbs,
            ClosedVessel.At(vessel with { VesselVolumeM3 = vessel.VesselVolumeM3 * factor, Contents = Scaled(vessel, factor), GasEvolvedMol = vessel.GasEvolvedMol * factor }, t).Governing.PressurePaAbs),
        iter: 1000);

    [Fact]
    public void Bound_eq_or_above_ModifiedRaoult() => Check.Sample(
        Gen.Select(Vessels, Gen.Double[293.15, 450]),
        (vessel, t) =>
        {
            var state = ClosedVessel.At(vessel, t);
            return state.Models[0].PressurePaAbs is not { } raoult || state.Models.Single(m => m.Model == VesselModel.ImmiscibleBound).PressurePaAbs >= raoult * 0.98 || state.Governing.Model == VesselModel.ImmiscibleBound;
        },
        iter: 1000);

    // searches and the timeline ask for the number alone: past critical temperatures and full vessels included
    [Fact]
    public void BoundPaAt_IsTheBoundOfTheWholeState() => Check.Sample(
        Gen.Select(Vessels, Gen.Double[293.15, 600]),
        (vessel, t) => Same(new SealedCharge(vessel).BoundPaAt(t), ClosedVessel.At(vessel, t).Models.Single(m => m.Model == VesselModel.ImmiscibleBound).PressurePaAbs),
        iter: 1000);

    // one charge moved from temperature to temperature, as a search does, against a fresh one with all that a report shows
    [Fact]
    public void PressureAt_MovedAlong_IsTheGoverningAnswer() => Check.Sample(
        Gen.Select(Vessels, Gen.Double[293.15, 600].Array[3]),
        (vessel, temperatures) =>
        {
            var moved = new SealedCharge(vessel);
            return Array.TrueForAll(temperatures, t => moved.PressureAt(t) is var pressure && ClosedVessel.At(vessel, t).Governing is var governing
                && pressure.Model == governing.Model && pressure.LiquidFull == (governing.Phase == VesselPhase.LiquidFull) && moved.IsFullAt(t) == pressure.LiquidFull && Same(pressure.PascalAbs, governing.PressurePaAbs));
        },
        iter: 1000);

    // 1 mol of each would be 5.8 bar of water vapour in 6.09 L at 427 K; saturated water has 5.31 bar there (steam tables, 153.9 °C), so water condenses beside the hydrocarbon.
    [Fact]
    public void At_WaterPastItsSaturationBesideAHydrocarbon_TheBoundGoverns()
    {
        var input = new ClosedVesselInput
        {
            VesselVolumeM3 = 0.00609315,
            Contents = [new ChargedSubstance(ClosedVesselTests.ByName("n-hexane"), 1), new ChargedSubstance(ClosedVesselTests.ByName("water"), 1)],
        };
        var state = ClosedVessel.At(input, 427).Governing;
        Assert.Equal(VesselModel.ImmiscibleBound, state.Model);
        Assert.Equal(5.31e5, state.PartialPressuresPa["7732-18-5"], 0.05e5);
    }

    // Modified UNIFAC answers for water with a cyclic ether; a vessel that their liquid fills is full under every model of the activities.
    [Fact]
    public void At_WaterWithTetrahydrofuranAtAnyFill_FullIsFullAndNoPressureIsNegative() => Check.Sample(
        Gen.Select(Gen.Double[0.05, 0.95], Gen.Double[0.6, 1.05], Gen.Double[293.15, 500]),
        (x, fill, t) =>
        {
            var (ether, water) = (ClosedVesselTests.ByName("tetrahydrofuran"), ClosedVesselTests.ByName("water"));
            var volumeM3 = ((x * 81.1e-6) + ((1 - x) * 18.05e-6)) / fill;
            var state = ClosedVessel.At(new ClosedVesselInput { VesselVolumeM3 = volumeM3, Contents = [new ChargedSubstance(ether, x), new ChargedSubstance(water, 1 - x)] }, t);
            return (state.Models[0].Phase != VesselPhase.LiquidFull || state.Governing.Phase == VesselPhase.LiquidFull)
                && state.Models.All(model => model.PressurePaAbs is null or > 0 && model.PartialPressuresPa.Values.All(static p => p >= 0));
        },
        iter: 1000);

    [Fact]
    public void Amount_eq_liquid_plus_vapour() => Check.Sample(
        Gen.Select(Vessels, Gen.Double[293.15, 450]),
        (vessel, t) =>
        {
            var state = Raoult(vessel, t);
            if (state.PressurePaAbs is null)
            {
                return true;
            }

            var gas = vessel.VesselVolumeM3 * (1 - state.LiquidVolumeFraction!.Value);
            var liquids = vessel.Contents.Select(c => c.Mol - (state.PartialPressuresPa[c.Substance.Key] * gas / (GasConstant * t))).ToList();
            var total = liquids.Sum();
            var scale = vessel.Contents.Sum(c => c.Mol);
            return liquids.TrueForAll(l => l >= -1e-8 * scale)
                && (state.LiquidMoleFractions.Count == 0
                    ? Math.Abs(total) < 1e-8 * scale
                    : vessel.Contents.Select((c, i) => Math.Abs(liquids[i] - (state.LiquidMoleFractions[c.Substance.Key] * total)) < 1e-7 * scale).All(ok => ok));
        },
        iter: 1000);

    [Fact]
    public void At_AnyValidInput_NeverThrowsAndAlwaysGoverns() => Check.Sample(
        Gen.Select(Gen.Shuffle(Catalog.Default.Substances.ToArray(), 0, 5), Gen.Double[1e-7, 2].Array[5], Gen.Double[1e-6, 1e-2], Gen.Double[200, 673]),
        (substances, mol, volume, t) =>
        {
            var state = ClosedVessel.At(new ClosedVesselInput { VesselVolumeM3 = volume, Contents = [.. substances.Select((s, i) => new ChargedSubstance(s, mol[i]))] }, t);
            return state.Governing.PressurePaAbs is { } p ? double.IsFinite(p) && p >= 0 : state.Governing.Because is not null;
        },
        iter: 3000);

    private static ClosedVesselInput Make(string[] picked, double[] amounts, double fill, double evolved)
    {
        var substances = picked.Select(ClosedVesselTests.ByName).ToList();
        var volume = substances.Select((s, i) => amounts[i] * Hazards.Mixtures.LiquidVolume.At(s, 293.15).M3PerMol).Sum();
        return new ClosedVesselInput
        {
            VesselVolumeM3 = volume / fill,
            Contents = [.. substances.Select((s, i) => new ChargedSubstance(s, amounts[i]))],
            GasEvolvedMol = evolved,
        };
    }

    private static ModelState Raoult(ClosedVesselInput vessel, double temperatureK) => ClosedVessel.At(vessel, temperatureK).Models[0];

    private static double? OneLiquid(ClosedVesselInput vessel, double temperatureK)
    {
        var state = ClosedVessel.At(vessel, temperatureK);
        return state.Governing.Model == VesselModel.ImmiscibleBound ? null : state.Models[0].PressurePaAbs;
    }

    private static IReadOnlyList<ChargedSubstance> Scaled(ClosedVesselInput vessel, double factor) => [.. vessel.Contents.Select(c => c with { Mol = c.Mol * factor })];

    private static bool Same(double? a, double? b) => a is null ? b is null : b is not null && Math.Abs((a.Value / b.Value) - 1) < 1e-7;
}
