using System.Collections.Frozen;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// The groups of PSRK in a substance. Its subgroups 1 to 108 are those of original UNIFAC, so assignments made for the one serve the
/// other; gases and epoxides, which only PSRK has, are assigned in <c>psrk-assignments.tsv</c>.
/// </summary>
internal static class PsrkGroups
{
    private const int LastShared = 108;
    private const int AmmoniaInUnifac = 1111;
    private const int Ammonia = 111;

    private static readonly FrozenDictionary<string, IReadOnlyDictionary<int, int>> Assigned = UnifacAssignments.Read("psrk-assignments.tsv");

    /// <summary>Subgroups of PSRK and their counts, or null when the substance has a group that PSRK lacks or none is assigned.</summary>
    public static IReadOnlyDictionary<int, int>? Of(Substance substance)
    {
        if (substance.Identity.Cas is { } cas && Assigned.TryGetValue(cas, out var own))
        {
            return own;
        }

        if (substance.UnifacGroups is not { } groups || groups.Value.Keys.Any(static k => k is > LastShared and not AmmoniaInUnifac))
        {
            return null;
        }

        return groups.Value.ToDictionary(static g => g.Key == AmmoniaInUnifac ? Ammonia : g.Key, static g => g.Value);
    }
}
