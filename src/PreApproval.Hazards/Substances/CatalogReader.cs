using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Substances;

/// <summary>
/// Reads the data files: <c>identities.tsv</c>, one file per publication under <c>values</c> and <c>correlations</c>, the group
/// assignments and the references. Every fault is collected with its file and line; a catalogue with faults is not served.
/// </summary>
internal static class CatalogReader
{
    internal const string Identities = "Data/identities.tsv";
    internal const string Assignments = "Data/unifac-assignments.tsv";
    internal const string References = "Data/sources.bib";
    private const string Folder = "Data/";

    /// <summary>The embedded catalogue.</summary>
    /// <exception cref="InvalidDataException">The embedded data have faults: a programmer's mistake that the tests catch first.</exception>
    internal static Catalog ReadEmbedded()
    {
        var (catalog, faults) = Read(EmbeddedFiles());
        return faults.Count == 0 ? catalog : throw new InvalidDataException(string.Join(Environment.NewLine, faults));
    }

    /// <summary>All embedded data files by logical name, in ordinal order.</summary>
    internal static SortedDictionary<string, string> EmbeddedFiles()
    {
        var files = new SortedDictionary<string, string>(StringComparer.Ordinal);
        foreach (var resource in typeof(CatalogReader).Assembly.GetManifestResourceNames())
        {
            var name = resource.Replace('\\', '/');
            if (name.StartsWith(Folder, StringComparison.Ordinal))
            {
                files.Add(name, EmbeddedFile(resource));
            }
        }

        return files;
    }

    /// <summary>The text of one embedded data file.</summary>
    internal static string EmbeddedFile(string name)
    {
        using var reader = new StreamReader(typeof(CatalogReader).Assembly.GetManifestResourceStream(name)!, Encoding.UTF8);
        return reader.ReadToEnd();
    }

    /// <summary>Reads a set of data files into a catalogue and the list of its faults.</summary>
    internal static (Catalog Catalog, IReadOnlyList<string> Faults) Read(SortedDictionary<string, string> files)
    {
        var faults = new List<string>();
        var references = Bibliography.Read(files.GetValueOrDefault(References, ""));
        var drafts = new Dictionary<string, SubstanceDraft>(StringComparer.Ordinal);
        foreach (var row in TsvRow.Read(Identities, files.GetValueOrDefault(Identities, ""), faults))
        {
            ReadIdentity(row, drafts, faults);
        }

        foreach (var (file, text) in files)
        {
            if (file.StartsWith("Data/values/", StringComparison.Ordinal))
            {
                foreach (var row in TsvRow.Read(file, text, faults))
                {
                    ValueRows.Read(row, drafts, references, faults);
                }
            }
            else if (file.StartsWith("Data/correlations/", StringComparison.Ordinal))
            {
                foreach (var row in TsvRow.Read(file, text, faults))
                {
                    CorrelationRows.Read(row, drafts, references, faults);
                }
            }
        }

        foreach (var row in TsvRow.Read(Assignments, files.GetValueOrDefault(Assignments, ""), faults))
        {
            ReadAssignment(row, drafts, references, faults);
        }

        HealthRows.Read(files, drafts, references, faults);

        var substances = drafts.Values.Select(d => d.Build()).OrderBy(s => s.Identity.Name, StringComparer.Ordinal).ToList();
        CheckNames(substances, faults);
        foreach (var draft in drafts.Values)
        {
            CheckBoilingPoint(draft, faults);
        }

        return (new Catalog(substances, references, Digest(files)), faults);
    }

