using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Confinement;

public sealed class CryogenTests
{
    private const double BenchK = 298.15;

    /// <summary>
    /// 10 g of CO₂ (44.009 g/mol) in 100 mL at 25 °C: 56.3 bar by the ideal gas law. 20 g would be 112.7 bar, but liquid forms at the
    /// vapour pressure, 64.3 bar at 25 °C (R. Span, W. Wagner, J. Phys. Chem. Ref. Data 1996, 25, 1509: 6.434 MPa, from memory).
    /// </summary>
    [Theory]
    [InlineData(10, 56.3, 56.3, false)]
    [InlineData(20, 64.34, 112.7, true)]
    public void PressurePa_DryIceIn100ML_IsIdealUpToTheVapourPressure(double grams, double bar, double idealBar, bool condenses)
    {
        var (pa, ideal, liquid) = Cryogens.PressurePa(Substance("carbon dioxide").Known!, grams / 44.009, 100e-6, BenchK);

        Assert.InRange(pa / 1e5, bar * 0.98, bar * 1.02);
        Assert.InRange(ideal / 1e5, idealBar * 0.98, idealBar * 1.02);
        Assert.Equal(condenses, liquid);
    }

    /// <summary>One gram of dry ice makes 0.556 L at 25 °C (24.465 L/mol over 44.009 g/mol); one litre of liquid nitrogen of 808 g/L makes 694 L at 20 °C.</summary>
    [Theory]
    [InlineData(1 / 44.009, 298.15, 0.556)]
    [InlineData(808 / 28.0134, 293.15, 694)]
    public void GasVolumeM3_OfACryogen_IsThatOfTheIdealGas(double mol, double kelvin, double litres) =>
        Assert.Equal(litres, AirDisplacement.GasVolumeM3(mol, kelvin) * 1e3, litres * 0.005);

    /// <summary>
    /// Displacement law of the leaflets of the gas industry, liquid nitrogen of 808 g/L at 20 °C and air with 20.9 %: 10 L in 50 m³ give
    /// 6.94 m³ and 18.0 % oxygen, 25 L in 40 m³ give 17.3 m³ and 11.8 %.
    /// </summary>
    [Theory]
    [InlineData(10, 50, 6.94, 18.0)]
    [InlineData(25, 40, 17.3, 11.8)]
    public void OxygenLeft_LiquidNitrogenSpilled_IsThatOfTheLeaflet(double litres, double roomM3, double gasM3, double percent)
    {
        var gas = AirDisplacement.GasVolumeM3(litres * 808 / 28.0134, 293.15);

        Assert.Equal(gasM3, gas, 0.1);
        Assert.Equal(percent, AirDisplacement.OxygenLeft(gas, roomM3) * 100, 0.2);
    }

    /// <summary>1.00 kg of dry ice in 20 m³: 556 L, 2.78 vol% (ideal gas law at 25 °C): above the 0.5 % of a working day, below the 3 % of fifteen minutes (NIOSH Pocket Guide).</summary>
    [Fact]
    public void Screen_AKilogramOfDryIceInASmallRoom_IsACaution()
    {
        var finding = Assert.Single(Screener.Screen(DryIce(1000, 20), Policy.Default).Findings, static finding => finding.Code is "gas.displaces-air");

        Assert.Equal(Severity.Caution, finding.Severity);
        Assert.Equal(0.0278, finding.Evidence.Single(static evidence => evidence.Name is "carbon dioxide in the room").Value, 0.0278 * 0.01);
    }

    [Theory]
    [InlineData(1100, 20, Severity.Warning)]
    [InlineData(1500, 20, Severity.Danger)]
    public void Screen_MoreDryIceInTheRoom_IsGraver(double grams, double roomM3, Severity severity) =>
        Assert.Equal(severity, Assert.Single(Screener.Screen(DryIce(grams, roomM3), Policy.Default).Findings, static finding => finding.Code is "gas.displaces-air").Severity);

    /// <summary>10 L in 50 m³ leave 18.0 % at 20 °C: below the alarm of 19.5 %. At the 25 °C of the finding 17.95 %: leave.</summary>
    [Fact]
    public void Screen_TenLitresOfLiquidNitrogenInASmallRoom_GoesToReview()
    {
        var report = Screener.Screen(LiquidNitrogen(10_000, new Place(null, null, 50, null)), Policy.Default);

        var finding = Assert.Single(report.Findings, static finding => finding.Code is "gas.displaces-air");
        Assert.True(finding.Severity <= Severity.Warning);
        Assert.Equal(0.180, finding.Evidence[0].Value, 0.002);
    }

    [Fact]
    public void Screen_LiquidNitrogenWithoutARoomVolume_SaysWhatIsMissing() =>
        Assert.Contains(Screener.Screen(LiquidNitrogen(1000, null), Policy.Default).Findings, static finding => finding.Code is "data.room-volume");

    /// <summary>10 g of dry ice in 100 mL: 56.3 bar by the ideal gas law, far above an unrated bottle.</summary>
    [Fact]
    public void Screen_DryIceInACappedBottle_IsDangerWithThePressure()
    {
        var finding = Assert.Single(Screener.Screen(Capped(10, 100, null), Policy.Default).Findings, static finding => finding.Code is "pressure.cryogen-closed");

        Assert.Equal(Severity.Danger, finding.Severity);
        Assert.Equal(56.3, finding.Evidence[0].Value, 56.3 * 0.02);
        Assert.Equal(5.56, finding.Evidence[1].Value, 5.56 * 0.01);
    }

