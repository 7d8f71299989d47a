using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>Own scenarios, after incidents that were published or are told in every safety course; no outside numbers.</summary>
public sealed class ScenarioTests
{
    [Fact]
    public void Screen_AzideReactionExtractedWithDichloromethane_IsDanger()
    {
        var plan = new Plan
        {
            Materials = [Of("azide", "sodium azide", G(2)), Of("bromide", "benzyl bromide", G(4)), Of("dmf", "N,N-dimethylformamide", ML(20), Role.Solvent), Of("dcm", "dichloromethane", ML(50), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "azide", "bromide", "dmf"), Step("2", StepAction.Stir, "flask", 25), Step("3", StepAction.Extract, "flask", null, "dcm")],
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "incompatibility.azide-with-chlorinated-solvent");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Equal(["3"], finding.Steps);
        Assert.Equal(["azide", "dcm"], finding.Materials);
    }

    [Fact]
    public void Screen_AcetoneInAcidicPeroxideWaste_IsDanger()
    {
        var plan = new Plan
        {
            Materials =
            [
                WeightPercent("peroxide", "hydrogen peroxide", "water", 30, ML(10)),
                Molar("acid", "hydrogen chloride", "water", 2, ML(10)),
                Of("acetone", "acetone", ML(20), Role.Solvent),
            ],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "peroxide", "acid"), Step("2", StepAction.Discard, "flask")],
            Waste = [new WasteContainer(["peroxide", "acid"], "aqueous acid"), new WasteContainer(["acetone"], "aqueous acid")],
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "incompatibility.peroxide-with-ketone-and-acid");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Null(finding.Vessel);
        Assert.Equal(["acetone", "acid", "peroxide"], finding.Materials);
    }

    [Fact]
    public void Screen_CarbonDisulfideInClosedVialOnHotplate_FindsIgnitionPressureAndImprovisedCover()
    {
        var plan = new Plan
        {
            Materials = [Of("cs2", "carbon disulfide", ML(10), Role.Solvent)],
            Vessels = [new Vessel { Id = "vial", Kind = "screw-cap sample vial", VolumeM3 = 20e-6 }],
            Steps = [Step("1", StepAction.Charge, "vial", 20, "cs2"), Step("2", StepAction.Seal, "vial"), Step("3", StepAction.Heat, "vial", 80) with { HeatSource = HeatSource.Hotplate }],
            Safeguards = [new Safeguard("watch glass over the vial", ["3"], null)],
            FireResponse = Agents(Agent.CarbonDioxide),
        };

        var report = Screener.Screen(plan, Policy.Default);

        Assert.Equal(Severity.Danger, Assert.Single(report.Findings, static finding => finding.Code is "fire.hot-surface").Severity);
        var pressure = Assert.Single(report.Findings, static finding => finding.Code is "pressure.unknown-rating");
        Assert.Equal(Severity.Danger, pressure.Severity);
        Assert.Contains(pressure.Controls, static control => control is { Control: "blast shield", Status: ControlStatus.Improvised });
        Assert.Single(report.Findings, static finding => finding is { Code: "safeguard.improvised", Severity: Severity.Warning });
        // carbon dioxide serves burning liquids
        Assert.DoesNotContain(report.Findings, static finding => finding.Code is "fire.agent-forbidden" or "fire.no-agent-fits");
    }

    [Fact]
    public void Screen_LithiumAluminiumHydrideAloneWithCarbonDioxide_FindsBathAgentLoneWorkAndGas()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "lithium aluminium hydride", G(5)), Of("thf", "tetrahydrofuran", ML(100), Role.Solvent), Of("water", "water", ML(20), Role.Quench)],
            Vessels = [Flask("flask", 500)],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 0, "thf", "hydride") with { HeatSource = HeatSource.IceBath, Headspace = Under("nitrogen") },
                Step("2", StepAction.Quench, "flask", 0, "water") with { OverS = 1200, HeatSource = HeatSource.IceBath },
            ],
            FireResponse = Agents(Agent.CarbonDioxide),
            Lone = true,
        };

        var report = Screener.Screen(plan, Policy.Default);

        Assert.True(Assert.Single(report.Findings, static finding => finding.Code is "incompatibility.water-bath").Severity <= Severity.Warning);
        Assert.Equal(Severity.Danger, Assert.Single(report.Findings, static finding => finding.Code is "fire.agent-forbidden").Severity);
        Assert.Single(report.Findings, static finding => finding is { Code: "safeguard.lone-work", Severity: Severity.Warning });
        var quench = Assert.Single(report.Findings, static finding => finding.Code is "incompatibility.aluminium-hydride-with-water");
        Assert.True(quench.Severity <= Severity.Warning);
        // 5 g at 37.955 g/mol and 4 H2 each: 0.527 mol, 12.9 L (stoichiometry)
        Assert.Equal(0.5269, Assert.Single(quench.Evidence).Value, 0.0005);
        Assert.Contains("13 L of gas", quench.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_SodiumHydrideInHotSealedDimethylformamide_IsDangerByChemistryAndPressure()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium hydride", G(2)), Of("dmf", "N,N-dimethylformamide", ML(20), Role.Solvent)],
            Vessels = [Tube(50, 10)],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "hydride", "dmf"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Heat, "tube", 80) with { HeatSource = HeatSource.OilBath }],
        };

        var report = Screener.Screen(plan, Policy.Default);

        var chemistry = Assert.Single(report.Findings, static finding => finding.Code is "incompatibility.saline-hydride-with-dipolar-amide-warm");
        Assert.Equal(Severity.Danger, chemistry.Severity);
        Assert.Equal(["3"], chemistry.Steps);
        var pressure = Assert.Single(report.Findings, static finding => finding.Hazard == Hazard.Pressure && finding.Severity == Severity.Danger);
        Assert.Contains("does not declare", pressure.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Screen_EthanolInRatedTubeWithShieldAndCutOut_HasNoDanger()
    {
        var plan = new Plan
        {
            Materials = [Of("ethanol", "ethanol", ML(5), Role.Solvent)],
            Vessels = [Tube(20, 10)],
            Steps =
            [
                Step("1", StepAction.Charge, "tube", 25, "ethanol"),
                Step("2", StepAction.Seal, "tube"),
                Step("3", StepAction.Heat, "tube", 100) with { HeatSource = HeatSource.MetalBlock, IndependentCutOut = true },
            ],
            Safeguards = [new Safeguard("blast shield", ["3"], null)],
            FireResponse = Agents(Agent.CarbonDioxide),
        };

        var report = Screener.Screen(plan, Policy.Default);

        Assert.DoesNotContain(report.Findings, static finding => finding.Severity is Severity.Danger or Severity.Warning);
    }

    [Fact]
    public void Screen_SubstanceNobodyKnows_GoesToReview()
    {
        var plan = new Plan
        {
            Materials = [Of("x", "compound 7 from the drawer", G(1)), Of("water", "water", ML(10), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "x", "water")],
        };

        var report = Screener.Screen(plan, Policy.Default);

        Assert.Equal(Verdict.Review, report.Verdict);
        Assert.True(Assert.Single(report.Findings, static finding => finding.Code is "data.unknown-substance").LeavesCheckUndone);
    }
}
