namespace PreApproval.Hazards.Substances;

/// <summary>
/// Every way to find a substance by typing, sorted once: names, synonyms, CAS numbers (with and without hyphens), and the later
/// words of names. A search is a binary search and a walk over the spellings that begin with the text.
/// </summary>
internal sealed class SpellingIndex
{
    private const int ShortestWord = 3;

    // Below this length a changed letter makes another name, not a mistyped one.
    private const int ShortestMistyped = 5;

    private readonly IReadOnlyList<Substance> _substances;
    private readonly Entry[] _entries;

    public SpellingIndex(IReadOnlyList<Substance> substances)
    {
        _substances = substances;
        var entries = new List<Entry>(substances.Count * 8);
        for (var i = 0; i < substances.Count; i++)
        {
            var identity = substances[i].Identity;
            Add(entries, identity.Name, i, Kind.Name);
            foreach (var synonym in identity.Synonyms)
            {
                Add(entries, synonym, i, Kind.Synonym);
            }

            if (identity.Cas is { } cas)
            {
                entries.Add(new Entry(Catalog.IndexSpelling(cas), cas, i, Kind.Cas));
            }
        }

        _entries = [.. entries];
        Array.Sort(_entries, BySpelling.Instance);
    }

    private enum Kind
    {
        Name,
        Synonym,
        Cas,
        LaterWord,
    }

    /// <summary>The substance with exactly this name or synonym, spelled as the index spells.</summary>
    public Substance? Named(string spelling)
    {
        for (var i = FirstAtOrAfter(spelling); i < _entries.Length && string.Equals(_entries[i].Spelling, spelling, StringComparison.Ordinal); i++)
        {
            if (_entries[i].Kind is Kind.Name or Kind.Synonym)
            {
                return _substances[_entries[i].Substance];
            }
        }

        return null;
    }

    /// <summary>Names that stand for two substances, as the name and the positions of both.</summary>
    public IEnumerable<(string Name, int First, int Second)> Shared()
    {
        Entry? previous = null;
        foreach (var entry in _entries)
        {
            if (entry.Kind is Kind.Cas or Kind.LaterWord)
            {
                continue;
            }

            if (previous is not null && previous.Substance != entry.Substance && string.Equals(previous.Spelling, entry.Spelling, StringComparison.Ordinal))
            {
                yield return (entry.Text, previous.Substance, entry.Substance);
            }

            previous = entry;
        }
    }

    /// <summary>
    /// Substances best first: exact name or CAS number, exact synonym, beginning of a name, of a synonym, of a CAS number, of a later
    /// word; and where nothing begins like that, names with one letter wrong, missing, doubled or two exchanged.
    /// </summary>
    public IReadOnlyList<Substance> Search(string spelling, int most)
    {
        var ranks = new byte[_substances.Count];
        var found = new List<int>();
        for (var i = FirstAtOrAfter(spelling); i < _entries.Length && _entries[i].Spelling.StartsWith(spelling, StringComparison.Ordinal); i++)
        {
            Found(ranks, found, _entries[i].Substance, Rank(_entries[i], spelling));
        }

        if (found.Count == 0 && spelling.Length >= ShortestMistyped)
        {
            foreach (var entry in _entries)
            {
                if (entry.Kind is Kind.Name or Kind.Synonym && BeginsAlmostLike(entry.Spelling, spelling))
                {
                    Found(ranks, found, entry.Substance, entry.Kind is Kind.Name ? 1 : 2);
                }
            }
        }

        found.Sort((a, b) => Compare(ranks, a, b));
        var results = new Substance[Math.Min(most, found.Count)];
        for (var i = 0; i < results.Length; i++)
        {
            results[i] = _substances[found[i]];
        }

        return results;
    }

    /// <summary>True when the text begins with the wanted letters but for one that is wrong, missing, too many, or exchanged with the next.</summary>
    internal static bool BeginsAlmostLike(ReadOnlySpan<char> text, ReadOnlySpan<char> wanted)
    {
        var same = text.CommonPrefixLength(wanted);
        if (same == wanted.Length)
        {
            return true;
        }

        var rest = wanted[(same + 1)..];
        if (same == text.Length)
        {
            return rest.IsEmpty;
        }

        return text[(same + 1)..].StartsWith(rest)
            || text[same..].StartsWith(rest)
            || text[(same + 1)..].StartsWith(wanted[same..])
            || (rest.Length > 0 && same + 1 < text.Length && text[same] == rest[0] && text[same + 1] == wanted[same] && text[(same + 2)..].StartsWith(rest[1..]));
    }

    private static void Add(List<Entry> entries, string name, int substance, Kind kind)
    {
        entries.Add(new Entry(Catalog.IndexSpelling(name), name, substance, kind));
        for (var i = 1; i + ShortestWord <= name.Length; i++)
        {
            if (char.IsLetter(name[i]) && !char.IsLetter(name[i - 1]) && WordLength(name, i) >= ShortestWord)
            {
                entries.Add(new Entry(Catalog.IndexSpelling(name[i..]), name, substance, Kind.LaterWord));
            }
        }
    }

    private static int WordLength(string name, int start)
    {
        var end = start;
        while (end < name.Length && char.IsLetter(name[end]))
        {
            end++;
        }

        return end - start;
    }

    // From 1, since 0 is not found.
    private static int Rank(Entry entry, string spelling) => (entry.Kind, entry.Spelling.Length == spelling.Length) switch
    {
        (Kind.Name or Kind.Cas, true) => 1,
        (Kind.Synonym, true) => 2,
        (Kind.Name, false) => 3,
        (Kind.Synonym, false) => 4,
        (Kind.Cas, false) => 5,
        (Kind.LaterWord, _) => 6,
    };

    private static void Found(byte[] ranks, List<int> found, int substance, int rank)
    {
        if (ranks[substance] == 0)
        {
            found.Add(substance);
        }
        else if (ranks[substance] <= rank)
        {
            return;
        }

        ranks[substance] = (byte)rank;
    }

    private int Compare(byte[] ranks, int a, int b)
    {
        var order = ranks[a] - ranks[b];
        if (order == 0)
        {
            order = _substances[a].Identity.Name.Length - _substances[b].Identity.Name.Length;
        }

        return order != 0 ? order : string.CompareOrdinal(_substances[a].Identity.Name, _substances[b].Identity.Name);
    }

    private int FirstAtOrAfter(string spelling)
    {
        var low = 0;
        var high = _entries.Length;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (string.CompareOrdinal(_entries[middle].Spelling, spelling) < 0)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }

        return low;
    }

    private sealed record Entry(string Spelling, string Text, int Substance, Kind Kind);

    private sealed class BySpelling : IComparer<Entry>
    {
        public static readonly BySpelling Instance = new();

        public int Compare(Entry? x, Entry? y) => string.CompareOrdinal(x!.Spelling, y!.Spelling);
    }
}
