using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>The results of a closed vessel that nothing is wrong with, and what its stored energy asks for.</summary>
public sealed class PressureResultsTests
{
    private const string Code = "pressure.results";

    private static readonly string[] Expected =
    [
        "worst credible temperature", "worst-case pressure", "pressure at the set temperature", "share of the rating", "bound of the pressure", "highest permissible set temperature",
        "largest permissible fill", "rating needed", "stored energy", "stored energy of superheated liquid", "equivalent of trinitrotoluene", "shield class",
    ];

    /// <summary>
    /// Water at 215 °C has 21.06 bar (IAPWS-IF97 tables). Air of 600 mL at 20 °C in the room that 0.40 kg of water leave (847 kg/m³ at 215 °C) presses 1.9 bar. 200 to 100 °C sets 50 kJ/kg
    /// free (steam tables), 215 °C some 60: 20 to 26 kJ, with up to 5 kJ of the gas; above 5 kJ that is the class of an engineered cell (common practice, no source). 4.5 MJ/kg: 4.4 to 7 g.
    /// </summary>
    [Fact]
    public void Screen_AutoclaveOfWaterWithinItsRating_SaysWhatItHoldsAndStaysClear()
    {
        var report = Screener.Screen(Autoclave(), Policy.Default);

        var results = Assert.Single(report.Findings, static finding => finding.Code is Code);
        Assert.Equal(Verdict.Clear, report.Verdict);
        Assert.Empty(Expected.Except(results.Evidence.Select(static evidence => evidence.Name), StringComparer.Ordinal));
        Assert.Equal(["2", "3", "4"], results.Steps);
        Assert.Equal(21.06 + 1.9 - 1.013, Number(results, "worst-case pressure"), 0.03 * 22);
        Assert.Equal(Number(results, "worst-case pressure") / 0.75, Number(results, "rating needed"), 0.01);
        Assert.InRange(Number(results, "stored energy"), 20e3, 31e3);
        Assert.InRange(Number(results, "equivalent of trinitrotoluene"), 4.4, 7);
        Assert.Equal(3, Number(results, "shield class"));
    }

    /// <summary>Saturated water has 712.1 kg/m³ at 300 °C against 997.05 at 25 °C (IAPWS-95): a cold fill of 71.4 % fills the vessel there.</summary>
    [Fact]
    public void Screen_WaterAt714PerMil_FillsTheVesselAt300()
    {
        var plan = Autoclave() with { Materials = [Of("water", "water", ML(714), Role.Solvent)] };

        var results = Assert.Single(Screener.Screen(At(plan, 120), Policy.Default).Findings, static finding => finding.Code is Code);

        Assert.Equal(300, Number(results, "temperature at which the liquid fills the vessel"), 3.0);
    }

    /// <summary>A shield in front does not hold what asks for a cell; a coded vessel with relief needs no second look, yet is no cell (common practice, no source).</summary>
    [Theory]
    [InlineData("", ControlStatus.Missing, Severity.Caution)]
    [InlineData("blast shield", ControlStatus.Missing, Severity.Caution)]
    [InlineData("fixed shield or cell", ControlStatus.Missing, Severity.Caution)]
    [InlineData("engineered cell", ControlStatus.Present, Severity.Notice)]
    [InlineData("relief device", ControlStatus.Missing, Severity.Notice)]
    public void Screen_EnergyOfAnEngineeredCell_IsAnsweredByNoLess(string control, ControlStatus status, Severity severity)
    {
        var plan = Autoclave();
        plan = plan with
        {
            Vessels = [plan.Vessels[0] with { RatingEvidence = "stamp" }],
            Safeguards = control.Length == 0 ? [] : [new Safeguard(control, [], null)],
        };

        var results = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is Code);

        Assert.Equal(new NeededControl("engineered cell", status), Assert.Single(results.Controls));
        Assert.Equal(severity, results.Severity);
    }

    [Theory]
    [InlineData("blast shield", ControlStatus.Missing)]
    [InlineData("fixed shield or cell", ControlStatus.Missing)]
    [InlineData("engineered cell", ControlStatus.Present)]
    public void Screen_RatingExceededWithTheEnergyOfACell_AsksForTheCell(string control, ControlStatus status)
    {
        var plan = Autoclave();
        plan = plan with { Vessels = [plan.Vessels[0] with { RatingPaGauge = 10e5 }], Safeguards = [new Safeguard(control, [], null)] };

        var finding = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.exceeds-rating");

        Assert.Contains(new NeededControl("engineered cell", status), finding.Controls);
        Assert.DoesNotContain(finding.Controls, static needed => needed.Control is "blast shield");
        // the finding carries the results
        Assert.DoesNotContain(Screener.Screen(plan, Policy.Default).Findings, static other => other.Code is Code);
    }

    [Fact]
    public void Screen_ClosedInTheCold_HasNoResults() =>
        Assert.DoesNotContain(Screener.Screen(At(Autoclave(), 20), Policy.Default).Findings, static finding => finding.Code is Code);

    private static double Number(Finding finding, string name) => finding.Evidence.Single(evidence => string.Equals(evidence.Name, name, StringComparison.Ordinal)).Value;

    private static Plan At(Plan plan, double celsius) => plan with { Steps = [.. plan.Steps.Select(step => step.Id is "3" ? step with { TemperatureK = celsius + 273.15, HeatSource = celsius > 30 ? step.HeatSource : null, Action = celsius > 30 ? step.Action : StepAction.Hold } : step)] };

    private static Plan Autoclave() => new()
    {
        Materials = [Of("water", "water", ML(400), Role.Solvent)],
        Vessels = [new Vessel { Id = "autoclave", Kind = "steel autoclave", VolumeM3 = 1e-3, RatingPaGauge = 60e5, MaximumTemperatureK = 523.15 }],
        Steps =
        [
            Step("1", StepAction.Charge, "autoclave", 20, "water"),
            Step("2", StepAction.Seal, "autoclave"),
            Step("3", StepAction.Heat, "autoclave", 200) with { HeatSource = HeatSource.MetalBlock },
            Step("4", StepAction.Cool, "autoclave", 20),
            Step("5", StepAction.Open, "autoclave"),
        ],
    };
}
