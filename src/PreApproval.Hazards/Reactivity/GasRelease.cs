using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// Gas that leaves a closed vessel when a step vents, opens, purges or pumps it: the gas it was closed or pressurised under, gas charged into it, and what
/// declared reactions and encounters have made in it since; and the gas of a balloon over what is opened. All of it counts, what reacted or stays dissolved is not subtracted.
/// Vapour of liquids and gas given off by solutions are not in it. docs/methods/gas.md.
/// </summary>
internal static class GasRelease
{
    /// <summary>What each opening or venting lets out; steps that let nothing out are not in it.</summary>
    public static IEnumerable<(StepState State, IReadOnlyList<OpenGas> Gases)> Of(ScreeningContext context)
    {
        for (var index = 0; index < context.Walk.States.Count; index++)
        {
            var state = context.Walk.States[index];
            OpenGas[] gases = state.ClosedBefore is { Closing: not null } closed ? [.. Summed(FromClosed(closed, state, context))]
                : state.Step.Action == StepAction.Open && Before(context.Walk.States, index) is { } vented ? [.. FromBalloon(vented), .. LeftBehind(vented)]
                // a pump or a purge sends what it takes out of a closed vessel into the same air
                : state.Step.Action is StepAction.Evacuate or StepAction.Purge && Before(context.Walk.States, index) is { Closing: not null } pumped ? [.. Summed(FromClosed(pumped, state, context))]
                : [];
            if (gases.Length > 0)
            {
                yield return (state, gases);
            }
        }
    }

    /// <summary>The vessel of a state as the step before left it.</summary>
    private static StepState? Before(IReadOnlyList<StepState> states, int index)
    {
        var before = index - 1;
        while (before >= 0 && !string.Equals(states[before].Vessel.Id, states[index].Vessel.Id, StringComparison.Ordinal))
        {
            before--;
        }

        return before < 0 ? null : states[before];
    }

    private static IEnumerable<OpenGas> FromClosed(StepState closed, StepState opening, ScreeningContext context)
    {
        var closing = closed.Closing!;
        var (condensed, _) = FillLimits.CondensedM3(closing.Contents);
        // what takes room of unknown size leaves less for the gas: the most counts
        var room = closed.Vessel.VolumeM3 is { } volume ? Math.Max(volume - condensed, 0) : (double?)null;
        foreach (var (gas, fraction) in closing.Gases)
        {
            yield return new OpenGas(gas.Name, gas.Known, room is { } m3 ? IdealGas.Mol(fraction * closing.PressurePaAbs, m3, closing.TemperatureK) : null, "what was shut in", []);
        }

        foreach (var content in closed.ContentsAfter)
        {
            if (content is { Spent: false, Substance.Known: { PhaseAt298K: Phase.Gas } known } && content.MassFraction is not < 1 && Boils(known, opening.TemperatureK))
            {
                yield return new OpenGas(content.Substance.Name, known, content.Mol, "what was charged", content.MaterialId is { } id ? [id] : []);
            }
        }

        // a pump takes out what had formed before
        var since = context.Walk.States.Where(state => state.Index >= closing.StepIndex && state.Index < opening.Index && string.Equals(state.Vessel.Id, closed.Vessel.Id, StringComparison.Ordinal) && state.Sealed).ToArray();
        since = since[(Array.FindLastIndex(since, static state => state.Step.Action == StepAction.Evacuate) + 1)..];
        foreach (var state in since)
        {
            foreach (var made in state.GasMade)
            {
                yield return new OpenGas(made.Gas.Name, made.Gas.Known, made.Mol, "the declared reaction", [.. state.Reactions.SelectMany(static reaction => reaction.Consumes).Select(static one => one.MaterialId).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)]);
            }
        }

        foreach (var gas in Undeclared(since, context))
        {
            yield return gas;
        }
    }

    /// <summary>The encounters' gas: of the same gas from one partner at several steps, the most.</summary>
    private static IEnumerable<OpenGas> Undeclared(StepState[] since, ScreeningContext context)
    {
        var gassing = context.Happenings.Where(static happening => happening.Meeting.Encounter.Gas is not null).Select(static happening => happening.State).ToHashSet(ReferenceEqualityComparer.Instance);
        return gassing.Count == 0 ? [] : since.Where(gassing.Contains).SelectMany(GasEvolution.UndeclaredMeetings)
            .SelectMany(static entry => entry.Meeting.Encounter.Gases.Select(share => (share.Name, Gasser: Gasser(entry.Meeting), Mol: entry.Mol * share.MolPerEquivalent / entry.Meeting.Encounter.GasPerEquivalent, entry.Meeting)))
            .GroupBy(static made => (made.Name, made.Gasser))
            .Select(static group => group.MaxBy(static made => made.Mol ?? double.MaxValue))
            .Select(static made => new OpenGas(made.Name, OpenGas.Known(made.Name, made.Meeting), made.Mol, made.Gasser, Findings.Ids(made.Meeting.Everyone)));
    }

    private static string Gasser(Meeting meeting) => meeting.Gassing is [var one, ..] ? one.Substance.Name : meeting.Gasser;

    private static IEnumerable<OpenGas> FromBalloon(StepState vented)
    {
        if (vented is { Vent: Closure.Balloon, Headspace: Headspace.Gas { Substance: var gas } })
        {
            var room = VentScreen.BalloonM3 + Math.Max((vented.Vessel.VolumeM3 ?? 0) - FillLimits.CondensedM3(vented.ContentsAfter).M3, 0);
            yield return new OpenGas(gas.Name, gas.Known, IdealGas.Mol(AtmospherePa, room, vented.TemperatureK), "the balloon", []);
        }
    }

    /// <summary>What a venting leaves over the contents at the pressure of the room, and the opening lets out.</summary>
    private static IEnumerable<OpenGas> LeftBehind(StepState vented)
    {
        if (vented is { Step.Action: StepAction.Vent, Sealed: false, Vent: null, Headspace: Headspace.Gas { Substance: var gas } })
        {
            var room = vented.Vessel.VolumeM3 is { } volume ? Math.Max(volume - FillLimits.CondensedM3(vented.ContentsAfter).M3, 0) : (double?)null;
            yield return new OpenGas(gas.Name, gas.Known, room is { } m3 ? IdealGas.Mol(AtmospherePa, m3, vented.TemperatureK) : null, "what a venting leaves", []);
        }
    }

    /// <summary>Each gas once, its amounts added up; a part of unknown amount leaves the known one as the least.</summary>
    private static IEnumerable<OpenGas> Summed(IEnumerable<OpenGas> gases) => gases.Where(static gas => gas.Mol is null or > 0)
        .GroupBy(static gas => gas.Gas?.Key ?? gas.Name, StringComparer.Ordinal)
        .OrderBy(static group => group.Key, StringComparer.Ordinal)
        .Select(static group => group.First() with
        {
            Mol = group.Aggregate((double?)0, static (sum, gas) => sum + gas.Mol),
            CountedMol = group.Any(static gas => gas.Mol is not null) ? group.Sum(static gas => gas.Mol ?? 0) : null,
            Materials = [.. group.SelectMany(static gas => gas.Materials).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
        });

    private static bool Boils(Substance gas, double temperatureK) => VapourPressure.At(gas, temperatureK) is not { Volatility: Volatility.Condensable, Pascal: <= AtmospherePa };
}
