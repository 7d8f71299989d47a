namespace PreApproval.Hazards.Structures;

/// <summary>How a bond was written.</summary>
internal enum WrittenBond : byte
{
    Default,
    Single,
    Double,
    Triple,
    Quadruple,
    Aromatic,
}

/// <summary>An atom while the structure is being read.</summary>
internal struct DraftAtom
{
    public int Position;
    public byte Element;
    public sbyte Charge;
    public ushort Isotope;
    public byte Hydrogens;
    public bool InBrackets;
    public bool LowerCase;
    public bool Aromatic;

    /// <summary>Index of the first entry of <see cref="MoleculeDraft.Order"/>, or -1 without a stereo mark.</summary>
    public int Chirality;
}

/// <summary>A bond while the structure is being read.</summary>
internal struct DraftBond
{
    public int First;
    public int Second;
    public WrittenBond Written;
    public byte Order;
    public bool InRing;
    public bool Aromatic;

    /// <summary>+1 when the second atom is drawn above the first (/), -1 when below (\), 0 without a mark.</summary>
    public sbyte Direction;
}

/// <summary>A structure while it is being read: each stage fills in what it is about.</summary>
internal sealed class MoleculeDraft
{
    /// <summary>Stands for the hydrogen counted on the atom in a list of neighbours.</summary>
    public const int ImplicitHydrogen = -1;

    public DraftAtom[] Atoms { get; private set; } = new DraftAtom[32];

    public int AtomCount { get; private set; }

    public DraftBond[] Bonds { get; private set; } = new DraftBond[32];

    public int BondCount { get; private set; }

    public short[] FirstNeighbour { get; private set; } = [];

    public (short Atom, short Bond)[] Neighbours { get; private set; } = [];

    /// <summary>Neighbours in the order of the text, for each atom with a stereo mark; null when there is none.</summary>
    public Dictionary<int, TetrahedralMark>? Order { get; private set; }

    public int Add(DraftAtom atom)
    {
        if (AtomCount == Atoms.Length)
        {
            var wider = new DraftAtom[AtomCount * 2];
            Atoms.CopyTo(wider, 0);
            Atoms = wider;
        }

        Atoms[AtomCount] = atom;
        return AtomCount++;
    }

    public int Add(DraftBond bond)
    {
        if (BondCount == Bonds.Length)
        {
            var wider = new DraftBond[BondCount * 2];
            Bonds.CopyTo(wider, 0);
            Bonds = wider;
        }

        Bonds[BondCount] = bond;
        return BondCount++;
    }

    public TetrahedralMark Mark(int atom, bool clockwise)
    {
        Order ??= [];
        return Order[atom] = new TetrahedralMark(clockwise);
    }

    /// <summary>Notes the next neighbour of an atom in the order of the text, where the atom has a stereo mark.</summary>
    public void AddToMark(int atom, int neighbour)
    {
        if (Order is { } order && order.TryGetValue(atom, out var mark))
        {
            mark.Neighbours.Add(neighbour);
        }
    }

    /// <summary>Builds the lists of neighbours from the bonds.</summary>
    public void Connect()
    {
        var first = new short[AtomCount + 1];
        for (var b = 0; b < BondCount; b++)
        {
            first[Bonds[b].First + 1]++;
            first[Bonds[b].Second + 1]++;
        }

        for (var a = 0; a < AtomCount; a++)
        {
            first[a + 1] += first[a];
        }

        var next = first.AsSpan(0, AtomCount).ToArray();
        var neighbours = new (short, short)[BondCount * 2];
        for (var b = 0; b < BondCount; b++)
        {
            var (x, y) = (Bonds[b].First, Bonds[b].Second);
            neighbours[next[x]++] = ((short)y, (short)b);
            neighbours[next[y]++] = ((short)x, (short)b);
        }

        FirstNeighbour = first;
        Neighbours = neighbours;
    }

    public ReadOnlySpan<(short Atom, short Bond)> NeighboursOf(int atom) =>
        Neighbours.AsSpan(FirstNeighbour[atom], FirstNeighbour[atom + 1] - FirstNeighbour[atom]);

    public int Degree(int atom) => FirstNeighbour[atom + 1] - FirstNeighbour[atom];

    /// <summary>Counts ordinary hydrogens written as atoms, like [H] in [H]C, on the atom they hang on, and removes them.</summary>
    public void CountWrittenHydrogens()
    {
        int[]? kept = null;
        for (var a = 0; a < AtomCount; a++)
        {
            if (Atoms[a].Element == Elements.Hydrogen && Host(a) is { } host)
            {
                kept ??= new int[AtomCount];
                kept[a] = -1;
                Atoms[host].Hydrogens++;
            }
        }

        if (kept is null)
        {
            return;
        }

        var count = 0;
        for (var a = 0; a < kept.Length; a++)
        {
            if (kept[a] == 0)
            {
                kept[a] = count;
                Atoms[count++] = Atoms[a];
            }
        }

        AtomCount = count;
        var bonds = 0;
        for (var b = 0; b < BondCount; b++)
        {
            var bond = Bonds[b];
            bond.First = kept[bond.First];
            bond.Second = kept[bond.Second];
            if (bond.First >= 0 && bond.Second >= 0)
            {
                Bonds[bonds++] = bond;
            }
        }

        BondCount = bonds;
        Order = Order?.Where(o => kept[o.Key] >= 0).ToDictionary(o => kept[o.Key], o => o.Value.Renumbered(kept));
        Connect();
    }

    public void RemoveBondsOfOrderZero()
    {
        var bonds = 0;
        for (var b = 0; b < BondCount; b++)
        {
            if (Bonds[b].Order != 0)
            {
                Bonds[bonds++] = Bonds[b];
            }
        }

        BondCount = bonds;
        Connect();
    }

    private int? Host(int atom)
    {
        if (!IsPlainHydrogen(atom))
        {
            return null;
        }

        var (host, bond) = NeighboursOf(atom)[0];
        if (Bonds[bond].Written is not (WrittenBond.Default or WrittenBond.Single))
        {
            return null;
        }

        // of [H][H] the first carries the second, as in [HH]
        return Atoms[host].Element != Elements.Hydrogen || (host < atom && IsPlainHydrogen(host)) ? host : null;
    }

    private bool IsPlainHydrogen(int atom) =>
        Atoms[atom] is { Element: Elements.Hydrogen, Charge: 0, Isotope: 0, LowerCase: false } && Degree(atom) == 1;
}
