using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using PreApproval.Hazards.Health;

namespace PreApproval.Hazards.Substances;

/// <summary>
/// Reads the data files: <c>identities.tsv</c>, one file per publication under <c>values</c> and <c>correlations</c>, the group
/// assignments and the references. Every fault is collected with its file, line and column; a catalogue with faults is not served.
/// </summary>
internal static class CatalogReader
{
    internal const string Identities = "Data/identities.tsv";
    internal const string Assignments = "Data/unifac-assignments.tsv";
    internal const string Subgroups = "Data/unifac-subgroups.tsv";
    internal const string References = "Data/sources.bib";
    private const string Folder = "Data/";
    private const string Values = "Data/values/";
    private const string Correlations = "Data/correlations/";

    /// <summary>The embedded catalogue.</summary>
    /// <exception cref="InvalidDataException">The embedded data have faults: a programmer's mistake that the tests catch first.</exception>
    internal static Catalog ReadEmbedded()
    {
        // The digest covers every data file of the engine; only those of the catalogue are read here.
        var (catalog, faults) = Read(EmbeddedFiles(IsOfTheCatalogue), static () => Digest(EmbeddedFiles()));
        return faults.Count == 0 ? catalog : throw new InvalidDataException(string.Join(Environment.NewLine, faults));
    }

    /// <summary>All embedded data files by logical name.</summary>
    internal static Dictionary<string, string> EmbeddedFiles() => EmbeddedFiles(static _ => true);

    /// <summary>The text of one embedded data file.</summary>
    internal static string EmbeddedFile(string name)
    {
        using var stream = typeof(CatalogReader).Assembly.GetManifestResourceStream(name)!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return Encoding.UTF8.GetString(bytes.AsSpan(bytes.AsSpan().StartsWith(Encoding.UTF8.Preamble) ? Encoding.UTF8.Preamble.Length : 0));
    }

    /// <summary>Reads a set of data files into a catalogue and the list of its faults.</summary>
    internal static (Catalog Catalog, IReadOnlyList<string> Faults) Read(Dictionary<string, string> files) => Read(files, () => Digest(files));

    private static (Catalog Catalog, IReadOnlyList<string> Faults) Read(Dictionary<string, string> files, Func<string> digest)
    {
        var references = Bibliography.Read(files.GetValueOrDefault(References, ""));
        var draft = new CatalogDraft(references);
        var faults = draft.Faults;
        foreach (var row in TsvRow.Read(Identities, files.GetValueOrDefault(Identities, ""), faults, IdentityRows.Heading))
        {
            IdentityRows.Read(row, draft);
        }

        foreach (var file in InOrder(files))
        {
            var text = files[file];
            if (file.StartsWith(Values, StringComparison.Ordinal))
            {
                foreach (var row in TsvRow.Read(file, text, faults, ValueRows.Heading))
                {
                    ValueRows.Read(row, draft);
                }
            }
            else if (file.StartsWith(Correlations, StringComparison.Ordinal))
            {
                foreach (var row in TsvRow.Read(file, text, faults, CorrelationRows.Heading))
                {
                    CorrelationRows.Read(row, draft);
                }
            }
        }

        var subgroups = SubgroupNumbers(files.GetValueOrDefault(Subgroups, ""));
        foreach (var row in TsvRow.Read(Assignments, files.GetValueOrDefault(Assignments, ""), faults, AssignmentRows.Heading))
        {
            AssignmentRows.Read(row, draft, subgroups);
        }

        HealthRows.Read(files, draft);

        var drafts = draft.Substances;
        drafts.Sort(static (a, b) => string.CompareOrdinal(a.Identity.Name, b.Identity.Name));
        var substances = new Substance[drafts.Count];
        for (var i = 0; i < substances.Length; i++)
        {
            substances[i] = drafts[i].Build();
            CatalogChecks.Check(drafts[i], substances[i], faults);
        }

        var index = new SpellingIndex(substances);
        CatalogChecks.CheckNames(index, drafts, faults);
        return (new Catalog(substances, index, references, digest), faults);
    }

    private static Dictionary<string, string> EmbeddedFiles(Func<string, bool> wanted)
    {
        var files = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var resource in typeof(CatalogReader).Assembly.GetManifestResourceNames())
        {
            var name = resource.Replace('\\', '/');
            if (name.StartsWith(Folder, StringComparison.Ordinal) && wanted(name))
            {
                files.Add(name, EmbeddedFile(resource));
            }
        }

        return files;
    }

    private static bool IsOfTheCatalogue(string name) =>
        name is Identities or Assignments or Subgroups or References
        || HealthRows.IsHealthFile(name)
        || name.StartsWith(Values, StringComparison.Ordinal)
        || name.StartsWith(Correlations, StringComparison.Ordinal);

    // The numbers alone: the whole UNIFAC table is read when it is first used.
    private static List<int> SubgroupNumbers(string text)
    {
        var numbers = new List<int>();
        foreach (var row in TsvRow.Read(Subgroups, text, []))
        {
            if (int.TryParse(row.Cell(0), NumberStyles.None, CultureInfo.InvariantCulture, out var number))
            {
                numbers.Add(number);
            }
        }

        return numbers;
    }

    private static string[] InOrder(Dictionary<string, string> files)
    {
        var names = new string[files.Count];
        files.Keys.CopyTo(names, 0);
        Array.Sort(names, StringComparer.Ordinal);
        return names;
    }

    private static string Digest(Dictionary<string, string> files)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var name in InOrder(files))
        {
            hash.AppendData(Encoding.UTF8.GetBytes(name));
            hash.AppendData([0]);
            hash.AppendData(Encoding.UTF8.GetBytes(files[name]));
            hash.AppendData([0]);
        }

        return "sha256:" + Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
