namespace PreApproval.Hazards.Structures;

/// <summary>What a term of a pattern asks of an atom.</summary>
internal enum AtomTerm : byte
{
    Any,
    Element,
    AliphaticElement,
    AromaticElement,
    Aromatic,
    Aliphatic,
    Isotope,
    Charge,
    Degree,
    Connections,
    Hydrogens,
    Valence,
    InRing,
    RingCount,
    RingSize,
    RingBonds,
    Environment,
    Not,
    And,
    Or,
}

/// <summary>A question to an atom, built from terms with not, and, or. Immutable.</summary>
internal sealed record AtomTest(AtomTerm Term, int Value = 0, AtomTest? Left = null, AtomTest? Right = null, SubstructurePattern? Environment = null)
{
    public static AtomTest Any { get; } = new(AtomTerm.Any);

    public bool Matches(SubstructureSearch search, int index)
    {
        var molecule = search.Molecule;
        ref readonly var atom = ref molecule.Atoms[index];
        switch (Term)
        {
            case AtomTerm.Any:
                return true;
            case AtomTerm.Element:
                return atom.Element == Value;
            case AtomTerm.AliphaticElement:
                return atom.Element == Value && !atom.IsAromatic;
            case AtomTerm.AromaticElement:
                return atom.Element == Value && atom.IsAromatic;
            case AtomTerm.Aromatic:
                return atom.IsAromatic;
            case AtomTerm.Aliphatic:
                return !atom.IsAromatic;
            case AtomTerm.Isotope:
                return atom.Isotope == Value;
            case AtomTerm.Charge:
                return atom.Charge == Value;
            case AtomTerm.Degree:
                return molecule.Degree(index) == Value;
            case AtomTerm.Connections:
                return molecule.Degree(index) + atom.Hydrogens == Value;
            case AtomTerm.Hydrogens:
                return molecule.TotalHydrogens(index) == Value;
            case AtomTerm.Valence:
                return molecule.Valence(index) == Value;
            case AtomTerm.InRing:
                return molecule.Rings.SmallestAt(index) > 0;
            case AtomTerm.RingCount:
                return molecule.Rings.CountAt(index) == Value;
            case AtomTerm.RingSize:
                return molecule.Rings.SmallestAt(index) == Value;
            case AtomTerm.RingBonds:
                return RingBondsAt(molecule, index) == Value;
            case AtomTerm.Environment:
                return search.MatchesAt(Environment!, index);
            case AtomTerm.Not:
                return !Left!.Matches(search, index);
            case AtomTerm.And:
                return Left!.Matches(search, index) && Right!.Matches(search, index);
            case AtomTerm.Or:
                return Left!.Matches(search, index) || Right!.Matches(search, index);
            default:
                throw new InvalidOperationException($"Unknown term {Term}.");
        }
    }

    /// <summary>Whether an atom of the kind (see <see cref="AtomKinds"/>) can pass.</summary>
    public bool CanPass(int kind) => Possible(kind).True;

    // what the class of the element and the sign of the charge alone say
    private (bool True, bool False) Possible(int kind)
    {
        var (kindClass, sign) = (kind / 3, (kind % 3) - 1);
        switch (Term)
        {
            case AtomTerm.Element:
            case AtomTerm.AliphaticElement:
                var here = AtomKinds.ClassOf(Value, aromatic: false) == kindClass
                    || (Term == AtomTerm.Element && Elements.IsAromaticSymbol(Value) && AtomKinds.ClassOf(Value, aromatic: true) == kindClass);
                return (here, !here || kindClass is 7 or > 14);
            case AtomTerm.AromaticElement:
                var there = AtomKinds.ClassOf(Value, aromatic: true) == kindClass;
                return (there, !there || kindClass == 7);
            case AtomTerm.Aromatic:
                return (kindClass is 3 or 5 or 7, kindClass is not (3 or 5 or 7));
            case AtomTerm.Aliphatic:
                return (kindClass is not (3 or 5 or 7), kindClass is 3 or 5 or 7);
            case AtomTerm.Charge:
                return (Math.Sign(Value) == sign, Value != 0 || sign != 0);
            case AtomTerm.Any:
                return (true, false);
            case AtomTerm.Not:
                var (t, f) = Left!.Possible(kind);
                return (f, t);
            case AtomTerm.And:
                var (left, right) = (Left!.Possible(kind), Right!.Possible(kind));
                return (left.True && right.True, left.False || right.False);
            case AtomTerm.Or:
                var (one, other) = (Left!.Possible(kind), Right!.Possible(kind));
                return (one.True || other.True, one.False && other.False);
            case AtomTerm.Environment:
                return (Environment!.Atoms[0].CanPass(kind), true);
            case AtomTerm.Isotope or AtomTerm.Degree or AtomTerm.Connections or AtomTerm.Hydrogens or AtomTerm.Valence
                or AtomTerm.InRing or AtomTerm.RingCount or AtomTerm.RingSize or AtomTerm.RingBonds:
                return (true, true);
            default:
                throw new InvalidOperationException($"Unknown term {Term}.");
        }
    }

    private static int RingBondsAt(Molecule molecule, int atom)
    {
        var count = 0;
        foreach (var (_, bond) in molecule.Neighbours(atom))
        {
            count += molecule.Bonds[bond].IsInRing ? 1 : 0;
        }

        return count;
    }
}

/// <summary>What a bond of a pattern may be: one bit for each of single, double, triple, quadruple, aromatic, each in a ring and outside.</summary>
internal static class BondTest
{
    public const ushort Single = 0b00001_00001;
    public const ushort Double = 0b00010_00010;
    public const ushort Triple = 0b00100_00100;
    public const ushort Aromatic = 0b10000_10000;
    public const ushort Quadruple = 0b01000_01000;
    public const ushort Any = 0b11111_11111;
    public const ushort InRing = 0b11111_00000;

    /// <summary>Bit of a bond of a structure.</summary>
    public static ushort Of(in Bond bond) => (ushort)(1 << ((bond.IsAromatic ? 4 : bond.Order - 1) + (bond.IsInRing ? 5 : 0)));

    /// <summary>Whether an order (0 aromatic, as in <see cref="AtomKinds.BondBit"/>) is allowed in a ring or outside.</summary>
    public static bool Allows(ushort test, int order)
    {
        var bit = order == 0 ? 4 : order - 1;
        return ((test >> bit | test >> (bit + 5)) & 1) != 0;
    }
}
