using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>A vessel at a step at which something in it burns.</summary>
/// <param name="State">The vessel at the step.</param>
/// <param name="Burning">What burns.</param>
/// <param name="Bans">Agents that must not be used on it, and why.</param>
internal sealed record FireScene(StepState State, IReadOnlySet<Burning> Burning, IReadOnlyList<AgentBan> Bans)
{
    /// <summary>The same for scenes of one vessel in which the same agents fit and the same must not be used.</summary>
    public string Key { get; } = string.Join('+', Burning.Order()) + "|" + string.Join('+', Bans.Select(static ban => ban.Family + ban.Agent));

    /// <summary>Agents that must not be used, those of one reason together, with the reason.</summary>
    public IReadOnlyList<string> Never => Bans.Count == 0 ? [] :
    [
        .. Bans.GroupBy(static ban => ban.Agent)
            .Select(static group => group.OrderBy(static ban => ban.Severity).First())
            .GroupBy(static ban => ban.Reason, StringComparer.Ordinal)
            .Select(static group => $"{Wording.List(group.Select(static ban => ban.Agent).Order().Select(ExtinguishingAgents.Name))} ({group.Key})"),
    ];

    /// <summary>Every step at which something burns.</summary>
    public static FireScene[] Of(WalkResult walk) => [.. All(walk).Where(static scene => scene.Burning.Count > 0)];

    /// <summary>The same, and those at which only the bath does.</summary>
    public static IEnumerable<FireScene> OrHotBath(WalkResult walk) => All(walk).Where(static scene => scene.Burning.Count > 0 || HotBath.Is(scene.State));

    private static List<FireScene> All(WalkResult walk)
    {
        var scenes = new List<FireScene>(walk.States.Count);
        foreach (var state in walk.States)
        {
            // what has not changed since an earlier step burns as it did there
            var same = scenes.Count - 1;
            while (same >= 0 && !ReferenceEquals(scenes[same].State.Contents, state.Contents))
            {
                same--;
            }

            scenes.Add(same < 0 ? new FireScene(state, BurningMaterials.Of(state.Contents), ExtinguishingAgents.BansFor(state.Contents)) : scenes[same] with { State = state });
        }

        return scenes;
    }

    /// <summary>Names of agents; where something here breaks ordinary foam, only one made for it serves.</summary>
    public IEnumerable<string> NamesOf(IReadOnlyList<Agent> agents)
    {
        var foam = agents.Contains(Agent.Foam) && ExtinguishingAgents.DissolvesFoam(State.Contents) ? "alcohol-resistant foam" : ExtinguishingAgents.Name(Agent.Foam);
        return agents.Select(agent => agent == Agent.Foam ? foam : ExtinguishingAgents.Name(agent));
    }
}
