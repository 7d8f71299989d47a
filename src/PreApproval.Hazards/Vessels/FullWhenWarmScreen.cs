using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// Liquid shut in cold that fills its vessel when it warms to 55 °C, as the rules for carriage measure a package. What the plan itself heats further is the matter of the pressure screen.
/// Grounds: docs/methods/ratings.md.
/// </summary>
public sealed class FullWhenWarmScreen : IScreen
{
    /// <summary>Temperature in K at which no closed package may be full of liquid (ADR 4.1.1.4; 49 CFR 173.24a(d); from memory).</summary>
    public const double WarmK = 328.15;

    /// <summary>A hot room or a sunny sill, in K (40 °C): where that is enough, it is no matter of carriage. Common practice, no source.</summary>
    public const double HotRoomK = 313.15;

    private const double NearlyFull = 0.9;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var vessel in context.Walk.ByVessel)
        {
            foreach (var closed in Grouping.Of(vessel, static state => state.Sealed, static (one, other) => one.Closing!.StepIndex == other.Closing!.StepIndex))
            {
                var full = closed.Chosen(state => IsFull(state, context));
                if (full.Length == 0)
                {
                    continue;
                }

                // put away, or closed for good
                var left = full.Chosen(state => state.Step.Action == StepAction.Store || ReferenceEquals(state, vessel[^1]));
                yield return Describe(left.Length > 0 ? left : full, left.Length > 0, context);
            }
        }
    }

    private static bool IsFull(StepState state, ScreeningContext context)
    {
        if (state.WorstTemperatureK >= WarmK || state.Vessel.VolumeM3 is not { } volume || !HasLiquid(state) || context.Closed(state) is not { LiquidFull: false } one)
        {
            return false;
        }

        return one.Charge.LiquidM3At(WarmK) > NearlyFull * volume && one.Charge.IsFullAt(WarmK);
    }

    private static bool HasLiquid(StepState state)
    {
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (state.Contents[index] is { Mol: > 0, Substance.Known.PhaseAt298K: Phase.Liquid })
            {
                return true;
            }
        }

        return false;
    }

    private Finding Describe(StepState[] states, bool left, ScreeningContext context)
    {
        var state = states.MaxBy(state => context.Closed(state)!.Charge.LiquidM3At(WarmK))!;
        var one = context.Closed(state)!;
        var fullK = Math.Min(ClosedResult.FullK(one) ?? WarmK, WarmK);
        var needed = one.Charge.LiquidM3At(WarmK);
        var finding = new Finding
        {
            Code = "pressure.full-when-warm",
            Hazard = Hazard.Pressure,
            Severity = !left ? Severity.Notice : fullK <= HotRoomK ? Severity.Warning : Severity.Caution,
            Steps = StepIds.Of(states),
            Vessel = state.Vessel.Id,
            Materials = MaterialIds.Of(state.Contents.Where(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid })),
            Statement = $"“{state.Vessel.Id}” is {(left ? "left closed" : "closed")} so full that its liquid fills it from {Wording.Celsius(fullK)} on{(left ? "" : " should it get that warm")}; a closed vessel is not to be full below 55 °C, and one that is full bursts with the next few kelvin.",
            Evidence =
            [
                Confinement.Findings.Number("temperature at which the liquid fills the vessel", Wording.InCelsius(fullK), "°C", Wording.InCelsius(WarmK), "thermal expansion of the liquid at saturation", Quality.Estimated, "adr-filling") with { Worse = WorseWhen.Lower },
                Confinement.Findings.Number("room that the contents take at 55 °C", needed * 1e6, "mL", state.Vessel.VolumeM3!.Value * 1e6, "molar volumes of the saturated liquids at 55 °C", Quality.Estimated, "adr-filling"),
            ],
        };
        return context.IsTrial ? finding : finding with
        {
            ClearedBy = Confinement.Findings.Tried(this, finding, context, new Clearing("vessel volume", string.Create(CultureInfo.InvariantCulture, $"/vessels/{state.VesselIndex}/volume"), Math.Floor(needed * 1e6) + 1, "mL", null)),
        };
    }
}
