using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Handling;

/// <summary>
/// Skeletal nickel, and a hydrogenation catalyst that has stood under hydrogen, on a filter through which air is drawn: as the solvent goes it lights itself, and the vapour. Docs: docs/methods/special-handling.md.
/// </summary>
public sealed class SpentCatalystScreen : IScreen
{
    private const string Catalysts = "hydrogenation catalysts";
    private const string Nickel = "7440-02-0";
    private const string Hydrogen = "1333-74-0";

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var states = context.Walk.States;
        for (var index = 0; index < states.Count; index++)
        {
            if (states[index].Step.Action == StepAction.Filter && Catalyst(states, index) is { } catalyst && Describe(states, index, catalyst) is { } finding)
            {
                yield return finding;
            }
        }
    }

    private static Finding? Describe(IReadOnlyList<StepState> states, int index, Content catalyst)
    {
        var state = states[index];
        if (state.Headspace is not Headspace.Air || IsKeptWet(states, index))
        {
            return null;
        }

        // air is what stands over a filter of which nothing is said, and what most say nothing of
        var stated = state.Step.Headspace is Headspace.Air;
        var skeletal = IsSkeletal(states[index], catalyst);
        var dried = skeletal ? DriedIn(states, index) : null;
        return new Finding
        {
            Code = "fire.catalyst-filtered-in-air",
            Hazard = Hazard.Fire,
            Severity = dried is not null ? Severity.Danger : stated || skeletal ? Severity.Warning : Severity.Notice,
            Steps = dried is null ? [state.Step.Id] : [state.Step.Id, dried],
            Vessel = state.Vessel.Id,
            Materials = Findings.Ids([catalyst]),
            Statement = $"{Wording.Capital(skeletal ? "skeletal nickel" : $"{catalyst.Substance.Name} that has stood under hydrogen")} is filtered off {(stated ? "in air" : "and no inert gas is stated")} in step {state.Step.Id}{(dried is null ? "" : $" and dried in step {dried}")}: sucked dry it lights itself and the solvent. Filter it under nitrogen or argon, keep liquid over the cake, and wash it wet with water into a labelled container.",
            Evidence = [],
        };
    }

    /// <summary>The catalyst on the filter that can light itself; null: none.</summary>
    private static Content? Catalyst(IReadOnlyList<StepState> states, int index)
    {
        var contents = states[index].Contents;
        for (var place = 0; place < contents.Count; place++)
        {
            if (contents[place] is { Mol: null or > 0 } content && FamilyTable.Default.Of(content.Substance, content.MassFraction).Contains(Catalysts, StringComparer.Ordinal)
                && (IsSkeletal(states[index], content) || StoodUnderHydrogen(states, index, content)))
            {
                return content;
            }
        }

        return null;
    }

    /// <summary>Nickel that came with water: the slurry of the skeletal metal holds hydrogen from its making.</summary>
    private static bool IsSkeletal(StepState state, Content content)
    {
        if (content.Substance.Key is not Nickel)
        {
            return false;
        }

        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (state.Contents[index].Substance.Key is SolutionVapour.Water && content.MaterialId is { } id && string.Equals(state.Contents[index].MaterialId, id, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    private static bool StoodUnderHydrogen(IReadOnlyList<StepState> states, int until, Content catalyst)
    {
        for (var index = 0; index < until; index++)
        {
            if (HoldsHydrogen(states[index]) && Holds(states[index], catalyst))
            {
                return true;
            }
        }

        return false;
    }

    private static bool HoldsHydrogen(StepState state)
    {
        if (state.Headspace is Headspace.Gas { Substance.Key: Hydrogen } || state.Step.Gas?.Key is Hydrogen)
        {
            return true;
        }

        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (state.Contents[index].Substance.Key is Hydrogen)
            {
                return true;
            }
        }

        return false;
    }

    private static bool Holds(StepState state, Content catalyst)
    {
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (string.Equals(state.Contents[index].Substance.Key, catalyst.Substance.Key, StringComparison.Ordinal) && string.Equals(state.Contents[index].MaterialId, catalyst.MaterialId, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Water goes onto the cake in the next step of the vessel.</summary>
    private static bool IsKeptWet(IReadOnlyList<StepState> states, int index)
    {
        if (Next(states, index) is not { } next)
        {
            return false;
        }

        var water = false;
        for (var place = 0; place < next.Contents.Count; place++)
        {
            water |= next.Contents[place].Substance.Key is SolutionVapour.Water && next.Step.Materials.Any(use => string.Equals(use.MaterialId, next.Contents[place].MaterialId, StringComparison.Ordinal));
        }

        return water;
    }

    private static StepState? Next(IReadOnlyList<StepState> states, int index)
    {
        for (var later = index + 1; later < states.Count; later++)
        {
            if (string.Equals(states[later].Vessel.Id, states[index].Vessel.Id, StringComparison.Ordinal) && states[later].Index != states[index].Index)
            {
                return states[later];
            }
        }

        return null;
    }

    private static string? DriedIn(IReadOnlyList<StepState> states, int index)
    {
        for (var later = index + 1; later < states.Count; later++)
        {
            if (states[later].Step.Action == StepAction.Dry && string.Equals(states[later].Vessel.Id, states[index].Vessel.Id, StringComparison.Ordinal))
            {
                return states[later].Step.Id;
            }
        }

        return null;
    }
}
