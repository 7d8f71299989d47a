using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// Agents that the procedure lists against those that stand at its place, and both against what burns: an agent that is not there serves nobody, and one
/// that is there and must not be used is the first that somebody grabs. Rules: docs/methods/fire-classes.md.
/// </summary>
internal static class AgentsAtPlace
{
    public static IEnumerable<Finding> Find(IReadOnlyList<FireScene> scenes, IReadOnlyList<Agent> listed, Place? place)
    {
        if (place is not { Agents.Count: > 0 } || listed.Count == 0)
        {
            yield break;
        }

        var absent = listed.Where(agent => !place.Agents.Contains(agent)).Distinct().ToArray();
        if (absent.Length > 0)
        {
            yield return NotThere(scenes, listed, place, absent);
        }

        foreach (var finding in Unlisted(scenes, listed, place))
        {
            yield return finding;
        }
    }

    /// <summary>Agents that serve all of a scene; one that calls only for care still serves.</summary>
    private static IReadOnlyList<Agent> Serves(FireScene scene) => ExtinguishingAgents.ThatFit(scene.Burning, [.. scene.Bans.Where(static ban => ban.Severity <= Severity.Warning)]);

    private static Finding NotThere(IReadOnlyList<FireScene> scenes, IReadOnlyList<Agent> listed, Place place, Agent[] absent)
    {
        // what the procedure relies on and cannot have: where even the listed ones serve nothing, that is its own finding
        FireScene[] bare = [.. scenes.Where(scene => Serves(scene) is var serves && listed.Any(serves.Contains) && !place.Agents.Any(serves.Contains))];
        var concerned = bare.Length > 0 ? bare : scenes;
        var are = absent.Length == 1 ? "is" : "are";
        var there = $"{Wording.Capital(Wording.List(absent.Select(ExtinguishingAgents.Name)))} {are} listed and not among what stands at {Named(place)} ({Wording.List(place.Agents.Select(ExtinguishingAgents.Name))})";
        return new Finding
        {
            Code = "fire.agent-not-there",
            Hazard = Hazard.Fire,
            Severity = bare.Length > 0 ? Severity.Warning : Severity.Notice,
            Steps = StepIds.Of(concerned, static one => one.State),
            Vessel = concerned.Select(static one => one.State.Vessel.Id).Distinct(StringComparer.Ordinal).Skip(1).Any() ? null : concerned[0].State.Vessel.Id,
            Statement = bare.Length > 0
                ? $"{there}, where nothing serves a fire of {FireClass.Words(bare[0].Burning)} in “{bare[0].State.Vessel.Id}”: bring it before that step, or work where it stands."
                : $"{there}: bring it, or enter it at the place; what stands there serves what burns.",
            ClearedBy = Offer(scenes, listed, place),
        };
    }

    /// <summary>To list only what is there clears it where that still serves everything.</summary>
    private static IReadOnlyList<Clearing> Offer(IReadOnlyList<FireScene> scenes, IReadOnlyList<Agent> listed, Place place)
    {
        var kept = listed.Where(place.Agents.Contains).ToArray();
        return kept.Length > 0 && scenes.All(scene => kept.Any(Serves(scene).Contains))
            ? [Clearing.OfList("extinguishing agents", "/fireResponse/agents", kept.Distinct().Select(ExtinguishingAgents.Name))]
            : [];
    }

    /// <summary>What stands there, is not listed, and must not be used on what burns here.</summary>
    private static IEnumerable<Finding> Unlisted(IReadOnlyList<FireScene> scenes, IReadOnlyList<Agent> listed, Place place)
    {
        foreach (var group in scenes.Where(scene => scene.Bans.Any(Forbidden)).GroupBy(static scene => scene.State.Vessel.Id, StringComparer.Ordinal))
        {
            FireScene[] concerned = [.. group];
            var bans = concerned.SelectMany(static scene => scene.Bans).Where(Forbidden)
                .GroupBy(static ban => ban.Agent)
                .Select(static same => same.OrderBy(static ban => ban.Severity).ThenBy(static ban => ban.Family, StringComparer.Ordinal).First())
                .OrderBy(static ban => ban.Agent)
                .ToArray();
            // beside one that serves and is there, whoever has read the card takes the right one
            var served = Array.TrueForAll(concerned, scene => Serves(scene) is var serves && listed.Any(agent => serves.Contains(agent) && place.Agents.Contains(agent)));
            yield return new Finding
            {
                Code = "fire.agent-beside",
                Hazard = Hazard.Fire,
                Severity = served ? Severity.Notice : Severity.Caution,
                Steps = StepIds.Of(concerned, static one => one.State),
                Vessel = group.Key,
                Statement = $"{Wording.Capital(Wording.List(bans.Select(static ban => ExtinguishingAgents.Name(ban.Agent))))} {(bans.Length == 1 ? "stands" : "stand")} at {Named(place)} and must not be used on what is in “{group.Key}”: {string.Join("; ", bans.Select(static ban => $"{ExtinguishingAgents.Name(ban.Agent)} on {ban.Family}, {ban.Why}"))}. Whoever works there has to know which agent to take.",
                Evidence = [.. bans.Select(static ban => ban.AsEvidence)],
            };
        }

        bool Forbidden(AgentBan ban) => ban.Severity <= Severity.Warning && place.Agents.Contains(ban.Agent) && !listed.Contains(ban.Agent);
    }

    private static string Named(Place place) => place.Name is { } name ? $"“{name}”" : "the place";
}
