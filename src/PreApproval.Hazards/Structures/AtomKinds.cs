namespace PreApproval.Hazards.Structures;

/// <summary>Which kinds of atoms and bonds a structure has, as bits, so that most patterns are ruled out without a search.</summary>
internal sealed class AtomKinds
{
    /// <summary>Classes of elements; with three signs of charge each.</summary>
    public const int Classes = 21;

    private readonly byte[] _kinds;

    public AtomKinds(Molecule molecule)
    {
        _kinds = new byte[molecule.Atoms.Length];
        for (var a = 0; a < _kinds.Length; a++)
        {
            _kinds[a] = (byte)KindOf(molecule.Atoms[a].Element, molecule.Atoms[a].IsAromatic, molecule.Atoms[a].Charge);
            Atoms |= 1UL << _kinds[a];
        }

        foreach (var bond in molecule.Bonds)
        {
            Bonds |= 1UL << BondBit(_kinds[bond.First] / 3, _kinds[bond.Second] / 3, bond.IsAromatic ? 0 : bond.Order);
        }
    }

    /// <summary>Bits of the kinds of atoms present.</summary>
    public ulong Atoms { get; }

    /// <summary>Bits of the kinds of bonds present; several kinds share a bit.</summary>
    public ulong Bonds { get; }

    public int this[int atom] => _kinds[atom];

    public static int KindOf(int element, bool aromatic, int charge) => (ClassOf(element, aromatic) * 3) + Math.Sign(charge) + 1;

    public static int ClassOf(int element, bool aromatic) => (element, aromatic) switch
    {
        (Elements.Hydrogen, _) => 0,
        (Elements.Carbon, false) => 2,
        (Elements.Carbon, true) => 3,
        (Elements.Nitrogen, false) => 4,
        (Elements.Nitrogen, true) => 5,
        (_, true) => 7,
        (Elements.Boron, _) => 1,
        (Elements.Oxygen, _) => 6,
        (Elements.Fluorine, _) => 8,
        (Elements.Silicon, _) => 9,
        (Elements.Phosphorus, _) => 10,
        (Elements.Sulfur, _) => 11,
        (Elements.Chlorine, _) => 12,
        (Elements.Bromine, _) => 13,
        (Elements.Iodine, _) => 14,
        (3 or 11 or 19 or 37 or 55, _) => 15,
        (4 or 12 or 20 or 38 or 56, _) => 16,
        (13, _) => 17,
        (30 or 48, _) => 18,
        _ => Elements.IsMetal(element) ? 19 : 20,
    };

    /// <summary>Order 0 is aromatic.</summary>
    public static int BondBit(int oneClass, int otherClass, int order)
    {
        var (low, high) = oneClass < otherClass ? (oneClass, otherClass) : (otherClass, oneClass);
        return (int)((uint)((((low * Classes) + high) * 5) + order) * 2654435761u >> 26);
    }
}
