using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Pressure;

public sealed class HighestOnTheWayTests
{
    /// <summary>Water, ethyl acetate and methanol: the liquid splits when cool, where each adds its own vapour, and mixes when hot.</summary>
    [Fact]
    public void Screen_HotterHold_NeverReachesLessThanACoolerOne()
    {
        double? before = null;
        for (var celsius = 60; celsius <= 190; celsius += 5)
        {
            var pressure = Highest(celsius);
            Assert.True(before is not { } earlier || pressure >= earlier, $"{celsius} °C: {pressure} after {before}");
            before = pressure;
        }
    }

    /// <summary>The pressure a step passes through on the way up counts, not only the one at the end.</summary>
    [Fact]
    public void Highest_OverTheWay_IsAtLeastEveryPressurePassed()
    {
        var context = Context(170);
        var assessment = context.Closed(context.Walk.States[^1])!;
        for (var celsius = 20; celsius <= 185; celsius++)
        {
            var passed = ClosedVessel.At(assessment.Input, celsius + 273.15).Governing.PressurePaAbs!.Value - 101_325;
            // the hand-over lies between whole degrees
            Assert.True(assessment.WorstPaGauge >= passed * (1 - 1e-9), $"{celsius} °C: {passed}");
        }
    }

    private static double Highest(double celsius)
    {
        var context = Context(celsius);
        return context.Closed(context.Walk.States[^1])!.WorstPaGauge!.Value;
    }

    private static ScreeningContext Context(double celsius)
    {
        var plan = new Plan
        {
            Materials = [Of("water", "water", Mmol(30)), Of("ester", "ethyl acetate", Mmol(10)), Of("methanol", "methanol", Mmol(10))],
            Vessels = [new Vessel { Id = "tube", Kind = "steel autoclave", VolumeM3 = 20e-6, RatingPaGauge = 40e5 }],
            Steps =
            [
                Step("1", StepAction.Charge, "tube", 20, "water", "ester", "methanol"),
                Step("2", StepAction.Seal, "tube"),
                Step("3", StepAction.Heat, "tube", celsius) with { HeatSource = HeatSource.MetalBlock },
            ],
        };
        return new ScreeningContext(plan, Policy.Default, Walk.Follow(plan, Policy.Default));
    }
}
