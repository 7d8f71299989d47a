using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Plans;

/// <summary>Plans that cannot be meant as they stand: a finding, never an exception or silence.</summary>
public sealed class BadPlanTests
{
    public static TheoryData<WalkIssueKind, string> BadInput => new()
    {
        { WalkIssueKind.HeatedEmpty, "heat empty" },
        { WalkIssueKind.AlreadyOpen, "open open" },
        { WalkIssueKind.AlreadySealed, "seal twice" },
        { WalkIssueKind.MoreThanAvailable, "take more" },
        { WalkIssueKind.Frozen, "freeze" },
        { WalkIssueKind.NothingToConcentrate, "concentrate empty" },
        { WalkIssueKind.NothingToConcentrate, "concentrate salt" },
        { WalkIssueKind.NothingToMove, "discard empty" },
        { WalkIssueKind.TargetNotStated, "transfer nowhere" },
        { WalkIssueKind.TargetNotStated, "transfer into itself" },
        { WalkIssueKind.AddedWhileClosed, "add to closed" },
        { WalkIssueKind.AlreadyEvacuated, "evacuate twice" },
        { WalkIssueKind.ReactionPartnerAbsent, "react what is gone" },
        { WalkIssueKind.HeatedEmpty, "hold empty" },
        { WalkIssueKind.HeatedEmpty, "stir empty" },
        { WalkIssueKind.HeatedEmpty, "irradiate empty" },
        { WalkIssueKind.DriedEmpty, "dry empty" },
        { WalkIssueKind.VentedTwice, "vent twice" },
        { WalkIssueKind.VentedTwice, "another vent" },
        { WalkIssueKind.AlreadySealed, "vent a closed one" },
        { WalkIssueKind.PressureNotRaised, "pressurise to less" },
        { WalkIssueKind.CooledToHotter, "cool to hotter" },
        { WalkIssueKind.CooledToHotter, "cool to warmer" },
        { WalkIssueKind.MoreThanAvailable, "transfer a part" },
    };

