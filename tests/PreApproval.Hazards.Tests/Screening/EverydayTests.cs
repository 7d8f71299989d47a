using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Screening;

/// <summary>Everyday procedures after common textbook types (own wording) that must clear: who cries wolf is not heard.</summary>
public sealed class EverydayTests
{
    public static TheoryData<string> Names => [.. Plans.Keys];

    public static TheoryData<string> Everything => [.. Whole.Keys];

    private static Dictionary<string, Plan> Whole => new(Plans.Concat(EverydayPlans.All).Concat(EverydayPlansMore.All), StringComparer.Ordinal);

    private static Dictionary<string, Plan> Plans { get; } = new(StringComparer.Ordinal)
    {
        ["aqueous work-up"] = new Plan
        {
            Materials =
            [
                Of("product", "benzophenone", G(2), Role.Reagent), Of("ea", "ethyl acetate", ML(50), Role.Solvent), Molar("acid", "hydrogen chloride", "water", 1, ML(20)),
                WeightPercent("bicarbonate", "sodium bicarbonate", "water", 8, ML(20)), Of("drying", "sodium sulfate", G(3), Role.Other),
            ],
            Vessels = [Flask("funnel", 250) with { Kind = "separating funnel" }],
            Steps =
            [
                Step("1", StepAction.Charge, "funnel", 20, "product", "ea"), Step("2", StepAction.Wash, "funnel", null, "acid"), Step("3", StepAction.Wash, "funnel", null, "bicarbonate"),
                Step("4", StepAction.Dry, "funnel", null, "drying"), Step("5", StepAction.Concentrate, "funnel", 40) with { HeatSource = HeatSource.WaterBath },
            ],
            FireResponse = Agents(Agent.CarbonDioxide),
        },
        ["ether extraction"] = new Plan
        {
            Materials = [Of("acid", "benzoic acid", G(1)), Of("water", "water", ML(50), Role.Solvent), Of("ether", "diethyl ether", ML(60), Role.Solvent), Of("drying", "magnesium sulfate", G(2), Role.Other)],
            Vessels = [Flask("funnel", 250) with { Kind = "separating funnel" }],
            Steps = [Step("1", StepAction.Charge, "funnel", 20, "acid", "water"), Step("2", StepAction.Extract, "funnel", null, "ether"), Step("3", StepAction.Dry, "funnel", null, "drying"), Step("4", StepAction.Filter, "funnel")],
            FireResponse = Agents(Agent.CarbonDioxide, Agent.DryPowder),
        },
        ["Suzuki coupling"] = new Plan
        {
            Materials =
            [
                Of("bromide", "bromobenzene", Mmol(5)), Of("carbonate", "potassium carbonate", Mmol(15)), Of("toluene", "toluene", ML(15), Role.Solvent), Of("ethanol", "ethanol", ML(5), Role.Solvent), Of("water", "water", ML(5), Role.Solvent),
                Of("phosphine", "triphenylphosphine", Mmol(0.5), Role.Catalyst),
            ],
            Vessels = [Flask("flask", 100)],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 20, "bromide", "carbonate", "toluene", "ethanol", "water", "phosphine") with { Headspace = Under("nitrogen") },
                Step("2", StepAction.Reflux, "flask", 85) with { HeatSource = HeatSource.OilBath, DurationS = 14_400, SurfaceTemperatureK = 373.15 },
                Step("3", StepAction.Cool, "flask", 20),
            ],
            FireResponse = Agents(Agent.CarbonDioxide),
        },
        ["amide coupling"] = new Plan
        {
            Materials =
            [
                Of("acid", "benzoic acid", Mmol(5)), Of("amine", "morpholine", Mmol(5.5)), Of("base", "N,N-diisopropylethylamine", Mmol(15)), Of("dcc", "dicyclohexylcarbodiimide", Mmol(5.5)),
                Of("dmf", "N,N-dimethylformamide", ML(20), Role.Solvent), Of("water", "water", ML(50), Role.Quench), Of("ea", "ethyl acetate", ML(50), Role.Solvent),
            ],
            Vessels = [Flask("flask", 250)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "acid", "amine", "base", "dcc", "dmf"), Step("2", StepAction.Stir, "flask", 25), Step("3", StepAction.Quench, "flask", null, "water"), Step("4", StepAction.Extract, "flask", null, "ea")],
            FireResponse = Agents(Agent.CarbonDioxide),
        },
        ["borohydride reduction"] = new Plan
        {
            Materials = [Of("ketone", "acetophenone", Mmol(10)), Of("hydride", "sodium borohydride", Mmol(6)), Of("methanol", "methanol", ML(30), Role.Solvent), Of("water", "water", ML(20), Role.Quench)],
            Vessels = [Flask("flask", 250)],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 0, "ketone", "methanol") with { HeatSource = HeatSource.IceBath },
                Step("2", StepAction.Add, "flask", 0, "hydride") with { OverS = 900, HeatSource = HeatSource.IceBath },
                Step("3", StepAction.Quench, "flask", 0, "water") with { OverS = 600, HeatSource = HeatSource.IceBath },
            ],
            Reactions = [Reaction("2", ["ketone", "hydride"])],
            FireResponse = Agents(Agent.CarbonDioxide),
        },
        ["recrystallisation from ethanol"] = new Plan
        {
            Materials = [Of("solid", "benzoic acid", G(5)), Of("ethanol", "ethanol", ML(60), Role.Solvent)],
            Vessels = [Flask("flask", 250)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "solid", "ethanol"), Step("2", StepAction.Reflux, "flask") with { HeatSource = HeatSource.OilBath }, Step("3", StepAction.Cool, "flask", 5), Step("4", StepAction.Filter, "flask")],
            FireResponse = Agents(Agent.CarbonDioxide),
        },
        ["Grignard addition"] = new Plan
        {
            Materials = [Molar("grignard", "phenylmagnesium bromide", "tetrahydrofuran", 1, ML(10)), Of("aldehyde", "benzaldehyde", Mmol(8)), Of("thf", "tetrahydrofuran", ML(20), Role.Solvent), WeightPercent("nh4cl", "ammonium chloride", "water", 20, ML(20), Role.Quench)],
            Vessels = [Flask("flask", 250)],
            Steps =
            [
                Step("1", StepAction.Charge, "flask", 0, "aldehyde", "thf") with { Headspace = Under("nitrogen"), HeatSource = HeatSource.IceBath },
                Step("2", StepAction.Add, "flask", 0, "grignard") with { OverS = 1200, HeatSource = HeatSource.IceBath },
                Step("3", StepAction.Quench, "flask", 0, "nh4cl") with { OverS = 900, HeatSource = HeatSource.IceBath },
            ],
            Reactions = [Reaction("2", ["aldehyde", "grignard"])],
            FireResponse = Agents(Agent.DrySand, Agent.ClassDPowder),
        },
    };

    [Theory]
    [MemberData(nameof(Names))]
    public void Screen_EverydayProcedure_IsClear(string name)
    {
        var report = Screener.Screen(Plans[name], Policy.Default);

        Assert.Empty(report.Findings.Where(static finding => finding.Severity <= Severity.Warning || finding.LeavesCheckUndone).Select(static finding => finding.Id + ": " + finding.Statement));
        Assert.Equal(Verdict.Clear, report.Verdict);
    }

    [Theory]
    [MemberData(nameof(Everything))]
    public void Screen_EverydayProcedure_HasNoDanger(string name) =>
        Assert.Empty(Screener.Screen(Whole[name], Policy.Default).Findings.Where(static finding => finding.Severity == Severity.Danger).Select(static finding => finding.Id + ": " + finding.Statement));

    /// <summary>The aim: of the everyday procedures at most 15 % go to review.</summary>
    [Fact]
    public void Screen_EverydaySet_SendsAtMostFifteenPercentToReview()
    {
        Assert.True(Whole.Count >= 30);
        var review = Whole.Where(static pair => Screener.Screen(pair.Value, Policy.Default).Verdict == Verdict.Review)
            .Select(static pair => pair.Key + ": " + string.Join("; ", Screener.Screen(pair.Value, Policy.Default).Findings.Where(static finding => finding.Severity <= Severity.Warning || finding.LeavesCheckUndone).Select(static finding => finding.Statement)))
            .ToArray();

        Assert.True(review.Length <= 0.15 * Whole.Count, string.Join(Environment.NewLine, review));
    }
}
