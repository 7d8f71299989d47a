using System.Collections.Frozen;
using System.Runtime.InteropServices;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Screening;

/// <summary>Full references for the sources of the screening tables, and of the catalogue.</summary>
internal static class References
{
    private static readonly FrozenDictionary<string, string> Own =
        EmbeddedTable.Rows("references.tsv").ToFrozenDictionary(static row => row["key"], static row => row["reference"], StringComparer.Ordinal);

    // what one source gives is asked for again and again
    private static readonly FrozenDictionary<string, IReadOnlyList<string>> Alone =
        Own.ToFrozenDictionary(static entry => entry.Key, static IReadOnlyList<string> (entry) => Array.AsReadOnly([entry.Value]), StringComparer.Ordinal);

    public static string Full(string key) => Own.TryGetValue(key, out var reference) ? reference : Catalog.Default.Reference(key);

    public static IReadOnlyList<string> Full(IEnumerable<string> keys) => keys switch
    {
        string[] array => Full(array.AsSpan()),
        List<string> list => Full(CollectionsMarshal.AsSpan(list)),
        _ => Full([.. keys]),
    };

    /// <summary>Each key once, in the order of the keys.</summary>
    public static IReadOnlyList<string> Full(params ReadOnlySpan<string> keys)
    {
        if (keys.Length == 1 && Alone.TryGetValue(keys[0], out var one))
        {
            return one;
        }

        var full = new string[keys.Length];
        var count = 0;
        for (var index = 0; index < keys.Length; index++)
        {
            if (!keys[..index].Contains(keys[index]))
            {
                full[count++] = Full(keys[index]);
            }
        }

        return count == full.Length ? full : full[..count];
    }

    /// <summary>Where a limit of the policy comes from: its publication, or the group where it set another number.</summary>
    public static string OfLimit(string key, double value, double byDefault) =>
        value == byDefault ? Full(key) : $"set by the group; the default is from {Full(key)}";

    public static bool IsOwn(string key) => Own.ContainsKey(key);
}
