namespace PreApproval.Hazards.Substances;

/// <summary>How well a name fits what was typed, best first.</summary>
public enum NameMatch
{
    /// <summary>The name or the CAS number is what was typed.</summary>
    Exact,

    /// <summary>A synonym is what was typed.</summary>
    ExactSynonym,

    /// <summary>The name begins with it.</summary>
    Beginning,

    /// <summary>A synonym begins with it.</summary>
    SynonymBeginning,

    /// <summary>The CAS number begins with it.</summary>
    CasBeginning,

    /// <summary>A word inside the name or a synonym begins with it.</summary>
    WordBeginning,
}

/// <summary>What was found.</summary>
/// <param name="Item">What the names belong to.</param>
/// <param name="Match">How it was found.</param>
/// <param name="Name">The name, synonym or CAS number that fits.</param>
public readonly record struct NameHit<T>(T Item, NameMatch Match, string Name);

/// <summary>
/// Finds things by the beginning of a name, a synonym or a CAS number, without regard to case, spaces and hyphens. The spellings are
/// worked out once, so that a search is a pass over short strings without allocation per name. Immutable and safe for concurrent use.
/// </summary>
public sealed class NameIndex<T>
{
    private readonly Entry[] _entries;

    /// <param name="items">In any order.</param>
    /// <param name="identityOf">What names an item.</param>
    public NameIndex(IEnumerable<T> items, Func<T, Identity> identityOf)
    {
        ArgumentNullException.ThrowIfNull(items);
        ArgumentNullException.ThrowIfNull(identityOf);
        _entries = [.. items.Select(item => new Entry(item, identityOf(item)))
            .OrderBy(static entry => entry.Spellings[0].Name.Length)
            .ThenBy(static entry => entry.Spellings[0].Name, StringComparer.Ordinal)];
    }

    /// <summary>What fits best first; of equals the shorter name, then by letter.</summary>
    /// <param name="text">Beginning of a name or CAS number; blank finds nothing.</param>
    /// <param name="most">At most so many.</param>
    public IReadOnlyList<NameHit<T>> Search(string text, int most)
    {
        ArgumentNullException.ThrowIfNull(text);
        var wanted = NameSpelling.Of(text);
        if (wanted.Length == 0 || most <= 0)
        {
            return [];
        }

        var typed = text.Trim();
        var hits = new List<NameHit<T>>();
        foreach (var entry in _entries)
        {
            if (entry.Match(wanted, typed) is { } hit)
            {
                hits.Add(hit);
            }
        }

        // The entries are in order already, and this sort keeps it among equals.
        return [.. hits.OrderBy(static hit => hit.Match).Take(most)];
    }

    private sealed class Entry(T item, Identity identity)
    {
        public Spelled[] Spellings { get; } = [.. identity.Synonyms.Prepend(identity.Name).Select(static name => new Spelled(name))];

        public NameHit<T>? Match(string wanted, string typed)
        {
            (NameMatch Match, string Name)? best = null;
            for (var i = 0; i < Spellings.Length; i++)
            {
                if (Spellings[i].Match(wanted, i > 0) is { } match && (best is null || match < best.Value.Match))
                {
                    best = (match, Spellings[i].Name);
                }
            }

            if (identity.Cas is { } cas && cas.StartsWith(typed, StringComparison.Ordinal))
            {
                var match = cas.Length == typed.Length ? NameMatch.Exact : NameMatch.CasBeginning;
                if (best is null || match < best.Value.Match)
                {
                    best = (match, cas);
                }
            }

            return best is { } found ? new NameHit<T>(item, found.Match, found.Name) : null;
        }
    }

    private sealed class Spelled
    {
        private readonly string _spelling;
        private readonly int[] _words;

        public Spelled(string name)
        {
            Name = name;
            _spelling = NameSpelling.Of(name);
            _words = [.. WordStarts(name)];
        }

        public string Name { get; }

        public NameMatch? Match(string wanted, bool synonym)
        {
            if (_spelling.StartsWith(wanted, StringComparison.Ordinal))
            {
                return (_spelling.Length == wanted.Length, synonym) switch
                {
                    (true, false) => NameMatch.Exact,
                    (true, true) => NameMatch.ExactSynonym,
                    (false, false) => NameMatch.Beginning,
                    (false, true) => NameMatch.SynonymBeginning,
                };
            }

            foreach (var start in _words)
            {
                if (string.CompareOrdinal(_spelling, start, wanted, 0, wanted.Length) == 0)
                {
                    return NameMatch.WordBeginning;
                }
            }

            return null;
        }

        /// <summary>Places in the spelling where a word begins: after a blank, a hyphen, a bracket, a comma or a digit.</summary>
        private static IEnumerable<int> WordStarts(string name)
        {
            var at = 0;
            for (var i = 0; i < name.Length; i++)
            {
                if (!NameSpelling.Counts(name[i]))
                {
                    continue;
                }

                if (at > 0 && char.IsLetter(name[i]) && !char.IsLetter(name[i - 1]) && name[i - 1] is not '\'')
                {
                    yield return at;
                }

                at++;
            }
        }
    }
}
