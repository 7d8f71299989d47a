namespace PreApproval.Hazards.Structures;

/// <summary>The stereo mark of an atom: its neighbours in the order of the text and the sense of turning, seen from the first.</summary>
internal sealed class TetrahedralMark(bool clockwise)
{
    /// <summary>@@ is clockwise, @ is anticlockwise.</summary>
    public bool Clockwise { get; } = clockwise;

    /// <summary>Atom indices; -1 for the hydrogen counted on the atom.</summary>
    public List<int> Neighbours { get; } = new(4);

    public TetrahedralMark Renumbered(int[] indexOf)
    {
        var mark = new TetrahedralMark(Clockwise);
        mark.Neighbours.AddRange(Neighbours.Select(n => n < 0 ? n : indexOf[n]));
        return mark;
    }

    /// <summary>Whether the neighbours turn clockwise when taken in the order of the given ranks (an implicit hydrogen first); null unless there are four or three with a lone pair.</summary>
    public bool? ClockwiseInOrder(ReadOnlySpan<int> rank)
    {
        if (Neighbours.Count is not (3 or 4))
        {
            return null;
        }

        // parity of the permutation from the written order to the order of ranks
        var odd = false;
        for (var i = 0; i < Neighbours.Count; i++)
        {
            for (var j = i + 1; j < Neighbours.Count; j++)
            {
                var (first, second) = (Neighbours[i] < 0 ? -1 : rank[Neighbours[i]], Neighbours[j] < 0 ? -1 : rank[Neighbours[j]]);
                if (first == second)
                {
                    return null;
                }

                odd ^= first > second;
            }
        }

        return Clockwise ^ odd;
    }
}

/// <summary>Two groups across a double bond and whether they stand on the same side.</summary>
internal sealed record DoubleBondMark(int Bond, int FirstNeighbour, int SecondNeighbour, bool SameSide);

/// <summary>The stereo marks of a structure, as written.</summary>
internal sealed record StereoMarks(IReadOnlyDictionary<int, TetrahedralMark> Atoms, IReadOnlyList<DoubleBondMark> DoubleBonds)
{
    public static StereoMarks None { get; } = new(new Dictionary<int, TetrahedralMark>(), []);

    public bool IsEmpty => Atoms.Count == 0 && DoubleBonds.Count == 0;

    public static StereoMarks From(MoleculeDraft draft)
    {
        List<DoubleBondMark>? bonds = null;
        for (var b = 0; b < draft.BondCount; b++)
        {
            ref readonly var bond = ref draft.Bonds[b];
            if (bond.Order == 2 && !bond.Aromatic
                && Marked(draft, bond.First, b) is { } first && Marked(draft, bond.Second, b) is { } second)
            {
                (bonds ??= []).Add(new DoubleBondMark(b, first.Atom, second.Atom, first.Above == second.Above));
            }
        }

        return draft.Order is null && bonds is null
            ? None
            : new StereoMarks(draft.Order ?? [], bonds ?? []);
    }

    private static (int Atom, bool Above)? Marked(MoleculeDraft draft, int atom, int except)
    {
        foreach (var (neighbour, b) in draft.NeighboursOf(atom))
        {
            ref readonly var bond = ref draft.Bonds[b];
            if (b != except && bond.Direction != 0)
            {
                return (neighbour, bond.First == atom == (bond.Direction > 0));
            }
        }

        return null;
    }
}
