using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Safeguards;

/// <summary>Improvised and recognised safeguards: common practice, no source.</summary>
public sealed class SafeguardTests
{
    [Theory]
    [InlineData("blast shield", Recognition.Recognised)]
    [InlineData("Fume cupboard", Recognition.Recognised)]
    [InlineData("relief valve", Recognition.Recognised)]
    [InlineData("inverted dish", Recognition.Improvised)]
    [InlineData("aluminium foil around the vial", Recognition.Improvised)]
    [InlineData("towel over the tube", Recognition.Improvised)]
    [InlineData("bucket of water", Recognition.Improvised)]
    [InlineData("glass dish over the vial", Recognition.Improvised)]
    [InlineData("crystallising dish over the tube", Recognition.Improvised)]
    [InlineData("upside-down crystallising dish", Recognition.Improvised)]
    [InlineData("a dish", Recognition.Improvised)]
    [InlineData("mixing bowl on top", Recognition.Improvised)]
    [InlineData("crystallising dish with ice", Recognition.NotRecognised)]
    [InlineData("dish under the flask", Recognition.NotRecognised)]
    [InlineData("Blast shields", Recognition.Recognised)]
    [InlineData("bursting discs", Recognition.Recognised)]
    [InlineData("relief valve set at 4 bar", Recognition.NotRecognised)]
    [InlineData("no blast shield", Recognition.NotRecognised)]
    [InlineData("common sense", Recognition.NotRecognised)]
    [InlineData("staple gun", Recognition.NotRecognised)]
    public void Judge_AsTyped_IsRead(string control, Recognition expected) =>
        Assert.Equal(expected, ControlList.Judge(new Safeguard(control, [], null)));

    [Theory]
    [InlineData("fume hood", "flask wrapped in aluminium foil against light; sash down", Recognition.Recognised)]
    [InlineData("second person", "in the room, number on the phone list", Recognition.Recognised)]
    [InlineData("secondary containment", "tray under the beaker", Recognition.Recognised)]
    [InlineData("blast shield", "weighted, label on tape", Recognition.Recognised)]
    [InlineData("blast shield", "made of foil", Recognition.Improvised)]
    [InlineData("blast shield", "an inverted beaker over the vial", Recognition.Improvised)]
    [InlineData("relief device", "needle in the septum", Recognition.Improvised)]
    [InlineData("protection", "towel around the tube", Recognition.Improvised)]
    public void Judge_WithDetail_ReadsTheDetailOnlyForWhatTheControlIs(string control, string detail, Recognition expected) =>
        Assert.Equal(expected, ControlList.Judge(new Safeguard(control, [], detail)));

    [Theory]
    [InlineData("blast shield", ControlStatus.Present)]
    [InlineData("safety shield", ControlStatus.Present)]
    [InlineData("petri dish on top", ControlStatus.Improvised)]
    [InlineData("fume hood", ControlStatus.Missing)]
    public void Screen_PressureFinding_NamesTheStateOfTheShield(string control, ControlStatus expected)
    {
        var finding = Assert.Single(Screen(new Safeguard(control, ["3"], null)).Findings, static finding => finding.Code is "pressure.unknown-rating");

        Assert.Equal(expected, Assert.Single(finding.Controls, static needed => needed.Control is "blast shield").Status);
    }

    [Fact]
    public void Screen_ShieldForAnotherStep_IsMissing()
    {
        var finding = Assert.Single(Screen(new Safeguard("blast shield", ["1"], null)).Findings, static finding => finding.Code is "pressure.unknown-rating");

        Assert.Equal(ControlStatus.Missing, Assert.Single(finding.Controls, static needed => needed.Control is "blast shield").Status);
    }

    [Fact]
    public void Screen_ImprovisedSafeguard_IsItselfAWarning() =>
        Assert.Single(Screen(new Safeguard("inverted dish", ["3"], null)).Findings, static finding => finding is { Code: "safeguard.improvised", Severity: Severity.Warning });

    [Fact]
    public void Screen_OvernightWithDanger_IsUnattendedWarningClearedByAttending()
    {
        var plan = Plan() with { Attendance = Attendance.Overnight };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "safeguard.unattended");

        var after = Screener.Screen(Clearings.Apply(plan, Assert.Single(finding.ClearedBy)), Policy.Default);

        Assert.DoesNotContain(after.Findings, static other => other.Code is "safeguard.unattended");
    }

    private static Report Screen(Safeguard safeguard) => Screener.Screen(Plan() with { Safeguards = [safeguard] }, Policy.Default);

    private static Plan Plan() => new()
    {
        Materials = [Of("ethanol", "ethanol", ML(5), Role.Solvent)],
        Vessels = [Tube(20, null)],
        Steps = [Step("1", StepAction.Charge, "tube", 20, "ethanol"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", 100)],
    };
}
