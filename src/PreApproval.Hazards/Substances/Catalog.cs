using System.Collections.Frozen;
using System.Diagnostics.CodeAnalysis;

namespace PreApproval.Hazards.Substances;

/// <summary>The substances shipped with the engine. Immutable and safe for concurrent use.</summary>
public sealed class Catalog
{
    private readonly FrozenDictionary<string, Substance> _byCas;
    private readonly FrozenDictionary<string, Substance> _byName;
    private readonly FrozenDictionary<string, Substance> _bySmiles;
    private readonly FrozenDictionary<string, string> _references;

    internal Catalog(IReadOnlyList<Substance> substances, IReadOnlyDictionary<string, string> references, string digest)
    {
        Substances = substances;
        Digest = digest;
        _references = references.ToFrozenDictionary(StringComparer.Ordinal);
        _byCas = substances.Where(s => s.Identity.Cas is not null).ToFrozenDictionary(s => s.Identity.Cas!, StringComparer.Ordinal);
        _bySmiles = substances.Where(s => s.Identity.Smiles is not null)
            .GroupBy(s => s.Identity.Smiles!, StringComparer.Ordinal)
            .ToFrozenDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        _byName = substances.SelectMany(s => Names(s.Identity).Select(n => (Name: Spelling(n), Substance: s)))
            .GroupBy(p => p.Name, StringComparer.Ordinal)
            .ToFrozenDictionary(g => g.Key, g => g.First().Substance, StringComparer.Ordinal);
    }

    /// <summary>The catalogue embedded in this assembly, loaded once.</summary>
    public static Catalog Default { get; } = CatalogReader.ReadEmbedded();

    /// <summary>All substances, by name.</summary>
    public IReadOnlyList<Substance> Substances { get; }

    /// <summary>SHA-256 over the embedded data files in ordinal order of their names, as <c>sha256:</c> and hexadecimal digits.</summary>
    public string Digest { get; }

    /// <summary>Finds a substance by its CAS number (with hyphens).</summary>
    public bool TryFindByCas(string cas, [NotNullWhen(true)] out Substance? substance) => _byCas.TryGetValue(cas.Trim(), out substance);

    /// <summary>
    /// Finds a substance by name or synonym, without regard to case, spaces and hyphens. Names of solutions (hydrochloric acid,
    /// formalin, bleach) find nothing: their pure solute would be a different thing.
    /// </summary>
    public bool TryFindByName(string name, [NotNullWhen(true)] out Substance? substance) => _byName.TryGetValue(Spelling(name), out substance);

    /// <summary>Finds a listed substance by its SMILES as written in the catalogue. Other spellings of a structure are not recognised here.</summary>
    public bool TryFindBySmiles(string smiles, [NotNullWhen(true)] out Substance? substance) => _bySmiles.TryGetValue(smiles.Trim(), out substance);

    /// <summary>Substances whose name, synonym or CAS number begins with the text, best first.</summary>
    public IReadOnlyList<Substance> Search(string text, int most)
    {
        var wanted = Spelling(text);
        if (wanted.Length == 0 || most <= 0)
        {
            return [];
        }

        return [.. Substances
            .Select(s => (Substance: s, Rank: Rank(s.Identity, wanted, text.Trim())))
            .Where(c => c.Rank < int.MaxValue)
            .OrderBy(c => c.Rank)
            .ThenBy(c => c.Substance.Identity.Name.Length)
            .ThenBy(c => c.Substance.Identity.Name, StringComparer.Ordinal)
            .Select(c => c.Substance)
            .Take(most)];
    }

    /// <summary>The full reference behind a source key; a key that is not in the list (a group's own source) is returned as it is.</summary>
    public string Reference(string sourceKey) => _references.GetValueOrDefault(sourceKey, sourceKey);

    internal static IEnumerable<string> Names(Identity identity) => identity.Synonyms.Prepend(identity.Name);

    internal static string Spelling(string name) => string.Create(
        name.Count(Counts),
        name,
        static (span, text) =>
        {
            var at = 0;
            foreach (var c in text)
            {
                if (Counts(c))
                {
                    span[at++] = char.ToLowerInvariant(c);
                }
            }
        });

    private static bool Counts(char c) => !char.IsWhiteSpace(c) && c is not ('-' or '\u2010' or '\u2011' or '\u2012' or '\u2013');

    private static int Rank(Identity identity, string wanted, string typed)
    {
        var name = Spelling(identity.Name);
        if (string.Equals(name, wanted, StringComparison.Ordinal) || string.Equals(identity.Cas, typed, StringComparison.Ordinal))
        {
            return 0;
        }

        var synonyms = identity.Synonyms.Select(Spelling).ToList();
        if (synonyms.Exists(s => string.Equals(s, wanted, StringComparison.Ordinal)))
        {
            return 1;
        }

        if (name.StartsWith(wanted, StringComparison.Ordinal))
        {
            return 2;
        }

        if (synonyms.Exists(s => s.StartsWith(wanted, StringComparison.Ordinal)))
        {
            return 3;
        }

        return identity.Cas?.StartsWith(typed, StringComparison.Ordinal) == true ? 4 : int.MaxValue;
    }
}