    [Fact]
    public void Screen_DryIceInARatedVessel_ClearsWithTheRatingItOffers()
    {
        var plan = Capped(10, 100, 20, "gas cylinder");
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.cryogen-closed");

        var after = Screener.Screen(Clearings.Apply(plan, Assert.Single(finding.ClearedBy)), Policy.Default);

        Assert.DoesNotContain(after.Findings, static other => other.Code is "pressure.cryogen-closed");
    }

    /// <summary>No glass bottle is rated for a hundred bar (common practice, no source).</summary>
    [Fact]
    public void Screen_DryIceInABottle_OffersNoRatingThatNoBottleHas() =>
        Assert.Empty(Assert.Single(Screener.Screen(Capped(10, 100, 20), Policy.Default).Findings, static finding => finding.Code is "pressure.cryogen-closed").ClearedBy);

    [Theory]
    [InlineData(Closure.Needle, Severity.Warning)]
    [InlineData(Closure.Bubbler, Severity.Caution)]
    [InlineData(Closure.Balloon, Severity.Warning)]
    public void Screen_DryIceBehindANarrowWayOut_IsNamed(Closure vent, Severity severity)
    {
        var plan = Capped(10, 100, null);
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1] with { Closure = vent }] };

        Assert.Equal(severity, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.cryogen-narrow-vent").Severity);
    }

    /// <summary>Oxygen boils at −183 °C, argon at −185.8 °C; liquid nitrogen is at −195.8 °C (CRC Handbook, from memory).</summary>
    [Theory]
    [InlineData("air", -196, "gas.oxygen-condenses", Severity.Danger)]
    [InlineData("argon", -196, "gas.inert-gas-condenses", Severity.Warning)]
    public void Screen_TrapColderThanItsGasBoils_IsNamedAndClearsWhenWarmer(string gas, double celsius, string code, Severity severity)
    {
        var plan = Trap(gas, celsius, StepAction.Cool);
        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, finding => string.Equals(finding.Code, code, StringComparison.Ordinal));

        Assert.Equal(severity, finding.Severity);
        Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, Assert.Single(finding.ClearedBy)), Policy.Default).Findings, other => string.Equals(other.Code, code, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("air", -180)]
    [InlineData("argon", -183)]
    [InlineData("air", -78)]
    public void Screen_TrapWarmerThanItsGasBoils_IsQuiet(string gas, double celsius) =>
        Assert.DoesNotContain(Screener.Screen(Trap(gas, celsius, StepAction.Cool), Policy.Default).Findings, static finding => finding.Code.EndsWith("condenses", StringComparison.Ordinal));

    [Fact]
    public void Screen_FreezePumpThaw_IsOnlyACaution() =>
        Assert.Equal(Severity.Caution, Assert.Single(Screener.Screen(Trap("air", -196, StepAction.Degas), Policy.Default).Findings, static finding => finding.Code is "gas.oxygen-condenses").Severity);

    [Fact]
    public void Screen_ClosedWhileFrozenUnderAir_IsDanger()
    {
        var plan = Trap("air", -196, StepAction.Cool);
        plan = plan with { Steps = [.. plan.Steps, Step("3", StepAction.Seal, "trap"), Step("4", StepAction.Hold, "trap", 20)] };

        Assert.Equal(Severity.Danger, Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.condensed-gas-shut-in").Severity);
    }

    private static Plan DryIce(double grams, double roomM3) => new()
    {
        Materials = [Of("ice", "carbon dioxide", G(grams))],
        Vessels = [new Vessel { Id = "box", Kind = "insulated box", VolumeM3 = 5e-3 }],
        Steps = [Step("1", StepAction.Charge, "box", -78, "ice")],
        Place = new Place(null, null, roomM3, null),
    };

    private static Plan LiquidNitrogen(double mL, Place? place) => new()
    {
        Materials = [Of("liquid nitrogen", "nitrogen", ML(mL))],
        Vessels = [new Vessel { Id = "dewar", Kind = "steel Dewar", VolumeM3 = 30e-3 }],
        Steps = [Step("1", StepAction.Charge, "dewar", -196, "liquid nitrogen")],
        Place = place,
    };

    private static Plan Capped(double grams, double mL, double? barGauge, string kind = "glass bottle") => new()
    {
        Materials = [Of("ice", "carbon dioxide", G(grams))],
        Vessels = [new Vessel { Id = "bottle", Kind = kind, VolumeM3 = mL * 1e-6, RatingPaGauge = barGauge * 1e5 }],
        Steps = [Step("1", StepAction.Charge, "bottle", -78, "ice"), Step("2", StepAction.Seal, "bottle") with { Closure = Closure.Cap }],
    };

    private static Plan Trap(string gas, double celsius, StepAction action) => new()
    {
        Materials = [Of("ether", "diethyl ether", ML(5), Role.Solvent)],
        Vessels = [new Vessel { Id = "trap", Kind = "cold trap of glass", VolumeM3 = 200e-6 }],
        Steps = [Step("1", StepAction.Charge, "trap", 20, "ether") with { Headspace = gas is "air" ? new Headspace.Air() : Under(gas) }, Step("2", action, "trap", celsius) with { HeatSource = HeatSource.CryogenicBath }],
    };
}
