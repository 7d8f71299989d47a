using System.Collections.Frozen;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Fire;

/// <summary>Why an agent must not be used on a family.</summary>
internal sealed record AgentBan(Agent Agent, string Family, Severity Severity, string Reason, string? Reaction, IReadOnlyList<string> Sources)
{
    /// <summary>The reason, with the reaction behind it where one is certain.</summary>
    public string Why => Reaction is null ? Reason : $"{Reason} ({Reaction})";

    public Evidence AsEvidence => new()
    {
        Name = $"ban of {ExtinguishingAgents.Name(Agent)} on {Family}",
        Value = 1,
        Unit = "rule",
        Worse = WorseWhen.Neither,
        Model = "table of agents and families",
        Sources = References.Full(Sources),
        Quality = Substances.Quality.Assumed,
    };
}

/// <summary>Which agents serve which fires, and which must not be used on what (Data/agents.tsv, Data/agent-bans.tsv).</summary>
public static class ExtinguishingAgents
{
    private static readonly Agent[] All = Enum.GetValues<Agent>();

    private static readonly Burning[] Kinds = Enum.GetValues<Burning>();

    private static readonly FrozenDictionary<string, Agent> ByName = All.ToFrozenDictionary(Name, StringComparer.OrdinalIgnoreCase);

    private static readonly FrozenDictionary<Agent, IReadOnlyList<Burning>> Serves = EmbeddedTable.Rows("agents.tsv").ToFrozenDictionary(
        static row => ByName![row["agent"]],
        static row => (IReadOnlyList<Burning>)[.. EmbeddedTable.Entries(row["serves"]).Select(static word => Enum.Parse<Burning>(word, ignoreCase: true))]);

    private static readonly AgentBan[] AllBans =
    [
        .. EmbeddedTable.Rows("agent-bans.tsv").Select(static row => new AgentBan(
            ByName![row["agent"]],
            row["family"],
            Enum.Parse<Severity>(row["severity"], ignoreCase: true),
            row["reason"],
            row["reaction"].Length == 0 ? null : row["reaction"],
            EmbeddedTable.Entries(row["sources"]))),
    ];

    /// <summary>Families of liquids that mix with water and break ordinary foam down (EN 1568-4: foams for water-miscible liquids; members by chemistry).</summary>
    private static readonly FrozenSet<string> Polar = new[] { "alcohols", "ketones", "esters", "ethers", "nitriles", "dipolar amides", "organic acids", "amines", "aldehydes" }.ToFrozenSet(StringComparer.Ordinal);

    private static readonly FrozenSet<string> Banned = AllBans.Select(static ban => ban.Family).ToFrozenSet(StringComparer.Ordinal);

    internal static IReadOnlyList<AgentBan> Bans => AllBans;

    /// <summary>True when something here destroys ordinary foam, so that only an alcohol-resistant one serves.</summary>
    internal static bool DissolvesFoam(IReadOnlyList<Content> contents)
    {
        for (var index = 0; index < contents.Count; index++)
        {
            if (!contents[index].Spent && IsPolar(FamilyTable.Default.Of(contents[index].Substance, contents[index].MassFraction)))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsPolar(IReadOnlyList<string> families)
    {
        for (var index = 0; index < families.Count; index++)
        {
            if (Polar.Contains(families[index]))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Name of an agent as in the procedure document.</summary>
    public static string Name(Agent agent) => agent switch
    {
        Agent.Water => "water",
        Agent.Foam => "foam",
        Agent.CarbonDioxide => "carbon dioxide",
        Agent.DryPowder => "dry powder",
        Agent.ClassDPowder => "class D powder",
        Agent.DrySand => "dry sand",
        Agent.WetChemical => "wet chemical",
        Agent.FireBlanket => "fire blanket",
    };

    /// <summary>Name of an agent for a sentence: foam of the kind that serves here.</summary>
    internal static string NameOn(Agent agent, bool dissolvesFoam) => agent == Agent.Foam && dissolvesFoam ? "alcohol-resistant foam" : Name(agent);

    internal static Agent Parse(string name) => ByName[name];

    /// <summary>Bans that the contents call for.</summary>
    internal static IReadOnlyList<AgentBan> BansFor(IReadOnlyList<Content> contents)
    {
        List<string>? banned = null;
        for (var index = 0; index < contents.Count; index++)
        {
            if (contents[index].Spent)
            {
                continue;
            }

            var families = FamilyTable.Default.Of(contents[index].Substance, contents[index].MassFraction);
            for (var family = 0; family < families.Count; family++)
            {
                if (Banned.Contains(families[family]))
                {
                    (banned ??= []).Add(families[family]);
                }
            }
        }

        return banned is null ? [] : BansOn(banned, contents);
    }

    private static AgentBan[] BansOn(List<string> families, IReadOnlyList<Content> contents) => Array.ConvertAll(BansOf(families), ban => WithTheMetal(ban, contents));

    private static AgentBan[] BansOf(List<string> families) => Array.FindAll(AllBans, ban => families.Contains(ban.Family, StringComparer.Ordinal));

    /// <summary>The gravest ban of an agent on what belongs to these families; null: none.</summary>
    internal static AgentBan? WorstBan(Agent agent, IReadOnlyList<string> families)
    {
        AgentBan? worst = null;
        foreach (var ban in AllBans)
        {
            if (ban.Agent == agent && families.Contains(ban.Family, StringComparer.Ordinal) && (worst is null || ban.Severity < worst.Severity))
            {
                worst = ban;
            }
        }

        return worst;
    }

    /// <summary>An equation for any alkali metal M is written for the one that is there.</summary>
    private static AgentBan WithTheMetal(AgentBan ban, IReadOnlyList<Content> contents) =>
        ban is { Family: "alkali metals", Reaction: { } reaction }
        && contents.FirstOrDefault(content => !content.Spent && FamilyTable.Default.Of(content.Substance, content.MassFraction).Contains(ban.Family, StringComparer.Ordinal)) is { Substance.Known.Identity.Formula: { Length: 1 or 2 } symbol }
            ? ban with { Reaction = reaction.Replace("M", symbol, StringComparison.Ordinal) }
            : ban;

    /// <summary>
    /// Agents that serve everything that burns here and are not banned. Where a metal, a hydride or an organometallic is
    /// present it governs: what is safe on it counts, in the small amounts of a laboratory, for the solvent too.
    /// </summary>
    internal static IReadOnlyList<Agent> ThatFit(IReadOnlySet<Burning> burning, IReadOnlyList<AgentBan> bans)
    {
        Span<Agent> fit = stackalloc Agent[All.Length];
        var count = 0;
        foreach (var agent in All)
        {
            if (ServesAll(agent, burning) && !IsBanned(agent, bans))
            {
                fit[count++] = agent;
            }
        }

        return fit[..count].ToArray();
    }

    private static bool ServesAll(Agent agent, IReadOnlySet<Burning> burning)
    {
        var serves = Serves[agent];
        var governing = burning.Contains(Burning.Metal);
        foreach (var kind in Kinds)
        {
            if (burning.Contains(kind) && (kind == Burning.Metal || !governing) && !serves.Contains(kind))
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsBanned(Agent agent, IReadOnlyList<AgentBan> bans)
    {
        for (var index = 0; index < bans.Count; index++)
        {
            if (bans[index].Agent == agent)
            {
                return true;
            }
        }

        return false;
    }
}
