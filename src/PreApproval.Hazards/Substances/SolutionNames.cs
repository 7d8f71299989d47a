using System.Collections.Frozen;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Substances;

/// <summary>What a name of a solution or a mixture means.</summary>
/// <param name="Solute">Name of the solute, or of what stands for a mixture.</param>
/// <param name="SoluteCas">Its CAS number.</param>
/// <param name="Solvent">Name of the solvent; null for a mixture.</param>
/// <param name="SolventCas">Its CAS number; null for a mixture.</param>
/// <param name="MassFraction">Usual mass fraction of the solute, 0 to 1; null when there is no usual strength.</param>
/// <param name="Note">More to say; empty: nothing.</param>
public sealed record SolutionName(string Solute, string SoluteCas, string? Solvent, string? SolventCas, double? MassFraction, string Note)
{
    /// <summary>How to write it, as a clause: <c>write hydrogen chloride as a solution in water with its concentration (usual: 37 %)</c>.</summary>
    public string Advice
    {
        get
        {
            var usual = MassFraction is { } fraction ? $" (usual: {(fraction * 100).ToString("0.#", CultureInfo.InvariantCulture)} % by mass)" : "";
            var note = Note.Length == 0 ? "" : $"; {Note}";
            return Solvent is null ? Note : $"write {Solute} as a solution in {Solvent} with its concentration{usual}{note}";
        }
    }
}

/// <summary>
/// Names chemists type that mean a solution or a mixture (Data/solution-names.tsv). The catalogue does not know them, since
/// their pure solute would be a different thing.
/// </summary>
public static class SolutionNames
{
    private static readonly FrozenDictionary<string, SolutionName> ByName = EmbeddedTable.Rows("solution-names.tsv")
        .SelectMany(static row => EmbeddedTable.Entries(row["names"]).Select(name => (Name: Catalog.Spelling(name), Meaning: Read(row))))
        .ToFrozenDictionary(static pair => pair.Name, static pair => pair.Meaning, StringComparer.Ordinal);

    /// <summary>The names, in the order of the table and as <see cref="Catalog"/> compares them.</summary>
    internal static IEnumerable<string> Spellings => ByName.Keys;

    /// <summary>The meanings.</summary>
    internal static IEnumerable<SolutionName> Meanings => ByName.Values;

    /// <summary>Finds what a name means, without regard to case, spaces and hyphens.</summary>
    public static bool TryFind(string name, [NotNullWhen(true)] out SolutionName? meaning)
    {
        ArgumentNullException.ThrowIfNull(name);
        return ByName.TryGetValue(Catalog.Spelling(name), out meaning);
    }

    private static SolutionName Read(IReadOnlyDictionary<string, string> row) => new(
        row["solute"],
        row["soluteCas"],
        row["solvent"].Length == 0 ? null : row["solvent"],
        row["solventCas"].Length == 0 ? null : row["solventCas"],
        row["massPercent"].Length == 0 ? null : double.Parse(row["massPercent"], CultureInfo.InvariantCulture) / 100,
        row["note"]);
}
