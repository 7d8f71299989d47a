namespace PreApproval.Hazards.Structures;

/// <summary>
/// Finds the relevant cycles of a draft, one connected part of its ring bonds after the other, within a bound of steps.
/// </summary>
/// <remarks>
/// Vismara's families of candidates: each cycle is written from its highest atom as two shortest paths that meet in a bond or an
/// atom. Source: Electron. J. Combin. 4 (1997) R9, doi:10.37236/1294.
/// </remarks>
internal sealed class RelevantCycles(MoleculeDraft draft)
{
    internal const int MaximumCycles = 1000;
    private readonly int[] _part = new int[draft.AtomCount];
    private readonly List<int> _members = [];
    private readonly CycleCandidates _candidates = new(draft);

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
        if (!_candidates.TryFind(_members, out var candidates))
        {
            return false;
        }

        var space = new CycleSpace(draft.BondCount);
        var index = 0;
        while (index < candidates.Count && space.Rank < wanted)
        {
            // a cycle is relevant when the shorter ones cannot make it; those of its own length do not count
            var length = candidates[index].Atoms.Length;
            var end = index;
            var relevant = rings.Count;
            for (; end < candidates.Count && candidates[end].Atoms.Length == length; end++)
            {
                if (space.IsIndependent(candidates[end].Bonds))
                {
                    rings.Add(candidates[end].Atoms);
                }
            }

            for (var i = index; i < end; i++)
            {
                space.Add(candidates[i].Bonds);
            }

            if (rings.Count - relevant > MaximumCycles)
            {
                return false;
            }

            index = end;
        }

        return true;
    }
}
