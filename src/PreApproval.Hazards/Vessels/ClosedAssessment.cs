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
    public bool LiquidFull => Worst.Phase == VesselPhase.LiquidFull;

    /// <summary>The highest gauge pressure in Pa from closing to the worst credible temperature; null when full or where no model gives one.</summary>
    public double? WorstPaGauge => LiquidFull ? null : Worst.PressurePaAbs - AtmospherePa;

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
        var input = (earlier is not null && ReferenceEquals(earlier.State.Contents, state.Contents) && ReferenceEquals(earlier.State.Closing, state.Closing)
            ? earlier.InputAgain(saturated, notCounted)
            : InputOf(state, volume, saturated, notCounted)) with
        {
            GasEvolvedMol = (state.GasEvolvedMol ?? 0) + (undeclared?.Mol ?? 0),
        };
        var (condensed, upTo) = undeclared is { Mol: > 0 } ? CondensableGas.Condensed(state, Math.Max(0, volume - CondensedVolume(state.Contents))) : (0, "");
        var uncondensedMol = input.GasEvolvedMol;
        input = input with { GasEvolvedMol = Math.Max(0, uncondensedMol - condensed) };
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
            Input = charge.Input with { GasEvolvedMol = uncondensedMol },
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
        return Whole.Input with { SaturatedAtClosing = saturated && State.Closing!.AtAtmosphere && Whole.Input.FillPressurePaAbs <= State.Closing.PressurePaAbs };
    }

    private static double ColdestK(StepState state) => Math.Min(state.Closing!.TemperatureK, state.TemperatureK);

    /// <summary>The model's input for a closed step; what it cannot take is named in <paramref name="notCounted"/>.</summary>
    internal static ClosedVesselInput InputOf(StepState state, double volumeM3, bool saturated, List<string> notCounted)
    {
        var closing = state.Closing!;
        var contents = Counted(state.Contents, notCounted);
        var compression = Compression(state, volumeM3);
        return new ClosedVesselInput
        {
            VesselVolumeM3 = volumeM3,
            FillTemperatureK = closing.TemperatureK,
            FillPressurePaAbs = closing.PressurePaAbs * compression,
            SaturatedAtClosing = saturated && closing.AtAtmosphere && compression <= 1,
            Headspace = Headspace(closing.Gases),
            Contents = contents,
        };
    }

    /// <summary>What is added to a closed vessel compresses the gas already in it; never below what was shut in.</summary>
    private static double Compression(StepState state, double volumeM3)
    {
        if (ReferenceEquals(state.Contents, state.Closing!.Contents))
        {
            return 1;
        }

        var gasThen = Math.Max(0, volumeM3 - CondensedVolume(state.Closing.Contents));
        var gasNow = volumeM3 - CondensedVolume(state.Contents);
        return gasNow > 0 ? Math.Max(1, gasThen / gasNow) : 1;
    }

    private static List<ChargedSubstance> Counted(IReadOnlyList<Content> contents, List<string> notCounted)
    {
        var counted = new List<ChargedSubstance>(contents.Count);
        foreach (var first in Firsts(contents))
        {
            var name = first.Substance.Name;
            if (first.Substance.Known is not { } known)
            {
                notCounted.Add($"{name}, which is not in the catalogue");
            }
            else if (known is { PhaseAt298K: Phase.Gas, UnifacGroups: null } && contents.Any(content => IsOf(first, content) && content.MassFraction is < 1) && !IsInKnownSolution(known, contents))
            {
                // the pure gas's vapour pressure would overstate a solution many times over
                notCounted.Add($"{name} given off by its solution");
            }
            else if (MolOf(first, contents) is not { } mol)
            {
                notCounted.Add($"{name}, whose amount is not known");
            }
            else if (mol > 0)
            {
                counted.Add(new ChargedSubstance(known, mol));
            }
        }

        return counted;
    }

    /// <summary>The first content of each substance, in the order of the keys.</summary>
    private static List<Content> Firsts(IReadOnlyList<Content> contents)
    {
        var firsts = new List<Content>(contents.Count);
        for (var index = 0; index < contents.Count; index++)
        {
            var at = 0;
            while (at < firsts.Count && string.CompareOrdinal(firsts[at].Substance.Key, contents[index].Substance.Key) < 0)
            {
                at++;
            }

            if (at == firsts.Count || !IsOf(firsts[at], contents[index]))
            {
                firsts.Insert(at, contents[index]);
            }
        }

        return firsts;
    }

    /// <summary>Amount in mol of a substance, summed from the least; null when one amount is not known.</summary>
    private static double? MolOf(Content substance, IReadOnlyList<Content> contents)
    {
        Span<double> amounts = stackalloc double[Math.Min(contents.Count, 64)];
        amounts = contents.Count > amounts.Length ? new double[contents.Count] : amounts;
        var count = 0;
        for (var index = 0; index < contents.Count; index++)
        {
            if (IsOf(substance, contents[index]))
            {
                if (contents[index].Mol is not { } mol)
                {
                    return null;
                }

                amounts[count++] = mol;
            }
        }

        return OrderedSum.Of(amounts[..count]);
    }

    private static bool IsOf(Content one, Content other) => string.Equals(one.Substance.Key, other.Substance.Key, StringComparison.Ordinal);

    /// <summary>True where the partial pressure over water, or a bound over other liquids, is on file.</summary>
    private static bool IsInKnownSolution(Substance gas, IReadOnlyList<Content> contents) => contents.Any(content =>
        content is { Mol: > 0, Substance.Known: { PhaseAt298K: Phase.Liquid, Involatile: false, UnifacGroups: not null } solvent }
        && (solvent.Key is Mixtures.SolutionVapour.Water ? Mixtures.SolutionVapour.HasAqueous(gas.Key) : SealedCharge.IsHeld(gas) && Mixtures.SolutionVapour.HasOrganic(gas.Key)));

    private static double CondensedVolume(IReadOnlyList<Content> contents) => FillLimits.CondensedM3(contents).M3;

    private static (Substance Gas, double Fraction)[] Headspace(IReadOnlyList<(PlanSubstance Gas, double Fraction)> gases)
    {
        var headspace = new (Substance Gas, double Fraction)[gases.Count];
        for (var index = 0; index < headspace.Length; index++)
        {
            headspace[index] = (AsSubstance(gases[index].Gas), gases[index].Fraction);
        }

        return headspace;
    }

    private static Substance AsSubstance(PlanSubstance gas) => gas.Known ?? new Substance
    {
        Identity = new Identity { Name = gas.Name },
        PhaseAt298K = Phase.Gas,
    };
}
