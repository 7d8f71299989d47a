using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Plans;

public sealed class LiquefiedGasTests
{
    /// <summary>Saturated liquid: nitrogen 806.1 kg/m³ at 77.36 K, ammonia 682 kg/m³ at 239.8 K and about 725 at 195 K (NIST Chemistry WebBook, from memory).</summary>
    [Theory]
    [InlineData("nitrogen", -196, 0.576, 0.02)]
    [InlineData("ammonia", -34, 0.801, 0.03)]
    [InlineData("ammonia", -78, 0.851, 0.03)]
    public void Take_VolumeBelowTheBoilingPoint_IsLiquid(string gas, double celsius, double mol, double tolerance)
    {
        var state = Walk.Follow(Sealed(gas, celsius), Policy.Default).States[0];

        Assert.InRange(state.Contents[0].Mol!.Value, mol * (1 - tolerance), mol * (1 + tolerance));
    }

    /// <summary>0.576 mol of nitrogen in 100 mL at 20 °C: 140 bar by the ideal gas law, whatever closed it.</summary>
    [Fact]
    public void Screen_LiquidNitrogenShutIn_IsDanger()
    {
        var finding = Screener.Screen(Sealed("nitrogen", -196), Policy.Default).Findings.First(static finding => finding.Code is "pressure.exceeds-rating");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.InRange(finding.Evidence.First(static evidence => evidence.Name is "worst-case pressure").Value, 130, 160);
    }

