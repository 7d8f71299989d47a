using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Plans;

/// <summary>Gas that was led in goes when the vessel is purged for five minutes or evacuated (common practice, no source); what can condense stays in the liquid.</summary>
public sealed class PurgeTests
{
    [Theory]
    [InlineData("hydrogen", StepAction.Purge, 600.0, false)]
    [InlineData("hydrogen", StepAction.Purge, 300.0, false)]
    [InlineData("hydrogen", StepAction.Purge, 60.0, true)]
    [InlineData("hydrogen", StepAction.Purge, null, true)]
    [InlineData("hydrogen", StepAction.Evacuate, null, false)]
    [InlineData("carbon monoxide", StepAction.Purge, 600.0, false)]
    [InlineData("ammonia", StepAction.Purge, 600.0, true)]
    [InlineData("chlorine", StepAction.Purge, 600.0, true)]
    [InlineData("acetylene", StepAction.Purge, 600.0, true)]
    public void Follow_GasLedInThenPurged_IsGoneWhereItCannotCondense(string gas, StepAction action, double? seconds, bool stays)
    {
        var last = Walk.Follow(Purged(gas, action, seconds), Policy.Default).States[^1];

        Assert.Equal(stays, last.ContentsAfter.Any(content => string.Equals(content.MaterialId, "gas", StringComparison.Ordinal)));
        Assert.Contains(last.ContentsAfter, static content => content.MaterialId is "solvent");
    }

    /// <summary>After the purge the filtrate holds no hydrogen that would meet air.</summary>
    [Theory]
    [InlineData(600, false)]
    [InlineData(60, true)]
    public void Screen_HydrogenationPurgedAndFiltered_LeadsNoHydrogenIntoTheFiltrate(double seconds, bool said)
    {
        var plan = Purged("hydrogen", StepAction.Purge, seconds);
        plan = plan with { Vessels = [.. plan.Vessels, Flask("filtrate")], Steps = [.. plan.Steps, Step("4", StepAction.Filter, "flask") with { ToVessel = "filtrate" }] };

        Assert.Equal(said, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "fire.gas-over-air" && finding.Vessel is "filtrate"));
    }

    private static Plan Purged(string gas, StepAction action, double? seconds) => new()
    {
        Materials = [Of("solvent", "methanol", ML(50), Role.Solvent), Of("gas", gas, Mmol(20), Role.Gas)],
        Vessels = [Flask()],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 20, "solvent") with { Headspace = Under("nitrogen") },
            Step("2", StepAction.Add, "flask", 20, "gas") with { Headspace = Under(gas) },
            Step("3", action, "flask") with { Headspace = action == StepAction.Purge ? Under("nitrogen") : null, DurationS = seconds },
        ],
    };
}
