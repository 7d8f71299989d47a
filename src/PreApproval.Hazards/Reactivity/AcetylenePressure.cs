using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Reactivity;

/// <summary>Acetylene decomposes by itself under pressure: at most 15 psi gauge (29 CFR 1910.253(a)(2)).</summary>
internal static class AcetylenePressure
{
    private const string Acetylene = "74-86-2";

    /// <summary>15 pounds-force per square inch gauge, in Pa absolute.</summary>
    private const double LimitPaAbs = AtmospherePa + (15 * 6_894.757);

    public static IEnumerable<Finding> Find(ScreeningContext context) =>
        context.Walk.States.Where(static state => state.Closing is { PressurePaAbs: > LimitPaAbs } closing && (closing.Gases.Any(static pair => IsAcetylene(pair.Gas)) || IsAcetylene(state.Step.Gas)))
            .GroupBy(static state => state.Vessel.Id, StringComparer.Ordinal)
            .Select(static group =>
            {
                var worst = group.MaxBy(static state => state.Closing!.PressurePaAbs)!;
                return new Finding
                {
                    Code = "energetic.acetylene-under-pressure",
                    Hazard = Hazard.Energetic,
                    Severity = Severity.Danger,
                    Steps = [.. group.Select(static state => state.Step.Id).Distinct(StringComparer.Ordinal)],
                    Vessel = group.Key,
                    Materials = MaterialIds.Of(group.SelectMany(static state => state.Contents).Where(static content => IsAcetylene(content.Substance))),
                    Statement = $"Acetylene in “{group.Key}” stands at {Wording.BarGauge(worst.Closing!.PressurePaAbs - AtmospherePa)}: above 1.03 bar(g) it can decompose explosively without any air. Work below that, or with a substitute.",
                    Evidence =
                    [
                        new Evidence
                        {
                            Name = "pressure of acetylene", Value = Wording.InBarGauge(worst.Closing.PressurePaAbs), Unit = "bar(g)", Limit = Wording.InBarGauge(LimitPaAbs),
                            Model = "pressure as stated", Sources = References.Full(["cfr-1910-253"]), Quality = Quality.Measured,
                        },
                    ],
                };
            });

    private static bool IsAcetylene(PlanSubstance? gas) => string.Equals(gas?.Known?.Identity.Cas ?? gas?.Key, Acetylene, StringComparison.Ordinal);
}
