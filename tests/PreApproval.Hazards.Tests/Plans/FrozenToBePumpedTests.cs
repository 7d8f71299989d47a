using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using static PreApproval.Hazards.Tests.Plans.PlanOf;

namespace PreApproval.Hazards.Tests.Plans;

public sealed class FrozenToBePumpedTests
{
    /// <summary>Degassing by freezing, pumping and thawing, and freeze-drying (laboratory textbooks): toluene melts at −95 °C, water at 0 °C (CRC Handbook). What is added to what is frozen does not mix.</summary>
    [Theory]
    [InlineData("toluene", -196, "pumped", false)]
    [InlineData("water", -78, "pumped", false)]
    [InlineData("water", -78, "left", true)]
    [InlineData("water", -78, "added", true)]
    public void Screen_Frozen_IsNamedUnlessItIsPumped(string liquid, double celsius, string then, bool named)
    {
        var plan = new Plan
        {
            Materials = [Of("liquid", liquid, ML(20)), Of("salt", "sodium chloride", G(1))],
            Vessels = [new Vessel { Id = "tube", Kind = "thick-walled glass tube", VolumeM3 = 100e-6 }],
            Steps =
            [
                Step("1", StepAction.Charge, "tube", 20, "liquid"),
                Step("2", StepAction.Seal, "tube"),
                then is "added" ? Step("3", StepAction.Cool, "tube", celsius, "salt") : Step("3", StepAction.Cool, "tube", celsius),
                then is "left" ? Step("4", StepAction.Stir, "tube") : Step("4", StepAction.Evacuate, "tube"),
                Step("5", StepAction.Stir, "tube", celsius + 5),
            ],
        };

        var steps = Screener.Screen(plan, Policy.Default).Findings.Where(static finding => finding.Code is "data.frozen").SelectMany(static finding => finding.Steps);

        Assert.Equal(named, steps.Contains("3", StringComparer.Ordinal));
    }
}
