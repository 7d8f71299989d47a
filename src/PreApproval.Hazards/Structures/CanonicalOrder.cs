namespace PreApproval.Hazards.Structures;

/// <summary>
/// Numbers the atoms of one connected part in a way that does not depend on how it was written: classes refined by their neighbours
/// until stable, ties broken by trying each atom of a class and keeping the smallest list of bonds (and stereo marks).
/// </summary>
/// <remarks>
/// After Morgan, J. Chem. Doc. 5 (1965) 107, doi:10.1021/c160017a018 (refinement) and McKay, Congressus Numerantium 30 (1981) 45 (search with
/// automorphisms). After <see cref="MaximumRefinements"/> the first atom of each further class is taken, which may make the order depend on
/// the spelling of very symmetrical structures.
/// </remarks>
internal sealed class CanonicalOrder
{
    private const int MaximumRefinements = 4000;
    private const int MaximumAutomorphisms = 64;
    private readonly Molecule _molecule;
    private readonly int[] _atoms;
    private readonly int[] _local;
    private readonly bool _stereo;
    private readonly long[] _invariants;
    private readonly List<int[]> _automorphisms = [];
    private readonly List<int> _path = [];
    private readonly int[] _rankOf;
    private List<int>? _bestCertificate;
    private int[]? _bestRanks;
    private int _refinements;

    private CanonicalOrder(Molecule molecule, int[] atoms, bool stereo, bool isotopes)
    {
        _molecule = molecule;
        _atoms = atoms;
        _stereo = stereo && !molecule.Stereo.IsEmpty;
        _local = new int[molecule.Atoms.Length];
        _rankOf = new int[molecule.Atoms.Length];
        Array.Fill(_local, -1);
        for (var i = 0; i < atoms.Length; i++)
        {
            _local[atoms[i]] = i;
        }

        _invariants = Array.ConvertAll(atoms, a => Invariant(molecule, a, isotopes));
    }

    /// <summary>Rank of each of the atoms, 0 first, in the order given; and the stereo marks in terms of ranks.</summary>
    public static (int[] Ranks, string Stereo) Of(Molecule molecule, int[] atoms, bool stereo, bool isotopes)
    {
        var order = new CanonicalOrder(molecule, atoms, stereo, isotopes);
        var colours = new int[atoms.Length];
        Colour(colours, i => order._invariants[i]);
        order.Explore(colours);
        var ranks = order._bestRanks!;
        return (ranks, order._stereo ? string.Join(',', order.StereoOf(ranks)) : "");
    }

    private static long Invariant(Molecule molecule, int a, bool isotopes)
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

    // colours are positions: the number of atoms in smaller classes
    private static void Colour(int[] colours, Func<int, long> key)
    {
        var order = Enumerable.Range(0, colours.Length).OrderBy(key).ToArray();
        for (var i = 0; i < order.Length; i++)
        {
            colours[order[i]] = i > 0 && key(order[i]) == key(order[i - 1]) ? colours[order[i - 1]] : i;
        }
    }

    private int BondType(int bond) => _molecule.Bonds[bond].IsAromatic ? 5 : _molecule.Bonds[bond].Order;

    private void Refine(int[] colours)
    {
        _refinements++;
        var n = colours.Length;
        var keys = new long[n][];
        var order = new int[n];
        var next = new int[n];
        var classes = colours.Distinct().Count();
        while (classes < n)
        {
            for (var i = 0; i < n; i++)
            {
                var neighbours = _molecule.Neighbours(_atoms[i]);
                var key = keys[i] ??= new long[neighbours.Length];
                for (var k = 0; k < key.Length; k++)
                {
                    key[k] = ((long)BondType(neighbours[k].Bond) << 32) | (uint)colours[_local[neighbours[k].Atom]];
                }

                Array.Sort(key);
                order[i] = i;
            }

            int Compare(int x, int y)
            {
                var by = colours[x].CompareTo(colours[y]);
                return by != 0 ? by : keys[x].AsSpan().SequenceCompareTo(keys[y]);
            }

            Array.Sort(order, Compare);
            var count = 0;
            for (var i = 0; i < n; i++)
            {
                var same = i > 0 && Compare(order[i], order[i - 1]) == 0;
                next[order[i]] = same ? next[order[i - 1]] : i;
                count += same ? 0 : 1;
            }

            next.CopyTo(colours, 0);
            if (count == classes)
            {
                return;
            }

            classes = count;
        }
    }

