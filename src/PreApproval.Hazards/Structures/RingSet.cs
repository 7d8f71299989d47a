namespace PreApproval.Hazards.Structures;

/// <summary>
/// The rings of a structure: its relevant cycles, those that are no sum of shorter ones. For ordinary ring systems they are the
/// smallest set of smallest rings; where that set is not unique (cages such as cubane), all that could belong to it are here, so that
/// nothing depends on how the structure was written.
/// </summary>
/// <remarks>Source: Vismara, Electron. J. Combin. 4 (1997) R9, doi:10.37236/1294.</remarks>
public sealed class RingSet
{
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

        var finder = new RelevantCycles(draft);
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
}
