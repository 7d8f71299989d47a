using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Exposure;

/// <summary>Toxic gas of a declared reaction against NIOSH's immediately dangerous concentrations (hydrogen chloride 50 ppm, NIOSH 1994).</summary>
public sealed class ReleasedGasTests
{
    /// <summary>5 mmol are 0.005 · 24.465 L = 0.1223 L: 122 ppm in 1 m³, by hand.</summary>
    [Fact]
    public void Screen_HydrogenChloridePast50PpmOnABench_IsAWarning()
    {
        var finding = Assert.Single(Found(5, PlaceKind.Bench));

        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Equal(122.3, finding.Evidence[0].Value, 0.1);
        Assert.Equal(50, finding.Evidence[0].Limit!.Value, 1e-9);
    }

    /// <summary>2 mmol are 49 ppm in 1 m³.</summary>
    [Fact]
    public void Screen_HydrogenChlorideBelow50Ppm_IsNothing() => Assert.Empty(Found(2, PlaceKind.Bench));

    /// <summary>A hood is judged by its air flow, in the gas screen.</summary>
    [Fact]
    public void Screen_HydrogenChlorideInAHood_IsNotThisScreensMatter() => Assert.Empty(Found(5, PlaceKind.Hood));

    private static IEnumerable<Finding> Found(double mmol, PlaceKind place)
    {
        var plan = new Plan
        {
            Materials = [Of("acid", "benzoic acid", Mmol(mmol)), Of("toluene", "toluene", ML(20), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "toluene"), Step("2", StepAction.Add, "flask", 20, "acid")],
            Reactions = [Reaction("2", ["acid"], ("hydrogen chloride", Phase.Gas))],
            Place = new Place(null, place, null, null),
        };
        return Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "toxicity.gas-released");
    }
}
