using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// A closed vessel whose volume nobody states: what is shut in has no upper bound, so the vessel counts as unable to hold it, as one without a rating does. docs/methods/pressure-screen.md.
/// </summary>
internal static class UnknownVolume
{
    /// <summary>The finding of one closing; null where nothing raises its pressure, or a stated charge of gas is all there is and the rating holds it.</summary>
    /// <param name="states">The closed steps of one closing at one temperature.</param>
    /// <param name="policy">Its shares of the rating.</param>
    public static Finding? Of(StepState[] states, Policy policy)
    {
        var raised = Array.ConvertAll(states, state => Raised(state, policy));
        var worst = Array.FindIndex(raised, static words => words is not null);
        var at = Array.FindIndex(states, static state => state.Heated) is var heated && worst >= 0 ? states[worst] : heated >= 0 ? states[heated] : null;
        return at is null ? null : new Finding
        {
            Code = "pressure.unknown-volume",
            Hazard = Hazard.Pressure,
            Severity = worst >= 0 ? Severity.Danger : Severity.Warning,
            Steps = StepIds.Of([.. states.Where((state, index) => state.Heated || raised[index] is not null)]),
            Vessel = at.Vessel.Id,
            Materials = PressureScreen.Volatiles(at),
            Statement = $"“{at.Vessel.Id}” is closed and {(worst >= 0 ? raised[worst] : $"heated, up to {Wording.Celsius(at.WorstTemperatureK)},")} in step {at.Step.Id}; its volume is not stated, so the pressure has no upper bound and the vessel counts as unable to hold it.",
        };
    }

    /// <summary>What makes pressure in the closed vessel beyond warm air, in words; null where nothing does.</summary>
    private static string? Raised(StepState state, Policy policy)
    {
        if (state.GasEvolvedMol is null or > 0)
        {
            return "holds gas that a declared reaction makes";
        }

        if (GasEvolution.Undeclared(state) is { Mol: null or > 0 } gas)
        {
            return $"can hold {gas.Words},";
        }

        if (state.Closing is { AtAtmosphere: false, Gases.Count: > 0 } charged && charged.PressurePaAbs > AtmospherePa && !IsHeld(state, charged, policy))
        {
            return $"charged with gas to {Wording.BarGauge(charged.PressurePaAbs - AtmospherePa)}";
        }

        foreach (var content in state.Contents)
        {
            if (content is not { Mol: null or > 0, Spent: false, Substance.Known: { } known })
            {
                continue;
            }

            if (known.PhaseAt298K == Phase.Gas && content.MassFraction is not < 1)
            {
                return $"holds {known.Identity.Name}, a gas at room temperature,";
            }

            if (known is { PhaseAt298K: Phase.Liquid, Involatile: false, BoilingPointK.Value: var boils } && state.WorstTemperatureK >= boils)
            {
                return $"can reach {Wording.Celsius(state.WorstTemperatureK)}, above the boiling point of {known.Identity.Name} ({Wording.Celsius(boils)}),";
            }
        }

        return null;
    }

    /// <summary>A stated charge into an unheated vessel of stated rating presses what it presses in any volume.</summary>
    private static bool IsHeld(StepState state, Closing charged, Policy policy) =>
        !state.Heated && ReferenceEquals(state.Contents, charged.Contents)
        && charged.PressurePaAbs - AtmospherePa <= GoverningRating.For(state).QuietLimitPaGauge(state.Vessel, policy);
}
