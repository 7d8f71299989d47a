using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>What findings offer to clear them.</summary>
internal static class Offers
{
    /// <summary>Every change that a finding of the plan offers takes that finding away where it was.</summary>
    public static void AssertEachClears(Plan plan)
    {
        foreach (var finding in Screener.Screen(plan, Policy.Default).Findings)
        {
            foreach (var offer in finding.ClearedBy)
            {
                var after = Screener.Screen(Clearings.Apply(plan, offer), Policy.Default).Findings;
                Assert.DoesNotContain(after, other => string.Equals(other.Code, finding.Code, StringComparison.Ordinal)
                    && string.Equals(other.Vessel, finding.Vessel, StringComparison.Ordinal)
                    && other.Steps.Any(step => finding.Steps.Contains(step, StringComparer.Ordinal)));
            }
        }
    }
}
