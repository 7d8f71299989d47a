using System.Globalization;
using System.Runtime.InteropServices;
using System.Text;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Structures;

/// <summary>An atom of a structure. Ordinary hydrogens are counted on their atom; only [H][H], H⁺, H⁻, bridging and labelled hydrogens stand alone.</summary>
/// <param name="Element">Atomic number.</param>
/// <param name="Charge">Formal charge.</param>
/// <param name="Isotope">Mass number, 0 when none was given.</param>
/// <param name="Hydrogens">Hydrogens counted on the atom.</param>
/// <param name="IsAromatic">By the model of docs/methods/structures.md, whichever way the structure was written.</param>
/// <param name="Position">Index of its first character in the text it was read from.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct Atom(byte Element, sbyte Charge, ushort Isotope, byte Hydrogens, bool IsAromatic, short Position);

/// <summary>A bond of a structure.</summary>
/// <param name="First">Index of one atom.</param>
/// <param name="Second">Index of the other atom.</param>
/// <param name="Order">Order in the Kekulé form: 1 single, 2 double, 3 triple, 4 quadruple.</param>
/// <param name="IsAromatic">Part of an aromatic ring.</param>
/// <param name="IsInRing">Part of any ring.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct Bond(short First, short Second, byte Order, bool IsAromatic, bool IsInRing)
{
    /// <summary>The other end.</summary>
    public int Other(int atom) => atom == First ? Second : First;
}

/// <summary>A structure as read from SMILES: atoms, bonds, rings, aromaticity. Immutable and safe for concurrent use.</summary>
public sealed class Molecule
{
    private readonly Atom[] _atoms;
    private readonly Bond[] _bonds;
    private readonly short[] _firstNeighbour;
    private readonly (short Atom, short Bond)[] _neighbours;
    private string? _formula;

    internal Molecule(Atom[] atoms, Bond[] bonds, short[] firstNeighbour, (short Atom, short Bond)[] neighbours, RingSet rings, StereoMarks stereo)
    {
        _atoms = atoms;
        _bonds = bonds;
        _firstNeighbour = firstNeighbour;
        _neighbours = neighbours;
        Rings = rings;
        Stereo = stereo;
        Kinds = new AtomKinds(this);
    }

    /// <summary>Atoms in the order of the text.</summary>
    public ReadOnlySpan<Atom> Atoms => _atoms;

    /// <summary>Bonds in the order of the text.</summary>
    public ReadOnlySpan<Bond> Bonds => _bonds;

    /// <summary>The rings: the relevant cycles, which do not depend on the numbering of the atoms.</summary>
    public RingSet Rings { get; }

    /// <summary>Formula in Hill order with the isotope D apart, without charge, for instance C4H8O2.</summary>
    public string Formula => _formula ??= WriteFormula();

    /// <summary>Sum of the formal charges.</summary>
    public int Charge
    {
        get
        {
            var sum = 0;
            foreach (var atom in _atoms)
            {
                sum += atom.Charge;
            }

            return sum;
        }
    }

    /// <summary>
    /// Molar mass in kg/mol from the IUPAC 2021 abridged atomic weights, labelled atoms by the mass of their isotope; null with an
    /// element or isotope that has none on file.
    /// </summary>
    public double? MolarMassKgPerMol
    {
        get
        {
            var mass = Substances.Formula.MolarMassKgPerMol(Formula);
            foreach (var atom in _atoms)
            {
                if (atom.Isotope != 0 && atom is not { Element: Elements.Hydrogen, Isotope: 2 })
                {
                    mass += (Elements.IsotopicMass(atom.Element, atom.Isotope) / 1000) - Substances.Formula.MolarMassKgPerMol(Elements.Symbol(atom.Element));
                }
            }

            return mass;
        }
    }

    /// <summary>
    /// Mass of the molecule made of the most abundant isotopes (and the labelled ones) in g/mol, without the mass of missing or excess
    /// electrons; null for isotopes not on file.
    /// </summary>
    public double? MonoisotopicMassGramPerMol
    {
        get
        {
            var sum = 0.0;
            foreach (var atom in _atoms)
            {
                if (Elements.IsotopicMass(atom.Element, atom.Isotope) is not { } mass)
                {
                    return null;
                }

                sum += mass + (atom.Hydrogens * 1.00782503223);
            }

            return sum;
        }
    }

    internal StereoMarks Stereo { get; }

    internal AtomKinds Kinds { get; }

    /// <summary>Neighbours of an atom with the bonds that lead to them.</summary>
    public ReadOnlySpan<(short Atom, short Bond)> Neighbours(int atom) =>
        _neighbours.AsSpan(_firstNeighbour[atom], _firstNeighbour[atom + 1] - _firstNeighbour[atom]);

