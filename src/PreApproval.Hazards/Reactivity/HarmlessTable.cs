using System.Collections.Frozen;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>Why families are said to meet without a hazard worth naming.</summary>
/// <param name="Key">Stable key of the row.</param>
/// <param name="Basis">In words, for a sentence.</param>
/// <param name="Sources">Keys of the references.</param>
public sealed record HarmlessBasis(string Key, string Basis, IReadOnlyList<string> Sources)
{
    /// <summary>The basis with a capital letter, written once.</summary>
    internal string Sentence => field ??= Wording.Capital(Basis);

    /// <summary>This basis as the only one of a pair.</summary>
    internal IReadOnlyList<HarmlessBasis> Alone => field ??= [this];

    /// <summary>Full references, looked up once.</summary>
    internal IReadOnlyList<string> References => field ??= Screening.References.Full(Sources);
}

/// <summary>The everyday encounters of Data/harmless-encounters.tsv.</summary>
internal static class HarmlessTable
{
    private const string Every = "*";

    /// <summary>Every pair of families that a row names, with that row; the first row counts.</summary>
    private static readonly FrozenDictionary<(string First, string Second), HarmlessBasis> ByPair = Read();

    /// <summary>Every covered pair of families, in alphabetical order within the pair.</summary>
    public static IEnumerable<(string First, string Second)> Pairs => ByPair.Keys;

    /// <summary>The basis for saying "none known" of two families; null: there is none.</summary>
    public static HarmlessBasis? Of(string one, string other) => ByPair.GetValueOrDefault(Ordered(one, other));

    private static (string First, string Second) Ordered(string one, string other) =>
        string.CompareOrdinal(one, other) <= 0 ? (one, other) : (other, one);

    private static FrozenDictionary<(string First, string Second), HarmlessBasis> Read()
    {
        var pairs = new Dictionary<(string First, string Second), HarmlessBasis>();
        foreach (var row in EmbeddedTable.Rows("harmless-encounters.tsv"))
        {
            var basis = new HarmlessBasis(row["key"], row["basis"], EmbeddedTable.Entries(row["sources"]));
            foreach (var one in Families(row["a"]))
            {
                foreach (var other in Families(row["b"]))
                {
                    pairs.TryAdd(Ordered(one, other), basis);
                }
            }
        }

        return pairs.ToFrozenDictionary();
    }

    private static IReadOnlyList<string> Families(string cell) => cell is Every ? [.. FamilyTable.Default.All, EncounterTable.Air] : EmbeddedTable.Entries(cell);
}
