using System.Collections.Frozen;
using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;

namespace PreApproval.Hazards.Fire;

/// <summary>Contents that burn or decompose without air: no agent puts them out, so nobody fights a fire that has reached them. Rules: docs/methods/fire-classes.md.</summary>
internal static class NeedsNoAir
{
    private static readonly FrozenSet<string> Families = new[] { "organic peroxides", "explosives", "nitrate esters", "organic azides", "perchlorate salts", "chlorates and bromates", "diazonium salts" }.ToFrozenSet(StringComparer.Ordinal);

    /// <summary>True where the vessel holds, or can hold by what met in it, something that needs no air.</summary>
    public static bool Is(StepState state) => state.CanHold.Count > 0 || Is(state.Contents);

    private static bool Is(IReadOnlyList<Content> contents)
    {
        for (var index = 0; index < contents.Count; index++)
        {
            if (Is(contents[index]))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>What a blow, friction or a fire sets off by itself, whatever shares its vessel.</summary>
    public static bool IsExplosive(StepState state)
    {
        if (state.CanHold.Count > 0)
        {
            return true;
        }

        var contents = state.Contents;
        for (var index = 0; index < contents.Count; index++)
        {
            if (IsThere(contents[index]) && EnergeticProfile.Of(contents[index].Substance) is { IsExplosive: true })
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Their names, each once.</summary>
    public static IReadOnlyList<string> NamesIn(StepState state) =>
        [.. state.Contents.Where(Is).Select(static content => content.Substance.Name).Concat(state.CanHold.Select(static made => $"{made.Substance.Name} that can have formed")).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];

    /// <summary>Agents for a small fire near them: what serves the rest of what burns here, or paper and solvent where nothing else does, and is not banned on any of it beyond a notice.</summary>
    public static IReadOnlyList<Agent> Beside(IReadOnlySet<Burning> burning, IReadOnlyList<AgentBan> bans) =>
        ExtinguishingAgents.ThatFit(burning.Count > 0 ? burning : Ordinary, [.. bans.Where(static ban => ban.Severity < Screening.Severity.Notice)]);

    private static readonly FrozenSet<Burning> Ordinary = new[] { Burning.Solid, Burning.Liquid }.ToFrozenSet();

    private static bool IsThere(Content content) => !content.Spent && content.Mol is null or > 0;

    private static bool Is(Content content)
    {
        if (!IsThere(content))
        {
            return false;
        }

        var families = FamilyTable.Default.Of(content.Substance, content.MassFraction);
        for (var index = 0; index < families.Count; index++)
        {
            if (Families.Contains(families[index]))
            {
                return true;
            }
        }

        return EnergeticProfile.Of(content.Substance) is { IsExplosive: true };
    }
}
