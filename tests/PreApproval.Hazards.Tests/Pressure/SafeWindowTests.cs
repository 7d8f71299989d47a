using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

public sealed class SafeWindowTests
{
    private const double RoomK = 293.15;

    [Fact]
    public void OverTemperature_OwnTemperature_EqualsTheScreen()
    {
        var context = Context(Ethanol(ratingBar: 5, ethanolML: 10, celsius: 100));
        var state = context.Walk.States[^1];
        var closed = context.Closed(state)!;

        var curve = SafeWindow.OverTemperature(state, Policy.Default, state.TemperatureK, state.TemperatureK + 10, 2);

        Assert.Equal(closed.WorstPaGauge!.Value, curve.Points[0].GoverningPaGauge!.Value, 1.0);
        Assert.Equal(closed.AtSet.PressurePaAbs!.Value - 101_325, curve.Points[0].ExpectedPaGauge!.Value, 1.0);
        Assert.Equal(closed.WorstPaGauge.Value / 5e5, curve.Points[0].ShareOfRating!.Value, 1e-5);
    }

    [Fact]
    public void At_TheStepItself_IsThePointThatTheCurvePassesThrough()
    {
        var state = Last(Ethanol(ratingBar: 5, ethanolML: 10, celsius: 100));

        var at = SafeWindow.At(state, Policy.Default);
        var curve = SafeWindow.OverTemperature(state, Policy.Default, state.TemperatureK, state.TemperatureK + 10, 2).Points[0];

        Assert.Equal(curve.GoverningPaGauge!.Value, at.GoverningPaGauge!.Value, 1.0);
        Assert.Equal((curve.FlashMarginK, curve.SurfaceMarginK, curve.Safe), (at.FlashMarginK, at.SurfaceMarginK, at.Safe));
        Assert.NotNull(at.Model);
        Assert.NotEmpty(at.Sources);
    }

    [Fact]
    public void StatesOf_APlan_AreItsClosedAndHeatedSteps()
    {
        var plan = Ethanol(ratingBar: 5, ethanolML: 10, celsius: 100);

        var states = SafeWindow.StatesOf(plan, Policy.Default);

        Assert.NotEmpty(states);
        Assert.All(states, static state => Assert.True(state.Sealed || state.Heated));
        Assert.DoesNotContain(states, static state => state.Step.Action == StepAction.Charge);
    }

    [Fact]
    public void OverTemperature_EndOfTheWindow_IsQuietAndTheNextPointIsNot()
    {
        var plan = Ethanol(ratingBar: 5, ethanolML: 10, celsius: 100);
        var curve = SafeWindow.OverTemperature(Last(plan), Policy.Default, RoomK, 423.15, 66);

        Assert.NotNull(curve.SafeTo);
        var end = curve.Points.ToList().FindIndex(point => point.At == curve.SafeTo);
        // the results alone say that nothing is wrong
        Assert.Equal(["pressure.results"], Pressure(At(curve.Points[end].At)).Select(static finding => finding.Code), StringComparer.Ordinal);
        Assert.DoesNotContain(Pressure(At(curve.Points[end + 1].At)), static finding => finding.Code is "pressure.results");

        Plan At(double temperatureK) => plan with { Steps = [.. plan.Steps.SkipLast(1), plan.Steps[^1] with { TemperatureK = temperatureK }] };
    }

    [Fact]
    public void OverTemperature_EveryPoint_RisesWithTemperature()
    {
        var curve = SafeWindow.OverTemperature(Last(Ethanol(5, 10, 100)), Policy.Default, RoomK, 423.15, 100);

        Assert.All(curve.Points.Zip(curve.Points.Skip(1)), static pair => Assert.True(pair.First.GoverningPaGauge <= pair.Second.GoverningPaGauge));
    }

    [Fact]
    public void OverFill_MoreLiquid_LeavesNoSmallerPressureAndEndsFull()
    {
        var curve = SafeWindow.OverFill(Last(Ethanol(20, 10, 120)), Policy.Default, 0.1, 1, 46);

        Assert.Equal(0.5, curve.Current!.Value, 0.01);
        Assert.True(curve.Points[^1].LiquidFull);
        Assert.False(curve.Points[^1].Safe);
        Assert.True(curve.SafeTo < 0.95);
    }

    [Fact]
    public void WithVessel_HigherRating_ReachesHigher()
    {
        var state = Last(Ethanol(5, 10, 100));

        var low = SafeWindow.OverTemperature(state, Policy.Default, RoomK, 453.15, 40);
        var high = SafeWindow.WithVessel(state, Policy.Default, state.Vessel with { RatingPaGauge = 20e5 }, RoomK, 453.15, 40);

        Assert.True(high.SafeTo > low.SafeTo);
    }

    [Fact]
    public void WithSolvent_HigherBoiling_ReachesHigher()
    {
        var state = Last(Ethanol(5, 10, 100));

        var low = SafeWindow.OverTemperature(state, Policy.Default, RoomK, 453.15, 40);
        var high = SafeWindow.WithSolvent(state, Policy.Default, Substance("ethanol").Key, Substance("toluene").Known!, RoomK, 453.15, 40);

        Assert.True(high.SafeTo > low.SafeTo);
    }

