using System.Collections;
using System.Diagnostics.CodeAnalysis;

namespace PreApproval.Hazards.Vessels;

/// <summary>One number for each of the few substances of a vessel, by key, in the order they came: searched from the front.</summary>
internal sealed class SpeciesValues(int most) : IReadOnlyDictionary<string, double>
{
    private KeyValuePair<string, double>[] entries = new KeyValuePair<string, double>[most];

    public int Count { get; private set; }

    public IEnumerable<string> Keys => this.Select(static entry => entry.Key);

    public IEnumerable<double> Values => this.Select(static entry => entry.Value);

    public double this[string key]
    {
        get => TryGetValue(key, out var value) ? value : throw new KeyNotFoundException(key);
        set
        {
            var index = Find(key);
            if (index < 0)
            {
                index = Count++;
                if (index == entries.Length)
                {
                    Array.Resize(ref entries, index + 4);
                }
            }

            entries[index] = new(key, value);
        }
    }

    public bool ContainsKey(string key) => Find(key) >= 0;

    public bool TryGetValue(string key, [MaybeNullWhen(false)] out double value)
    {
        var index = Find(key);
        value = index < 0 ? 0 : entries[index].Value;
        return index >= 0;
    }

    public IEnumerator<KeyValuePair<string, double>> GetEnumerator()
    {
        for (var index = 0; index < Count; index++)
        {
            yield return entries[index];
        }
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();

    private int Find(string key)
    {
        for (var index = 0; index < Count; index++)
        {
            if (string.Equals(entries[index].Key, key, StringComparison.Ordinal))
            {
                return index;
            }
        }

        return -1;
    }
}
