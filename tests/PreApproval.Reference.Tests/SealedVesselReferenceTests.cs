using PreApproval.Hazards.Vessels;
using static PreApproval.Reference.Tests.ReferenceValues;

namespace PreApproval.Reference.Tests;

public sealed class SealedVesselReferenceTests
{
    public static TheoryData<string, double, double, string, double, string, string, string> Vessels => new(
        Read("sealed-vessels.tsv").Where(r => r[5].Length > 0).Select(r => (r[0], Number(r[1]), Number(r[2]), r[3], Number(r[4]), r[5], r[6], r[7])));

    [Theory]
    [MemberData(nameof(Vessels))]
    public void At_ReferenceVessel_ModifiedRaoultWithinHalfAPercent(string name, double temperatureK, double vesselMl, string contents, double evolvedMol, string state, string pascal, string liquidFraction)
    {
        var input = Input(vesselMl, contents, evolvedMol);
        var raoult = ClosedVessel.At(input, temperatureK).Models.Single(m => m.Model == VesselModel.ModifiedRaoult);
        var expected = state switch
        {
            "two phase" => VesselPhase.TwoPhase,
            "all vapour" or "gas only" => VesselPhase.Vapour,
            _ when state.StartsWith("liquid full", StringComparison.Ordinal) => VesselPhase.LiquidFull,
            _ => throw new ArgumentException(name, nameof(state)),
        };
        Assert.Equal(expected, raoult.Phase);
        if (expected == VesselPhase.LiquidFull)
        {
            Assert.Null(raoult.PressurePaAbs);
            return;
        }

        Near(Number(pascal), raoult.PressurePaAbs!.Value, 0.005);
        if (liquidFraction.Length > 0)
        {
            Assert.Equal(Number(liquidFraction), raoult.LiquidVolumeFraction!.Value, 0.001);
        }
    }

    internal static ClosedVesselInput Input(double vesselMl, string contents, double evolvedMol) => new()
    {
        VesselVolumeM3 = vesselMl * 1e-6,
        Contents = [.. contents.Split(';', StringSplitOptions.RemoveEmptyEntries).Select(c => c.Split(':')).Select(c => new ChargedSubstance(ByCas(c[0]), Number(c[1])))],
        GasEvolvedMol = evolvedMol,
    };
}
