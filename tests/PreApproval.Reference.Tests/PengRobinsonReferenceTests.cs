using PreApproval.Hazards.Vessels;
using static PreApproval.Reference.Tests.ReferenceValues;

namespace PreApproval.Reference.Tests;

public sealed class PengRobinsonReferenceTests
{
    public static TheoryData<string, double, double, string, double, string> Vessels => new(
        Read("sealed-vessels.tsv").Where(r => r[8].Length > 0).Select(r => (r[0], Number(r[1]), Number(r[2]), r[3], Number(r[4]), r[8])));

    [Theory]
    [MemberData(nameof(Vessels))]
    public void At_ReferenceVessel_PengRobinsonWithinOnePercent(string name, double temperatureK, double vesselMl, string contents, double evolvedMol, string pascal)
    {
        var state = ClosedVessel.At(SealedVesselReferenceTests.Input(vesselMl, contents, evolvedMol), temperatureK).Models.Single(m => m.Model == VesselModel.PengRobinson);
        Assert.True(state.PressurePaAbs is not null, name + ": " + state.Because);
        Near(Number(pascal), state.PressurePaAbs.Value, 0.01);
    }
}
