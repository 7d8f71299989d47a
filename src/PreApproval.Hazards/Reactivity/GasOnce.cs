using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// A partner is used up once, whoever it meets: where several encounters make one gas and share a side, together they make no more of it than that side allows. Trimethylsilyl
/// cyanide in aqueous acid meets acid and water and gives its hydrogen cyanide once. docs/methods/gas.md.
/// </summary>
internal static class GasOnce
{
    /// <summary>The gas of each source in mol, the largest first in its own right and the others with what is left; an unknown amount stays unknown.</summary>
    /// <param name="sources">Encounters that make one gas, with its mol and its mol per equivalent.</param>
    public static double?[] Trimmed(IReadOnlyList<(Meeting Meeting, double? Mol, double MolPerEquivalent)> sources)
    {
        var trimmed = sources.Select(static source => source.Mol).ToArray();
        if (sources.Count < 2)
        {
            return trimmed;
        }

        var left = Allowed(sources);
        foreach (var index in Enumerable.Range(0, sources.Count).OrderByDescending(index => trimmed[index] ?? 0))
        {
            if (trimmed[index] is { } mol)
            {
                trimmed[index] = Math.Min(mol, left);
                left -= trimmed[index]!.Value;
            }
        }

        return trimmed;
    }

    /// <summary>The least that a side shared by all allows, in mol; infinite where they share none whose amount is known.</summary>
    private static double Allowed(IReadOnlyList<(Meeting Meeting, double? Mol, double MolPerEquivalent)> sources)
    {
        var allowed = double.PositiveInfinity;
        foreach (var (side, _) in Sides(sources[0].Meeting))
        {
            double? most = 0;
            foreach (var (meeting, _, per) in sources)
            {
                var own = Sides(meeting).Where(other => side.SetEquals(other.Members)).Select(other => other.Equivalents * per).DefaultIfEmpty(null).Max();
                most = own is { } mol ? Math.Max(most ?? double.NaN, mol) : null;
                if (most is null)
                {
                    break;
                }
            }

            allowed = Math.Min(allowed, most ?? double.PositiveInfinity);
        }

        return allowed;
    }

    /// <summary>The sides that the gas uses up: a catalyst is none.</summary>
    private static IEnumerable<(HashSet<string> Members, double? Equivalents)> Sides(Meeting meeting)
    {
        if (meeting.A.Count > 0 && !meeting.Encounter.SecondLimits)
        {
            yield return (Keys(meeting.A), meeting.AEquivalents);
        }

        if (meeting.B.Count > 0 && !meeting.Encounter.FirstLimits)
        {
            yield return (Keys(meeting.B), meeting.BEquivalents);
        }
    }

    private static HashSet<string> Keys(IReadOnlyList<Content> members) => members.Select(static content => content.Substance.Key).ToHashSet(StringComparer.Ordinal);
}
