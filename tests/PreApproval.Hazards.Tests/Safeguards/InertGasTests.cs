using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Safeguards;

public sealed class InertGasTests
{
    /// <summary>Argon reacts with nothing here; lithium takes up nitrogen at room temperature (6 Li + N2 → 2 Li3N; Greenwood and Earnshaw 1997, from memory), sodium does not.</summary>
    [Theory]
    [InlineData("lithium", "argon", ControlStatus.Present)]
    [InlineData("lithium", "nitrogen", ControlStatus.Missing)]
    [InlineData("sodium", "nitrogen", ControlStatus.Present)]
    [InlineData("sodium", "hydrogen", ControlStatus.Missing)]
    [InlineData("sodium", null, ControlStatus.Missing)]
    public void Screen_GasThatTheStepsState_IsTheControl(string metal, string? gas, ControlStatus expected)
    {
        var plan = new Plan
        {
            Materials = [Of("metal", metal, G(0.5)), Of("toluene", "toluene", ML(20), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "toluene", "metal") with { Headspace = gas is null ? null : Under(gas) }, Step("2", StepAction.Stir, "flask", 20)],
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "fire.not-quenched");

        Assert.Equal(expected, Assert.Single(finding.Controls, static needed => needed.Control is "inert gas").Status);
    }
}
