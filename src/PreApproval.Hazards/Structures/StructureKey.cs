using System.Diagnostics.CodeAnalysis;

namespace PreApproval.Hazards.Structures;

/// <summary>
/// Names of a structure that are equal for every spelling of it: with Kekulé or aromatic bonds, atoms in any order, parts of a salt
/// in any order, nitro groups with or without charges. Compare by the first that finds something: <see cref="WithStereo"/>, then
/// <see cref="WithoutStereo"/>, then <see cref="WithoutIsotopes"/>.
/// </summary>
/// <param name="WithStereo">Isotopes and stereo marks count.</param>
/// <param name="WithoutStereo">Isotopes count. Valid SMILES: the canonical spelling.</param>
/// <param name="WithoutIsotopes">Neither counts, so CDCl3 is chloroform.</param>
public sealed record StructureKey(string WithStereo, string WithoutStereo, string WithoutIsotopes)
{
    /// <summary>The key of a SMILES, or why it cannot be read.</summary>
    public static bool TryOf(string smiles, [NotNullWhen(true)] out StructureKey? key, [NotNullWhen(false)] out StructureError? error)
    {
        key = SmilesReader.TryRead(smiles, out var molecule, out error) ? Of(molecule) : null;
        return key is not null;
    }

    /// <summary>The key of a structure.</summary>
    public static StructureKey Of(Molecule molecule)
    {
        ArgumentNullException.ThrowIfNull(molecule);
        var parts = Parts(molecule);
        var stereo = Join(parts.Select(p => Spell(molecule, p, stereo: true, isotopes: true)));
        var plain = molecule.Stereo.IsEmpty ? stereo : Join(parts.Select(p => Spell(molecule, p, stereo: false, isotopes: true)));
        return new StructureKey(stereo, plain, HasIsotopes(molecule) ? Join(WithoutIsotopesOf(plain)) : plain);
    }

    private static string Join(IEnumerable<string> parts) => string.Join('.', parts.Order(StringComparer.Ordinal));

    private static bool HasIsotopes(Molecule molecule)
    {
        foreach (var atom in molecule.Atoms)
        {
            if (atom.Isotope != 0)
            {
                return true;
            }
        }

        return false;
    }

    // labelled hydrogens stand alone: they must be read again as ordinary ones
    private static IEnumerable<string> WithoutIsotopesOf(string canonical)
    {
        _ = SmilesReader.TryRead(canonical, out var labelled, out _);
        var text = string.Join('.', Parts(labelled!).Select(p => SmilesWriter.Write(labelled!, p[0], [.. Enumerable.Range(0, labelled!.Atoms.Length)], isotopes: false)));
        return SmilesReader.TryRead(text, out var plain, out _)
            ? Parts(plain).Select(p => Spell(plain, p, stereo: false, isotopes: false))
            : [canonical];
    }

    private static string Spell(Molecule molecule, int[] part, bool stereo, bool isotopes)
    {
        var (ranks, marks) = CanonicalOrder.Of(molecule, part, stereo, isotopes);
        var rank = new int[molecule.Atoms.Length];
        var start = part[0];
        for (var i = 0; i < part.Length; i++)
        {
            rank[part[i]] = ranks[i];
            start = ranks[i] == 0 ? part[i] : start;
        }

        var text = SmilesWriter.Write(molecule, start, rank, isotopes: isotopes);
        return marks.Length > 0 ? $"{text}|{marks}|" : text;
    }

    private static List<int[]> Parts(Molecule molecule)
    {
        var seen = new bool[molecule.Atoms.Length];
        var parts = new List<int[]>();
        for (var root = 0; root < seen.Length; root++)
        {
            if (seen[root])
            {
                continue;
            }

            seen[root] = true;
            var part = new List<int> { root };
            for (var i = 0; i < part.Count; i++)
            {
                foreach (var (to, _) in molecule.Neighbours(part[i]))
                {
                    if (!seen[to])
                    {
                        seen[to] = true;
                        part.Add(to);
                    }
                }
            }

            parts.Add([.. part]);
        }

        return parts;
    }
}
