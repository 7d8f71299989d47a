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
        string[] namesAtHand = [.. atHand.Select(ExtinguishingAgents.Name)];
        var groups = Grouping.Of(Scenes(walk, atHand), static _ => true, AreOne);
        return Array.ConvertAll(groups, group => Of(group[0].Scene, StepIds.Of(group, static one => one.Scene.State), namesAtHand, notThere, group[0].Words, group[0].Bath));
    }

    private readonly record struct Worded(FireScene Scene, bool Bath, string Words);

    private static Worded[] Scenes(WalkResult walk, IReadOnlyList<Agent> atHand)
    {
        var hot = HotBath.Steps(walk);
        var scenes = FireScene.OrHotBathOrExplosive(walk);
        var worded = new Worded[scenes.Count];
        for (var index = 0; index < worded.Length; index++)
        {
            // as long as nothing changes, the words of an earlier step serve again
            var (scene, bath) = (scenes[index], hot.Contains(scenes[index].State));
            var same = index - 1;
            while (same >= 0 && !(worded[same].Bath == bath && SayTheSame(worded[same].Scene, scene)))
            {
                same--;
            }

            worded[index] = new Worded(scene, bath, same < 0 ? Fire.FirstAction.For(scene, atHand, bath) : worded[same].Words);
        }

        return worded;
    }

    /// <summary>The words of a closed vessel, and those of what needs no air, name what is in it; those of an open one say only which agents serve.</summary>
    private static bool SayTheSame(FireScene one, FireScene other) =>
        one.State.Sealed == other.State.Sealed
        && ((ReferenceEquals(one.State.Contents, other.State.Contents) && ReferenceEquals(one.Fuel, other.Fuel) && ReferenceEquals(one.State.CanHold, other.State.CanHold))
            || (!one.State.Sealed && one.Fuel.IsLike(other.Fuel) && one.Fuel.DissolvesFoam == other.Fuel.DissolvesFoam && one.Fuel.Lithium == other.Fuel.Lithium && one.Fuel.GasFlows == other.Fuel.GasFlows
                && !NeedsNoAir.Is(one.State) && !NeedsNoAir.Is(other.State)));

    private static IReadOnlyList<string> With(IReadOnlyList<string> never, bool bath) => bath ? [.. never, HotBath.Never] : never;

    private static bool AreOne(Worded one, Worded other) =>
        string.Equals(one.Scene.State.Vessel.Id, other.Scene.State.Vessel.Id, StringComparison.Ordinal) && one.Scene.Fuel.IsLike(other.Scene.Fuel)
        && one.Scene.State.Sealed == other.Scene.State.Sealed && one.Bath == other.Bath && string.Equals(one.Words, other.Words, StringComparison.Ordinal);

    private static FireAction Of(FireScene scene, string[] steps, string[] atHand, string[] notThere, string words, bool bath)
    {
        var noAir = NeedsNoAir.Is(scene.State);
        var fit = noAir ? [] : scene.Burning.Count == 0 ? HotBath.OnOilBeside(scene.Bans) : ExtinguishingAgents.ThatFit(scene.Burning, scene.Bans);
        var nearby = noAir ? NeedsNoAir.Beside(scene.Burning, scene.Bans) : [];
        return new FireAction(
            scene.State.Vessel.Id,
            steps,
            scene.State.Sealed,
            FireClass.InOrder(scene.Burning, bath),
            scene.NamesOf(bath ? HotBath.Without(fit) : fit),
            scene.NamesOf(bath ? HotBath.Without(nearby) : nearby),
            // that keeping off air is no use is said of all of it
            With(noAir ? scene.NeverBeyondANotice : scene.Never, bath),
            atHand,
            notThere,
            words);
    }
}
