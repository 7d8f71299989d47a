using System.Globalization;
using PreApproval.Hazards.Structures;

namespace PreApproval.Reference.Tests.Structures;

/// <summary>
/// Our reader and matcher against RDKit 2022.09.3 and Open Babel 3.1.1 (Debian packages) on the structures of Values/structures.tsv. The
/// script beside this file says where they come from; docs/methods/structures.md explains every deviation named here.
/// </summary>
public sealed class StructureReferenceTests
{
    private const double ElectronGramPerMol = 0.00054857990907;

    private static readonly string[][] Rows = [.. ReferenceValues.Read("structures.tsv")];

    private static readonly Molecule[] Molecules = [.. Rows.Select(r => Read(r[0]))];

    /// <summary>
    /// Atomic weights in which RDKit 2022.09.3 differs from the IUPAC table of 2021 (Prohaska et al., Pure Appl. Chem. 94 (2022) 573): symbol,
    /// RDKit, IUPAC. RDKit's numbers are those of its periodic table.
    /// </summary>
    private static readonly (string Symbol, double Rdkit, double Iupac)[] OtherWeights =
    [
        ("Li", 6.941, 6.94), ("B", 10.812, 10.81), ("F", 18.998, 18.998403162), ("Na", 22.99, 22.98976928), ("Al", 26.982, 26.9815384), ("Si", 28.086, 28.085),
        ("P", 30.974, 30.973761998), ("S", 32.067, 32.06), ("Cl", 35.453, 35.45), ("Ar", 39.948, 39.95), ("K", 39.098, 39.0983), ("Cr", 51.996, 51.9961),
        ("Mn", 54.938, 54.938043), ("Co", 58.933, 58.933194), ("Ni", 58.693, 58.6934), ("Zn", 65.39, 65.38), ("As", 74.922, 74.921595), ("Se", 78.96, 78.971),
        ("Mo", 95.94, 95.95), ("Rh", 102.906, 102.90549), ("Ag", 107.868, 107.8682), ("Sn", 118.711, 118.71), ("I", 126.904, 126.90447), ("Cs", 132.905, 132.90545196),
        ("Ba", 137.328, 137.327), ("Pt", 195.078, 195.084), ("Au", 196.967, 196.96657), ("Hg", 200.59, 200.592), ("Bi", 208.98, 208.9804),
        ("V", 50.942, 50.9415), ("He", 4.003, 4.002602), ("Ne", 20.18, 20.1797), ("Kr", 83.8, 83.798), ("Xe", 131.29, 131.293), ("Ge", 72.61, 72.63), ("Cd", 112.412, 112.414),
        ("Rb", 85.468, 85.4678), ("Yb", 173.04, 173.045), ("La", 138.906, 138.90547), ("Y", 88.906, 88.905838), ("Tl", 204.383, 204.38), ("Be", 9.012, 9.0121831),
    ];

    /// <summary>Where both read another drawing literally and we read the substance: alkali metals on oxygen as ions, S⁺–O⁻ as S=O, N⁻–N⁺≡N as N=N⁺=N⁻, [H][H] as [HH], and oxo acids of the halogens without charges.</summary>
    private static readonly HashSet<(string Group, string Smiles)> OtherDrawings =
    [
        ("alkali hydroxides", "[Na]O"),
        ("strong non-aqueous bases", "[Na]OC"),
        ("sulfoxide", "C[S+](C)[O-]"),
        ("organic azide", "C[N-][N+]#N"),
        ("diazo compound", "[CH2-][N+]#N"),
        ("diazonium salt", "[CH2-][N+]#N"),
        ("gaseous diazo compounds", "[CH2-][N+]#N"),
        ("alkali hydroxides", "[Li]O"),
        ("hydrogen", "[H][H]"),
        ("strong non-aqueous bases", "CO[Na]"),
        ("strong non-aqueous bases", "[Li]N(C(C)C)C(C)C"),
        ("charged atom", "O=Cl[O]"),
        ("charged atom", "OCl(=O)(=O)=O"),
        ("charged atom", "[Cu]OCl(=O)=O"),
        ("charged atom", "NN[Ni]OCl(=O)(=O)=O"),
        ("charged atom", "OI(O)(O)(O)(O)=O"),
        ("charged atom", "C[S+](C)[O-]"),
        ("charged atom", "[Na]O"),
        ("charged atom", "CO[Na]"),
        ("charged atom", "[Li]N(C(C)C)C(C)C"),
        ("charged atom", "[Li]O"),
        ("charged atom", "[Na]OC"),
    ];

    /// <summary>RDKit takes the tetrahedron P4 for aromatic; Open Babel and we do not.</summary>
    private static readonly HashSet<(string Group, string Smiles)> NotAsRdkit =
    [
        ("white phosphorus", "P12P3P1P23"),
        ("white phosphorus and phosphines", "P12P3P1P23"),
    ];

    [Fact]
    public void Structures_AreAtLeastFourThousand() => Assert.InRange(Rows.Length, 4000, int.MaxValue);

