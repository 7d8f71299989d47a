namespace PreApproval.Hazards.Structures;

/// <summary>Gives every bond an order: aromatic rings get alternating double bonds by a perfect matching of the atoms that need one.</summary>
/// <remarks>Augmenting paths with contraction of odd cycles: Edmonds, Canad. J. Math. 17 (1965) 449, doi:10.4153/CJM-1965-045-4.</remarks>
internal static class Kekulisation
{
    public static StructureError? Assign(MoleculeDraft draft)
    {
        var aromatic = false;
        for (var b = 0; b < draft.BondCount; b++)
        {
            ref var bond = ref draft.Bonds[b];
            bond.Order = bond.Written switch
            {
                WrittenBond.Double => 2,
                WrittenBond.Triple => 3,
                WrittenBond.Quadruple => 4,
                WrittenBond.Default or WrittenBond.Single or WrittenBond.Aromatic => 1,
            };
            aromatic |= bond.Written == WrittenBond.Aromatic;
            if (bond.Written == WrittenBond.Aromatic && !(draft.Atoms[bond.First].LowerCase && draft.Atoms[bond.Second].LowerCase))
            {
                return new StructureError(draft.Atoms[bond.Second].Position, "an aromatic bond (:) joins two aromatic atoms, written in lower case");
            }
        }

        var needs = new bool[draft.AtomCount];
        var any = false;
        for (var a = 0; a < draft.AtomCount; a++)
        {
            any |= needs[a] = draft.Atoms[a].LowerCase && NeedsDoubleBond(draft, a);
        }

        if (!any)
        {
            return null;
        }

        var matching = new Matching(draft, needs);
        if (matching.Unmatched() is { } atom)
        {
            return new StructureError(draft.Atoms[Suspect(draft, needs) ?? atom].Position, "the ring has no alternating double bonds with this atom; perhaps a hydrogen is missing, as in [nH], or a charge");
        }

        matching.Apply();
        return null;
    }

    // nearly always a nitrogen between two atoms whose hydrogen was left out
    private static int? Suspect(MoleculeDraft draft, bool[] needs)
    {
        for (var a = 0; a < needs.Length; a++)
        {
            if (needs[a] && draft.Atoms[a] is { Element: Elements.Nitrogen, Charge: 0, Hydrogens: 0 } && draft.Degree(a) == 2)
            {
                return a;
            }
        }

        return null;
    }

    // an atom whose sigma bonds and hydrogens fill a valence (pyrrole's [nH], o, s, c with =O) takes no part
    private static bool NeedsDoubleBond(MoleculeDraft draft, int a)
    {
        ref readonly var atom = ref draft.Atoms[a];
        var sum = HydrogenCount.SigmaSum(draft, a) + atom.Hydrogens;
        var (group, charge) = (atom.Element, (int)atom.Charge);
        return group switch
        {
            Elements.Boron => sum < 3 - charge && charge <= 0,
            Elements.Carbon => charge == 0 ? sum < 4 : sum < 3,
            Elements.Nitrogen => charge switch
            {
                > 0 => sum < 4,
                0 => sum is 2 or 4,
                _ => false,
            },
            Elements.Phosphorus or Elements.Arsenic => charge > 0 ? sum < 4 : charge == 0 && sum is 2 or 4,
            Elements.Oxygen => charge > 0 && sum == 2,
            _ => charge > 0 ? sum == 2 : charge == 0 && sum is 3 or 5,
        };
    }

    private sealed class Matching
    {
        private readonly MoleculeDraft _draft;
        private readonly bool[] _needs;
        private readonly int[] _mate;
        private readonly int[] _parent;
        private readonly int[] _base;
        private readonly bool[] _used;
        private readonly bool[] _blossom;
        private readonly int[] _queue;

