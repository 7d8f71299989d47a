using System.Numerics;

namespace PreApproval.Hazards.Structures;

/// <summary>
/// The rings of a structure: its relevant cycles, those that are no sum of shorter ones. For ordinary ring systems they are the
/// smallest set of smallest rings; where that set is not unique (cages such as cubane), all that could belong to it are here, so that
/// nothing depends on how the structure was written.
/// </summary>
/// <remarks>Source: Vismara, Electron. J. Combin. 4 (1997) R9, doi:10.37236/1294.</remarks>
public sealed class RingSet
{
    private const int MaximumCycles = 1000;
    private const int MaximumWork = 200_000;
    private static readonly RingSet Empty = new([], 0, [], []);
    private readonly byte[] _count;
    private readonly short[] _smallest;

    private RingSet(short[][] rings, int independent, byte[] count, short[] smallest)
    {
        Rings = rings;
        Independent = independent;
        _count = count;
        _smallest = smallest;
    }

    /// <summary>Atoms of each ring in order around it, smaller rings first.</summary>
    public IReadOnlyList<IReadOnlyList<short>> All => Rings;

    /// <summary>Number of independent rings: bonds − atoms + parts.</summary>
    public int Independent { get; }

    internal short[][] Rings { get; }

    /// <summary>Number of rings an atom is part of.</summary>
    public int CountAt(int atom) => _count.Length == 0 ? 0 : _count[atom];

    /// <summary>Size of the smallest ring an atom is part of, 0 when it is in none.</summary>
    public int SmallestAt(int atom) => _smallest.Length == 0 ? 0 : _smallest[atom];

    /// <summary>The rings, or null when they exceed what is read.</summary>
    internal static RingSet? Of(MoleculeDraft draft)
    {
        var ringBonds = 0;
        for (var b = 0; b < draft.BondCount; b++)
        {
            ringBonds += draft.Bonds[b].InRing ? 1 : 0;
        }

        if (ringBonds == 0)
        {
            return Empty;
        }

        var finder = new Finder(draft);
        var rings = new List<short[]>();
        if (!finder.Find(rings, out var independent))
        {
            return null;
        }

        var count = new byte[draft.AtomCount];
        var smallest = new short[draft.AtomCount];
        foreach (var ring in rings)
        {
            foreach (var atom in ring)
            {
                count[atom] = (byte)Math.Min(count[atom] + 1, byte.MaxValue);
                if (smallest[atom] == 0 || ring.Length < smallest[atom])
                {
                    smallest[atom] = (short)ring.Length;
                }
            }
        }

        return new RingSet([.. rings], independent, count, smallest);
    }

    /// <summary>Works through the connected parts of the ring bonds one by one.</summary>
    private sealed class Finder(MoleculeDraft draft)
    {
        private readonly int[] _part = new int[draft.AtomCount];
        private readonly int[] _distance = new int[draft.AtomCount];
        private readonly List<int> _members = [];
        private readonly List<(short[] Atoms, ulong[] Bonds)> _candidates = [];
        private int _work;

        public bool Find(List<short[]> rings, out int independent)
        {
            independent = 0;
            var part = 0;
            for (var root = 0; root < draft.AtomCount; root++)
            {
                if (_part[root] != 0 || !HasRingBond(root))
                {
                    continue;
                }

                var bonds = Collect(root, ++part);
                var wanted = bonds - _members.Count + 1;
                independent += wanted;
                if (independent > SmilesReader.MaximumRings)
                {
                    return false;
                }

                if (wanted == 1)
                {
                    rings.Add(Walk(root));
                }
                else if (!FindEntangled(wanted, rings))
                {
                    return false;
                }
            }

            rings.Sort(static (a, b) => a.Length.CompareTo(b.Length));
            return true;
        }

        private bool HasRingBond(int atom)
        {
            foreach (var (_, bond) in draft.NeighboursOf(atom))
            {
                if (draft.Bonds[bond].InRing)
                {
                    return true;
                }
            }

            return false;
        }

        private int Collect(int root, int part)
        {
            _members.Clear();
            _members.Add(root);
            _part[root] = part;
            var ends = 0;
            for (var i = 0; i < _members.Count; i++)
            {
                foreach (var (to, bond) in draft.NeighboursOf(_members[i]))
                {
                    if (!draft.Bonds[bond].InRing)
                    {
                        continue;
                    }

                    ends++;
                    if (_part[to] == 0)
                    {
                        _part[to] = part;
                        _members.Add(to);
                    }
                }
            }

            return ends / 2;
        }

        private short[] Walk(int root)
        {
            var ring = new short[_members.Count];
            var (previous, at) = (-1, root);
            for (var i = 0; i < ring.Length; i++)
            {
                ring[i] = (short)at;
                foreach (var (to, bond) in draft.NeighboursOf(at))
                {
                    if (draft.Bonds[bond].InRing && to != previous && !(i == 0 && previous >= 0))
                    {
                        (previous, at) = (at, to);
                        break;
                    }
                }
            }

            return ring;
        }

        private bool FindEntangled(int wanted, List<short[]> rings)
        {
            _candidates.Clear();
            foreach (var root in _members)
            {
                if (!Candidates(root))
                {
                    return false;
                }
            }

            _candidates.Sort(static (a, b) => a.Atoms.Length.CompareTo(b.Atoms.Length));
            var space = new CycleSpace(draft.BondCount);
            var index = 0;
            while (index < _candidates.Count && space.Rank < wanted)
            {
                // a cycle is relevant when the shorter ones cannot make it; those of its own length do not count
                var length = _candidates[index].Atoms.Length;
                var end = index;
                var relevant = rings.Count;
                for (; end < _candidates.Count && _candidates[end].Atoms.Length == length; end++)
                {
                    if (space.IsIndependent(_candidates[end].Bonds))
                    {
                        rings.Add(_candidates[end].Atoms);
                    }
                }

                for (var i = index; i < end; i++)
                {
                    space.Add(_candidates[i].Bonds);
                }

                if (rings.Count - relevant > MaximumCycles)
                {
                    return false;
                }

                index = end;
            }

            return true;
        }

