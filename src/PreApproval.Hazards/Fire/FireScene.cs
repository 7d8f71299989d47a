using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>What burns in a vessel, the same for every step that leaves it as it is.</summary>
/// <param name="Burning">What burns.</param>
/// <param name="Bans">Agents that must not be used on it, and why.</param>
internal sealed record FireFuel(IReadOnlySet<Burning> Burning, IReadOnlyList<AgentBan> Bans)
{
    private string? key;

    /// <summary>The same for fuels on which the same agents fit and the same must not be used.</summary>
    public string Key => key ??= string.Join('+', Burning.Order()) + "|" + string.Join('+', Bans.Select(static ban => ban.Family + ban.Agent));

    /// <summary>True where <see cref="Key"/> is the same.</summary>
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

    public string Key => Fuel.Key;

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
    public static List<FireScene> Of(WalkResult walk)
    {
        var scenes = All(walk);
        scenes.RemoveAll(static scene => scene.Burning.Count == 0);
        return scenes;
    }

    /// <summary>The same, and those at which only the bath does, or what a fire sets off though nothing else burns.</summary>
    public static List<FireScene> OrHotBathOrExplosive(WalkResult walk)
    {
        var scenes = All(walk);
        scenes.RemoveAll(static scene => scene.Burning.Count == 0 && !HotBath.Is(scene.State) && !NeedsNoAir.IsExplosive(scene.State));
        return scenes;
    }

    private static List<FireScene> All(WalkResult walk)
    {
        var scenes = new List<FireScene>(walk.States.Count);
        for (var index = 0; index < walk.States.Count; index++)
        {
            // what has not changed since an earlier step burns as it did there
            var state = walk.States[index];
            var same = scenes.Count - 1;
            while (same >= 0 && !(ReferenceEquals(scenes[same].State.Contents, state.Contents) && MeltsAlike(scenes[same].State, state)))
            {
                same--;
            }

            scenes.Add(new FireScene(state, same < 0 ? new FireFuel(BurningMaterials.Of(state.Contents, state.WorstTemperatureK), ExtinguishingAgents.BansFor(state.Contents)) : scenes[same].Fuel));
        }

        return scenes;
    }

    private static bool MeltsAlike(StepState one, StepState other) =>
        Math.Max(one.WorstTemperatureK, BurningMaterials.LiquefiableK) == Math.Max(other.WorstTemperatureK, BurningMaterials.LiquefiableK);

    /// <summary>Names of agents; where something here breaks ordinary foam, only one made for it serves.</summary>
    public IEnumerable<string> NamesOf(IReadOnlyList<Agent> agents)
    {
        var dissolves = agents.Contains(Agent.Foam) && ExtinguishingAgents.DissolvesFoam(State.Contents);
        return agents.Select(agent => ExtinguishingAgents.NameOn(agent, dissolves));
    }
}