    private static void ReadIdentity(TsvRow row, Dictionary<string, SubstanceDraft> drafts, List<string> faults)
    {
        var cas = row["cas"];
        if (!CasNumber.IsValid(cas))
        {
            faults.Add(row.Fault($"'{cas}' is no CAS number (check digit)"));
            return;
        }

        var formula = row.Optional("formula");
        double? mass = null;
        if (formula is not null)
        {
            mass = Formula.MolarMassKgPerMol(formula);
            if (mass is null || !string.Equals(Formula.InHillOrder(formula), formula, StringComparison.Ordinal))
            {
                faults.Add(row.Fault($"'{formula}' is no formula in Hill order"));
            }
            else if (Math.Abs((mass.Value * 1000) - row.Number("molar_mass_g_per_mol", faults)) > 1e-3)
            {
                faults.Add(row.Fault($"the molar mass of {formula} is {mass * 1000} g/mol"));
            }
        }

        if (!Enum.TryParse<Phase>(row["phase_at_298K"], ignoreCase: true, out var phase))
        {
            faults.Add(row.Fault("phase must be gas, liquid or solid"));
        }

        if (!drafts.TryAdd(cas, new SubstanceDraft
        {
            Identity = new Identity
            {
                Cas = cas,
                Name = row["name"],
                Synonyms = row.Optional("synonyms")?.Split(';') ?? [],
                Formula = formula,
                MolarMassKgPerMol = mass,
                Smiles = row.Optional("smiles"),
            },
            Phase = phase,
            Involatile = string.Equals(row["involatile"], "yes", StringComparison.Ordinal),
        }))
        {
            faults.Add(row.Fault($"{cas} is listed twice"));
        }
    }

    private static void ReadAssignment(TsvRow row, Dictionary<string, SubstanceDraft> drafts, Dictionary<string, string> references, List<string> faults)
    {
        if (!row.TryDraft(drafts, faults, out var draft) || !row.TrySource(references, faults, out var source) || !row.TryQuality(faults, out var quality))
        {
            return;
        }

        var counts = new Dictionary<int, int>();
        foreach (var part in row["subgroups"].Split(' '))
        {
            var pair = part.Split(':');
            if (pair.Length != 2 || !int.TryParse(pair[0], CultureInfo.InvariantCulture, out var subgroup) || !int.TryParse(pair[1], CultureInfo.InvariantCulture, out var count) || !UnifacTable.Default.Subgroups.ContainsKey(subgroup))
            {
                faults.Add(row.Fault($"'{part}' is no subgroup and count"));
                return;
            }

            counts.Add(subgroup, count);
        }

        draft.Groups = new Sourced<IReadOnlyDictionary<int, int>>(counts, quality, [source]);
    }

    private static void CheckNames(List<Substance> substances, List<string> faults)
    {
        var seen = new Dictionary<string, Substance>(StringComparer.Ordinal);
        foreach (var substance in substances)
        {
            foreach (var name in Catalog.Names(substance.Identity))
            {
                if (!seen.TryAdd(Catalog.Spelling(name), substance) && !ReferenceEquals(seen[Catalog.Spelling(name)], substance))
                {
                    faults.Add($"'{name}' names both {seen[Catalog.Spelling(name)].Identity.Name} and {substance.Identity.Name}");
                }
            }
        }
    }

    private static void CheckBoilingPoint(SubstanceDraft draft, List<string> faults)
    {
        var substance = draft.Build();
        if (substance.BoilingPointK is null || substance.VapourPressure.Count == 0)
        {
            return;
        }

        // Where the preferred correlation reaches a published boiling point, one of them must agree with it within 2 K.
        var agrees = draft.BoilingPointsK.Exists(tb =>
            VapourPressure.At(substance, tb - 2).Pascal < 101_325 && !(VapourPressure.At(substance, tb + 2).Pascal <= 101_325));
        if (!agrees)
        {
            faults.Add($"{substance.Identity.Name}: boiling point and preferred vapour pressure differ by more than 2 K");
        }
    }

    private static string Digest(SortedDictionary<string, string> files)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var (name, text) in files)
        {
            hash.AppendData(Encoding.UTF8.GetBytes(name));
            hash.AppendData([0]);
            hash.AppendData(Encoding.UTF8.GetBytes(text));
            hash.AppendData([0]);
        }

        return "sha256:" + Convert.ToHexStringLower(hash.GetHashAndReset());
    }
}
