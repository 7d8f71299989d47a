using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Handling.Charges;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Exposure;

/// <summary>Monomers that are kept (R. J. Kelly, Chem. Health Saf. 1996, 3 (5), 28).</summary>
public sealed class MonomerTests
{
    [Theory]
    [InlineData("inhibited with hydroquinone", "nitrogen", true)]
    [InlineData(null, "nitrogen", true)]
    [InlineData("inhibited with hydroquinone", null, false)]
    public void Screen_InhibitedStyreneStored_NeedsAir(string? form, string? gas, bool found) =>
        Assert.Equal(found, Screener.Screen(Stored(form, gas, 100), Policy.Default).Findings.Any(static finding => finding.Code is "peroxide.inhibitor-without-air"));

    [Theory]
    [InlineData("inhibitor removed", 12.0, false)]
    [InlineData("inhibitor removed", 48.0, true)]
    [InlineData("inhibited", 48.0, false)]
    public void Screen_UninhibitedStyreneStored_KeepsADay(string form, double hours, bool found) =>
        Assert.Equal(found, Screener.Screen(Stored(form, null, hours), Policy.Default).Findings.Any(static finding => finding is { Code: "peroxide.uninhibited-kept", Severity: Severity.Warning }));

    // R. J. Kelly 1996, from memory: a rule, not a measurement; it is evidence only of what stands too long
    [Fact]
    public void Screen_UninhibitedKept_IsTheOnlyMonomerFindingByTheTimeItMayStand()
    {
        var kept = Only(Stored("inhibitor removed", null, 48), "peroxide.uninhibited-kept");

        Assert.Equal((24, "h", Quality.Assumed), Assert.Single(kept.Evidence) is var rule ? (rule.Value, rule.Unit, rule.Quality) : default);
        Assert.Empty(Only(Stored(null, "nitrogen", 100), "peroxide.inhibitor-without-air").Evidence);
    }

    private static Plan Stored(string? form, string? gas, double hours) => new()
    {
        Materials = [Of("a", "styrene", ML(50)) with { Form = form, OpenedOn = new DateOnly(2026, 5, 1) }],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, "a") with { Headspace = gas is null ? null : Under(gas) }, Step("2", StepAction.Store, "flask", 5) with { DurationS = hours * 3600 }],
        PlannedOn = new DateOnly(2026, 6, 1),
    };
}
