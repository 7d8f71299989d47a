using System.Globalization;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Structures;

/// <summary>The subgroups of original UNIFAC that a structure is made of, for showing and for comparing with published assignments.</summary>
public static class UnifacFragments
{
    /// <summary>Name shown beside the groups.</summary>
    public const string Model = "original UNIFAC, groups found by patterns";

    private static readonly IReadOnlyList<FragmentRule> Rules = GroupFragments.Rules(EmbeddedTable.Rows("unifac-patterns.tsv"), "subgroup");

    /// <summary>Subgroup numbers with how often, or null with the reason.</summary>
    public static IReadOnlyDictionary<int, int>? Of(Molecule molecule, out string? because)
    {
        var fragments = GroupFragments.Of(molecule, Rules);
        because = fragments.Because;
        return because is null ? fragments.Counts.ToDictionary(static c => int.Parse(c.Key, CultureInfo.InvariantCulture), static c => c.Value) : null;
    }
}
