using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// What to do first when a vessel burns, for the card at the bench: which agent, what never, when to leave. Two or three plain sentences. It
/// replaces no fire training and no rule of the place.
/// </summary>
public static class FirstAction
{
    /// <summary>The first action at a step, from the agents that fit.</summary>
    public static string For(StepState state) => For(state, []);

    /// <summary>The first action at a step; agents at hand that fit are named before others that fit.</summary>
    /// <param name="state">The vessel at the step.</param>
    /// <param name="onHand">Agents at hand there; empty: not known.</param>
    public static string For(StepState state, IReadOnlyList<Agent> onHand)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(onHand);
        return For(new FireScene(state, FireFuel.Of(state)), onHand, HotBath.Is(state));
    }

    /// <summary>The same, where an earlier step may have left the bath hot.</summary>
    internal static string For(FireScene scene, IReadOnlyList<Agent> onHand, bool hotBath)
    {
        var (state, burning) = (scene.State, scene.Burning);
        var bath = hotBath ? $" {HotBath.FirstAction(scene, onHand)}" : "";
        if (NeedsNoAir.Is(state) && (!state.Sealed || burning.Count == 0))
        {
            return $"{Away(scene, onHand, hotBath)}{bath}{Never(scene, hotBath)}";
        }

        if (burning.Count == 0 && bath.Length > 0)
        {
            return $"Nothing in the vessel is known to burn.{bath}{Never(scene, hotBath)}";
        }

        if (burning.Count == 0)
        {
            return "Nothing in it is known to burn. If something near it burns, fight that only if it is small; else leave and raise the alarm.";
        }

        if (state.Sealed)
        {
            return $"Do not go near a closed vessel in a fire: leave, close the door and raise the alarm. Tell the fire service what is in it ({Wording.List(Contents(state))}).{bath}{Never(scene, hotBath)}";
        }

        var (before, agents, after) = Act(scene, onHand, hotBath);
        return $"{before}{agents}{after}{bath}{Never(scene, hotBath)} {Leave(burning)}";
    }

    /// <summary>What needs no air is nobody's to put out; an agent is for what has not reached it.</summary>
    private static string Away(FireScene scene, IReadOnlyList<Agent> onHand, bool hotBath)
    {
        var state = scene.State;
        var fit = NeedsNoAir.Beside(scene.Burning, scene.Bans);
        Agent[] beside = [.. hotBath ? HotBath.Without(fit) : fit];
        var chosen = Array.FindAll(beside, onHand.Contains);
        var named = chosen.Length > 0 ? chosen : beside;
        return $"Do not fight a fire that has reached {Wording.List(NeedsNoAir.NamesIn(state))}: it burns or decomposes without air, and no agent puts that out. Leave, close the door and raise the alarm."
            + (named.Length == 0 ? "" : $" Only a small fire near it that has not reached it: {Wording.List(named.Select(agent => Named(agent, scene.Fuel)))}.");
    }

    private static (string Before, ListWords Agents, string After) Act(FireScene scene, IReadOnlyList<Agent> onHand, bool hotBath)
    {
        // an agent that calls only for care still serves, after those that call for none
        var (burning, bans) = (scene.Burning, scene.Bans);
        var fit = ExtinguishingAgents.ThatFit(burning, bans);
        if (fit.Count == 0)
        {
            fit = ExtinguishingAgents.ThatFit(burning, [.. bans.Where(static ban => ban.Severity <= Severity.Warning)]);
        }

        fit = hotBath ? HotBath.Without(fit) : fit;
        Agent[] all = [.. fit];
        var chosen = all.Chosen(onHand.Contains);
        var named = chosen.Length > 0 ? chosen : all;
        var lacking = onHand.Count > 0 && chosen.Length == 0;
        if (named.Length == 0)
        {
            return ("Do not fight it: no agent serves everything in it.", new ListWords([]), "");
        }

        var words = Wording.List(Array.ConvertAll(named, agent => Named(agent, scene.Fuel)));
        return burning.Contains(Burning.Metal) ? ("Cover it completely with ", words, Lacking(", gently, and leave it covered.", lacking))
            : burning.Contains(Burning.Gas) && scene.Fuel.GasFlows ? ("Shut off the gas first; do not put the flame out while gas still flows. What burns around it: ", words, Lacking(".", lacking))
            : ("If it is no larger than the vessel, turn off the heat, close the sash or cover it, and use ", words, Lacking(".", lacking));
    }

    private static string Lacking(string end, bool lacking) => lacking ? end + " None of the agents at hand may be used on it." : end;

    private static string Named(Agent agent, FireFuel fuel) => agent switch
    {
        Agent.ClassDPowder when fuel.Lithium => "class D powder of the copper or graphite kind (sodium chloride is poor on lithium)",
        Agent.DrySand => "dry sand",
        Agent.Foam when fuel.DissolvesFoam => "alcohol-resistant foam",
        Agent.Water or Agent.Foam or Agent.CarbonDioxide or Agent.DryPowder or Agent.ClassDPowder or Agent.WetChemical or Agent.FireBlanket => ExtinguishingAgents.Name(agent),
    };

    private static string Never(FireScene scene, bool hotBath)
    {
        if (scene.Bans.Count == 0 && !hotBath)
        {
            return "";
        }

        var never = scene.Bans.Where(static ban => ban.Severity <= Severity.Warning)
            .Select(static ban => ban.Agent)
            .Concat(hotBath ? [Agent.Water, Agent.Foam] : [])
            .Distinct()
            .Order()
            .Select(ExtinguishingAgents.Name)
            .ToArray();
        return never.Length == 0 ? "" : $" Never {string.Join(", ", never[..^1])}{(never.Length > 1 ? " or " : "")}{never[^1]}.";
    }

    private static string Leave(IReadOnlySet<Burning> burning) =>
        burning.Contains(Burning.Metal) ? "Leave and raise the alarm if it is not covered at the first try, or if solvent around it burns."
        : "Leave and raise the alarm at once if it spreads, if one extinguisher does not end it, or if a closed vessel or a cylinder is near.";

    private static List<string> Contents(StepState state)
    {
        var names = new List<string>(state.Contents.Count);
        foreach (var content in state.Contents)
        {
            if (!content.Spent && BurningMaterials.Of(content.Substance) is not null)
            {
                names.AddInOrder(content.Substance.Name);
            }
        }

        return names;
    }
}