        public Matching(MoleculeDraft draft, bool[] needs)
        {
            var n = draft.AtomCount;
            _draft = draft;
            _needs = needs;
            _mate = new int[n];
            Array.Fill(_mate, -1);
            (_parent, _base, _queue) = (new int[n], new int[n], new int[n]);
            (_used, _blossom) = (new bool[n], new bool[n]);
        }

        /// <summary>An atom that no matching serves, or null when all are served.</summary>
        public int? Unmatched()
        {
            for (var a = 0; a < _mate.Length; a++)
            {
                if (!_needs[a] || _mate[a] >= 0)
                {
                    continue;
                }

                foreach (var (neighbour, bond) in _draft.NeighboursOf(a))
                {
                    if (_mate[neighbour] < 0 && IsCandidate(neighbour, bond))
                    {
                        (_mate[a], _mate[neighbour]) = (neighbour, a);
                        break;
                    }
                }
            }

            for (var a = 0; a < _mate.Length; a++)
            {
                if (_needs[a] && _mate[a] < 0 && !Augment(a))
                {
                    return a;
                }
            }

            return null;
        }

        public void Apply()
        {
            for (var b = 0; b < _draft.BondCount; b++)
            {
                ref var bond = ref _draft.Bonds[b];
                if (_mate[bond.First] == bond.Second)
                {
                    bond.Order = 2;
                }
            }
        }

        private bool IsCandidate(int neighbour, int bond) =>
            _needs[neighbour] && _draft.Bonds[bond].InRing && _draft.Bonds[bond].Written is WrittenBond.Default or WrittenBond.Aromatic;

        private bool Augment(int root)
        {
            Array.Clear(_used);
            Array.Fill(_parent, -1);
            for (var i = 0; i < _base.Length; i++)
            {
                _base[i] = i;
            }

            _used[root] = true;
            var (head, tail) = (0, 0);
            _queue[tail++] = root;
            while (head < tail)
            {
                var v = _queue[head++];
                foreach (var (to, bond) in _draft.NeighboursOf(v))
                {
                    if (!IsCandidate(to, bond) || _base[v] == _base[to] || _mate[v] == to)
                    {
                        continue;
                    }

                    if (to == root || (_mate[to] >= 0 && _parent[_mate[to]] >= 0))
                    {
                        Contract(v, to, ref tail);
                    }
                    else if (_parent[to] < 0)
                    {
                        _parent[to] = v;
                        if (_mate[to] < 0)
                        {
                            Flip(to);
                            return true;
                        }

                        _used[_mate[to]] = true;
                        _queue[tail++] = _mate[to];
                    }
                }
            }

            return false;
        }

        private void Flip(int atom)
        {
            while (atom >= 0)
            {
                var previous = _parent[atom];
                var next = _mate[previous];
                (_mate[atom], _mate[previous]) = (previous, atom);
                atom = next;
            }
        }

        private void Contract(int v, int to, ref int tail)
        {
            var common = CommonBase(v, to);
            Array.Clear(_blossom);
            MarkPath(v, common, to);
            MarkPath(to, common, v);
            for (var i = 0; i < _base.Length; i++)
            {
                if (_blossom[_base[i]])
                {
                    _base[i] = common;
                    if (!_used[i])
                    {
                        _used[i] = true;
                        _queue[tail++] = i;
                    }
                }
            }
        }

        private int CommonBase(int a, int b)
        {
            var seen = new bool[_base.Length];
            while (true)
            {
                a = _base[a];
                seen[a] = true;
                if (_mate[a] < 0)
                {
                    break;
                }

                a = _parent[_mate[a]];
            }

            while (true)
            {
                b = _base[b];
                if (seen[b])
                {
                    return b;
                }

                b = _parent[_mate[b]];
            }
        }

        private void MarkPath(int v, int common, int child)
        {
            while (_base[v] != common)
            {
                _blossom[_base[v]] = _blossom[_base[_mate[v]]] = true;
                _parent[v] = child;
                child = _mate[v];
                v = _parent[_mate[v]];
            }
        }
    }
}
