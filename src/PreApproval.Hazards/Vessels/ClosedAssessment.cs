using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>A closed vessel at one step: what goes into the model and what comes out.</summary>
internal sealed record ClosedAssessment
{
    private ModelState? atSet;
    private string[]? leftOut;

    public required StepState State { get; init; }

    public required ClosedVesselInput Input { get; init; }

    /// <summary>What is shut in, sorted once for every temperature; without <see cref="HeldGas"/> where that alone leaves no number.</summary>
    public required SealedCharge Charge { get; init; }

    /// <summary>Everything that is shut in; <see cref="Charge"/> itself where nothing is left out of it.</summary>
    public required SealedCharge Whole { get; init; }

    /// <summary>The governing answer at the set temperature; computed when first asked for, trials of a change never ask.</summary>
    public ModelState AtSet => atSet ??= Peak.TemperatureK == State.TemperatureK ? Worst : Charge.GoverningAt(State.TemperatureK);

    /// <summary>The immiscible bound at the set temperature, in Pa.</summary>
    public double? BoundPaAtSet => Charge.BoundPaAt(State.TemperatureK);

    /// <summary>The highest pressure between closing and the worst credible temperature.</summary>
    public required PeakPressure Peak { get; init; }

    /// <summary>The governing answer at the highest pressure.</summary>
    public ModelState Worst => Peak.State;

    /// <summary>Why the pressure at the worst credible temperature itself is not known; null when it is.</summary>
    public string? UnknownBecause => Peak.AtEnd is { PressurePaAbs: null, Phase: not VesselPhase.LiquidFull, Because: var because } ? because : null;

    /// <summary>What the model could not count, in words; empty when nothing is missing.</summary>
    public required IReadOnlyList<string> NotCounted { get; init; }

    /// <summary>Everything left out, what the model itself lacks included.</summary>
    public IReadOnlyList<string> LeftOut => leftOut ??=
    [
        .. NotCounted.Concat(Charge.MissingFrom(Peak.AtEnd, State.WorstTemperatureK).Select(key =>
            $"{State.Contents.FirstOrDefault(content => string.Equals(content.Substance.Key, key, StringComparison.Ordinal))?.Substance.Name ?? key}, whose vapour pressure is not known")),
    ];

    /// <summary>True when a liquefied or charged gas of unknown amount is shut in: cold or not, it may burst the vessel.</summary>
    public bool LeavesOutGas => State.Contents.Any(static content => content is { Mol: null, Substance.Known: { PhaseAt298K: Phase.Gas } });

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
        var input = InputOf(state, volume, !state.HeatedOrGassingSinceClosing && undeclared is null, notCounted) with
        {
            GasEvolvedMol = (state.GasEvolvedMol ?? 0) + (undeclared?.Mol ?? 0),
        };
        var (condensed, upTo) = undeclared is { Mol: > 0 } ? CondensableGas.Condensed(state, Math.Max(0, volume - CondensedVolume(state.Contents))) : (0, "");
        var uncondensedMol = input.GasEvolvedMol;
        input = input with { GasEvolvedMol = Math.Max(0, uncondensedMol - condensed) };
        if (state.GasEvolvedMol is null)
        {
            notCounted.Add("the gas a declared reaction makes");
        }

        if (undeclared is { Mol: null })
        {
            notCounted.Add(undeclared.Words);
        }

        var same = earlier is not null && earlier.Whole.Input.ShutsInTheSame(input) ? earlier : null;
        var whole = same?.Whole ?? new SealedCharge(input);
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
            GasMakers = undeclared?.Materials ?? [],
        };
    }

    private static double ColdestK(StepState state) => Math.Min(state.Closing!.TemperatureK, state.TemperatureK);

    /// <summary>The model's input for a closed step; what it cannot take is named in <paramref name="notCounted"/>.</summary>
    internal static ClosedVesselInput InputOf(StepState state, double volumeM3, bool saturated, List<string> notCounted)
    {
        var closing = state.Closing!;
        var contents = Counted(state.Contents, notCounted);
        var gasThen = Math.Max(0, volumeM3 - CondensedVolume(closing.Contents));
        var gasNow = volumeM3 - CondensedVolume(state.Contents);
        // what is added to a closed vessel compresses the gas already in it; never below what was shut in
        var compression = gasNow > 0 ? Math.Max(1, gasThen / gasNow) : 1;
        return new ClosedVesselInput
        {
            VesselVolumeM3 = volumeM3,
            FillTemperatureK = closing.TemperatureK,
            FillPressurePaAbs = closing.PressurePaAbs * compression,
            SaturatedAtClosing = saturated && closing.AtAtmosphere && compression <= 1,
            Headspace = [.. closing.Gases.Select(static pair => (AsSubstance(pair.Gas), pair.Fraction))],
            Contents = contents,
        };
    }

    private static List<ChargedSubstance> Counted(IReadOnlyList<Content> contents, List<string> notCounted)
    {
        var counted = new List<ChargedSubstance>();
        foreach (var group in contents.GroupBy(static content => content.Substance.Key, StringComparer.Ordinal).OrderBy(static group => group.Key, StringComparer.Ordinal))
        {
            var name = group.First().Substance.Name;
            if (group.First().Substance.Known is not { } known)
            {
                notCounted.Add($"{name}, which is not in the catalogue");
            }
            else if (known is { PhaseAt298K: Phase.Gas, UnifacGroups: null } && group.Any(static content => content.MassFraction is < 1) && !IsInKnownSolution(known, contents))
            {
                // the pure gas's vapour pressure would overstate a solution many times over
                notCounted.Add($"{name} given off by its solution");
            }
            else if (group.Any(static content => content.Mol is null))
            {
                notCounted.Add($"{name}, whose amount is not known");
            }
            else if (group.OrderBy(static content => content.Mol).Sum(static content => content.Mol!.Value) is > 0 and var mol)
            {
                counted.Add(new ChargedSubstance(known, mol));
            }
        }

        return counted;
    }

    /// <summary>True where the partial pressure over water, or a bound over other liquids, is on file.</summary>
    private static bool IsInKnownSolution(Substance gas, IReadOnlyList<Content> contents) => contents.Any(content =>
        content is { Mol: > 0, Substance.Known: { PhaseAt298K: Phase.Liquid, Involatile: false, UnifacGroups: not null } solvent }
        && (solvent.Key is Mixtures.SolutionVapour.Water ? Mixtures.SolutionVapour.HasAqueous(gas.Key) : SealedCharge.IsHeld(gas) && Mixtures.SolutionVapour.HasOrganic(gas.Key)));

    private static double CondensedVolume(IReadOnlyList<Content> contents) =>
        contents.Where(static content => content.Substance.Known is { PhaseAt298K: not Phase.Gas })
            .OrderBy(static content => content.Substance.Key, StringComparer.Ordinal)
            .Sum(static content => content.Mol * content.Substance.Known!.Identity.MolarMassKgPerMol / content.Substance.Known.DensityKgPerM3?.Value ?? 0);

    private static Substance AsSubstance(PlanSubstance gas) => gas.Known ?? new Substance
    {
        Identity = new Identity { Name = gas.Name },
        PhaseAt298K = Phase.Gas,
    };
}