    /// <summary>Number of neighbours that are atoms of their own.</summary>
    public int Degree(int atom) => _firstNeighbour[atom + 1] - _firstNeighbour[atom];

    /// <summary>Hydrogens on an atom, labelled ones included.</summary>
    public int TotalHydrogens(int atom)
    {
        int count = _atoms[atom].Hydrogens;
        foreach (var (neighbour, _) in Neighbours(atom))
        {
            if (_atoms[neighbour].Element == Elements.Hydrogen)
            {
                count++;
            }
        }

        return count;
    }

    /// <summary>Sum of bond orders, hydrogens included.</summary>
    public int Valence(int atom)
    {
        int sum = _atoms[atom].Hydrogens;
        foreach (var (_, bond) in Neighbours(atom))
        {
            sum += _bonds[bond].Order;
        }

        return sum;
    }

    /// <summary>Atoms of an element, hydrogens counted on other atoms included.</summary>
    public int Count(string element)
    {
        var number = Elements.Number(element);
        var count = 0;
        foreach (var atom in _atoms)
        {
            count += (atom.Element == number ? 1 : 0) + (number == Elements.Hydrogen ? atom.Hydrogens : 0);
        }

        return count;
    }

    /// <summary>
    /// The structure with protons moved so that no atom bears a charge that protons can take away: carboxylates as acids, ammonium ions as amines.
    /// Charges that sit beside an opposite one (nitro, azide) and those without a proton (metals, quaternary nitrogen) stay. The same structure where nothing moves. For comparing only.
    /// </summary>
    internal Molecule Neutralised()
    {
        Atom[]? atoms = null;
        for (var a = 0; a < _atoms.Length; a++)
        {
            ref readonly var atom = ref _atoms[a];
            if (atom.Charge == 0 || HasOppositeNeighbour(a))
            {
                continue;
            }

            var protons = atom.Charge < 0 && !Elements.IsMetal(atom.Element) ? -atom.Charge : -Math.Min(atom.Charge, atom.Hydrogens);
            atoms ??= (Atom[])_atoms.Clone();
            atoms[a] = atom with { Charge = (sbyte)(atom.Charge + protons), Hydrogens = (byte)(atom.Hydrogens + protons) };
        }

        return atoms is null ? this : new Molecule(atoms, _bonds, _firstNeighbour, _neighbours, Rings, StereoMarks.None);
    }

    private bool HasOppositeNeighbour(int atom)
    {
        foreach (var (to, _) in Neighbours(atom))
        {
            if (_atoms[to].Charge * _atoms[atom].Charge < 0)
            {
                return true;
            }
        }

        return false;
    }

    internal int BondBetween(int atom, int other)
    {
        foreach (var (neighbour, bond) in Neighbours(atom))
        {
            if (neighbour == other)
            {
                return bond;
            }
        }

        return -1;
    }

    internal static string FormulaOf(ReadOnlySpan<DraftAtom> atoms)
    {
        var counts = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var hydrogens = 0;
        foreach (ref readonly var atom in atoms)
        {
            hydrogens += Count(counts, atom.Element, atom.Isotope) + atom.Hydrogens;
        }

        return WriteFormula(counts, hydrogens);
    }

    private string WriteFormula()
    {
        var counts = new SortedDictionary<string, int>(StringComparer.Ordinal);
        var hydrogens = 0;
        foreach (var atom in _atoms)
        {
            hydrogens += Count(counts, atom.Element, atom.Isotope) + atom.Hydrogens;
        }

        return WriteFormula(counts, hydrogens);
    }

    // 1 for an ordinary hydrogen, which is written in its own place
    private static int Count(SortedDictionary<string, int> counts, int element, int isotope)
    {
        if (element == Elements.Hydrogen && isotope != 2)
        {
            return 1;
        }

        var symbol = element == Elements.Hydrogen ? "D" : Elements.Symbol(element);
        counts[symbol] = counts.GetValueOrDefault(symbol) + 1;
        return 0;
    }

    private static string WriteFormula(SortedDictionary<string, int> counts, int hydrogens)
    {
        if (hydrogens > 0)
        {
            counts["H"] = hydrogens;
        }

        var text = new StringBuilder();
        if (counts.Remove("C", out var carbons))
        {
            Append(text, "C", carbons);
            if (counts.Remove("H", out hydrogens))
            {
                Append(text, "H", hydrogens);
            }
        }

        foreach (var (symbol, count) in counts)
        {
            Append(text, symbol, count);
        }

        return text.ToString();
    }

    private static void Append(StringBuilder text, string symbol, int count)
    {
        text.Append(symbol);
        if (count > 1)
        {
            text.Append(count.ToString(CultureInfo.InvariantCulture));
        }
    }
}
