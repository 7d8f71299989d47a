using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>Hot surfaces, fire classes and extinguishing agents, flammables heated in the open. Rules: docs/methods/hot-surface.md and fire-classes.md.</summary>
public sealed class FireScreen : IScreen
{
    /// <summary>Volume of flammable liquid heated in the open that is worth more than a notice, in m³ (500 mL). Common practice, no source.</summary>
    private const double LargeOpenVolumeM3 = 0.5e-3;

    /// <summary>Distance below its flash point at which a pure liquid counts as safe, in K (BG RCI on TRGS 721).</summary>
    private const double FlashMarginK = 5;

    /// <summary>The same for a mixture, in K (BG RCI on TRGS 721).</summary>
    private const double MixtureMarginK = 15;

    /// <summary>Flash point up to which a liquid is a flammable liquid, in K (60 °C; CLP Annex I, 2.6).</summary>
    private const double FlammableUpToK = 333.15;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context) => [.. HotSurface.Find(context), .. Agents(context), .. HeatedOpenly(context)];

    private static IEnumerable<Finding> Agents(ScreeningContext context)
    {
        var scenes = context.Walk.States
            .Select(static state => new Scene(state, BurningMaterials.Of(state.Contents), ExtinguishingAgents.BansFor(state.Contents)))
            .Where(static scene => scene.Burning.Count > 0)
            .ToArray();
        if (scenes.Length == 0)
        {
            yield break;
        }

        var listed = context.Plan.FireResponse?.Agents ?? [];
        if (listed.Count == 0)
        {
            yield return NotStated(scenes);
        }

        foreach (var group in scenes.GroupBy(static scene => (scene.State.Vessel.Id, scene.Key)))
        {
            foreach (var finding in OfScene([.. group], listed))
            {
                yield return finding;
            }
        }

        foreach (var group in scenes.Where(scene => scene.Bans.Any(ban => listed.Contains(ban.Agent))).GroupBy(static scene => scene.State.Vessel.Id, StringComparer.Ordinal))
        {
            yield return Forbidden(listed, [.. group]);
        }
    }

    private static Finding NotStated(Scene[] scenes)
    {
        var fit = ExtinguishingAgents.ThatFit(scenes.SelectMany(static scene => scene.Burning).ToHashSet(), [.. scenes.SelectMany(static scene => scene.Bans).Distinct()]);
        return new Finding
        {
            Code = "fire.agents-not-stated",
            Hazard = Hazard.Fire,
            Severity = Severity.Caution,
            Steps = [.. scenes.Select(static scene => scene.State.Step.Id).Distinct(StringComparer.Ordinal)],
            Statement = fit.Count > 0
                ? $"The procedure handles what burns but names no extinguishing agent; {Wording.List(fit.Select(ExtinguishingAgents.Name))} would fit."
                : "The procedure handles what burns but names no extinguishing agent; no single agent serves everything in it.",
        };
    }

    private static IEnumerable<Finding> OfScene(Scene[] scenes, IReadOnlyList<Agent> listed)
    {
        var first = scenes[0];
        var fit = ExtinguishingAgents.ThatFit(first.Burning, first.Bans);
        string[] steps = [.. scenes.Select(static scene => scene.State.Step.Id).Distinct(StringComparer.Ordinal)];
        var never = first.Bans.GroupBy(static ban => ban.Agent)
            .Select(static group => group.OrderBy(static ban => ban.Severity).First())
            .GroupBy(static ban => ban.Reason, StringComparer.Ordinal)
            .Select(static group => $"{Wording.List(group.Select(static ban => ban.Agent).Order().Select(ExtinguishingAgents.Name))} ({group.Key})")
            .ToArray();
        var foam = ExtinguishingAgents.DissolvesFoam(first.State.Contents) ? "alcohol-resistant foam" : ExtinguishingAgents.Name(Agent.Foam);
        var serve = fit.Count == 0
            ? "no agent of the list serves all of it"
            : $"{Wording.List(fit.Select(agent => agent == Agent.Foam ? foam : ExtinguishingAgents.Name(agent)))} {(fit.Count == 1 ? "fits" : "fit")}";
        yield return new Finding
        {
            Code = "fire.class",
            Hazard = Hazard.Fire,
            Severity = Severity.Notice,
            Steps = steps,
            Vessel = first.State.Vessel.Id,
            Statement = $"“{first.State.Vessel.Id}” holds what burns as {FireClass.Words(first.Burning)}; {serve}{(never.Length == 0 ? "." : $"; not {string.Join(", nor ", never)}.")}",
        };
        // an agent that calls only for care still serves
        var serves = ExtinguishingAgents.ThatFit(first.Burning, [.. first.Bans.Where(static ban => ban.Severity <= Severity.Warning)]);
        if (listed.Count > 0 && !listed.Any(serves.Contains))
        {
            yield return new Finding
            {
                Code = "fire.no-agent-fits",
                Hazard = Hazard.Fire,
                Severity = Severity.Warning,
                Steps = steps,
                Vessel = first.State.Vessel.Id,
                Statement = $"None of the agents at hand ({Wording.List(listed.Select(ExtinguishingAgents.Name))}) serves a fire of {FireClass.Words(first.Burning)} in “{first.State.Vessel.Id}”.",
                ClearedBy = Offer(fit),
            };
        }
    }

    private static Finding Forbidden(IReadOnlyList<Agent> listed, Scene[] scenes)
    {
        var bans = scenes.SelectMany(static scene => scene.Bans).Distinct().Where(ban => listed.Contains(ban.Agent))
            .GroupBy(static ban => ban.Agent)
            .Select(static group => group.OrderBy(static ban => ban.Severity).ThenBy(static ban => ban.Family, StringComparer.Ordinal).First())
            .OrderBy(static ban => ban.Severity)
            .ThenBy(static ban => ban.Agent)
            .ToArray();
        var burning = scenes.SelectMany(static scene => scene.Burning).ToHashSet();
        var fit = ExtinguishingAgents.ThatFit(burning, [.. scenes.SelectMany(static scene => scene.Bans).Distinct()]);
        return new Finding
        {
            Code = "fire.agent-forbidden",
            Hazard = Hazard.Fire,
            Severity = bans[0].Severity,
            Steps = [.. scenes.Select(static scene => scene.State.Step.Id).Distinct(StringComparer.Ordinal)],
            Vessel = scenes[0].State.Vessel.Id,
            Materials = [.. bans.SelectMany(ban => Materials(scenes, ban.Family)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Statement = Wording.Capital(string.Join("; ", bans.Select(static ban => $"{ExtinguishingAgents.Name(ban.Agent)} must not be used on {ban.Family}: {ban.Reason}"))) + ".",
            Evidence =
            [
                .. bans.Select(static ban => new Evidence
                {
                    Name = $"ban of {ExtinguishingAgents.Name(ban.Agent)} on {ban.Family}",
                    Value = 1,
                    Unit = "rule",
                    Model = "table of agents and families",
                    Sources = References.Full(ban.Sources),
                    Quality = Quality.Assumed,
                }),
            ],
            ClearedBy = Offer(fit),
        };
    }

    private static string[] Materials(Scene[] scenes, string family) =>
    [
        .. scenes.SelectMany(static scene => scene.State.Contents)
            .Where(content => Reactivity.FamilyTable.Default.Of(content.Substance, content.MassFraction).Contains(family, StringComparer.Ordinal))
            .Select(static content => content.MaterialId)
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal),
    ];

    private static IReadOnlyList<Clearing> Offer(IReadOnlyList<Agent> fit) =>
        fit.Count == 0 ? [] : [Clearing.OfList("extinguishing agents", "/fireResponse/agents", fit.Select(ExtinguishingAgents.Name))];

    private static IEnumerable<Finding> HeatedOpenly(ScreeningContext context)
    {
        var together = new ContentsFlashPoint();
        var groups = context.Walk.States.Where(static state => state is { Heated: true, Sealed: false })
            .Select(state => new OpenLiquid(state, Flammables(state), together.NearTo(state, MixtureMarginK, FlammableUpToK)))
            .Where(static open => open.Flammables.Length > 0 || open.Together is not null)
            .GroupBy(static open => (open.State.Vessel.Id, open.State.TemperatureStep));
        foreach (var group in groups)
        {
            var open = group.MaxBy(static one => one.State.TemperatureK)!;
            var state = open.State;
            var flammables = open.Flammables.Length > 0 ? open.Flammables : [.. state.Contents.Where(ContentsFlashPoint.Flashes)];
            var volume = flammables.Sum(Volume);
            var bench = context.Plan.Place?.Kind == PlaceKind.Bench;
            var large = volume > LargeOpenVolumeM3;
            var names = Wording.Capital(Wording.List(flammables.Select(static content => content.Substance.Name).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)));
            yield return new Finding
            {
                Code = "fire.heated-openly",
                Hazard = Hazard.Fire,
                Severity = state.HeatSource == HeatSource.HeatGun || (large && bench) ? Severity.Warning : large || bench ? Severity.Caution : Severity.Notice,
                Steps = [.. group.Select(static one => one.State.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = state.Vessel.Id,
                Materials = [.. flammables.Select(static content => content.MaterialId).OfType<string>().Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
                Statement = $"{names} in the open “{state.Vessel.Id}” at {Wording.Celsius(state.TemperatureK)} {Nearness(open)}: keep ignition sources away{(large ? $"; about {Wording.Text(Math.Round(volume * 1e5) * 10)} mL is a large open volume" : "")}.",
                Evidence = open.Together is { } flash ? [Evidence(flash)] : [],
            };
        }
    }

    // The pure liquids count beside the mixture: it separates, boils down and is stirred up as it stands open.
    private static string Nearness(OpenLiquid open)
    {
        if (open.Together is not { FlashPointK: { } flash } || open.Flammables.Length == 0)
        {
            return open.Together?.FlashPointK is { } only
                ? $"is above or within {Wording.Text(MixtureMarginK)} K of the flash point of the liquids together, about {Wording.Celsius(only)}"
                : $"is above or within {Wording.Text(FlashMarginK)} K of its flash point";
        }

        return $"is above or within {Wording.Text(FlashMarginK)} K of its flash point, and the liquids together flash at about {Wording.Celsius(flash)}";
    }

    private static Evidence Evidence(FlashPointEstimate flash) => new()
    {
        Name = "flash point of the liquids together",
        Value = Wording.InCelsius(flash.FlashPointK!.Value),
        Unit = "°C",
        Model = flash.FromMeasuredPair ? "Liaw's rule with the measured equilibrium of the pair" : "Liaw's rule with original UNIFAC",
        Sources = flash.Sources,
        Quality = flash.Quality,
    };

    private static Content[] Flammables(StepState state) =>
    [
        .. state.Contents.Where(content => content.Substance.Known is { NonFlammable: not { Value: true }, FlashPointK.Governing.Value: var flash }
            && flash <= FlammableUpToK && state.TemperatureK >= flash - FlashMarginK),
    ];

    private static double Volume(Content content) =>
        content.Mol * content.Substance.Known!.Identity.MolarMassKgPerMol / content.Substance.Known.DensityKgPerM3?.Value ?? 0;

    private sealed record OpenLiquid(StepState State, Content[] Flammables, FlashPointEstimate? Together);

    private sealed record Scene(StepState State, IReadOnlySet<Burning> Burning, IReadOnlyList<AgentBan> Bans)
    {
        public string Key { get; } = string.Join('+', Burning.Order()) + "|" + string.Join('+', Bans.Select(static ban => ban.Family + ban.Agent));
    }
}
