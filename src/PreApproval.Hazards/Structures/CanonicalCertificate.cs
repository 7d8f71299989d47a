namespace PreApproval.Hazards.Structures;

/// <summary>
/// What a numbering of one connected part looks like, as a list to compare numberings by: two numberings with the same list differ by an
/// automorphism. Element, charge, hydrogens and isotope stand in <see cref="Invariant"/>, by which the first classes are made.
/// </summary>
internal sealed class CanonicalCertificate
{
    private readonly Molecule _molecule;
    private readonly int[] _atoms;
    private readonly int[] _local;
    private readonly int[] _rankOf;
    private readonly long[] _invariants;

    public CanonicalCertificate(Molecule molecule, int[] atoms, bool stereo, bool isotopes)
    {
        _molecule = molecule;
        _atoms = atoms;
        HasStereo = stereo && !molecule.Stereo.IsEmpty;
        _local = new int[molecule.Atoms.Length];
        _rankOf = new int[molecule.Atoms.Length];
        Array.Fill(_local, -1);
        for (var i = 0; i < atoms.Length; i++)
        {
            _local[atoms[i]] = i;
        }

        _invariants = Array.ConvertAll(atoms, a => InvariantOf(molecule, a, isotopes));
    }

    /// <summary>True when stereo marks count and there are any.</summary>
    public bool HasStereo { get; }

    /// <summary>What an atom is by itself.</summary>
    public long Invariant(int local) => _invariants[local];

    /// <summary>Place of an atom of the structure in the part; -1 outside.</summary>
    public int Local(int atom) => _local[atom];

    /// <summary>1 to 4 the order, 5 aromatic.</summary>
    public int BondType(int bond) => _molecule.Bonds[bond].IsAromatic ? 5 : _molecule.Bonds[bond].Order;

    /// <summary>Negative when the first is the smaller.</summary>
    public static int Compare(List<int> one, List<int> other)
    {
        for (var i = 0; i < Math.Min(one.Count, other.Count); i++)
        {
            if (one[i] != other[i])
            {
                return one[i].CompareTo(other[i]);
            }
        }

        return one.Count.CompareTo(other.Count);
    }

    /// <summary>Bonds to earlier atoms, atom by atom in the order of the ranks, then the stereo marks.</summary>
    public List<int> Of(int[] ranks)
    {
        var atRank = new int[ranks.Length];
        for (var i = 0; i < ranks.Length; i++)
        {
            atRank[ranks[i]] = i;
        }

        var list = new List<int>(ranks.Length * 3);
        var row = new List<int>();
        foreach (var i in atRank)
        {
            row.Clear();
            foreach (var (to, bond) in _molecule.Neighbours(_atoms[i]))
            {
                var rank = ranks[_local[to]];
                if (rank < ranks[i])
                {
                    row.Add((rank * 8) + BondType(bond));
                }
            }

            row.Sort();
            list.AddRange(row);
            list.Add(-1);
        }

        if (HasStereo)
        {
            list.AddRange(StereoOf(ranks));
        }

        return list;
    }

    /// <summary>The stereo marks in terms of ranks; empty where they do not count.</summary>
    public List<int> StereoOf(int[] ranks)
    {
        for (var i = 0; i < ranks.Length; i++)
        {
            _rankOf[_atoms[i]] = ranks[i];
        }

        var list = new List<(int Place, int Value)>();
        foreach (var (atom, mark) in _molecule.Stereo.Atoms)
        {
            if (_local[atom] >= 0 && !HasTwins(mark.Neighbours) && mark.ClockwiseInOrder(_rankOf) is { } clockwise)
            {
                list.Add((_rankOf[atom], clockwise ? 1 : 2));
            }
        }

        foreach (var mark in _molecule.Stereo.DoubleBonds)
        {
            var bond = _molecule.Bonds[mark.Bond];
            if (_local[bond.First] < 0 || Highest(bond.First, bond.Second) is not { } first || Highest(bond.Second, bond.First) is not { } second)
            {
                continue;
            }

            var same = mark.SameSide ^ (first != mark.FirstNeighbour) ^ (second != mark.SecondNeighbour);
            var (a, b) = (_rankOf[bond.First], _rankOf[bond.Second]);
            list.Add((10_000 + (Math.Min(a, b) * 1000) + Math.Max(a, b), same ? 1 : 2));
        }

        list.Sort();
        return list.ConvertAll(e => (e.Place * 4) + e.Value);
    }

    private bool HasTwins(List<int> neighbours)
    {
        for (var i = 0; i < neighbours.Count; i++)
        {
            for (var j = i + 1; j < neighbours.Count; j++)
            {
                if (AreTwins(neighbours[i], neighbours[j]))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private bool AreTwins(int atom, int other) => atom >= 0 && other >= 0
        && _molecule.Degree(atom) == 1 && _molecule.Degree(other) == 1 && _invariants[_local[atom]] == _invariants[_local[other]];

    // the neighbour of highest rank besides the partner; null when two like ends make the mark meaningless
    private int? Highest(int atom, int partner)
    {
        int? best = null;
        foreach (var (to, _) in _molecule.Neighbours(atom))
        {
            if (to == partner)
            {
                continue;
            }

            if (best is { } other && AreTwins(other, to))
            {
                return null;
            }

            if (best is null || _rankOf[to] > _rankOf[best.Value])
            {
                best = to;
            }
        }

        return best;
    }

    private static long InvariantOf(Molecule molecule, int a, bool isotopes)
    {
        ref readonly var atom = ref molecule.Atoms[a];
        long value = atom.Element;
        value = (value << 1) | (atom.IsAromatic ? 1L : 0);
        value = (value << 6) | (long)(atom.Charge + 20);
        value = (value << 10) | (isotopes ? (long)atom.Isotope : 0);
        value = (value << 5) | (long)atom.Hydrogens;
        value = (value << 6) | (long)Math.Min(molecule.Degree(a), 63);
        return (value << 4) | (long)Math.Min(molecule.Rings.CountAt(a), 15);
    }
}
