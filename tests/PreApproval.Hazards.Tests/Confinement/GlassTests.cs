using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Confinement;

public sealed class GlassTests
{
    /// <summary>Flat-bottomed and conical glass is not evacuated, round-bottom flasks are (Prudent Practices in the Laboratory, 2011; a hydrogenation bottle is pumped out between fills, from memory of the usual procedure; limits of size: common practice, no source).</summary>
    [Theory]
    [InlineData("conical flask", 250, Severity.Warning)]
    [InlineData("flat-bottom flask", 2000, Severity.Danger)]
    [InlineData("Erlenmeyer flask, plastic-coated", 2000, Severity.Warning)]
    [InlineData("plastic bottle", 500, Severity.Caution)]
    [InlineData("round-bottom flask", 5000, Severity.Caution)]
    [InlineData("round-bottom flask", 500, null)]
    [InlineData("round-bottom flask in a mesh", 5000, null)]
    [InlineData("filter flask", 500, null)]
    [InlineData("glass hydrogenation bottle", 250, null)]
    [InlineData("glass bottle", 250, Severity.Warning)]
    [InlineData("steel autoclave", 5000, null)]
    public void Screen_Evacuated_IsJudgedByShapeAndSize(string kind, double mL, Severity? severity)
    {
        var finding = Screener.Screen(Evacuated(kind, mL), Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "vessel.implosion");

        Assert.Equal(severity, finding?.Severity);
    }

    /// <summary>Concentrated under a stated vacuum is evacuated too; the same limits. At or near the atmosphere it is not.</summary>
    [Theory]
    [InlineData(StepAction.Concentrate, "conical flask", 1000, 8000, Severity.Danger)]
    [InlineData(StepAction.Concentrate, "flat-bottom flask", 250, 8000, Severity.Warning)]
    [InlineData(StepAction.Distil, "conical flask", 250, 2000, Severity.Warning)]
    [InlineData(StepAction.Concentrate, "round-bottom flask", 250, 8000, null)]
    [InlineData(StepAction.Concentrate, "conical flask", 1000, 101_325, null)]
    public void Screen_ConcentratedUnderAStatedVacuum_IsJudgedByShapeAndSize(StepAction action, string kind, double mL, double pressurePa, Severity? severity)
    {
        var finding = Screener.Screen(Concentrated(kind, mL, action, pressurePa), Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "vessel.implosion");

        Assert.Equal(severity, finding?.Severity);
    }

    /// <summary>(101 325 − 8 000) Pa in 1 L: 93.3 J (p·V).</summary>
    [Fact]
    public void Screen_ConcentratedUnderAStatedVacuum_CarriesTheWorkOfThePressureDifference() =>
        Assert.Equal(93.325, Screener.Screen(Concentrated("conical flask", 1000, StepAction.Concentrate, 8000), Policy.Default).Findings.Single(static finding => finding.Code is "vessel.implosion").Evidence[0].Value, 0.001);

    /// <summary>Toluene boils at 110.6 °C (CRC Handbook): at 40 °C only a vacuum takes it away in reasonable time; at 110 °C it boils by itself, a stream of gas is another way, and no pump goes on a beaker (common practice, no source).</summary>
    [Theory]
    [InlineData("conical flask", 1000, 40, false, Severity.Caution)]
    [InlineData("conical flask", 50, 40, false, Severity.Notice)]
    [InlineData("conical flask", 1000, 110, false, null)]
    [InlineData("conical flask", 1000, 40, true, null)]
    [InlineData("beaker", 1000, 40, false, null)]
    [InlineData("round-bottom flask", 1000, 40, false, null)]
    public void Screen_ConcentratedWithoutAPressure_SaysWhatAVacuumWouldDo(string kind, double mL, double celsius, bool stream, Severity? severity)
    {
        var plan = Concentrated(kind, mL, StepAction.Concentrate, null);
        plan = plan with { Steps = [plan.Steps[0], plan.Steps[1] with { TemperatureK = celsius + 273.15, Headspace = stream ? Under("nitrogen") : null }] };
        var findings = Screener.Screen(plan, Policy.Default).Findings;

        Assert.Equal(severity, findings.SingleOrDefault(static finding => finding.Code is "vessel.implosion-if-evacuated")?.Severity);
        Assert.DoesNotContain(findings, static finding => finding.Code is "vessel.implosion");
    }

    /// <summary>101 325 Pa against nothing in 2 L: 202.65 J (p·V).</summary>
    [Fact]
    public void Screen_EvacuatedFlask_CarriesTheWorkOfTheAtmosphere() =>
        Assert.Equal(202.65, Screener.Screen(Evacuated("flat-bottom flask", 2000), Policy.Default).Findings.Single(static finding => finding.Code is "vessel.implosion").Evidence[0].Value, 0.01);