    /// <summary>Ammonia has 8.57 bar at 20 °C (NIST Chemistry WebBook, from memory): over the 5 bar(g) of the tube.</summary>
    [Fact]
    public void Screen_CondensedAmmoniaShutIn_IsDanger()
    {
        var plan = Sealed("ammonia", -78) with { Vessels = [Tube(50, 5)] };

        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding is { Code: "pressure.exceeds-rating", Severity: Severity.Danger });
    }

    [Fact]
    public void Screen_TemperatureNotStated_IsMissingAndGoesToReview()
    {
        var plan = Sealed("ammonia", null);
        plan = plan with { Steps = plan.Steps.Take(2).ToArray() };
        var report = Screener.Screen(plan, Policy.Default);

        Assert.Null(Walk.Follow(plan, Policy.Default).States[0].Contents[0].Mol);
        Assert.Contains(report.Findings, static finding => finding.Code is "data.amount-unknown" && finding.Statement.Contains("liquid or gas", StringComparison.Ordinal));
        Assert.Equal(Verdict.Review, report.Verdict);
    }

    /// <summary>
    /// 20 g of dry ice in 10.2 L over 100 mL of water at 20 °C: 0.4544 mol give 1.10 bar in 10.1 L (ideal gas law) less what dissolves, beside 1.0 bar of the air that it has not driven
    /// out: 2.1 bar by hand.
    /// </summary>
    [Fact]
    public void Of_DryIceClosedAtOnce_KeepsTheAir()
    {
        var plan = new Plan
        {
            Materials = [Of("ice", "carbon dioxide", G(20)), Of("water", "water", ML(100), Role.Solvent)],
            Vessels = [Tube(10_200, 5, "bottle")],
            Steps = [Step("1", StepAction.Charge, "bottle", 0, "water", "ice"), Step("2", StepAction.Seal, "bottle"), Step("3", StepAction.Hold, "bottle", 20)],
        };

        var result = ClosedResult.Of(Walk.Follow(plan, Policy.Default).States[2], Policy.Default)!;

        Assert.Equal(1.1e5, result.ExpectedPaGauge!.Value, 0.08e5);
    }

    /// <summary>Argon boils at 87.3 K (NIST Chemistry WebBook, from memory): what has condensed of it before the closing no model counts, and no set temperature or rating answers it.</summary>
    [Fact]
    public void Screen_ArgonCondensedBeforeClosing_OffersNoRatingAndNoTemperature()
    {
        var plan = new Plan
        {
            Materials = [Of("toluene", "toluene", ML(10), Role.Solvent)],
            Vessels = [Tube(50, null)],
            Steps = [Step("1", StepAction.Charge, "tube", 20, "toluene") with { Headspace = Under("argon") }, Step("2", StepAction.Cool, "tube", -196), Step("3", StepAction.Seal, "tube")],
        };

        var findings = Screener.Screen(plan, Policy.Default).Findings;

        Assert.Contains(findings, static finding => finding is { Code: "pressure.condensed-gas-shut-in", Severity: Severity.Danger });
        var rated = Assert.Single(findings, static finding => finding.Code is "pressure.unknown-rating");
        Assert.DoesNotContain(rated.Evidence, static evidence => evidence.Name is "highest permissible set temperature");
        Assert.Contains("at least", rated.Statement, StringComparison.Ordinal);
    }

    /// <summary>10 mmol of borohydride make 40 mmol of hydrogen, in the 90 mL that 10 mL of ethanol leave at 20 °C: 0.040·8.314·293/90e-6 = 10.8 bar (ideal gas law).</summary>
    [Fact]
    public void Screen_OpenedOverUndeclaredGas_CountsIt()
    {
        var plan = new Plan
        {
            Materials = [Of("hydride", "sodium borohydride", Mmol(10)), Of("ethanol", "ethanol", ML(10), Role.Solvent)],
            Vessels = [Flask(mL: 100)],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "hydride", "ethanol"), Step("2", StepAction.Seal, "flask"), Step("3", StepAction.Stir, "flask", 20), Step("4", StepAction.Open, "flask")],
        };

        var opened = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.opened-under-pressure");

        Assert.InRange(opened.Evidence[0].Value, 10.3, 11.3);
    }

    /// <summary>24.05 L/mol at 20 °C and 1 atm (ideal gas law).</summary>
    [Fact]
    public void Take_RoleGas_IsGasAtRoomTemperature()
    {
        var plan = new Plan
        {
            Materials = [Of("gas", "hydrogen", ML(1000), Role.Gas)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", null, "gas")],
        };

        Assert.Equal(1 / 24.05, Walk.Follow(plan, Policy.Default).States[0].Contents[0].Mol!.Value, 1e-4);
    }

    /// <summary>
    /// 20 L of argon led into a trap of 250 mL in liquid nitrogen are a gas: 20/24.05 = 0.832 mol (ideal gas at 20 °C and 1 atm). 8 mL of ammonia at −78 °C are a liquid whatever its role,
    /// the cautious reading: about 720 kg/m³ there (saturation tables, 0.71 to 0.73), 0.338 mol.
    /// </summary>
    [Theory]
    [InlineData("argon", 20_000, -196, 0.832, 0.001)]
    [InlineData("ammonia", 8, -78, 0.338, 0.01)]
    public void Take_RoleGasBelowItsBoilingPoint_IsALiquidOnlyWhereTheVesselHoldsIt(string gas, double mL, double celsius, double mol, double tolerance)
    {
        var plan = new Plan
        {
            Materials = [Of("gas", gas, ML(mL), Role.Gas)],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Add, "flask", celsius, "gas")],
        };

        Assert.Equal(mol, Walk.Follow(plan, Policy.Default).States[0].Contents[0].Mol!.Value, tolerance);
    }

    [Theory]
    [InlineData(200, false)]
    [InlineData(20_000, true)]
    public void Screen_LiquefiedGasThatTheVesselCannotHold_IsNamed(double mL, bool expected)
    {
        var plan = new Plan
        {
            Materials = [Of("nitrogen", "nitrogen", ML(mL))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", -196, "nitrogen")],
        };

        Assert.Equal(expected, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "vessel.overfilled"));
    }

    [Fact]
    public void Screen_WarmGasThatIsNoRoleGas_IsTakenAsGasAndSaysSo()
    {
        var plan = new Plan
        {
            Materials = [Of("co", "carbon monoxide", ML(50))],
            Vessels = [Flask()],
            Steps = [Step("1", StepAction.Charge, "flask", 20, "co")],
        };

        Assert.Contains(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "data.taken-as-gas");
    }

    /// <summary>An amount the model leaves out: no rating and no volume can be said to be enough.</summary>
    [Fact]
    public void Screen_PressureLeavesSomethingOut_OffersNoRatingOrVolume()
    {
        var plan = new Plan
        {
            Materials = [Of("solvent", "ethanol", ML(5), Role.Solvent), Of("x", "compound nobody knows", Mmol(10))],
            Vessels = [Tube(20, 1)],
            Steps =
            [
                Step("1", StepAction.Charge, "tube", 20, "solvent", "x"),
                Step("2", StepAction.Seal, "tube"),
                Step("3", StepAction.Heat, "tube", 120) with { HeatSource = HeatSource.OilBath },
            ],
        };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.exceeds-rating");

        Assert.DoesNotContain(finding.ClearedBy, static offer => offer.Change is "rating" or "vessel volume");
        Assert.Contains("reaches at least", finding.Statement, StringComparison.Ordinal);
        Assert.All(finding.Evidence.Where(static evidence => evidence.Name is "worst-case pressure" or "share of the rating" or "rating needed"), static evidence => Assert.Contains("at least, without", evidence.Model, StringComparison.Ordinal));
    }

    /// <summary>
    /// Methanol alone has 13.9 bar at 150 °C (Wagner equation with the constants of McGarry 1983, from memory, worked by hand: 80.9 bar, 512.6 K, −8.548,
    /// 0.770, −3.109, 1.545), and the air shut in at 20 °C adds its own 1.5 bar: over the 10 bar(g) of the tube whatever the ammonia adds. The other liquid
    /// has no published parameters with ammonia; five millilitres of it lower methanol's share to 0.75, which leaves 10.4 bar of the 13.9 and the air.
    /// </summary>
    [Theory]
    [InlineData("dimethyl sulfoxide")]
    [InlineData("dimethylformamide")]
    public void Screen_AmmoniaInMethanolBesideALiquidWithoutParameters_JudgesTheMethanol(string other)
    {
        var findings = Screener.Screen(AmmoniaInMethanol(other, 135, otherML: 5), Policy.Default).Findings;
        var finding = Assert.Single(findings, static finding => finding.Code is "pressure.exceeds-rating");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Contains("at least", finding.Statement, StringComparison.Ordinal);
        var pressure = finding.Evidence.First(static evidence => evidence.Name is "worst-case pressure");
        Assert.InRange(pressure.Value, (0.75 * 13.9 * 0.9) - 1.0, 13.9 + 1.7 - 1.0);
        Assert.Contains("without ammonia", pressure.Model, StringComparison.Ordinal);
        Assert.Contains(findings, static finding => finding is { Code: "data.pressure-incomplete", LeavesCheckUndone: true } && finding.Statement.Contains("ammonia", StringComparison.Ordinal));
    }

    /// <summary>Half a millilitre of it, 2 mol%, changes little: it is left out instead of the ammonia, and more than the methanol alone comes of it.</summary>
    [Theory]
    [InlineData("dimethyl sulfoxide")]
    [InlineData("dimethylformamide")]
    public void Screen_AmmoniaInMethanolBesideALittleWithoutParameters_CountsTheAmmonia(string other)
    {
        var finding = Assert.Single(Screener.Screen(AmmoniaInMethanol(other, 135), Policy.Default).Findings, static finding => finding.Code is "pressure.exceeds-rating");

        var pressure = finding.Evidence.First(static evidence => evidence.Name is "worst-case pressure");
        Assert.True(pressure.Value > 13.9 + 1.7 - 1.0);
        Assert.DoesNotContain("without ammonia", pressure.Model, StringComparison.Ordinal);
    }

    /// <summary>Below the boiling point of methanol (64.7 °C, CRC Handbook, from memory) the rest says nothing: not a pass, the check stays undone.</summary>
    [Fact]
    public void Screen_TheRestStaysBelowTheRating_IsNoPass()
    {
        var report = Screener.Screen(AmmoniaInMethanol("dimethyl sulfoxide", 45), Policy.Default);

        Assert.DoesNotContain(report.Findings, static finding => finding.Code.StartsWith("pressure.", StringComparison.Ordinal));
        Assert.Contains(report.Findings, static finding => finding is { Code: "data.pressure-incomplete", LeavesCheckUndone: true });
        Assert.Equal(Verdict.Review, report.Verdict);
        Assert.Null(report.Timeline[^1].ExpectedPressurePa);
    }

    /// <summary>Methanol has 3.54 bar at 100 °C (NIST Chemistry WebBook, from memory): opened hot, the tube holds at least 2.5 bar(g) and a share of it less for the other liquid, whatever the ammonia adds.</summary>
    [Fact]
    public void Screen_OpenedHot_SaysAtLeast()
    {
        var plan = AmmoniaInMethanol("dimethyl sulfoxide", 100, otherML: 5);
        plan = plan with { Steps = [.. plan.Steps, Step("4", StepAction.Open, "tube", 100)] };
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.opened-under-pressure");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Contains("at least", finding.Statement, StringComparison.Ordinal);
        Assert.InRange(finding.Evidence[0].Value, 2.3, 4.0);
    }

    /// <summary>5 g of condensed ammonia (8.57 bar at 20 °C, NIST Chemistry WebBook, from memory) over dimethylformamide, not heated: no number, and no mere notice. A bought solution keeps in its bottle.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Screen_CondensedGasLeftOut_GoesToReviewUnheated(bool condensed)
    {
        var gas = condensed ? Of("ammonia", "ammonia", G(5)) : Molar("ammonia", "ammonia", "methanol", 2, ML(10));
        var plan = new Plan
        {
            Materials = [gas, Of("other", "dimethylformamide", ML(10), Role.Solvent)],
            Vessels = [Tube(50, 5)],
            Steps = [Step("1", StepAction.Charge, "tube", condensed ? -40 : 20, "ammonia", "other"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Store, "tube", 20)],
        };

        Assert.Equal(condensed, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding is { Code: "data.pressure-incomplete", LeavesCheckUndone: true }));
    }

    private static Plan AmmoniaInMethanol(string other, double celsius, double otherML = 0.5) => new()
    {
        Materials = [Molar("ammonia", "ammonia", "methanol", 7, ML(10)), Of("other", other, ML(otherML))],
        Vessels = [Tube(35, 10)],
        Steps =
        [
            Step("1", StepAction.Charge, "tube", 20, "ammonia", "other"),
            Step("2", StepAction.Seal, "tube"),
            Step("3", StepAction.Heat, "tube", celsius) with { HeatSource = HeatSource.OilBath },
        ],
    };

    private static Plan Sealed(string gas, double? celsius) => new()
    {
        Materials = [Of("gas", gas, ML(20), Role.Solvent)],
        Vessels = [new Vessel { Id = "tube", Kind = "steel autoclave", VolumeM3 = 100e-6, RatingPaGauge = 50e5 }],
        Steps = [Step("1", StepAction.Charge, "tube", celsius, "gas"), Step("2", StepAction.Seal, "tube"), Step("3", StepAction.Store, "tube", 20)],
    };
}