    [Fact]
    public void OverTemperature_RatingUnknown_IsSafeNowhereWarm()
    {
        var state = Last(Ethanol(5, 10, 100));

        var curve = SafeWindow.WithVessel(state, Policy.Default, state.Vessel with { RatingPaGauge = null }, 333.15, 393.15, 20);

        Assert.Null(curve.SafeFrom);
        Assert.All(curve.Points, static point => Assert.Null(point.ShareOfRating));
    }

    /// <summary>
    /// 0.5 mol of nitrogen dioxide in some 190 mL. It boils at 21.2 °C and 1.013 bar, with 38.1 kJ/mol, and has its critical point at 158 °C (CRC Handbook): set to 20 °C, 35 °C
    /// with the overshoot, 2.0 bar of it press beside 1.2 bar of air and little solvent; set to 200 °C, all of it, as an ideal gas 107 bar, 325 with the solvents as vapour. The curve does
    /// not depend on where the step itself stands.
    /// </summary>
    [Fact]
    public void OverTemperature_GasThatCondenses_PressesMoreWhereItIsHot()
    {
        var cold = SafeWindow.OverTemperature(Last(Nitrogen(dioxideAtC: 20)), Policy.Default, RoomK, 473.15, 19);
        var hot = SafeWindow.OverTemperature(Last(Nitrogen(dioxideAtC: 150)), Policy.Default, RoomK, 473.15, 19);

        Assert.InRange(cold.Points[0].GoverningPaGauge!.Value, 2.0e5, 2.8e5);
        Assert.InRange(cold.Points[^1].GoverningPaGauge!.Value, 105e5, 330e5);
        Assert.All(cold.Points.Zip(cold.Points.Skip(1)), static pair => Assert.True(pair.First.GoverningPaGauge <= pair.Second.GoverningPaGauge));
        Assert.Equal(cold.Points.Select(static point => Math.Round(point.GoverningPaGauge!.Value)), hot.Points.Select(static point => Math.Round(point.GoverningPaGauge!.Value)));
        Assert.Equal(SafeWindow.At(Last(Nitrogen(dioxideAtC: 150)), Policy.Default).GoverningPaGauge!.Value, hot.Points[13].GoverningPaGauge!.Value, 1.0);
    }

    /// <summary>Flash point of ethanol 13 °C and autoignition 363 °C or above: handbooks of chemical safety, from memory; loose bounds.</summary>
    [Fact]
    public void OverTemperature_Ethanol_GivesItsMargins()
    {
        var point = SafeWindow.OverTemperature(Last(Ethanol(5, 10, 100)), Policy.Default, 373.15, 383.15, 2).Points[0];

        Assert.InRange(point.FlashMarginK!.Value, 9 - 100, 17 - 100);
        Assert.InRange(point.SurfaceMarginK!.Value, (0.8 * 360) - 116, (0.8 * 430) - 99);
    }

    [Theory]
    [InlineData(300, 300, 10)]
    [InlineData(300, 290, 10)]
    [InlineData(300, 400, 1)]
    [InlineData(300, 400, 5000)]
    [InlineData(double.NaN, 400, 10)]
    public void OverTemperature_AxisOutOfRange_Throws(double fromK, double toK, int points) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SafeWindow.OverTemperature(Last(Ethanol(5, 10, 100)), Policy.Default, fromK, toK, points));

    private static Plan Ethanol(double ratingBar, double ethanolML, double celsius) => new()
    {
        Materials = [Of("ethanol", "ethanol", ML(ethanolML), Role.Solvent)],
        Vessels = [Tube(20, ratingBar)],
        Steps =
        [
            Step("1", StepAction.Charge, "tube", 25, "ethanol"),
            Step("2", StepAction.Seal, "tube"),
            Step("3", StepAction.Heat, "tube", celsius) with { HeatSource = HeatSource.MetalBlock },
        ],
    };

    private static Plan Nitrogen(double dioxideAtC) => new()
    {
        Materials = [Of("acid", "nitric acid", Mmol(1000)), Of("alcohol", "ethanol", Mmol(500))],
        Vessels = [new Vessel { Id = "bottle", Kind = "bottle", VolumeM3 = 250e-6 }],
        Steps =
        [
            Step("1", StepAction.Charge, "bottle", 20, "acid"),
            Step("2", StepAction.Seal, "bottle", 20),
            Step("3", StepAction.Add, "bottle", 20, "alcohol"),
            Step("4", StepAction.Heat, "bottle", dioxideAtC),
        ],
    };

    private static ScreeningContext Context(Plan plan) => new(plan, Policy.Default, Walk.Follow(plan, Policy.Default));

    private static StepState Last(Plan plan) => Context(plan).Walk.States[^1];

    private static IEnumerable<Finding> Pressure(Plan plan) => new PressureScreen().Find(Context(plan)).Where(static finding => finding.Hazard == Hazard.Pressure);
}
