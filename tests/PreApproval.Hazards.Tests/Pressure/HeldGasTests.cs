using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

/// <summary>Vapour pressure of ammonia: 8.575 bar at 20 °C, 62.6 bar at 100 °C, 75.8 bar at 110 °C (saturation tables of any thermodynamics text; reference equation of state).</summary>
public sealed class HeldGasTests
{
    [Fact]
    public void Screen_AmmoniaWithALittleOfWhatNoModelKnows_HasItsOwnVapourPressure()
    {
        var context = Context(Ammonia(5, 10));

        var pressures = context.Closed(context.Walk.States[^1])!.Worst.PartialPressuresPa;

        Assert.Equal(8.575e5, pressures["7664-41-7"], 0.02 * 8.575e5);
    }

    /// <summary>8.6 bar of ammonia and 1.5 bar or so of air shut in at −78 °C (by hand 1.013·293/195 = 1.52 bar, a little more for the swelling liquid) are above 0.9 of 10 bar(g), below 25.</summary>
    [Theory]
    [InlineData(10, Severity.Danger)]
    [InlineData(25, null)]
    public void Screen_AmmoniaWithALittleOfWhatNoModelKnows_IsHeldAgainstTheRating(double barGauge, Severity? expected)
    {
        var findings = Screener.Screen(Ammonia(5, barGauge), Policy.Default).Findings;

        Assert.Equal(expected, findings.FirstOrDefault(static finding => finding.Code is "pressure.near-rating" or "pressure.exceeds-rating")?.Severity);
        Assert.All(findings.Where(static finding => finding.Code is "data.pressure-incomplete"), static finding => Assert.Equal(Severity.Notice, finding.Severity));
    }

    /// <summary>
    /// Methanol takes up 16 wt% of ammonia at 25 °C and 1 atm (The Merck Index, from memory): x = 0.26 presses 0.88 bar of the 10.0 bar of pure ammonia, an activity coefficient of 0.34. 7 mol/L is
    /// about x = 0.24; at 115 °C that gives 0.24·83·0.34 = 6.8 bar, ideal 20 bar, with 0.75·5.6 bar of methanol (Perry's, 8th ed., Table 2-8) and 1.5 bar of air: from 11.5 to 25 bar(g). Ten
    /// millimol of an ester must not hide it.
    /// </summary>
    [Fact]
    public void Screen_AmmoniaInMethanolWithAnEster_ExceedsTenBar()
    {
        var plan = new Plan
        {
            Materials = [Molar("ammonia", "ammonia", "methanol", 7, ML(20)), Of("ester", "ethyl benzoate", Mmol(10))],
            Vessels = [Tube(50, 10, maximumC: 150)],
            Steps =
            [
                Step("1", StepAction.Charge, "tube", 0, "ammonia", "ester"),
                Step("2", StepAction.Seal, "tube") with { Closure = Closure.Plug },
                Step("3", StepAction.Heat, "tube", 110) with { HeatSource = HeatSource.OilBath, IndependentCutOut = true },
            ],
        };

        var found = Assert.Single(Screener.Screen(plan, Policy.Default).Findings, static finding => finding.Code is "pressure.exceeds-rating");

        Assert.InRange(found.Evidence.Single(static evidence => evidence.Name is "worst-case pressure").Value, 11, 25);
    }

    /// <summary>In as much of a liquid that no model knows the pressure is between that of the rest and that of pure ammonia: a bound, and a pass where the tube holds it.</summary>
    [Theory]
    [InlineData(10, Severity.Warning)]
    [InlineData(25, Severity.Notice)]
    public void Screen_AmmoniaInMuchOfWhatNoModelKnows_NamesTheBound(double barGauge, Severity expected)
    {
        var finding = Screener.Screen(Ammonia(60, barGauge), Policy.Default).Findings.Last(static finding => finding.Code is "data.pressure-incomplete" && finding.Steps.Contains("3", StringComparer.Ordinal));

        Assert.Equal(expected, finding.Severity);
        Assert.InRange(finding.Evidence.Single(static evidence => evidence.Name is "pressure with the gas as if pure").Value, 8.5, 12);
    }

    private static ScreeningContext Context(Plan plan) => new(plan, Policy.Default, Walk.Follow(plan, Policy.Default));

    private static Plan Ammonia(double otherMmol, double barGauge) => new()
    {
        Materials = [Of("ammonia", "ammonia", ML(8)), Of("other", "benzyl chloride", Mmol(otherMmol))],
        Vessels = [Tube(30, barGauge, maximumC: 180)],
        Steps =
        [
            Step("1", StepAction.Charge, "tube", -78, "ammonia", "other") with { HeatSource = HeatSource.CryogenicBath },
            Step("2", StepAction.Seal, "tube") with { Closure = Closure.Plug },
            Step("3", StepAction.Stir, "tube", 20),
        ],
    };
}
