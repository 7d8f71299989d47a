namespace PreApproval.Hazards.Structures;

/// <summary>
/// Decides from the Kekulé form which rings are aromatic: rings, and unions of fused rings up to 24 atoms, whose atoms share 4n + 2
/// electrons in p orbitals. What each atom gives is stated in docs/methods/structures.md.
/// </summary>
/// <remarks>
/// After the idea of the Daylight theory manual, chapter 3.2.5 (SMILES, aromaticity), which counts electrons in the same way. It is a
/// convention for comparing spellings, not a measure of stability.
/// </remarks>
internal static class Aromaticity
{
    private const int LargestSystem = 24;
    private const int MostCombinations = 3000;
    private const sbyte NoPart = -1;

    public static void Perceive(MoleculeDraft draft, RingSet rings)
    {
        if (rings.Rings.Length == 0)
        {
            return;
        }

        Span<sbyte> electrons = draft.AtomCount <= 512 ? stackalloc sbyte[draft.AtomCount] : new sbyte[draft.AtomCount];
        for (var a = 0; a < electrons.Length; a++)
        {
            electrons[a] = rings.CountAt(a) == 0 ? NoPart : Given(draft, a);
        }

        var candidates = new List<short[]>();
        foreach (var ring in rings.Rings)
        {
            var open = ring.Length <= LargestSystem;
            var sum = 0;
            var shared = false;
            foreach (var atom in ring)
            {
                open &= electrons[atom] != NoPart;
                sum += electrons[atom];
                shared |= electrons[atom] == 1;
            }

            // lone pairs alone (P4, S7) make no aromatic ring
            open &= shared;
            if (!open)
            {
                continue;
            }

            candidates.Add(ring);
            if (IsHueckel(sum))
            {
                MarkRing(draft, ring);
            }
        }

        if (candidates.Count > 1)
        {
            Fused(draft, candidates, electrons);
        }
    }

    private static bool IsHueckel(int electrons) => electrons >= 2 && electrons % 4 == 2;

    private static void MarkRing(MoleculeDraft draft, short[] ring)
    {
        for (var i = 0; i < ring.Length; i++)
        {
            MarkBond(draft, BondBetween(draft, ring[i], ring[(i + 1) % ring.Length]));
        }
    }

    private static void MarkBond(MoleculeDraft draft, int b)
    {
        ref var bond = ref draft.Bonds[b];
        bond.Aromatic = true;
        draft.Atoms[bond.First].Aromatic = draft.Atoms[bond.Second].Aromatic = true;
    }

    // unions of two and more fused rings that are not wholly aromatic already, smaller unions first
    private static void Fused(MoleculeDraft draft, List<short[]> rings, ReadOnlySpan<sbyte> electrons)
    {
        var bonds = rings.ConvertAll(r => BondsOf(draft, r));
        var left = MostCombinations;
        var current = new List<List<int>>();
        for (var i = 0; i < rings.Count; i++)
        {
            current.Add([i]);
        }

        var seen = new HashSet<string>(StringComparer.Ordinal);
        for (var size = 2; size <= rings.Count && current.Count > 0; size++)
        {
            if (rings.TrueForAll(r => AllMarked(draft, r)))
            {
                return;
            }

            var next = new List<List<int>>();
            foreach (var union in current)
            {
                for (var r = 0; r < rings.Count; r++)
                {
                    if (union.Contains(r) || !union.Exists(u => ShareOneBond(bonds[u], bonds[r])))
                    {
                        continue;
                    }

                    List<int> wider = [.. union, r];
                    wider.Sort();
                    if (!seen.Add(string.Join(',', wider)))
                    {
                        continue;
                    }

                    if (--left < 0)
                    {
                        return;
                    }

                    if (Try(draft, rings, bonds, wider, electrons))
                    {
                        next.Add(wider);
                    }
                }
            }

            current = next;
        }
    }

