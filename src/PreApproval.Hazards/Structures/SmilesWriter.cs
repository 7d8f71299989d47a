using System.Globalization;
using System.Text;

namespace PreApproval.Hazards.Structures;

/// <summary>Writes a connected part of a structure as SMILES, atoms of low rank first. Stereo marks of atoms are written on request, those of double bonds not.</summary>
internal sealed class SmilesWriter
{
    private readonly Molecule _molecule;
    private readonly int[] _rank;
    private readonly bool _kekule;
    private readonly bool _isotopes;
    private readonly bool _stereo;
    private readonly StringBuilder _text = new();
    private readonly bool[] _seen;
    private readonly Dictionary<int, List<(int Bond, int Other)>> _closures = [];
    private readonly Dictionary<int, int> _openNumbers = [];
    private readonly SortedSet<int> _freeNumbers = [.. Enumerable.Range(1, 99)];

    private SmilesWriter(Molecule molecule, int[] rank, bool kekule, bool isotopes, bool stereo)
    {
        _molecule = molecule;
        _rank = rank;
        _kekule = kekule;
        _isotopes = isotopes;
        _stereo = stereo;
        _seen = new bool[molecule.Atoms.Length];
    }

    /// <summary>Writes the part that holds the atom, beginning with it.</summary>
    public static string Write(Molecule molecule, int start, int[] rank, bool kekule = false, bool isotopes = true, bool stereo = false)
    {
        var writer = new SmilesWriter(molecule, rank, kekule, isotopes, stereo);
        writer.FindClosures(start, -1);
        Array.Clear(writer._seen);
        writer.Append(start, -1, -1);
        return writer._text.ToString();
    }

    private List<(int Atom, int Bond)> Ordered(int atom, int fromBond)
    {
        var list = new List<(int Atom, int Bond)>();
        foreach (var (to, bond) in _molecule.Neighbours(atom))
        {
            if (bond != fromBond)
            {
                list.Add((to, bond));
            }
        }

        list.Sort((x, y) => _rank[x.Atom].CompareTo(_rank[y.Atom]));
        return list;
    }

    private void FindClosures(int atom, int fromBond)
    {
        _seen[atom] = true;
        foreach (var (to, bond) in Ordered(atom, fromBond))
        {
            if (!_seen[to])
            {
                FindClosures(to, bond);
            }
            else if (!_closures.TryGetValue(atom, out var here) || !here.Exists(c => c.Bond == bond))
            {
                // seen from the far end: the other atom opens the ring
                Closures(to).Add((bond, atom));
                Closures(atom).Add((bond, to));
            }
        }
    }

    private List<(int Bond, int Other)> Closures(int atom)
    {
        if (!_closures.TryGetValue(atom, out var list))
        {
            _closures[atom] = list = [];
        }

        return list;
    }

    private void Append(int atom, int from, int fromBond)
    {
        _seen[atom] = true;
        var closures = _closures.GetValueOrDefault(atom, []);
        closures.Sort((x, y) => _rank[x.Other].CompareTo(_rank[y.Other]));
        var branches = Ordered(atom, fromBond).FindAll(n => !closures.Exists(c => c.Bond == n.Bond));
        AppendAtom(atom, from, closures, branches);
        foreach (var (bond, _) in closures)
        {
            AppendClosure(bond);
        }

        for (var i = 0; i < branches.Count; i++)
        {
            var (to, bond) = branches[i];
            var last = i == branches.Count - 1;
            _text.Append(last ? "" : "(").Append(BondText(bond));
            Append(to, atom, bond);
            _text.Append(last ? "" : ")");
        }
    }

    private void AppendClosure(int bond)
    {
        if (_openNumbers.Remove(bond, out var number))
        {
            _freeNumbers.Add(number);
        }
        else
        {
            number = _freeNumbers.Min;
            _freeNumbers.Remove(number);
            _openNumbers.Add(bond, number);
            _text.Append(BondText(bond));
        }

        _text.Append(number > 9 ? "%" : "").Append(number.ToString(CultureInfo.InvariantCulture));
    }