        // cycles in which the root has the highest number: two shortest paths through lower atoms that meet in a bond or an atom
        private bool Candidates(int root)
        {
            var queue = new List<int> { root };
            foreach (var member in _members)
            {
                _distance[member] = -1;
            }

            _distance[root] = 0;
            for (var i = 0; i < queue.Count; i++)
            {
                foreach (var (to, bond) in draft.NeighboursOf(queue[i]))
                {
                    if (draft.Bonds[bond].InRing && to < root && _distance[to] < 0)
                    {
                        _distance[to] = _distance[queue[i]] + 1;
                        queue.Add(to);
                    }
                }
            }

            foreach (var y in queue)
            {
                if (y == root)
                {
                    continue;
                }

                foreach (var (z, bond) in draft.NeighboursOf(y))
                {
                    if (!draft.Bonds[bond].InRing || _distance[z] < 0 || z == root)
                    {
                        continue;
                    }

                    if (_distance[z] == _distance[y] && z < y && !Join(root, y, z, -1))
                    {
                        return false;
                    }

                    if (_distance[z] != _distance[y] - 1)
                    {
                        continue;
                    }

                    foreach (var (other, otherBond) in draft.NeighboursOf(y))
                    {
                        if (draft.Bonds[otherBond].InRing && other < z && _distance[other] == _distance[z] && !Join(root, z, other, y))
                        {
                            return false;
                        }
                    }
                }
            }

            return true;
        }

        private bool Join(int root, int y, int z, int top)
        {
            foreach (var left in Paths(root, y))
            {
                foreach (var right in Paths(root, z))
                {
                    if (++_work > MaximumWork || _candidates.Count > MaximumCycles * 4)
                    {
                        return false;
                    }

                    if (Disjoint(left, right))
                    {
                        _candidates.Add(Cycle(root, left, right, top));
                    }
                }
            }

            return true;
        }

        // every shortest path from the atom back to the root, the root left out
        private List<short[]> Paths(int root, int atom)
        {
            var found = new List<short[]>();
            var path = new short[_distance[atom]];
            Extend(root, atom, path, 0, found);
            return found;
        }

        private void Extend(int root, int atom, short[] path, int length, List<short[]> found)
        {
            if (++_work > MaximumWork || found.Count > MaximumCycles)
            {
                return;
            }

            path[length] = (short)atom;
            if (length == path.Length - 1)
            {
                found.Add([.. path]);
                return;
            }

            foreach (var (to, bond) in draft.NeighboursOf(atom))
            {
                if (draft.Bonds[bond].InRing && to != root && _distance[to] == _distance[atom] - 1)
                {
                    Extend(root, to, path, length + 1, found);
                }
            }
        }

        private static bool Disjoint(short[] left, short[] right)
        {
            foreach (var atom in left)
            {
                if (Array.IndexOf(right, atom) >= 0)
                {
                    return false;
                }
            }

            return true;
        }

        private (short[] Atoms, ulong[] Bonds) Cycle(int root, short[] left, short[] right, int top)
        {
            var atoms = new short[left.Length + right.Length + (top < 0 ? 1 : 2)];
            atoms[0] = (short)root;
            for (var i = 0; i < left.Length; i++)
            {
                atoms[i + 1] = left[left.Length - 1 - i];
            }

            var at = left.Length + 1;
            if (top >= 0)
            {
                atoms[at++] = (short)top;
            }

            right.CopyTo(atoms, at);
            var bonds = new ulong[(draft.BondCount + 63) / 64];
            for (var i = 0; i < atoms.Length; i++)
            {
                var next = atoms[(i + 1) % atoms.Length];
                foreach (var (to, bond) in draft.NeighboursOf(atoms[i]))
                {
                    if (to == next)
                    {
                        bonds[bond >> 6] |= 1UL << bond;
                    }
                }
            }

            return (atoms, bonds);
        }
    }

    /// <summary>Sums of cycles over the field of two elements, kept in echelon form.</summary>
    private sealed class CycleSpace(int bonds)
    {
        private readonly List<(int Pivot, ulong[] Row)> _rows = [];
        private readonly ulong[] _work = new ulong[(bonds + 63) / 64];

        public int Rank => _rows.Count;

        public bool IsIndependent(ulong[] cycle) => Reduce(cycle) >= 0;

        public void Add(ulong[] cycle)
        {
            var pivot = Reduce(cycle);
            if (pivot >= 0)
            {
                _rows.Add((pivot, [.. _work]));
            }
        }

        private int Reduce(ulong[] cycle)
        {
            cycle.CopyTo(_work, 0);
            foreach (var (pivot, row) in _rows)
            {
                if ((_work[pivot >> 6] >> pivot & 1) != 0)
                {
                    for (var i = 0; i < row.Length; i++)
                    {
                        _work[i] ^= row[i];
                    }
                }
            }

            for (var i = 0; i < _work.Length; i++)
            {
                if (_work[i] != 0)
                {
                    return (i << 6) + BitOperations.TrailingZeroCount(_work[i]);
                }
            }

            return -1;
        }
    }
}