    [Fact]
    public void Screen_LargeRoundFlaskEvacuated_ClearsWithASmallerOne()
    {
        var plan = Evacuated("round-bottom flask", 5000);
        var offer = Assert.Single(Screener.Screen(plan, Policy.Default).Findings.Single(static finding => finding.Code is "vessel.implosion").ClearedBy);

        Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, offer), Policy.Default).Findings, static finding => finding.Code is "vessel.implosion");
    }

    [Theory]
    [InlineData("glass Dewar", true)]
    [InlineData("glass Dewar, coated", false)]
    [InlineData("stainless steel Dewar", false)]
    public void Screen_Dewar_IsNamedWithoutAGuard(string kind, bool named)
    {
        var plan = new Plan
        {
            Materials = [Of("acetone", "acetone", ML(100), Role.Solvent)],
            Vessels = [new Vessel { Id = "bath", Kind = kind, VolumeM3 = 1e-3 }],
            Steps = [Step("1", StepAction.Charge, "bath", 20, "acetone")],
        };

        Assert.Equal(named, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "vessel.dewar-unguarded"));
    }

    /// <summary>Diethyl ether has 586 mbar at 20 °C (CRC Handbook, from memory): it boils at once under the pump; frozen at −196 °C it does not.</summary>
    [Theory]
    [InlineData(20, Severity.Warning)]
    [InlineData(-20, Severity.Caution)]
    [InlineData(-196, null)]
    public void Screen_PumpedOnALiquid_IsJudgedByItsVapourPressure(double celsius, Severity? severity)
    {
        var plan = Pumped("diethyl ether", celsius);
        var finding = Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "vessel.evacuated-boiling");

        Assert.Equal(severity, finding?.Severity);
        foreach (var offer in finding?.ClearedBy ?? [])
        {
            Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, offer), Policy.Default).Findings, static other => other.Code is "vessel.evacuated-boiling");
        }
    }

    /// <summary>140 K across glass (TRGS 526, 5.2.2); thick walls 80 K a caution, 100 K a warning (common practice, no source).</summary>
    [Theory]
    [InlineData("round-bottom flask", 130, null)]
    [InlineData("round-bottom flask", 145, Severity.Warning)]
    [InlineData("thick-walled glass tube", 75, null)]
    [InlineData("thick-walled glass tube", 95, Severity.Caution)]
    [InlineData("thick-walled glass tube", 110, Severity.Warning)]
    [InlineData("steel autoclave", 200, null)]
    public void Screen_HotVesselIntoAnIceBath_IsJudgedByTheDifference(string kind, double celsius, Severity? severity)
    {
        var plan = Quenched(kind, celsius, HeatSource.IceBath);
        var finding = Screener.Screen(plan, Policy.Default).Findings.SingleOrDefault(static finding => finding.Code is "vessel.thermal-shock");

        Assert.Equal(severity, finding?.Severity);
        if (finding is not null)
        {
            Assert.Equal(celsius, finding.Evidence[0].Value, 1e-9);
            Assert.DoesNotContain(Screener.Screen(Clearings.Apply(plan, Assert.Single(finding.ClearedBy)), Policy.Default).Findings, static other => other.Code is "vessel.thermal-shock");
        }
    }

    [Fact]
    public void Screen_HotVesselCooledInAir_IsQuiet() =>
        Assert.DoesNotContain(Screener.Screen(Quenched("round-bottom flask", 180, null), Policy.Default).Findings, static finding => finding.Code is "vessel.thermal-shock");

    /// <summary>Own cases: from −78 °C into a bath of 90 °C are 168 K; a liquid from the bench (20 °C) added at once to 180 °C are 160 K.</summary>
    [Theory]
    [InlineData(HeatSource.OilBath, 90, true)]
    [InlineData(HeatSource.OilBath, 50, false)]
    [InlineData(HeatSource.MetalBlock, 90, false)]
    public void Screen_ColdVesselIntoAHotBath_IsJudgedByTheDifference(HeatSource source, double celsius, bool named)
    {
        var plan = Pumped("toluene", -78);
        plan = plan with { Steps = [plan.Steps[0], Step("2", StepAction.Heat, "flask", celsius) with { HeatSource = source }] };

        Assert.Equal(named, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "vessel.thermal-shock"));
    }

    /// <summary>
    /// Freeze-pump-thaw, common practice, no source: thin round glass goes from the bench into liquid nitrogen (−196 °C) and thaws in lukewarm water. Hot glass, hot water,
    /// thick, flat-bottomed or soft glass and large flasks stay with 140 and 100 K.
    /// </summary>
    [Theory]
    [InlineData("Schlenk tube", 50, 20, 30, null, null)]
    [InlineData("Schlenk flask", 250, 20, 40, null, null)]
    [InlineData("round-bottom flask", 100, 25, 25, null, null)]
    [InlineData("Schlenk tube", 50, 100, 30, Severity.Warning, null)]
    [InlineData("Schlenk tube", 50, 45, 30, Severity.Warning, null)]
    [InlineData("Schlenk tube", 50, 20, 60, null, Severity.Warning)]
    [InlineData("thick-walled glass tube", 50, 20, 30, Severity.Warning, Severity.Warning)]
    [InlineData("soda-lime glass tube", 50, 20, 30, Severity.Warning, Severity.Warning)]
    [InlineData("conical flask", 100, 20, 30, Severity.Warning, Severity.Warning)]
    [InlineData("round-bottom flask", 5000, 20, 30, Severity.Warning, Severity.Warning)]
    public void Screen_FreezePumpThaw_IsQuietInThinRoundGlass(string kind, double mL, double startC, double waterC, Severity? freezing, Severity? thawing)
    {
        var plan = new Plan
        {
            Materials = [Of("liquid", "toluene", ML(10), Role.Solvent)],
            Vessels = [new Vessel { Id = "vessel", Kind = kind, VolumeM3 = mL * 1e-6 }],
            Steps =
            [
                Step("1", StepAction.Charge, "vessel", startC, "liquid"), Step("2", StepAction.Seal, "vessel"),
                Step("3", StepAction.Degas, "vessel", -196) with { HeatSource = HeatSource.CryogenicBath }, Step("4", StepAction.Evacuate, "vessel"),
                Step("5", StepAction.Degas, "vessel", waterC) with { HeatSource = HeatSource.WaterBath },
            ],
        };
        var found = Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "vessel.thermal-shock").ToArray();

        Assert.Equal(freezing, found.SingleOrDefault(static finding => finding.Steps is ["3"])?.Severity);
        Assert.Equal(thawing, found.SingleOrDefault(static finding => finding.Steps is ["5"])?.Severity);
    }

    [Theory]
    [InlineData(null, true)]
    [InlineData(900.0, false)]
    public void Screen_ColdMaterialAddedToHotGlass_IsJudgedByTheDifference(double? overS, bool named)
    {
        var plan = Quenched("round-bottom flask", 180, null);
        plan = plan with { Materials = [.. plan.Materials, Of("more", "diphenyl ether", ML(10))], Steps = [plan.Steps[0], plan.Steps[1], Step("3", StepAction.Add, "vessel", null, "more") with { OverS = overS }] };

        Assert.Equal(named, Screener.Screen(plan, Policy.Default).Findings.Any(static finding => finding.Code is "vessel.thermal-shock"));
    }

    private static Plan Concentrated(string kind, double mL, StepAction action, double? pressurePa) => new()
    {
        Materials = [Of("toluene", "toluene", ML(mL / 5), Role.Solvent), Of("product", "benzoic acid", G(1))],
        Vessels = [new Vessel { Id = "vessel", Kind = kind, VolumeM3 = mL * 1e-6 }],
        Steps = [Step("1", StepAction.Charge, "vessel", 20, "toluene", "product"), Step("2", action, "vessel", 40) with { PressurePaAbs = pressurePa }],
    };

    private static Plan Evacuated(string kind, double mL) => new()
    {
        Materials = [Of("salt", "sodium chloride", G(1))],
        Vessels = [new Vessel { Id = "vessel", Kind = kind, VolumeM3 = mL * 1e-6 }],
        Steps = [Step("1", StepAction.Charge, "vessel", 20, "salt"), Step("2", StepAction.Evacuate, "vessel")],
    };

    private static Plan Pumped(string liquid, double celsius) => new()
    {
        Materials = [Of("liquid", liquid, ML(10), Role.Solvent)],
        Vessels = [Flask("flask", 50)],
        Steps = [Step("1", StepAction.Charge, "flask", celsius, "liquid"), Step("2", StepAction.Evacuate, "flask")],
    };

    private static Plan Quenched(string kind, double celsius, HeatSource? bath) => new()
    {
        Materials = [Of("oil", "diphenyl ether", ML(10), Role.Solvent)],
        Vessels = [new Vessel { Id = "vessel", Kind = kind, VolumeM3 = 50e-6 }],
        Steps =
        [
            Step("1", StepAction.Charge, "vessel", 20, "oil"), Step("2", StepAction.Heat, "vessel", celsius) with { HeatSource = HeatSource.MetalBlock },
            Step("3", StepAction.Cool, "vessel", 0) with { HeatSource = bath },
        ],
    };
}
