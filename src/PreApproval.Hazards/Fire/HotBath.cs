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

    /// <summary>What to do first when the bath burns; agents at hand that fit before others that fit.</summary>
    public static string FirstAction(IReadOnlyList<Agent> onHand)
    {
        var chosen = OnOil.Where(onHand.Contains).ToArray();
        return $"If the oil bath burns: switch its heating off and cover it, or use {Wording.List((chosen.Length > 0 ? chosen : OnOil).Select(ExtinguishingAgents.Name))} from a distance; leave it covered until it is cold, for hot oil lights again.";
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
        return new Finding
        {
            Code = "fire.water-on-hot-oil",
            Hazard = Hazard.Fire,
            // beside one that serves it is a matter of choosing right
            Severity = listed.Any(OnOil.Contains) ? Severity.Caution : Severity.Warning,
            Steps = StepIds.Of(states),
            Vessel = hottest.Vessel.Id,
            Statement = $"{words} must not be used on the oil bath of “{hottest.Vessel.Id}”, up to {Wording.Celsius(HotSurface.SurfaceK(hottest))}: water boils in hot oil and throws it out burning. Hot oil burns as {FireClass.Words([Burning.HotOil])}; {Wording.List(OnOil.Select(ExtinguishingAgents.Name))} serve on a bath, with its heating switched off.",
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

    private static bool IsElectrical(HeatSource? source) => source switch
    {
        HeatSource.MetalBlock or HeatSource.OilBath or HeatSource.SandBath or HeatSource.Hotplate or HeatSource.Mantle or HeatSource.Oven or HeatSource.Microwave or HeatSource.HeatGun => true,
        // a water bath holds water anyway and is built for it
        HeatSource.WaterBath or HeatSource.Steam or HeatSource.IceBath or HeatSource.CryogenicBath or null => false,
    };
}
