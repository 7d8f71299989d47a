using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Energy;

/// <summary>
/// Nitroglycerin, made and never isolated. Limits of mass as for what is isolated (university rules), 300 and 500 J/g of the UN Manual of Tests and Criteria; that water and acid do not dilute an oil: common practice, no source.
/// By hand: 227.09 g/mol and three nitrate esters at 400 to 480 kJ/mol (Grewer 1994, from memory) are 5.3 to 6.3 kJ/g.
/// </summary>
public sealed class ExplosiveLiquidTests
{
    private const string Code = "energetic.made-undiluted";

    /// <summary>5 mmol are 1.14 g. Dichloromethane, 1.33 g/mL: 5 mL 6.6 g, 0.9 kJ/g; 50 mL 66 g, 0.1 kJ/g. 1 mmol is 0.23 g, 0.3 mmol 0.07 g.</summary>
    [Theory]
    [InlineData(5, 0, Severity.Danger)]
    [InlineData(5, 5, Severity.Warning)]
    [InlineData(5, 50, null)]
    [InlineData(1, 0, Severity.Warning)]
    [InlineData(0.3, 0, null)]
    public void Screen_NitroglycerinInTheMixtureThatMadeIt_IsJudgedByMassAndSolvent(double mmol, double solventML, Severity? severity) =>
        Assert.Equal(severity, Found(Plan(mmol, solventML))?.Severity);

    /// <summary>Shut in, one step more: 5 mL of solvent do not keep it from being a danger.</summary>
    [Fact]
    public void Screen_InAClosedVessel_IsOneStepGraver()
    {
        var plan = Plan(5, 5);
        plan = plan with { Vessels = [Tube(100, 10, "flask")], Steps = [plan.Steps[0], Step("1b", StepAction.Seal, "flask"), plan.Steps[1]] };

        Assert.Equal(Severity.Danger, Found(plan)?.Severity);
    }

    /// <summary>1.14 g in water alone is undiluted: it does not dissolve there.</summary>
    [Fact]
    public void Screen_WaterBesideIt_DoesNotDiluteIt()
    {
        var plan = Plan(5, 0);
        plan = plan with { Materials = [.. plan.Materials, Of("water", "water", ML(200))], Steps = [plan.Steps[0], Step("2", StepAction.Add, "flask", 5, "glycerol", "water")] };

        Assert.Equal(Severity.Danger, Found(plan)?.Severity);
    }

    /// <summary>An amount that is not known is a warning and leaves the check undone.</summary>
    [Fact]
    public void Screen_AmountNotKnown_GoesToReview()
    {
        var plan = Plan(5, 0);
        var finding = Found(plan with { Materials = [Of("acid", "sulfuric acid", ML(10)), Of("nitric", "nitric acid", null), Of("glycerol", "glycerol", null)] });

        Assert.NotNull(finding);
        Assert.True(finding.LeavesCheckUndone);
    }

    /// <summary>10 mmol of benzyl azide (1.33 g, (C + O)/N 2.33) in 20 mL of dimethylformamide (19 g) hold 150 J/g: an everyday preparation.</summary>
    [Fact]
    public void Screen_AzideInPlentyOfSolvent_IsQuiet()
    {
        var plan = new Plan
        {
            Materials = [Of("bromide", "benzyl bromide", Mmol(10)), Of("azide", "sodium azide", Mmol(12)), Of("dmf", "N,N-dimethylformamide", ML(20), Role.Solvent)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "bromide", "dmf"), Step("2", StepAction.Add, "flask", 20, "azide")],
            Reactions = [new Reaction { Step = "2", Consumes = [new Consumption("bromide", 1), new Consumption("azide", 1)], Produces = [new Production(new PlanSubstance("benzyl azide", "benzyl azide", null, "[N-]=[N+]=NCc1ccccc1"), 1, Phase.Liquid)] }],
        };

        Assert.Null(Found(plan));
    }

    private static Finding? Found(Plan plan) => Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is Code);

    private static Plan Plan(double mmol, double solventML) => new()
    {
        Materials =
        [
            Of("acid", "sulfuric acid", ML(10)), Of("nitric", "nitric acid", Mmol(4 * mmol)), Of("glycerol", "glycerol", Mmol(mmol)),
            .. solventML > 0 ? [Of("dcm", "dichloromethane", ML(solventML), Role.Solvent)] : Array.Empty<Material>(),
        ],
        Vessels = [Flask()],
        Steps = [Step("1", StepAction.Charge, "flask", 5, solventML > 0 ? ["acid", "nitric", "dcm"] : ["acid", "nitric"]), Step("2", StepAction.Add, "flask", 5, "glycerol")],
        Reactions =
        [
            new Reaction { Step = "2", Consumes = [new Consumption("glycerol", 1), new Consumption("nitric", 3)], Produces = [new Production(Substance("nitroglycerin"), 1, Phase.Liquid)] },
        ],
    };
}
