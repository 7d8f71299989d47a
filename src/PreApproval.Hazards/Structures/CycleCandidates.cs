namespace PreApproval.Hazards.Structures;

/// <summary>Cycles of one connected part of the ring bonds that may be relevant, shortest first, within a bound of steps.</summary>
internal sealed class CycleCandidates(MoleculeDraft draft)
{
    private const int MaximumWork = 200_000;
    private readonly int[] _distance = new int[draft.AtomCount];
    private readonly List<(short[] Atoms, ulong[] Bonds)> _found = [];
    private int _work;

    /// <summary>False when there are more than are looked at. The list is overwritten by the next part.</summary>
    public bool TryFind(List<int> members, out IReadOnlyList<(short[] Atoms, ulong[] Bonds)> candidates)
    {
        _found.Clear();
        candidates = _found;
        foreach (var root in members)
        {
            if (!From(root, members))
            {
                return false;
            }
        }

        _found.Sort(static (a, b) => a.Atoms.Length.CompareTo(b.Atoms.Length));
        return true;
    }

    // cycles in which the root has the highest number: two shortest paths through lower atoms that meet in a bond or an atom
    private bool From(int root, List<int> members)
    {
        var queue = new List<int> { root };
        foreach (var member in members)
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
                if (++_work > MaximumWork || _found.Count > RelevantCycles.MaximumCycles * 4)
                {
                    return false;
                }

                if (Disjoint(left, right))
                {
                    _found.Add(Cycle(root, left, right, top));
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
        if (++_work > MaximumWork || found.Count > RelevantCycles.MaximumCycles)
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
