using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Handling;

/// <summary>Plans that only charge a flask under nitrogen, and the one finding of a kind that a plan has.</summary>
internal static class Charges
{
    public static Plan Charged(params Material[] materials) => new()
    {
        Materials = materials,
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 20, [.. materials.Select(static material => material.Id)]) with { Headspace = Under("nitrogen") }],
    };

    /// <summary>One material, drawn in two steps; null: the rest.</summary>
    public static Plan Drawn(Material material, Amount? first, Amount? second) => new()
    {
        Materials = [material],
        Vessels = [Flask()],
        Steps =
        [
            Step("1", StepAction.Charge, "flask", 20) with { Headspace = Under("nitrogen"), Materials = [new MaterialUse(material.Id, first)] },
            Step("2", StepAction.Add, "flask", 20) with { Materials = [new MaterialUse(material.Id, second)] },
        ],
    };

    public static Finding Only(Plan plan, string code) => Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal));
}
