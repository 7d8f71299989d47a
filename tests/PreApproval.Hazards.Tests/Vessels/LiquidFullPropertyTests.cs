using CsCheck;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Tests.Vessels;

/// <summary>Identities of vessels that their liquid fills or nearly fills.</summary>
public sealed class LiquidFullPropertyTests
{
    private static readonly Gen<ClosedVesselInput> NearlyFull =
        from name in Gen.OneOf("toluene", "acetone", "water", "ethanol", "tetrahydrofuran", "n-hexane")
        from millilitre in Gen.Double[15, 19.8]
        select Make(name, millilitre);

    [Fact]
    public void Pressure_TemperatureRisesIntoTheFullState_NeverFalls() => Check.Sample(
        Gen.Select(NearlyFull, Gen.Double[293.15, 450], Gen.Double[0.01, 30]),
        (vessel, t, rise) => Raoult(vessel, t) is not { } cold || Raoult(vessel, t + rise) is not { } hot || hot >= cold * (1 - 1e-9),
        iter: 600);

    [Fact]
    public void Pressure_WhereTheVesselBecomesFull_IsContinuous() => Check.Sample(
        NearlyFull,
        vessel =>
        {
            var substance = vessel.Contents[0].Substance;
            return CompressedLiquid.FillTemperatureK([new(substance, vessel.Contents[0].Mol)], vessel.VesselVolumeM3, 293.15) is not { } fullK
                || Raoult(vessel, fullK + 0.002) is not { } full || Raoult(vessel, fullK - 0.002) is not { } before || Math.Abs((full / before) - 1) < 0.01;
        },
        iter: 100);

    private static double? Raoult(ClosedVesselInput vessel, double temperatureK) => ClosedVessel.At(vessel, temperatureK).Models[0].PressurePaAbs;

    private static ClosedVesselInput Make(string name, double millilitre) =>
        Catalog.Default.TryFindByName(name, out var substance)
            ? new ClosedVesselInput { VesselVolumeM3 = 20e-6, Contents = [new ChargedSubstance(substance, millilitre * 1e-6 / LiquidVolume.At(substance, 293.15).M3PerMol)] }
            : throw new ArgumentException(name, nameof(name));
}
