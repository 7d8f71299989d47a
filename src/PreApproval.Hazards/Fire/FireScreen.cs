using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>Hot surfaces, fire classes and extinguishing agents, flammables heated in the open. Rules: docs/methods/hot-surface.md and fire-classes.md.</summary>
public sealed class FireScreen : IScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var together = new ContentsFlashPoint();
        var opens = OpenFlammables.Of(context, together);
        return
        [
            .. HotSurface.Find(context), .. Agents(context), .. OpenFlammables.Find(context, opens, together), .. ElectricalGear.Find(context, opens), .. StaticCharge.Find(context), .. Inerting.Find(context), .. CompressionIgnition.Find(context),
            .. ReleaseScreen.Find(context), .. GasCloud.Find(context),
        ];
    }

    private static IEnumerable<Finding> Agents(ScreeningContext context)
    {
        var listed = context.Plan.FireResponse?.Agents ?? [];
        foreach (var finding in HotBath.Find(context, listed))
        {
            yield return finding;
        }

        var scenes = FireScene.Of(context.Walk);
        if (scenes.Count == 0)
        {
            yield break;
        }

        if (listed.Count == 0)
        {
            yield return NotStated(scenes);
        }

        foreach (var group in Grouping.Of(scenes, static _ => true, static (one, other) => AreInOneVessel(one, other) && one.Fuel.IsLike(other.Fuel)))
        {
            foreach (var finding in OfScene(group, listed, scenes))
            {
                yield return finding;
            }
        }

        foreach (var group in Grouping.Of(scenes, scene => scene.Bans.Count > 0 && scene.Bans.Any(ban => listed.Contains(ban.Agent)), AreInOneVessel))
        {
            yield return Forbidden(listed, group, scenes);
        }

        foreach (var finding in AgentsAtPlace.Find(scenes, listed, context.Plan.Place))
        {
            yield return finding;
        }
    }

    /// <summary>The document knows one kind of foam: what an offer of it means where ordinary foam collapses.</summary>
    private const string OnlyResistant = " Foam serves here only where it is alcohol-resistant.";

    private static bool AreInOneVessel(FireScene one, FireScene other) => string.Equals(one.State.Vessel.Id, other.State.Vessel.Id, StringComparison.Ordinal);

    private static Finding NotStated(IReadOnlyList<FireScene> scenes)
    {
        var fit = ExtinguishingAgents.ThatFit(scenes.SelectMany(static scene => scene.Burning).ToHashSet(), [.. scenes.SelectMany(static scene => scene.Bans).Distinct()]);
        return new Finding
        {
            Code = "fire.agents-not-stated",
            Hazard = Hazard.Fire,
            Severity = Severity.Caution,
            Steps = StepIds.Of(scenes, static one => one.State),
            Statement = fit.Count > 0
                ? $"The procedure handles what burns but names no extinguishing agent; {Wording.List(fit.Select(agent => ExtinguishingAgents.NameOn(agent, scenes.Any(static scene => scene.Fuel.DissolvesFoam))))} would fit."
                : "The procedure handles what burns but names no extinguishing agent; no single agent serves everything in it.",
        };
    }

    private static IEnumerable<Finding> OfScene(FireScene[] scenes, IReadOnlyList<Agent> listed, IReadOnlyList<FireScene> all)
    {
        var first = scenes[0];
        var fit = ExtinguishingAgents.ThatFit(first.Burning, first.Bans);
        string[] steps = StepIds.Of(scenes, static one => one.State);
        var dissolves = fit.Contains(Agent.Foam) && first.Fuel.DissolvesFoam;
        var noAir = NeedsNoAir.Is(first.State);
        var near = noAir ? first.NamesOf(NeedsNoAir.Beside(first.Burning, first.Bans)) : [];
        var never = noAir ? first.NeverBeyondANotice : first.Never;
        var serve = noAir ? $"it holds what needs no air, so leave what a fire has reached{(near.Length == 0 ? "" : $"; for a small fire near it {Wording.List(near)}")}"
            : fit.Count == 0 ? "no agent of the list serves all of it" : $"{Wording.List(first.NamesOf(fit))} {(fit.Count == 1 ? "fits" : "fit")}";
        yield return new Finding
        {
            Code = "fire.class",
            Hazard = Hazard.Fire,
            Severity = Severity.Notice,
            Steps = steps,
            Vessel = first.State.Vessel.Id,
            Statement = $"“{first.State.Vessel.Id}” holds what burns as {FireClass.Words(first.Burning)}; {serve}{(never.Count == 0 ? "." : $"; not {string.Join(", nor ", never)}.")}",
        };
        // an agent that calls only for care still serves
        var serves = first.Bans.Count == 0 ? fit : ExtinguishingAgents.ThatFit(first.Burning, [.. first.Bans.Where(static ban => ban.Severity <= Severity.Warning)]);
        if (listed.Count > 0 && !listed.Any(serves.Contains))
        {
            yield return new Finding
            {
                Code = "fire.no-agent-fits",
                Hazard = Hazard.Fire,
                Severity = Severity.Warning,
                Steps = steps,
                Vessel = first.State.Vessel.Id,
                Statement = $"None of the agents at hand ({Wording.List(listed.Select(ExtinguishingAgents.Name))}) serves a fire of {FireClass.Words(first.Burning)} in “{first.State.Vessel.Id}”.{(dissolves ? OnlyResistant : "")}",
                ClearedBy = Offer(first.Burning, first.Bans, all),
            };
        }
    }

    private static Finding Forbidden(IReadOnlyList<Agent> listed, FireScene[] scenes, IReadOnlyList<FireScene> all)
    {
        var bans = scenes.SelectMany(static scene => scene.Bans).Distinct().Where(ban => listed.Contains(ban.Agent))
            .GroupBy(static ban => ban.Agent)
            .Select(static group => group.OrderBy(static ban => ban.Severity).ThenBy(static ban => ban.Family, StringComparer.Ordinal).First())
            .OrderBy(static ban => ban.Severity)
            .ThenBy(static ban => ban.Agent)
            .ToArray();
        var noneLeft = listed.All(agent => Array.Exists(bans, ban => ban.Agent == agent));
        var severity = bans.Min(ban => ByAmount(Graver(noneLeft && ban.Severity == Severity.Notice ? Severity.Caution : ban.Severity, listed, scenes), HeldKg(scenes, ban.Family)));
        var burning = scenes.SelectMany(static scene => scene.Burning).ToHashSet();
        var fit = ExtinguishingAgents.ThatFit(burning, [.. scenes.SelectMany(static scene => scene.Bans).Distinct()]);
        return new Finding
        {
            Code = "fire.agent-forbidden",
            Hazard = Hazard.Fire,
            Severity = severity,
            Steps = StepIds.Of(scenes, static one => one.State),
            Vessel = scenes[0].State.Vessel.Id,
            Materials = [.. bans.SelectMany(ban => Materials(scenes, ban.Family)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Statement = Wording.Capital(string.Join("; ", bans.GroupBy(static ban => (Only: ban.Severity == Severity.Notice, ban.Family, ban.Why)).Select(static group => Words([.. group]))))
                + "." + (fit.Contains(Agent.Foam) && scenes.Any(static scene => scene.Fuel.DissolvesFoam) ? OnlyResistant : ""),
            Evidence = [.. bans.Select(static ban => ban.AsEvidence)],
            ClearedBy = Offer(burning, [.. scenes.SelectMany(static scene => scene.Bans).Distinct()], all),
        };
    }

    /// <summary>Agents that are banned on one family for one reason, in one clause.</summary>
    private static string Words(AgentBan[] bans)
    {
        string[] names = [.. bans.Select(static ban => ExtinguishingAgents.Name(ban.Agent))];
        return bans[0].Severity == Severity.Notice
            ? $"{names[0]} does not put out {bans[0].Family}{(names.Length > 1 ? $", nor does {Wording.List(names[1..])}" : "")}: {bans[0].Why}"
            : $"{Wording.List(names)} must not be used on {bans[0].Family}: {bans[0].Why}";
    }

    /// <summary>Where an agent that serves everything here stands beside it, a banned one is a matter of choosing right, unless it feeds the fire.</summary>
    private static Severity Graver(Severity severity, IReadOnlyList<Agent> listed, IReadOnlyList<FireScene> scenes) =>
        severity == Severity.Warning && scenes.All(scene => listed.Any(ExtinguishingAgents.ThatFit(scene.Burning, scene.Bans).Contains)) ? Severity.Caution : severity;

    /// <summary>Mass in kg below which a metal, hydride or the like is a trace that burns out by itself (20 mg). Common practice, no source.</summary>
    private const double TraceKg = 20e-6;

    /// <summary>Mass in kg below which it is a small fire, one step less grave (100 mg). Common practice, no source.</summary>
    private const double SmallKg = 0.1e-3;

    private static Severity ByAmount(Severity severity, double? kg) =>
        kg < TraceKg ? Severity.Notice
        : kg < SmallKg && severity < Severity.Notice ? severity + 1
        : severity;

    /// <summary>The most of a family that one step holds, in kg; null when an amount is not known.</summary>
    private static double? HeldKg(IReadOnlyList<FireScene> scenes, string family)
    {
        double? most = 0;
        foreach (var scene in scenes)
        {
            var held = scene.State.Contents.Where(content => !content.Spent && Reactivity.FamilyTable.Default.Of(content.Substance, content.MassFraction).Contains(family, StringComparer.Ordinal))
                .Aggregate((double?)0, static (sum, content) => sum + (content.Mol * content.Substance.Known?.Identity.MolarMassKgPerMol));
            most = held is { } kg && most is { } before ? Math.Max(before, kg) : null;
        }

        return most;
    }

    private static string[] Materials(IReadOnlyList<FireScene> scenes, string family) =>
    [
        .. scenes.SelectMany(static scene => scene.State.Contents)
            .Where(content => Reactivity.FamilyTable.Default.Of(content.Substance, content.MassFraction).Contains(family, StringComparer.Ordinal))
            .Select(static content => content.MaterialId)
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal),
    ];

    /// <summary>What serves here and must not be kept from anything else in the plan: an agent that another step forbids is no answer.</summary>
    private static IReadOnlyList<Clearing> Offer(IReadOnlySet<Burning> burning, IReadOnlyList<AgentBan> bans, IReadOnlyList<FireScene> all)
    {
        var fit = ExtinguishingAgents.ThatFit(burning, [.. bans, .. all.SelectMany(static scene => scene.Bans).Where(static ban => ban.Severity < Severity.Notice).Distinct()]);
        return fit.Count == 0 ? [] : [Clearing.OfList("extinguishing agents", "/fireResponse/agents", fit.Select(ExtinguishingAgents.Name))];
    }
}
