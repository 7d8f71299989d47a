using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>A closed vessel at one step: what goes into the model and what comes out.</summary>
internal sealed partial record ClosedAssessment
{
    private ModelState? atSet;

    // how many of the first words of NotCounted are about the contents alone
    private int uncounted;
    private string[]? leftOut;

    public required StepState State { get; init; }

    public required ClosedVesselInput Input { get; init; }

    /// <summary>What is shut in, sorted once for every temperature; without <see cref="HeldGas"/> where that alone leaves no number.</summary>
    public required SealedCharge Charge { get; init; }

    /// <summary>Everything that is shut in; <see cref="Charge"/> itself where nothing is left out of it.</summary>
    public required SealedCharge Whole { get; init; }

    /// <summary>True when a gas that the liquids hold is left out, and every pressure is a lower bound.</summary>
    public bool LeavesOutHeldGas => !ReferenceEquals(Whole, Charge);

    /// <summary>The governing answer at the set temperature; computed when first asked for, trials of a change never ask.</summary>
    public ModelState AtSet => atSet ??= Peak.TemperatureK == State.TemperatureK ? Worst : Charge.GoverningAt(State.TemperatureK);

    /// <summary>The pressure alone of <see cref="AtSet"/>, in Pa absolute.</summary>
    public double? SetPaAbs => Peak.TemperatureK == State.TemperatureK ? Peak.Pressure.PascalAbs : atSet is null ? Charge.PressureAt(State.TemperatureK).PascalAbs : atSet.PressurePaAbs;

    /// <summary>The immiscible bound at the set temperature, in Pa.</summary>
    public double? BoundPaAtSet => Charge.BoundPaAt(State.TemperatureK);

    /// <summary>The highest pressure between closing and the worst credible temperature.</summary>
    public required PeakPressure Peak { get; init; }

    /// <summary>The governing answer at the highest pressure.</summary>
    public ModelState Worst => Peak.State;

    /// <summary>Why the pressure at the worst credible temperature itself is not known; null when it is.</summary>
    public string? UnknownBecause => Peak.EndPressure is { PascalAbs: null, LiquidFull: false } ? Peak.AtEnd.Because : null;

    /// <summary>What the model could not count, in words; empty when nothing is missing.</summary>
    public required IReadOnlyList<string> NotCounted { get; init; }

    /// <summary>Everything left out, what the model itself lacks included.</summary>
    public IReadOnlyList<string> LeftOut => leftOut ??= Charge.MissingFrom(Peak.EndPressure.Model, State.WorstTemperatureK) is { Count: > 0 } missing
        ?
        [
            .. NotCounted.Concat(missing.Select(key =>
                $"{State.Contents.FirstOrDefault(content => string.Equals(content.Substance.Key, key, StringComparison.Ordinal))?.Substance.Name ?? key}, whose vapour pressure is not known")),
        ]
        : [.. NotCounted];

    /// <summary>True when a liquefied or charged gas of unknown amount is shut in, or one that is left out and did not come as a solution: cold or not, it may burst the vessel.</summary>
    public bool LeavesOutGas => State.Contents.Any(content =>
        content.Substance.Known is { PhaseAt298K: Phase.Gas } gas && (content.Mol is null || (LeavesOut(gas) && content.MassFraction is not < 1 && SealedCharge.IsHeld(gas))));

    private bool LeavesOut(Substance gas) => LeavesOutHeldGas && !Charge.Input.Contents.Any(content => string.Equals(content.Substance.Key, gas.Key, StringComparison.Ordinal));

    /// <summary>Gauge pressure in Pa at the worst temperature were a held gas that is left out to press as the pure one does, which no solution passes; null where none is left out, or where that is not known.</summary>
    public double? HeldBoundPaGauge => LeavesOutHeldGas && Whole.Input.Contents.Any(content => SealedCharge.IsHeld(content.Substance) && LeavesOut(content.Substance)) ? Whole.BoundPaAt(State.WorstTemperatureK) - AtmospherePa : null;

    /// <summary>Gas counted although the plan does not declare it, in words; null when none.</summary>
    public string? UndeclaredGas { get; init; }

    /// <summary>Materials that make that gas.</summary>
    public IReadOnlyList<string> GasMakers { get; init; } = [];

    /// <summary>The worst temperature is never below the set one, and a liquid only expands.</summary>
    public bool LiquidFull => Peak.Pressure.LiquidFull;

