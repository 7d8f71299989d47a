using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>What the card at the bench says of one vessel in a fire, over the steps at which it is the same.</summary>
/// <param name="Vessel">Which.</param>
/// <param name="Steps">At which steps.</param>
/// <param name="Sealed">True while it is closed.</param>
/// <param name="Burning">What burns, in the order of the classes.</param>
/// <param name="Fit">Agents that serve all of it, by name; empty: none does.</param>
/// <param name="Never">Agents that must not be used, each with its reason.</param>
/// <param name="AtHand">Agents at hand by the procedure, by name; empty: it does not say.</param>
/// <param name="FirstAction">What to do first, in two or three sentences.</param>
public sealed record FireAction(
    string Vessel,
    IReadOnlyList<string> Steps,
    bool Sealed,
    IReadOnlyList<Burning> Burning,
    IReadOnlyList<string> Fit,
    IReadOnlyList<string> Never,
    IReadOnlyList<string> AtHand,
    string FirstAction)
{
    /// <summary>One for each stretch of steps of a vessel in which what burns, what must not be used and what to do first stay the same; in step order.</summary>
    internal static IReadOnlyList<FireAction> Of(Plan plan, WalkResult walk)
    {
        var atHand = plan.FireResponse?.Agents ?? [];
        return
        [
            .. FireScene.Of(walk)
                .GroupBy(scene => (scene.State.Vessel.Id, scene.Key, scene.State.Sealed, Words: Fire.FirstAction.For(scene.State, atHand)))
                .Select(group => Of(group.First(), StepIds.Of([.. group], static scene => scene.State), atHand, group.Key.Words)),
        ];
    }

    private static FireAction Of(FireScene scene, string[] steps, IReadOnlyList<Agent> atHand, string words) => new(
        scene.State.Vessel.Id,
        steps,
        scene.State.Sealed,
        [.. scene.Burning.Order()],
        [.. scene.NamesOf(ExtinguishingAgents.ThatFit(scene.Burning, scene.Bans))],
        scene.Never,
        [.. atHand.Select(ExtinguishingAgents.Name)],
        words);
}
