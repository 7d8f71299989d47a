using System.Collections.Frozen;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// Water where the heating itself forbids it: on the hot oil of a bath, and on electrical heating that is live. Both matter only where water or foam is listed or
/// stands at the place. Rules: docs/methods/fire-classes.md.
/// </summary>
internal static class HotBath
{
    /// <summary>Water that gets under oil hotter than this boils at once, in K (100 °C, the boiling point of water).</summary>
    private const double WaterBoilsK = 373.15;

    private static readonly Agent[] Watery = [Agent.Water, Agent.Foam];

    // what serves a burning liquid and brings no water into it, and the one that is made for hot oil
    public static readonly IReadOnlyList<Agent> OnOil = [Agent.CarbonDioxide, Agent.DryPowder, Agent.DrySand, Agent.WetChemical, Agent.FireBlanket];

    /// <summary>True for a step with an oil bath in which water would boil.</summary>
    public static bool Is(StepState state) => state is { HeatSource: HeatSource.OilBath, Heated: true } && HotSurface.SurfaceK(state) > WaterBoilsK;

    /// <summary>Agents without those that bring water into hot oil.</summary>
    public static IReadOnlyList<Agent> Without(IReadOnlyList<Agent> agents) => [.. agents.Where(static agent => !Watery.Contains(agent))];

    /// <summary>Why water stays away from it, for lists of what must not be used.</summary>
    public const string Never = "water and foam (on the oil bath: water boils in hot oil and throws it out burning)";

    /// <summary>Agents that serve on the oil and are not forbidden by what hangs in it: nobody keeps the two apart in a fire.</summary>
    public static IReadOnlyList<Agent> OnOilBeside(IReadOnlyList<AgentBan> bans) => [.. OnOil.Where(agent => !bans.Any(ban => ban.Agent == agent && ban.Severity <= Severity.Warning))];

    /// <summary>Steps whose vessel hangs in hot oil: the bath that heated it is still hot while it cools.</summary>
    public static IReadOnlySet<StepState> Steps(WalkResult walk)
    {
        HashSet<StepState>? hot = null;
        foreach (var vessel in walk.ByVessel)
        {
            for (var index = 0; index < vessel.Length; index++)
            {
                if (Is(vessel[index]) || (index > 0 && Is(vessel[index - 1]) && vessel[index].Step.Action == StepAction.Cool))
                {
                    (hot ??= new HashSet<StepState>(ReferenceEqualityComparer.Instance)).Add(vessel[index]);
                }
            }
        }

        return hot ?? (IReadOnlySet<StepState>)FrozenSet<StepState>.Empty;
    }

    /// <summary>What to do first when the bath burns; agents at hand that fit before others that fit. Beside a closed vessel there is one order only: away.</summary>
    public static string FirstAction(FireScene scene, IReadOnlyList<Agent> onHand)
    {
        if (scene.State.Sealed)
        {
            return "A fire of the oil bath heats the closed vessel in it: leave then too, close the door and raise the alarm; switch the heating off only on the way out, and do not stay to cover the bath.";
        }

        var serve = OnOilBeside(scene.Bans);
        var chosen = serve.Where(onHand.Contains).ToArray();
        var named = chosen.Length > 0 ? chosen : serve;
        return $"If the oil bath burns: switch its heating off and cover it{(named.Count > 0 ? $", or use {Wording.List(named.Select(ExtinguishingAgents.Name))} from a distance" : "")}; leave it covered until it is cold, for hot oil lights again.";
    }

    public static IEnumerable<Finding> Find(ScreeningContext context, IReadOnlyList<Agent> listed)
    {
        var there = context.Plan.Place?.Agents ?? [];
        if (!Array.Exists(Watery, agent => listed.Contains(agent) || there.Contains(agent)))
        {
            yield break;
        }

        Agent[] watery = [.. Watery.Where(agent => listed.Contains(agent) || there.Contains(agent))];
        var words = Wording.Capital(Wording.List(watery.Select(ExtinguishingAgents.Name)));
        foreach (var group in context.Walk.States.Where(Is).GroupBy(static state => state.Vessel.Id, StringComparer.Ordinal))
        {
            yield return OnHotOil([.. group], listed, words);
        }

        // a bath told above is live as well: once is enough
        var live = context.Walk.States.Where(static state => state.Heated && IsElectrical(state.HeatSource) && !Is(state)).ToArray();
        if (live.Length > 0)
        {
            yield return new Finding
            {
                Code = "fire.water-on-live",
                Hazard = Hazard.Fire,
                Severity = Severity.Notice,
                Steps = StepIds.Of(live),
                Statement = $"{words} must not be used on electrical heating that is live: pull the plug first, or take what does not conduct, carbon dioxide for instance, where nothing here forbids it. Energised equipment is class C in NFPA 10; EN 2 has no class for it (there C is gas), and an extinguisher that passed the electrical test of EN 3-7 says up to what voltage and from what distance it may be used.",
            };
        }
    }

    private static Finding OnHotOil(StepState[] states, IReadOnlyList<Agent> listed, string words)
    {
        var hottest = states.MaxBy(HotSurface.SurfaceK)!;
        var serve = OnOilBeside([.. states.SelectMany(static state => ExtinguishingAgents.BansFor(state.Contents))]);
        return new Finding
        {
            Code = "fire.water-on-hot-oil",
            Hazard = Hazard.Fire,
            // beside one that serves it is a matter of choosing right
            Severity = listed.Any(serve.Contains) ? Severity.Caution : Severity.Warning,
            Steps = StepIds.Of(states),
            Vessel = hottest.Vessel.Id,
            Statement = $"{words} must not be used on the oil bath of “{hottest.Vessel.Id}”, up to {Wording.Celsius(HotSurface.SurfaceK(hottest))}: water boils in hot oil and throws it out burning. Hot oil burns as {FireClass.Words([Burning.HotOil])};{Serve(serve)}",
            Evidence =
            [
                new Evidence
                {
                    Name = "temperature of the oil bath",
                    Value = Wording.InCelsius(HotSurface.SurfaceK(hottest)),
                    Unit = "°C",
                    Limit = Wording.InCelsius(WaterBoilsK),
                    Model = "hottest surface of the step against the boiling point of water",
                    Sources = References.Full(["common-practice"]),
                    Quality = Quality.Assumed,
                },
            ],
        };
    }

    private static string Serve(IReadOnlyList<Agent> serve) => serve.Count == 0
        ? " what serves on a bath is forbidden by what hangs in it, so switch its heating off and leave."
        : $" {Wording.List(serve.Select(ExtinguishingAgents.Name))} {(serve.Count == 1 ? "serves" : "serve")} on {(serve.Count == OnOil.Count ? "a bath" : "this bath, beside what hangs in it")}, with its heating switched off.";

    private static bool IsElectrical(HeatSource? source) => source switch
    {
        HeatSource.MetalBlock or HeatSource.OilBath or HeatSource.SandBath or HeatSource.Hotplate or HeatSource.Mantle or HeatSource.Oven or HeatSource.Microwave or HeatSource.HeatGun => true,
        // a water bath holds water anyway and is built for it
        HeatSource.WaterBath or HeatSource.Steam or HeatSource.IceBath or HeatSource.CryogenicBath or null => false,
    };
}