    /// <summary>The highest gauge pressure in Pa from closing to the worst credible temperature; null when full or where no model gives one.</summary>
    public double? WorstPaGauge => LiquidFull ? null : Peak.Pressure.PascalAbs - AtmospherePa;

    /// <summary>The assessment of a step; null for an open vessel, or one without a volume.</summary>
    /// <param name="state">The step.</param>
    /// <param name="earlier">An earlier step of the same vessel, whose work serves again where the same is shut in; null: none.</param>
    public static ClosedAssessment? Of(StepState state, ClosedAssessment? earlier = null)
    {
        if (state.Closing is null || state.Vessel.VolumeM3 is not { } volume)
        {
            return null;
        }

        var notCounted = new List<string>();
        var undeclared = GasEvolution.Undeclared(state);
        var saturated = !state.HeatedOrGassingSinceClosing && undeclared is null;
        var input = earlier is not null && ReferenceEquals(earlier.State.Contents, state.Contents) && ReferenceEquals(earlier.State.Closing, state.Closing)
            ? earlier.InputAgain(saturated, notCounted)
            : InputOf(state, volume, saturated, notCounted);
        var (condensed, upTo) = undeclared is { Mol: > 0 } ? CondensableGas.Condensed(state, Math.Max(0, volume - CondensedVolume(state.Contents))) : (0, "");
        var uncondensedMol = (state.GasEvolvedMol ?? 0) + (undeclared?.Mol ?? 0);
        input = With(input, Math.Max(0, uncondensedMol - condensed));
        var ofContents = notCounted.Count;
        if (state.GasEvolvedMol is null)
        {
            notCounted.Add("the gas a declared reaction makes");
        }

        if (undeclared is { Mol: null })
        {
            notCounted.Add(undeclared.Words);
        }

        if (condensed > 0)
        {
            notCounted.Add("gas that condenses as long as the heat of its making does not drive it off");
        }

        if (state.Closing is { AtAtmosphere: true } closing)
        {
            foreach (var (gas, _) in closing.Gases)
            {
                if (gas.Known?.BoilingPointK?.Value > closing.TemperatureK)
                {
                    notCounted.Add($"{gas.Name} that condensed before the vessel was closed");
                }
            }
        }

        var same = earlier is not null && earlier.Whole.Input.ShutsInTheSame(input) ? earlier : null;
        var whole = same?.Whole ?? new SealedCharge(input, earlier?.Whole);
        var fromK = ColdestK(state);
        // what is heated in the closed vessel passes every temperature from closing on
        var (charge, peak) = same is not null && ColdestK(same.State) == fromK && same.State.WorstTemperatureK == state.WorstTemperatureK
            ? (same.Charge, same.Peak)
            : HeldGas.PeakOf(whole, fromK, state.WorstTemperatureK);
        notCounted.AddRange(SolutionEquilibrium.Doubts(charge));
        notCounted.AddRange(HeldGas.Between(whole, charge));
        return new ClosedAssessment
        {
            State = state,
            // hotter than here more of it presses: what a change would allow counts all of it
            Input = With(charge.Input, uncondensedMol),
            Charge = charge,
            Whole = whole,
            Peak = peak,
            NotCounted = notCounted,
            UndeclaredGas = upTo.Length > 0 ? $"{undeclared!.Words}; {upTo}" : undeclared?.Words,
            uncounted = ofContents,
            GasMakers = undeclared?.Materials ?? [],
        };
    }

    // the same contents shut in by the same closing
    private ClosedVesselInput InputAgain(bool saturated, List<string> notCounted)
    {
        notCounted.AddRange(NotCounted.Take(uncounted));
        saturated = saturated && State.Closing!.AtAtmosphere && Whole.Input.FillPressurePaAbs <= State.Closing.PressurePaAbs;
        return Whole.Input.SaturatedAtClosing == saturated ? Whole.Input : Whole.Input with { SaturatedAtClosing = saturated };
    }

    private static ClosedVesselInput With(ClosedVesselInput input, double gasEvolvedMol) => input.GasEvolvedMol == gasEvolvedMol ? input : input with { GasEvolvedMol = gasEvolvedMol };

    private static double ColdestK(StepState state) => Math.Min(state.Closing!.TemperatureK, state.TemperatureK);
}
