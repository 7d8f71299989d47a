using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>What burns in a vessel, the same for every step that leaves it as it is.</summary>
/// <param name="Burning">What burns.</param>
/// <param name="Bans">Agents that must not be used on it, and why.</param>
internal sealed record FireFuel(IReadOnlySet<Burning> Burning, IReadOnlyList<AgentBan> Bans)
{
    /// <summary>What burns in a vessel at a step.</summary>
    public static FireFuel Of(StepState state) => new(BurningMaterials.Of(state.Contents, state.WorstTemperatureK), ExtinguishingAgents.BansFor(state.Contents))
    {
        DissolvesFoam = ExtinguishingAgents.DissolvesFoam(state.Contents),
        Lithium = HasLithium(state.Contents),
        GasFlows = HasFreeGas(state.Contents),
    };

    /// <summary>True where something here breaks ordinary foam.</summary>
    public bool DissolvesFoam { get; private init; }

    /// <summary>True where lithium metal is there, on which not every class D powder serves.</summary>
    public bool Lithium { get; private init; }

    /// <summary>True where a gas that burns is there as such: one that came dissolved, formaldehyde in water for instance, has no tap to shut.</summary>
    public bool GasFlows { get; private init; }

    private static bool HasFreeGas(IReadOnlyList<Content> contents)
    {
        for (var index = 0; index < contents.Count; index++)
        {
            if (contents[index] is { Spent: false, MassFraction: not < 1 } && BurningMaterials.Of(contents[index].Substance) == Fire.Burning.Gas)
            {
                return true;
            }
        }

        return false;
    }

    private static bool HasLithium(IReadOnlyList<Content> contents)
    {
        for (var index = 0; index < contents.Count; index++)
        {
            if (!contents[index].Spent && string.Equals(contents[index].Substance.Key, "7439-93-2", StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>True for fuels on which the same agents fit and the same must not be used.</summary>
    public bool IsLike(FireFuel other)
    {
        if (ReferenceEquals(this, other))
        {
            return true;
        }

        if (!(ReferenceEquals(Burning, other.Burning) || Burning.SetEquals(other.Burning)) || Bans.Count != other.Bans.Count)
        {
            return false;
        }

        for (var index = 0; index < Bans.Count; index++)
        {
            if (Bans[index].Agent != other.Bans[index].Agent || !string.Equals(Bans[index].Family, other.Bans[index].Family, StringComparison.Ordinal))
            {
                return false;
            }
        }

        return true;
    }
}

/// <summary>A vessel at a step at which something in it burns.</summary>
/// <param name="State">The vessel at the step.</param>
/// <param name="Fuel">What burns.</param>
internal readonly record struct FireScene(StepState State, FireFuel Fuel)
{
    public IReadOnlySet<Burning> Burning => Fuel.Burning;

    public IReadOnlyList<AgentBan> Bans => Fuel.Bans;

    /// <summary>Agents that must not be used, those of one reason together, with the reason.</summary>
    public IReadOnlyList<string> Never => Words(Bans);

    /// <summary>The same without those that only do not help.</summary>
    public IReadOnlyList<string> NeverBeyondANotice => Words([.. Bans.Where(static ban => ban.Severity < Severity.Notice)]);

    private static IReadOnlyList<string> Words(IReadOnlyList<AgentBan> bans) => bans.Count == 0 ? [] :
    [
        .. bans.GroupBy(static ban => ban.Agent)
            .Select(static group => group.OrderBy(static ban => ban.Severity).First())
            .GroupBy(static ban => ban.Reason, StringComparer.Ordinal)
            .Select(static group => $"{Wording.List(group.Select(static ban => ban.Agent).Order().Select(ExtinguishingAgents.Name))} ({group.Key})"),
    ];

    /// <summary>Every step at which something burns.</summary>
    public static IReadOnlyList<FireScene> Of(WalkResult walk) => Those(walk.Scenes, static scene => scene.Burning.Count > 0);

    /// <summary>The same, and those at which only the bath does, or what a fire sets off though nothing else burns.</summary>
    public static IReadOnlyList<FireScene> OrHotBathOrExplosive(WalkResult walk) =>
        Those(walk.Scenes, static scene => scene.Burning.Count > 0 || HotBath.Is(scene.State) || NeedsNoAir.IsExplosive(scene.State));

    /// <summary>What burns at each of the states, in their order, something or not.</summary>
    public static FireScene[] All(IReadOnlyList<StepState> states)
    {
        var scenes = new FireScene[states.Count];
        for (var index = 0; index < scenes.Length; index++)
        {
            // what has not changed since an earlier step burns as it did there
            var state = states[index];
            var same = index - 1;
            while (same >= 0 && !(ReferenceEquals(scenes[same].State.Contents, state.Contents) && MeltsAlike(scenes[same].State, state)))
            {
                same--;
            }

            scenes[index] = new FireScene(state, same < 0 ? FireFuel.Of(state) : scenes[same].Fuel);
        }

        return scenes;
    }

    /// <summary>The list itself where all count, as in most plans.</summary>
    private static IReadOnlyList<FireScene> Those(IReadOnlyList<FireScene> scenes, Func<FireScene, bool> count) => scenes.All(count) ? scenes : [.. scenes.Where(count)];

    private static bool MeltsAlike(StepState one, StepState other) =>
        Math.Max(one.WorstTemperatureK, BurningMaterials.LiquefiableK) == Math.Max(other.WorstTemperatureK, BurningMaterials.LiquefiableK);

    /// <summary>Names of agents; where something here breaks ordinary foam, only one made for it serves.</summary>
    public string[] NamesOf(IReadOnlyList<Agent> agents)
    {
        var names = agents.Count == 0 ? [] : new string[agents.Count];
        for (var index = 0; index < names.Length; index++)
        {
            names[index] = ExtinguishingAgents.NameOn(agents[index], Fuel.DissolvesFoam);
        }

        return names;
    }
}
