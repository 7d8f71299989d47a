using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>
/// Relief: set at or below the rating; work at up to 0.9 of the set pressure of a valve, 0.75 of that of an ordinary disc (ISO 4126-6 and API 520, from memory). Ethanol in the worked example:
/// 5 mL in 20 mL, closed at 20 °C, at 100 °C 2.25 bar of vapour (Perry's, Table 2-8) and about 1.3 bar of air, 2.5 bar(g).
/// </summary>
public sealed class ReliefTests
{
    private const string Above = "pressure.relief-above-rating";
    private const string Margin = "pressure.relief-margin";

    [Theory]
    [InlineData(10.0, 10, null)]
    [InlineData(10.0, 10.5, Severity.Danger)]
    [InlineData(null, 3, Severity.Danger)]
    public void Screen_SetAboveTheRating_ProtectsNothing(double? rating, double set, Severity? expected) =>
        Assert.Equal(expected, One(Plan(ReliefKind.Valve, set, rating), Above)?.Severity);

    /// <summary>The weakest counts: a gauge good to 6 bar(g) behind a disc of 8.</summary>
    [Fact]
    public void Screen_SetAboveTheWeakestPart_ProtectsNothing()
    {
        var plan = Plan(ReliefKind.BurstingDisc, 8, 10);
        plan = plan with { Vessels = [plan.Vessels[0] with { Parts = [new VesselPart("gauge", 6e5, null)] }] };

        Assert.Contains("6 bar(g) that the gauge of “tube” is rated for", One(plan, Above)!.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_SetPressureOffered_Clears()
    {
        var plan = Plan(ReliefKind.Valve, 12, 10);
        var offer = Assert.Single(One(plan, Above)!.ClearedBy);

        Assert.Equal((10.0, "bar(g)", "/vessels/0/relief/set"), (offer.Value, offer.Unit, offer.Path));
        Assert.Null(One(Clearings.Apply(plan, offer), Above));
    }

    /// <summary>2.5 bar(g): 0.9 of 2.9 and 0.75 of 3.5 are 2.6, of 2.75 and 3.2 they are less; of 2.6 it is 0.96; 2.0 is passed itself.</summary>
    [Theory]
    [InlineData(ReliefKind.Valve, 2.9, null)]
    [InlineData(ReliefKind.Valve, 2.75, Severity.Notice)]
    [InlineData(ReliefKind.Valve, 2.6, Severity.Caution)]
    [InlineData(ReliefKind.Valve, 2.0, Severity.Warning)]
    [InlineData(ReliefKind.BurstingDisc, 3.5, null)]
    [InlineData(ReliefKind.BurstingDisc, 3.2, Severity.Notice)]
    [InlineData(ReliefKind.BurstingDisc, 2.0, Severity.Warning)]
    public void Screen_WorkingNearTheSetPressure_IsNamed(ReliefKind kind, double set, Severity? expected) => Assert.Equal(expected, One(Plan(kind, set, 10), Margin)?.Severity);

    [Fact]
    public void Screen_HigherSetPressureOffered_ClearsAndStaysWithinTheRating()
    {
        var plan = Plan(ReliefKind.Valve, 2, 10);
        var offer = Assert.Single(One(plan, Margin)!.ClearedBy);

        Assert.InRange(offer.Value!.Value, 2.7, 2.9);
        Assert.Null(One(Clearings.Apply(plan, offer), Margin));
        Assert.Empty(One(Plan(ReliefKind.Valve, 2, 2.2), Margin)!.ClearedBy);
    }

    [Fact]
    public void Screen_NeverClosed_SaysNothing()
    {
        var plan = Plan(ReliefKind.Valve, 12, 10);

        Assert.Null(One(plan with { Steps = [plan.Steps[0], plan.Steps[2]] }, Above));
    }

    /// <summary>What opens above the rating is no relief device.</summary>
    [Theory]
    [InlineData(8, false)]
    [InlineData(12, true)]
    public void Screen_UnwatchedHeating_MissesAReliefDeviceThatProtectsNothing(double set, bool missing)
    {
        var plan = PressureScreenTests.Closed("ethanol", 20, 5, 120, 20, rating: 10) with { Attendance = Attendance.Overnight };
        plan = plan with { Vessels = [plan.Vessels[0] with { Relief = new Relief(ReliefKind.Valve, set * 1e5) }] };

        Assert.Equal(missing, One(plan, "safeguard.unwatched-heating")!.Statement.Contains("relief device", StringComparison.Ordinal));
    }

    private static Plan Plan(ReliefKind kind, double setBar, double? rating)
    {
        var plan = PressureScreenTests.Closed("ethanol", 20, 5, 100, 20, rating: rating);
        return plan with { Vessels = [plan.Vessels[0] with { Relief = new Relief(kind, setBar * 1e5) }] };
    }

    private static Finding? One(Plan plan, string code) => Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(finding => string.Equals(finding.Code, code, StringComparison.Ordinal));
}
