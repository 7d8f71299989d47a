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
    internal const int LargestSystem = 24;
    private const sbyte NoPart = -1;

    /// <summary>Marks the aromatic atoms and bonds; false when the fused rings are too many to look through.</summary>
    public static bool TryPerceive(MoleculeDraft draft, RingSet rings)
    {
        if (rings.Rings.Length == 0)
        {
            return true;
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
                shared |= electrons[atom] < 2;
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

        return candidates.Count < 2 || new RingUnions(draft, candidates, electrons.ToArray()).TryMark();
    }

    internal static bool IsHueckel(int electrons) => electrons >= 2 && electrons % 4 == 2;

    private static void MarkRing(MoleculeDraft draft, short[] ring)
    {
        for (var i = 0; i < ring.Length; i++)
        {
            MarkBond(draft, BondBetween(draft, ring[i], ring[(i + 1) % ring.Length]));
        }
    }

    internal static void MarkBond(MoleculeDraft draft, int b)
    {
        ref var bond = ref draft.Bonds[b];
        bond.Aromatic = true;
        draft.Atoms[bond.First].Aromatic = draft.Atoms[bond.Second].Aromatic = true;
    }

    internal static int BondBetween(MoleculeDraft draft, int atom, int other)
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