    [Theory]
    [MemberData(nameof(BadInput))]
    public void Screen_BadInput_IsAFindingAndNeverThrows(WalkIssueKind kind, string name)
    {
        var plan = Bad(name);

        var issue = Assert.Single(Walk.Follow(plan, Policy.Default).Issues, issue => issue.Kind == kind);
        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, finding => finding.Code.StartsWith("data.", StringComparison.Ordinal) && finding.Statement.Contains(issue.Detail, StringComparison.Ordinal));
    }

    /// <summary>0.2 bar absolute cannot be reached by letting gas into a flask at 1.01325 bar: it counts as 0.2 bar(g). 1 bar is what people call the atmosphere; what was pumped out may be filled to 0.2 bar.</summary>
    [Theory]
    [InlineData(0.2, false, 1.21325)]
    [InlineData(1, false, 1.01325)]
    [InlineData(3, false, 3)]
    [InlineData(0.2, true, 0.2)]
    public void Follow_PressurisedToLessThanIsThere_CountsAboveTheAtmosphere(double bar, bool evacuated, double countedBar)
    {
        var charge = Step("1", StepAction.Charge, "flask", 20, "water");
        var plan = Flow([Of("water", "water", ML(10))], evacuated ? [charge, Step("1a", StepAction.Seal, "flask"), Step("1b", StepAction.Evacuate, "flask"), Pressurised(bar)] : [charge, Pressurised(bar)]);

        Assert.Equal(countedBar * 1e5, Walk.Follow(plan, Policy.Default).States[^1].Closing!.PressurePaAbs, 1e-6);
    }

    /// <summary>Cooled down, dried hot, closed once or warmed to the room: nothing odd (common practice, no source).</summary>
    [Theory]
    [InlineData(StepAction.Cool, 25)]
    [InlineData(StepAction.Cool, -78)]
    [InlineData(StepAction.Stir, 80)]
    public void Follow_UsualTemperatures_AreNoIssue(StepAction action, double celsius)
    {
        var plan = Flow([Of("ethanol", "ethanol", ML(10))], Step("1", StepAction.Charge, "flask", 20, "ethanol"), Balloon("1a"), Step("2", action, "flask", celsius));

        Assert.Empty(Walk.Follow(plan, Policy.Default).Issues);
    }

    /// <summary>A transfer that names a part of what was charged says how it is read.</summary>
    [Fact]
    public void Screen_TransferOfAPart_SaysThatEverythingMoves()
    {
        var finding = Assert.Single(Screener.Screen(Bad("transfer a part"), Policy.Default).Findings, static finding => finding.Code is "data.more-than-available");

        Assert.Contains("moves all of them", finding.Statement, StringComparison.Ordinal);
    }

    private static Plan Bad(string name)
    {
        Material[] materials = [Of("water", "water", ML(10)), Of("salt", "sodium chloride", G(1)), Of("azide", "benzyl azide", Mmol(5))];
        var charge = Step("1", StepAction.Charge, "flask", 20, "water");
        return name switch
        {
            "heat empty" => Flow(materials, Step("1", StepAction.Heat, "flask", 80)),
            "open open" => Flow(materials, charge, Step("2", StepAction.Open, "flask")),
            "seal twice" => Flow(materials, charge, Step("2", StepAction.Seal, "flask"), Step("3", StepAction.Seal, "flask")),
            "take more" => Flow(materials, charge with { Materials = [new MaterialUse("water", ML(50))] }),
            "freeze" => Flow(materials, charge, Step("2", StepAction.Cool, "flask", -30)),
            "concentrate empty" => Flow(materials, Step("1", StepAction.Concentrate, "flask", 40)),
            "concentrate salt" => Flow(materials, Step("1", StepAction.Charge, "flask", 20, "salt"), Step("2", StepAction.Concentrate, "flask", 40)),
            "discard empty" => Flow(materials, Step("1", StepAction.Discard, "flask")),
            "transfer nowhere" => Flow(materials, charge, Step("2", StepAction.Transfer, "flask")),
            "transfer into itself" => Flow(materials, charge, Step("2", StepAction.Transfer, "flask") with { ToVessel = "flask" }),
            "add to closed" => Flow(materials, charge, Step("2", StepAction.Seal, "flask"), Step("3", StepAction.Add, "flask", null, "salt")),
            "evacuate twice" => Flow(materials, charge, Step("2", StepAction.Seal, "flask"), Step("3", StepAction.Evacuate, "flask"), Step("4", StepAction.Evacuate, "flask")),
            "hold empty" => Flow(materials, Step("1", StepAction.Hold, "flask", 80)),
            "stir empty" => Flow(materials, Step("1", StepAction.Stir, "flask", 120)),
            "irradiate empty" => Flow(materials, Step("1", StepAction.Irradiate, "flask") with { HeatSource = HeatSource.Microwave }),
            "dry empty" => Flow(materials, Step("1", StepAction.Dry, "flask") with { HeatSource = HeatSource.HeatGun }),
            "vent twice" => Flow(materials, charge, Balloon("2"), Balloon("3")),
            "another vent" => Flow(materials, charge, Balloon("2"), Balloon("3") with { Closure = Closure.Needle }),
            "vent a closed one" => Flow(materials, charge, Step("2", StepAction.Seal, "flask"), Balloon("3")),
            "pressurise to less" => Flow(materials, charge, Pressurised(0.2)),
            "cool to hotter" => Flow(materials, charge, Step("2", StepAction.Cool, "flask", 60)),
            "cool to warmer" => Flow(materials, charge with { TemperatureK = 195 }, Step("2", StepAction.Cool, "flask", 0)),
            "transfer a part" => Flow(materials, charge, Step("2", StepAction.Transfer, "flask") with { ToVessel = "other", Materials = [new MaterialUse("water", ML(5))] }),
            "react what is gone" => Flow(materials, charge) with { Reactions = [Reaction("1", ["water", "azide"])] },
            _ => throw new ArgumentOutOfRangeException(nameof(name), name, "no such plan"),
        };
    }

    private static Step Balloon(string id) => Step(id, StepAction.Seal, "flask") with { Closure = Closure.Balloon };

    private static Step Pressurised(double bar) => Step("2", StepAction.Pressurise, "flask") with { Gas = Substance("hydrogen"), PressurePaAbs = bar * 1e5 };

    private static Plan Flow(Material[] materials, params Step[] steps) => new() { Materials = materials, Vessels = [Flask("flask", 100), Flask("other", 100)], Steps = steps };
}
