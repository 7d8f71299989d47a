using System.Globalization;

namespace PreApproval.Hazards.Substances;

/// <summary>Rows of group assignments: the subgroups of original UNIFAC a molecule is made of, as <c>1:2 2:3</c>.</summary>
internal static class AssignmentRows
{
    public const string Heading = "cas\tsubgroups\tsource\tquality";
    private const int Cas = 0;
    private const int Subgroups = 1;
    private const int Source = 2;
    private const int QualityColumn = 3;

    /// <summary>Reads a row; <paramref name="known"/> are the numbers of the published subgroups.</summary>
    public static void Read(TsvRow row, CatalogDraft catalog, IReadOnlyList<int> known)
    {
        if (!catalog.TryFind(row, Cas, out var draft) || !catalog.TrySource(row, Source, out var source) || !catalog.TryQuality(row, QualityColumn, out var quality))
        {
            return;
        }

        var counts = new Dictionary<int, int>();
        foreach (var part in row.Cell(Subgroups).ToString().Split(' '))
        {
            var colon = part.IndexOf(':', StringComparison.Ordinal);
            if (colon < 0
                || !int.TryParse(part.AsSpan(0, colon), NumberStyles.None, CultureInfo.InvariantCulture, out var subgroup)
                || !int.TryParse(part.AsSpan(colon + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var count)
                || count == 0
                || !known.Contains(subgroup)
                || !counts.TryAdd(subgroup, count))
            {
                catalog.Faults.Add(row.Fault(Subgroups, $"'{part}' is no published subgroup, colon and count, once each; for instance 1:2 2:3"));
                return;
            }
        }

        if (draft.Groups is not null)
        {
            catalog.Faults.Add(row.Fault(Cas, "is assigned twice; keep one assignment"));
            return;
        }

        draft.Groups = new Sourced<IReadOnlyDictionary<int, int>>(counts, quality, source);
    }
}