    // false when the union is too large to grow further
    private static bool Try(MoleculeDraft draft, List<short[]> rings, List<int[]> bonds, List<int> union, ReadOnlySpan<sbyte> electrons)
    {
        var uses = new Dictionary<int, int>();
        foreach (var r in union)
        {
            foreach (var atom in rings[r])
            {
                uses[atom] = uses.GetValueOrDefault(atom) + 1;
            }
        }

        if (uses.Count > LargestSystem)
        {
            return false;
        }

        var sum = 0;
        foreach (var (atom, times) in uses)
        {
            // an atom in three rings of the union lies inside it and takes no part in the circle
            sum += times <= 2 ? electrons[atom] : 0;
        }

        if (IsHueckel(sum))
        {
            var outside = new Dictionary<int, int>();
            foreach (var r in union)
            {
                foreach (var b in bonds[r])
                {
                    outside[b] = outside.GetValueOrDefault(b) + 1;
                }
            }

            foreach (var (b, times) in outside)
            {
                if (times == 1)
                {
                    MarkBond(draft, b);
                }
            }
        }

        return true;
    }

    private static bool AllMarked(MoleculeDraft draft, short[] ring) => Array.TrueForAll(ring, a => draft.Atoms[a].Aromatic);

    private static int[] BondsOf(MoleculeDraft draft, short[] ring)
    {
        var bonds = new int[ring.Length];
        for (var i = 0; i < ring.Length; i++)
        {
            bonds[i] = BondBetween(draft, ring[i], ring[(i + 1) % ring.Length]);
        }

        return bonds;
    }

    private static bool ShareOneBond(int[] ring, int[] other)
    {
        var shared = 0;
        foreach (var bond in ring)
        {
            shared += Array.IndexOf(other, bond) >= 0 ? 1 : 0;
        }

        return shared == 1;
    }

    private static int BondBetween(MoleculeDraft draft, int atom, int other)
    {
        foreach (var (to, bond) in draft.NeighboursOf(atom))
        {
            if (to == other)
            {
                return bond;
            }
        }

        throw new InvalidOperationException("Neighbours in a ring are bound.");
    }

    /// <summary>Electrons an atom gives to a ring: -1 when it cannot be part of an aromatic ring.</summary>
    private static sbyte Given(MoleculeDraft draft, int a)
    {
        ref readonly var atom = ref draft.Atoms[a];
        var connections = draft.Degree(a) + atom.Hydrogens;
        if (connections > 3 || !Outer(atom.Element, out var outer, out var valence))
        {
            return NoPart;
        }

        var (inside, outside, partner) = (0, 0, 0);
        var orders = (int)atom.Hydrogens;
        foreach (var (to, b) in draft.NeighboursOf(a))
        {
            ref readonly var bond = ref draft.Bonds[b];
            orders += bond.Order;
            if (bond.Order < 2)
            {
                continue;
            }

            if (bond.InRing)
            {
                inside++;
            }
            else
            {
                outside++;
                partner = draft.Atoms[to].Element;
            }

            if (bond.Order > 2)
            {
                return NoPart;
            }
        }

        // no atom with two double bonds, none beyond its ordinary valence
        if (inside + outside > 1 || orders > Elements.HighestOrdinary(atom.Element, atom.Charge))
        {
            return NoPart;
        }

        if (inside == 1)
        {
            return 1;
        }

        var lone = Math.Max(outer - valence - atom.Charge, 0);
        var free = valence - connections + lone;
        if (outside == 1)
        {
            // C=O, C=N, C=S: the partner draws the electron away
            var drawn = Elements.IsMoreElectronegative(partner, atom.Element);
            return free switch
            {
                <= 0 => NoPart,
                1 => drawn ? (sbyte)0 : (sbyte)1,
                _ => (free - (drawn ? 1 : 0)) % 2 == 1 ? (sbyte)1 : (sbyte)2,
            };
        }

        return free switch
        {
            <= 0 => NoPart,
            1 => atom.Charge == 1 ? (sbyte)0 : NoPart,
            _ => 2,
        };
    }

    // electrons of the outer shell and ordinary valence
    private static bool Outer(int element, out int outer, out int valence)
    {
        (outer, valence) = element switch
        {
            Elements.Boron => (3, 3),
            Elements.Carbon or Elements.Silicon => (4, 4),
            Elements.Nitrogen or Elements.Phosphorus => (5, 3),
            Elements.Oxygen or Elements.Sulfur or Elements.Selenium or Elements.Tellurium => (6, 2),
            _ => (0, 0),
        };
        return outer > 0;
    }
}