    [Fact]
    public void Formula_OfEveryStructure_IsThatOfRdkit() => All((row, molecule) => string.Equals(row[2], molecule.Formula, StringComparison.Ordinal) ? null : $"{row[2]}, ours {molecule.Formula}");

    // Open Babel 3.1.1 leaves out the hydrogens of structures in which no atom is bound to another, such as [Na+].[OH-]
    [Fact]
    public void Formula_OfEveryStructureWithABond_IsThatOfOpenBabel()
    {
        Assert.InRange(Rows.Count(r => r[9] is "same"), 4000, Rows.Length);
        All((row, molecule) => row[9] is "same" || molecule.Bonds.Length == 0 ? null : row[9]);
    }

    [Fact]
    public void MolarMass_OfEveryStructure_IsThatOfRdkitWithTheAtomicWeightsOf2021() => All((row, molecule) =>
    {
        var expected = ReferenceValues.Number(row[3]) + OtherWeights.Sum(w => molecule.Count(w.Symbol) * (w.Iupac - w.Rdkit));
        return Math.Abs(expected - (molecule.MolarMassKgPerMol!.Value * 1000)) < 1e-4 ? null : Text($"{expected:0.0000}, ours {molecule.MolarMassKgPerMol * 1000:0.0000}");
    });

    [Fact]
    public void MonoisotopicMass_OfEveryStructure_IsThatOfRdkit() => All((row, molecule) =>
    {
        // RDKit takes the electrons of a charge away; we count atoms
        var expected = ReferenceValues.Number(row[4]) + (molecule.Charge * ElectronGramPerMol);
        return Math.Abs(expected - molecule.MonoisotopicMassGramPerMol!.Value) < 1.5e-5 ? null : Text($"{expected:0.00000}, ours {molecule.MonoisotopicMassGramPerMol:0.00000}");
    });

    [Fact]
    public void Rings_OfEveryStructure_AreAsManyAsInRdkit() => All((row, molecule) => string.Equals(row[5], Text($"{molecule.Rings.Independent}"), StringComparison.Ordinal) ? null : row[5]);

    [Fact]
    public void AromaticAtoms_OfEveryStructure_AreAsManyAsInRdkit() => All((row, molecule) =>
        row[0] is "P12P3P1P23" || string.Equals(row[6], Text($"{Aromatic(molecule)}"), StringComparison.Ordinal) ? null : Text($"{row[6]}, ours {Aromatic(molecule)}"));

    [Fact]
    public void Key_OfARandomAndAKekuleSpelling_IsTheSame() => All((row, molecule) =>
    {
        var key = StructureKey.Of(molecule);
        return key == StructureKey.Of(Read(row[7])) && key == StructureKey.Of(Read(row[8])) ? null : $"{row[7]}, {row[8]}: {key}";
    });

    [Fact]
    public void Group_WhereRdkitAndOpenBabelAgree_IsFoundByUsAsByThem()
    {
        var found = Molecules.Select(m => StructurePatterns.Default.In(m).Present.Select(g => g.Name).ToHashSet(StringComparer.Ordinal)).ToArray();
        var table = ReferenceValues.Read("structure-groups.tsv").ToDictionary(r => r[0], StringComparer.Ordinal);
        Assert.Equal(StructurePatterns.Default.Groups.Select(g => g.Name).Order(StringComparer.Ordinal), table.Keys.Order(StringComparer.Ordinal));
        var wrong = new List<string>();
        foreach (var (group, row) in table)
        {
            var (both, rdkit) = (Numbers(row[1]), Numbers(row[2]));
            for (var i = 0; i < Rows.Length; i++)
            {
                // where they disagree, we must be with RDKit: Open Babel reads no pattern of several parts, and other bonds of porphyrins are aromatic to it
                var expected = both.Contains(i) || rdkit.Contains(i);
                expected ^= OtherDrawings.Contains((group, Rows[i][0])) || NotAsRdkit.Contains((group, Rows[i][0]));
                if (found[i].Contains(group) != expected)
                {
                    wrong.Add($"{group} in {Rows[i][0]}: {(expected ? "not found" : "found")}");
                }
            }
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    private static HashSet<int> Numbers(string cell) => [.. cell.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(n => int.Parse(n, CultureInfo.InvariantCulture))];

    private static int Aromatic(Molecule molecule)
    {
        var count = 0;
        foreach (var atom in molecule.Atoms)
        {
            count += atom.IsAromatic ? 1 : 0;
        }

        return count;
    }

    private static void All(Func<string[], Molecule, string?> fault)
    {
        var faults = new List<string>();
        for (var i = 0; i < Rows.Length; i++)
        {
            if (fault(Rows[i], Molecules[i]) is { } text)
            {
                faults.Add($"{Rows[i][0]}: {text}");
            }
        }

        Assert.True(faults.Count == 0, string.Join('\n', faults));
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static Molecule Read(string smiles) =>
        SmilesReader.TryRead(smiles, out var molecule, out var error) ? molecule : throw new ArgumentException($"{smiles}: {error}", nameof(smiles));
}
