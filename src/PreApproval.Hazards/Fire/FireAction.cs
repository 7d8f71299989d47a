using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>What the card at the bench says of one vessel in a fire, over the steps at which it is the same.</summary>
/// <param name="Vessel">Which.</param>
/// <param name="Steps">At which steps.</param>
/// <param name="Sealed">True while it is closed.</param>
/// <param name="Burning">What burns, in the order of the classes.</param>
/// <param name="Fit">Agents that serve all of it, by name; empty: none does.</param>
/// <param name="Nearby">Where it needs no air, so that nothing puts it out: agents for a small fire near it that has not reached it, by name; else empty.</param>
/// <param name="Never">Agents that must not be used, each with its reason.</param>
/// <param name="AtHand">Agents that stand at the place, else those that the procedure lists, by name; empty: neither is known.</param>
/// <param name="NotThere">Agents that the procedure lists and that do not stand at its place, by name.</param>
/// <param name="FirstAction">What to do first, in two or three sentences.</param>
public sealed record FireAction(
    string Vessel,
    IReadOnlyList<string> Steps,
    bool Sealed,
    IReadOnlyList<Burning> Burning,
    IReadOnlyList<string> Fit,
    IReadOnlyList<string> Nearby,
    IReadOnlyList<string> Never,
    IReadOnlyList<string> AtHand,
    IReadOnlyList<string> NotThere,
    string FirstAction)
{
    /// <summary>One for each stretch of steps of a vessel in which what burns, what must not be used and what to do first stay the same; in step order.</summary>
    internal static IReadOnlyList<FireAction> Of(Plan plan, WalkResult walk)
    {
        var listed = plan.FireResponse?.Agents ?? [];
        var atHand = plan.Place is { Agents: { Count: > 0 } there } ? there : listed;
        string[] notThere = [.. listed.Where(agent => !atHand.Contains(agent)).Distinct().Select(ExtinguishingAgents.Name)];
        var hot = HotBath.Steps(walk);
        return
        [
            .. FireScene.OrHotBathOrExplosive(walk)
                .GroupBy(scene => (scene.State.Vessel.Id, scene.Key, scene.State.Sealed, Bath: hot.Contains(scene.State), Words: Fire.FirstAction.For(scene.State, atHand, hot.Contains(scene.State))))
                .Select(group => Of(group.First(), StepIds.Of([.. group], static scene => scene.State), atHand, notThere, group.Key.Words, group.Key.Bath)),
        ];
    }

    private static FireAction Of(FireScene scene, string[] steps, IReadOnlyList<Agent> atHand, string[] notThere, string words, bool bath)
    {
        var noAir = NeedsNoAir.Is(scene.State);
        var fit = noAir ? [] : scene.Burning.Count == 0 ? HotBath.OnOilBeside(scene.Bans) : ExtinguishingAgents.ThatFit(scene.Burning, scene.Bans);
        var nearby = noAir ? NeedsNoAir.Beside(scene.Burning, scene.Bans) : [];
        return new FireAction(
            scene.State.Vessel.Id,
            steps,
            scene.State.Sealed,
            [.. scene.Burning.Order(), .. bath ? [Fire.Burning.HotOil] : Array.Empty<Burning>()],
            [.. scene.NamesOf(bath ? HotBath.Without(fit) : fit)],
            [.. scene.NamesOf(bath ? HotBath.Without(nearby) : nearby)],
            // that keeping off air is no use is said of all of it
            [.. noAir ? scene.NeverBeyondANotice : scene.Never, .. bath ? [HotBath.Never] : Array.Empty<string>()],
            [.. atHand.Select(ExtinguishingAgents.Name)],
            notThere,
            words);
    }
}