    private void Explore(int[] colours)
    {
        Refine(colours);
        var cell = SmallestTie(colours);
        if (cell.Count == 0)
        {
            Leaf(colours);
            return;
        }

        var single = AreTwins(cell);
        var tried = new List<int>();
        foreach (var atom in cell)
        {
            if (tried.Count > 0 && (single || _refinements > MaximumRefinements))
            {
                return;
            }

            if (tried.Count > 0 && tried.Intersect(Orbit(atom)).Any())
            {
                continue;
            }

            tried.Add(atom);
            var split = (int[])colours.Clone();
            foreach (var other in cell)
            {
                if (other != atom)
                {
                    split[other]++;
                }
            }

            _path.Add(atom);
            Explore(split);
            _path.RemoveAt(_path.Count - 1);
        }
    }

    private static List<int> SmallestTie(int[] colours)
    {
        var sizes = new int[colours.Length];
        foreach (var c in colours)
        {
            sizes[c]++;
        }

        var chosen = -1;
        for (var c = 0; c < sizes.Length; c++)
        {
            if (sizes[c] > 1 && (chosen < 0 || sizes[c] < sizes[chosen]))
            {
                chosen = c;
            }
        }

        var cell = new List<int>();
        for (var i = 0; chosen >= 0 && i < colours.Length; i++)
        {
            if (colours[i] == chosen)
            {
                cell.Add(i);
            }
        }

        return cell;
    }

    // ends of chains on one atom can be exchanged freely; stereo marks between them mean nothing
    private bool AreTwins(List<int> cell)
    {
        var hub = -1;
        foreach (var i in cell)
        {
            var neighbours = _molecule.Neighbours(_atoms[i]);
            if (neighbours.Length != 1 || (hub >= 0 && neighbours[0].Atom != hub))
            {
                return false;
            }

            hub = neighbours[0].Atom;
        }

        return true;
    }

    // atoms that automorphisms which keep the path in place turn the atom into
    private HashSet<int> Orbit(int atom)
    {
        var orbit = new HashSet<int> { atom };
        var queue = new Queue<int>([atom]);
        var keep = _automorphisms.Where(g => _path.TrueForAll(p => g[p] == p)).ToList();
        while (queue.TryDequeue(out var at))
        {
            foreach (var g in keep)
            {
                if (orbit.Add(g[at]))
                {
                    queue.Enqueue(g[at]);
                }
            }
        }

        return orbit;
    }

    private void Leaf(int[] ranks)
    {
        var certificate = Certificate(ranks);
        var by = _bestCertificate is null ? -1 : Compare(certificate, _bestCertificate);
        if (by < 0)
        {
            (_bestCertificate, _bestRanks) = (certificate, (int[])ranks.Clone());
        }
        else if (by == 0 && _automorphisms.Count < MaximumAutomorphisms)
        {
            var atRank = new int[ranks.Length];
            for (var i = 0; i < ranks.Length; i++)
            {
                atRank[_bestRanks![i]] = i;
            }

            var there = Array.ConvertAll(ranks, r => atRank[r]);
            var back = new int[there.Length];
            for (var i = 0; i < there.Length; i++)
            {
                back[there[i]] = i;
            }

            _automorphisms.Add(there);
            _automorphisms.Add(back);
        }
    }

    private static int Compare(List<int> one, List<int> other)
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

    private List<int> Certificate(int[] ranks)
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

        if (_stereo)
        {
            list.AddRange(StereoOf(ranks));
        }

        return list;
    }

    private List<int> StereoOf(int[] ranks)
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
}
