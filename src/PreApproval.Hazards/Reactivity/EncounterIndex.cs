using System.Collections.Frozen;

namespace PreApproval.Hazards.Reactivity;

/// <summary>The rows of a table of encounters by their families, so that a vessel asks only for the rows of what it holds.</summary>
internal sealed class EncounterIndex
{
    private readonly FrozenDictionary<string, (int Row, Encounter Encounter)[]> byFirst;
    private readonly FrozenDictionary<(string One, string Other), Encounter[]> byPair;

    public EncounterIndex(IEnumerable<Encounter> table)
    {
        Encounter[] rows = [.. table];
        byFirst = rows.Select(static (encounter, row) => (Row: row, Encounter: encounter))
            .GroupBy(static entry => entry.Encounter.A, StringComparer.Ordinal)
            .ToFrozenDictionary(static group => group.Key, static group => group.ToArray(), StringComparer.Ordinal);
        byPair = rows.SelectMany(static row => new[] { (Pair: (row.A, row.B), Row: row), (Pair: (row.B, row.A), Row: row) })
            .DistinctBy(static entry => (entry.Pair, entry.Row.Key))
            .GroupBy(static entry => entry.Pair)
            .ToFrozenDictionary(static group => group.Key, static group => group.Select(static entry => entry.Row).ToArray());
    }

    /// <summary>The embedded table.</summary>
    public static EncounterIndex Default { get; } = new(EncounterTable.All);

    /// <summary>Rows whose first family this is, with their place in the table.</summary>
    public ReadOnlySpan<(int Row, Encounter Encounter)> From(string family) => byFirst.TryGetValue(family, out var rows) ? rows : [];

    /// <summary>Rows between two families, in either order; three-part rows by their first two.</summary>
    public ReadOnlySpan<Encounter> Between(string one, string other) => byPair.TryGetValue((one, other), out var rows) ? rows : [];
}