    private bool IsLower(int atom) => !_kekule && _molecule.Atoms[atom].IsAromatic;

    private string BondText(int index)
    {
        var bond = _molecule.Bonds[index];
        var lower = IsLower(bond.First) && IsLower(bond.Second);
        if (bond.IsAromatic && lower)
        {
            return "";
        }

        return bond.Order switch
        {
            1 => lower ? "-" : "",
            2 => "=",
            3 => "#",
            _ => "$",
        };
    }

    private void AppendAtom(int index, int from, List<(int Bond, int Other)> closures, List<(int Atom, int Bond)> branches)
    {
        ref readonly var atom = ref _molecule.Atoms[index];
        var symbol = Elements.Symbol(atom.Element);
        if (IsLower(index))
        {
            symbol = symbol.ToLowerInvariant();
        }

        var isotope = _isotopes ? atom.Isotope : 0;
        var mark = _stereo ? Mark(index, from, closures, branches) : "";
        if (atom.Charge == 0 && isotope == 0 && mark.Length == 0 && Elements.IsOrganicSubset(atom.Element) && atom.Hydrogens == Expected(index))
        {
            _text.Append(symbol);
            return;
        }

        _text.Append('[');
        if (isotope > 0)
        {
            _text.Append(isotope.ToString(CultureInfo.InvariantCulture));
        }

        _text.Append(symbol).Append(mark);
        if (atom.Hydrogens > 0)
        {
            _text.Append('H').Append(atom.Hydrogens > 1 ? atom.Hydrogens.ToString(CultureInfo.InvariantCulture) : "");
        }

        if (atom.Charge != 0)
        {
            _text.Append(atom.Charge > 0 ? '+' : '-').Append(Math.Abs(atom.Charge) > 1 ? Math.Abs(atom.Charge).ToString(CultureInfo.InvariantCulture) : "");
        }

        _text.Append(']');
    }

    private string Mark(int index, int from, List<(int Bond, int Other)> closures, List<(int Atom, int Bond)> branches)
    {
        if (!_molecule.Stereo.Atoms.TryGetValue(index, out var mark))
        {
            return "";
        }

        // the order in which the neighbours will appear in the text
        var place = new int[_molecule.Atoms.Length];
        var next = 0;
        foreach (var neighbour in closures.Select(c => c.Other).Concat(branches.Select(b => b.Atom)))
        {
            place[neighbour] = ++next;
        }

        if (from >= 0)
        {
            // ClockwiseInOrder puts the implicit hydrogen first; after the preceding atom it changes places with it
            place[from] = 0;
        }

        return mark.ClockwiseInOrder(place) is { } clockwise
            ? clockwise ^ (from >= 0 && mark.Neighbours.Contains(MoleculeDraft.ImplicitHydrogen)) ? "@@" : "@"
            : "";
    }

    // hydrogens a reader adds to the bare symbol
    private int Expected(int index)
    {
        ref readonly var atom = ref _molecule.Atoms[index];
        var sum = 0;
        var lower = IsLower(index);
        foreach (var (to, b) in _molecule.Neighbours(index))
        {
            sum += _molecule.Bonds[b].IsAromatic && lower && IsLower(to) ? 1 : _molecule.Bonds[b].Order;
        }

        var valences = Elements.Valences(atom.Element);
        if (lower)
        {
            return Math.Max(valences[0] - sum - 1, 0);
        }

        if (atom.Element is Elements.Chlorine or Elements.Bromine or Elements.Iodine)
        {
            return sum == 0 ? 1 : sum % 2 == 1 ? 0 : -1;
        }

        foreach (var allowed in valences)
        {
            if (allowed >= sum)
            {
                return atom.Element == Elements.Nitrogen && sum > 3 ? -1 : allowed - sum;
            }
        }

        return -1;
    }
}
