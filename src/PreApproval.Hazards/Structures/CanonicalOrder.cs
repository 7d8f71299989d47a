namespace PreApproval.Hazards.Structures;

/// <summary>
/// Numbers the atoms of one connected part in a way that does not depend on how it was written: classes refined by their neighbours
/// until stable, ties broken by trying each atom of a class and keeping the smallest list of bonds (and stereo marks).
/// </summary>
/// <remarks>
/// After Morgan, J. Chem. Doc. 5 (1965) 107, doi:10.1021/c160017a018 (refinement) and McKay, Congressus Numerantium 30 (1981) 45 (search with
/// automorphisms). After <see cref="MaximumWork"/> the first atom of each further class is taken, which may make the order depend on
/// the spelling of very symmetrical structures.
/// </remarks>
internal sealed class CanonicalOrder
{
    private const int MaximumWork = 400_000;
    private const int MaximumAutomorphisms = 64;
    private readonly Molecule _molecule;
    private readonly int[] _atoms;
    private readonly CanonicalCertificate _certificate;
    private readonly List<int[]> _automorphisms = [];
    private readonly List<int> _path = [];
    private List<int>? _best;
    private int[]? _bestRanks;
    private int _work;

    private CanonicalOrder(Molecule molecule, int[] atoms, bool stereo, bool isotopes)
    {
        _molecule = molecule;
        _atoms = atoms;
        _certificate = new CanonicalCertificate(molecule, atoms, stereo, isotopes);
    }

    /// <summary>Rank of each of the atoms, 0 first, in the order given; and the stereo marks in terms of ranks.</summary>
    public static (int[] Ranks, string Stereo) Of(Molecule molecule, int[] atoms, bool stereo, bool isotopes)
    {
        var order = new CanonicalOrder(molecule, atoms, stereo, isotopes);
        var colours = new int[atoms.Length];
        Colour(colours, order._certificate.Invariant);
        order.Explore(colours);
        var ranks = order._bestRanks!;
        return (ranks, order._certificate.HasStereo ? string.Join(',', order._certificate.StereoOf(ranks)) : "");
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

    private void Refine(int[] colours)
    {
        var n = colours.Length;
        var keys = new long[n][];
        var order = new int[n];
        var next = new int[n];
        var classes = colours.Distinct().Count();
        while (classes < n)
        {
            _work += n;
            for (var i = 0; i < n; i++)
            {
                var neighbours = _molecule.Neighbours(_atoms[i]);
                var key = keys[i] ??= new long[neighbours.Length];
                for (var k = 0; k < key.Length; k++)
                {
                    key[k] = ((long)_certificate.BondType(neighbours[k].Bond) << 32) | (uint)colours[_certificate.Local(neighbours[k].Atom)];
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
            if (tried.Count > 0 && (single || _work > MaximumWork))
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
        _work += _automorphisms.Count / 8;
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
        var certificate = _certificate.Of(ranks);
        var by = _best is null ? -1 : CanonicalCertificate.Compare(certificate, _best);
        if (by < 0)
        {
            (_best, _bestRanks) = (certificate, (int[])ranks.Clone());
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
}
