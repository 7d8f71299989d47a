using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Mixtures;

/// <summary>Reads which subgroups of one variant of UNIFAC make up a substance, by CAS number.</summary>
internal static class UnifacAssignments
{
    public static FrozenDictionary<string, IReadOnlyDictionary<int, int>> Read(string file)
    {
        var faults = new List<string>();
        var assigned = new Dictionary<string, IReadOnlyDictionary<int, int>>(StringComparer.Ordinal);
        foreach (var row in TsvRow.Read(file, CatalogReader.EmbeddedFile("Data/" + file), faults))
        {
            assigned.Add(row["cas"], row["subgroups"].Split(' ').Select(static part => part.Split(':')).ToDictionary(
                static part => int.Parse(part[0], CultureInfo.InvariantCulture),
                static part => int.Parse(part[1], CultureInfo.InvariantCulture)));
        }

        return faults.Count == 0 ? assigned.ToFrozenDictionary(StringComparer.Ordinal) : throw new InvalidDataException(string.Join(Environment.NewLine, faults));
    }
}
