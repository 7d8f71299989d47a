using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Safeguards;

/// <summary>The hierarchy of controls (NIOSH; ISO 45001, 8.1.2), improvised means, and standards quoted for what they are not about.</summary>
public sealed class HierarchyTests
{
    [Fact]
    public void Table_EveryControl_IsRecognisedAtTheLevelItStandsAt()
    {
        Assert.All(ControlNeeds.All, static need =>
        {
            Assert.All(need.Engineering, static control => Assert.Equal(ControlLevel.Engineering, ControlList.LevelOf(control)));
            Assert.All(need.Administrative, static control => Assert.Equal(ControlLevel.Administrative, ControlList.LevelOf(control)));
            Assert.All(need.ProtectiveEquipment, static control => Assert.Equal(ControlLevel.ProtectiveEquipment, ControlList.LevelOf(control)));
        });
    }

    [Fact]
    public void Table_EveryRow_NamesAControlOrAReason() =>
        Assert.All(ControlNeeds.All, static need => Assert.True(need.Controls.Count > 0 || need.Reason is { Length: > 20 }, need.Code));

    [Fact]
    public void Table_EveryMakeshift_StandsInForRecognisedControls() =>
        Assert.All(
            EmbeddedTable.Rows("improvised.tsv").SelectMany(static row => EmbeddedTable.Entries(row["insteadOf"])),
            static control => Assert.Contains(control, ControlList.Names, StringComparer.Ordinal));

    /// <summary>The longest code that fits counts: a water bath has no control that makes it safe, other encounters do.</summary>
    [Fact]
    public void Of_LongestCode_Counts()
    {
        Assert.Empty(ControlNeeds.Of("incompatibility.water-bath")!.Controls);
        Assert.Contains("slow addition", ControlNeeds.Of("incompatibility.acid-with-hypochlorite")!.Engineering, StringComparer.Ordinal);
        Assert.Null(ControlNeeds.Of("nobody.knows"));
    }

    [Theory]
    [InlineData("watch glass over the vial", "blast shield")]
    [InlineData("tape around the flask", "blast shield")]
    [InlineData("litmus paper in the hood", "gas detector")]
    [InlineData("wet tissue over the outlet", "scrubber")]
    [InlineData("phone in the pocket", "second person")]
    [InlineData("paper note on the still", "independent cut-out")]
    [InlineData("paper towels", "secondary containment")]
    [InlineData("balloon on the closed vial", "relief device")]
    public void StandsInFor_Makeshift_NamesTheControlItReplaces(string words, string control)
    {
        var safeguard = new Safeguard(words, [], null);

        Assert.Equal(Recognition.Improvised, ControlList.Judge(safeguard));
        Assert.Contains(control, ControlList.StandsInFor(safeguard), StringComparer.Ordinal);
    }

    [Fact]
    public void Screen_BalloonOnClosedTube_ShowsTheReliefDeviceAsImprovised()
    {
        var finding = Assert.Single(Screen(new Safeguard("balloon on the tube", ["3"], null)).Findings, static finding => finding.Code is "pressure.unknown-rating");

        Assert.Equal(ControlStatus.Improvised, Assert.Single(finding.Controls, static needed => needed.Control is "relief device").Status);
        Assert.Equal(ControlStatus.Missing, Assert.Single(finding.Controls, static needed => needed.Control is "blast shield").Status);
    }

    /// <summary>EN 12470 is about clinical thermometers, EN 12469 about microbiological cabinets, EN 166 about eyes (subjects of the standards, from memory).</summary>
    [Theory]
    [InlineData("EN 12470-1", true)]
    [InlineData("DIN EN12469", true)]
    [InlineData("EN 356 P4A", true)]
    [InlineData("EN 166", true)]
    [InlineData("EN 13541 ER1", false)]
    [InlineData("EN 1660", false)]
    public void Rejects_QuotedStandard_ByWhatItIsAbout(string detail, bool expected) =>
        Assert.Equal(expected, SafeguardStandards.Rejects(new Safeguard("blast shield", [], detail)));

    [Fact]
    public void Screen_ShieldToAStandardOfThermometers_CountsAsMissing()
    {
        var report = Screen(new Safeguard("blast shield", ["3"], "certified to EN 12470"));

        Assert.Contains("clinical thermometers", Assert.Single(report.Findings, static finding => finding is { Code: "safeguard.wrong-standard", Severity: Severity.Caution }).Statement, StringComparison.Ordinal);
        Assert.Equal(ControlStatus.Missing, Shield(report));
    }

    [Fact]
    public void Screen_ShieldToGlazingStandard_CountsAndIsNoted()
    {
        var report = Screen(new Safeguard("blast shield", ["3"], "EN 13541 ER1, weighted"));

        Assert.Contains("no European standard certifies a portable shield", Assert.Single(report.Findings, static finding => finding is { Code: "safeguard.standard-noted", Severity: Severity.Notice }).Statement, StringComparison.Ordinal);
        Assert.Equal(ControlStatus.Present, Shield(report));
    }

    [Theory]
    [InlineData("scrubber", true)]
    [InlineData("blast shield", false)]
    public void Screen_ControlForAnotherMechanism_CountsForNothing(string control, bool expected) =>
        Assert.Equal(expected, Screen(new Safeguard(control, ["3"], null)).Findings.Any(static finding => finding is { Code: "safeguard.wrong-mechanism", Severity: Severity.Notice }));

    [Theory]
    [InlineData(new[] { "face shield" }, true)]
    [InlineData(new[] { "second person", "face shield" }, true)]
    [InlineData(new[] { "face shield", "blast shield" }, false)]
    [InlineData(new string[0], false)]
    public void Screen_DangerAnsweredByLowLevelsAlone_IsNamed(string[] controls, bool expected) =>
        Assert.Equal(expected, Screener.Screen(Plan() with { Safeguards = [.. controls.Select(static control => new Safeguard(control, ["3"], null))] }, Policy.Default).Findings
            .Any(static finding => finding is { Code: "safeguard.low-levels-only", Severity: Severity.Notice }));

    private static ControlStatus Shield(Report report) =>
        Assert.Single(Assert.Single(report.Findings, static finding => finding.Code is "pressure.unknown-rating").Controls, static needed => needed.Control is "blast shield").Status;

    private static Report Screen(Safeguard safeguard) => Screener.Screen(Plan() with { Safeguards = [safeguard] }, Policy.Default);

    private static Plan Plan() => new()
    {
        Materials = [Of("ethanol", "ethanol", ML(5), Role.Solvent)],
        Vessels = [Tube(20, null)],
        Steps = [Step("1", StepAction.Charge, "tube", 20, "ethanol"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", 100)],
    };
}
