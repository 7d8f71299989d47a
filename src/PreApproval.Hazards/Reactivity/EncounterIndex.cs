using System.Collections.Frozen;

namespace PreApproval.Hazards.Reactivity;

/// <summary>The rows of a table of encounters by their first family, so that a vessel asks only for the rows of what it holds.</summary>
internal sealed class EncounterIndex
{
    private readonly FrozenDictionary<string, (int Row, Encounter Encounter)[]> byFirst;

    public EncounterIndex(IEnumerable<Encounter> rows) =>
        byFirst = rows.Select(static (encounter, row) => (Row: row, Encounter: encounter))
            .GroupBy(static entry => entry.Encounter.A, StringComparer.Ordinal)
            .ToFrozenDictionary(static group => group.Key, static group => group.ToArray(), StringComparer.Ordinal);

    /// <summary>The embedded table.</summary>
    public static EncounterIndex Default { get; } = new(EncounterTable.All);

    /// <summary>Rows whose first family this is, with their place in the table.</summary>
    public ReadOnlySpan<(int Row, Encounter Encounter)> From(string family) => byFirst.TryGetValue(family, out var rows) ? rows : [];
}
