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
    private readonly NameIndex<Substance> _index;

    internal Catalog(IReadOnlyList<Substance> substances, IReadOnlyDictionary<string, string> references, string digest)
    {
        Substances = substances;
        Digest = digest;
        _index = new NameIndex<Substance>(substances, static s => s.Identity);
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

    /// <summary>Substances whose name, synonym or CAS number begins with the text, or a word inside a name does; best first.</summary>
    public IReadOnlyList<Substance> Search(string text, int most) => [.. _index.Search(text, most).Select(static hit => hit.Item)];

    /// <summary>The same with the name that fits and how well it does, to be merged with finds from elsewhere.</summary>
    public IReadOnlyList<NameHit<Substance>> Find(string text, int most) => _index.Search(text, most);

    /// <summary>True where two names differ in case, spaces and hyphens only.</summary>
    public static bool SameName(string one, string other) => string.Equals(Spelling(one), Spelling(other), StringComparison.Ordinal);

    /// <summary>The full reference behind a source key; a key that is not in the list (a group's own source) is returned as it is.</summary>
    public string Reference(string sourceKey) => _references.GetValueOrDefault(sourceKey, sourceKey);

    internal static IEnumerable<string> Names(Identity identity) => identity.Synonyms.Prepend(identity.Name);

    /// <summary>What names are compared by: in lower case, without spaces and hyphens.</summary>
    public static string Spelling(string name) => string.Create(
        name.Count(CountsInSpelling),
        name,
        static (span, text) =>
        {
            var at = 0;
            foreach (var c in text)
            {
                if (CountsInSpelling(c))
                {
                    span[at++] = char.ToLowerInvariant(c);
                }
            }
        });

    /// <summary>True for the characters that names are compared by.</summary>
    internal static bool CountsInSpelling(char c) => !char.IsWhiteSpace(c) && c is not ('-' or '\u2010' or '\u2011' or '\u2012' or '\u2013');
}
