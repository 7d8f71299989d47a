using System.Numerics;

namespace PreApproval.Hazards.Structures;

/// <summary>
/// Unions of fused rings of which none need be aromatic alone, such as azulene: smaller unions first, until every atom of the rings is
/// aromatic or no union is left. Bounded by <see cref="MostRings"/> and <see cref="MostUnions"/>.
/// </summary>
internal sealed class RingUnions
{
    private const int MostRings = 64;
    private const int MostUnions = 20_000;
    private readonly MoleculeDraft _draft;
    private readonly List<short[]> _rings;
    private readonly sbyte[] _electrons;
    private readonly List<int[]> _bonds;
    private readonly int[] _atomUses;
    private readonly int[] _bondUses;

    public RingUnions(MoleculeDraft draft, List<short[]> rings, sbyte[] electrons)
    {
        _draft = draft;
        _rings = rings;
        _electrons = electrons;
        _bonds = rings.ConvertAll(BondsOf);
        _atomUses = new int[draft.AtomCount];
        _bondUses = new int[draft.BondCount];
    }

    /// <summary>Marks what is aromatic; false when there are too many rings or unions to look through.</summary>
    public bool TryMark()
    {
        if (AllMarked())
        {
            return true;
        }

        if (_rings.Count > MostRings)
        {
            return false;
        }

        var fused = Fused();
        var seen = new HashSet<ulong>();
        var current = new List<ulong>();
        for (var r = 0; r < _rings.Count; r++)
        {
            current.Add(1UL << r);
        }

        while (current.Count > 0 && !AllMarked())
        {
            var next = new List<ulong>();
            foreach (var union in current)
            {
                for (var around = Around(union, fused); around != 0; around &= around - 1)
                {
                    var wider = union | (around & (~around + 1));
                    if (!seen.Add(wider))
                    {
                        continue;
                    }

                    if (seen.Count > MostUnions)
                    {
                        return false;
                    }

                    if (Try(wider))
                    {
                        next.Add(wider);
                    }
                }
            }

            current = next;
        }

        return true;
    }

    private static ulong Around(ulong union, ulong[] fused)
    {
        var around = 0UL;
        for (var rest = union; rest != 0; rest &= rest - 1)
        {
            around |= fused[BitOperations.TrailingZeroCount(rest)];
        }

        return around & ~union;
    }

    // rings that share exactly one bond
    private ulong[] Fused()
    {
        var fused = new ulong[_rings.Count];
        for (var r = 0; r < fused.Length; r++)
        {
            for (var other = 0; other < r; other++)
            {
                if (_bonds[r].Count(b => Array.IndexOf(_bonds[other], b) >= 0) == 1)
                {
                    fused[r] |= 1UL << other;
                    fused[other] |= 1UL << r;
                }
            }
        }

        return fused;
    }

    // false when the union is too large to grow further
    private bool Try(ulong union)
    {
        Array.Clear(_atomUses);
        var atoms = 0;
        for (var rest = union; rest != 0; rest &= rest - 1)
        {
            foreach (var atom in _rings[BitOperations.TrailingZeroCount(rest)])
            {
                atoms += _atomUses[atom]++ == 0 ? 1 : 0;
            }
        }

        if (atoms > Aromaticity.LargestSystem)
        {
            return false;
        }

        var sum = 0;
        for (var a = 0; a < _atomUses.Length; a++)
        {
            // an atom in three rings of the union lies inside it and takes no part in the circle
            sum += _atomUses[a] is 1 or 2 ? _electrons[a] : 0;
        }

        if (Aromaticity.IsHueckel(sum))
        {
            MarkOutside(union);
        }

        return true;
    }

    private void MarkOutside(ulong union)
    {
        Array.Clear(_bondUses);
        for (var rest = union; rest != 0; rest &= rest - 1)
        {
            foreach (var b in _bonds[BitOperations.TrailingZeroCount(rest)])
            {
                _bondUses[b]++;
            }
        }

        for (var b = 0; b < _bondUses.Length; b++)
        {
            if (_bondUses[b] == 1)
            {
                Aromaticity.MarkBond(_draft, b);
            }
        }
    }

    private bool AllMarked() => _rings.TrueForAll(r => Array.TrueForAll(r, a => _draft.Atoms[a].Aromatic));

    private int[] BondsOf(short[] ring)
    {
        var bonds = new int[ring.Length];
        for (var i = 0; i < ring.Length; i++)
        {
            bonds[i] = Aromaticity.BondBetween(_draft, ring[i], ring[(i + 1) % ring.Length]);
        }

        return bonds;
    }
}
