using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;
using PreApproval.Hazards.Structures;

namespace PreApproval.Hazards.Substances;

/// <summary>The substances shipped with the engine. Immutable and safe for concurrent use.</summary>
public sealed class Catalog
{
    private readonly SpellingIndex _index;
    private readonly Dictionary<string, Substance> _byCas = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Substance> _bySmiles = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _references;
    private readonly ConcurrentDictionary<string, string> _sentences = new(StringComparer.Ordinal);
    private readonly Lazy<string> _digest;
    private readonly Lazy<StructureIndex> _structures;

    internal Catalog(IReadOnlyList<Substance> substances, SpellingIndex index, Dictionary<string, string> references, Func<string> digest)
    {
        Substances = substances;
        _index = index;
        _references = references;
        _digest = new Lazy<string>(digest);
        // a key for each of a thousand structures takes some ten milliseconds: only where somebody asks for one
        _structures = new Lazy<StructureIndex>(() => new StructureIndex(substances));
        foreach (var substance in substances)
        {
            if (substance.Identity.Cas is { } cas)
            {
                _byCas.Add(cas, substance);
            }

            if (substance.Identity.Smiles is { } smiles)
            {
                _bySmiles.TryAdd(smiles, substance);
            }
        }
    }

    /// <summary>The catalogue embedded in this assembly, loaded once.</summary>
    public static Catalog Default { get; } = CatalogReader.ReadEmbedded();

    /// <summary>All substances, by name.</summary>
    public IReadOnlyList<Substance> Substances { get; }

    /// <summary>SHA-256 over the embedded data files in ordinal order of their names, as <c>sha256:</c> and hexadecimal digits.</summary>
    public string Digest => _digest.Value;

    /// <summary>Finds a substance by its CAS number (with hyphens).</summary>
    public bool TryFindByCas(string cas, [NotNullWhen(true)] out Substance? substance) => _byCas.TryGetValue(cas.Trim(), out substance);

    /// <summary>
    /// Finds a substance by name or synonym, without regard to case, spaces and hyphens. Names of solutions (hydrochloric acid,
    /// formalin, bleach) find nothing: their pure solute would be a different thing.
    /// </summary>
    public bool TryFindByName(string name, [NotNullWhen(true)] out Substance? substance)
    {
        substance = _index.Named(IndexSpelling(name));
        return substance is not null;
    }

    /// <summary>
    /// Finds a listed substance by any spelling of its structure. Stereo marks, isotopes and charges count: what differs in them is another
    /// substance, see <see cref="NearestStructure"/>.
    /// </summary>
    public bool TryFindBySmiles(string smiles, [NotNullWhen(true)] out Substance? substance)
    {
        var text = smiles.Trim();
        if (_bySmiles.TryGetValue(text, out substance))
        {
            return true;
        }

        return SmilesReader.TryRead(text, out var molecule, out _) && _structures.Value.TryFind(molecule, out substance);
    }

    /// <summary>The listed substances that come nearest to a structure, or null.</summary>
    public StructureRelation? NearestStructure(Molecule molecule)
    {
        ArgumentNullException.ThrowIfNull(molecule);
        return _structures.Value.Nearest(molecule);
    }

    /// <summary>
    /// Substances whose name, synonym or CAS number begins with the text, then those with a later word that does, best first. Where
    /// nothing begins like that, names with one letter mistyped.
    /// </summary>
    public IReadOnlyList<Substance> Search(string text, int most)
    {
        var wanted = IndexSpelling(text);
        return wanted.Length == 0 || most <= 0 ? [] : _index.Search(wanted, most);
    }

    /// <summary>The full reference behind a source key; a key that is not in the list (a group's own source) is returned as it is.</summary>
    public string Reference(string sourceKey) =>
        // written when it is first asked for, and kept: a screening cites the same few works again and again
        _references.TryGetValue(sourceKey, out var entry) ? _sentences.GetOrAdd(sourceKey, static (_, body) => Bibliography.Sentence(body), entry) : sourceKey;

    /// <summary>A name as names are compared: small letters, without spaces and hyphens.</summary>
    internal static string Spelling(string name) => Compared(name, static c => Counts(c) ? char.ToLowerInvariant(c) : '\0');

    /// <summary>
    /// A name as the index knows it: its spelling with subscript digits as digits, a raised dot as a full stop, and sulph-, aluminum
    /// and cesium as sulf-, aluminium and caesium.
    /// </summary>
    internal static string IndexSpelling(string name)
    {
        var spelling = Compared(name, Folded);
        return spelling.Contains("sulph", StringComparison.Ordinal) || spelling.Contains("aluminum", StringComparison.Ordinal) || spelling.Contains("cesium", StringComparison.Ordinal)
            ? spelling.Replace("sulph", "sulf", StringComparison.Ordinal).Replace("aluminum", "aluminium", StringComparison.Ordinal).Replace("cesium", "caesium", StringComparison.Ordinal)
            : spelling;
    }

    private static string Compared(string name, Func<char, char> compared)
    {
        Span<char> letters = name.Length <= 256 ? stackalloc char[name.Length] : new char[name.Length];
        var length = 0;
        foreach (var c in name)
        {
            if (compared(c) is var letter && letter != '\0')
            {
                letters[length++] = letter;
            }
        }

        return letters[..length].ToString();
    }

    private static bool Counts(char c) => !char.IsWhiteSpace(c) && c is not ('-' or '\u2010' or '\u2011' or '\u2012' or '\u2013');

    private static char Folded(char c) => c switch
    {
        >= 'a' and <= 'z' or >= '0' and <= '9' => c,
        >= 'A' and <= 'Z' => (char)(c | 0x20),
        >= '\u2080' and <= '\u2089' => (char)(c - '\u2080' + '0'),
        '\u00B7' or '\u2022' or '\u22C5' => '.',
        '\u2019' or '\u2032' => '\'',
        _ => Counts(c) ? char.ToLowerInvariant(c) : '\0',
    };
}
