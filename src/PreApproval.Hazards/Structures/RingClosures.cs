namespace PreApproval.Hazards.Structures;

/// <summary>Ring numbers of a SMILES: the first use of a number opens a ring bond, the second closes it and frees the number (OpenSMILES 1.0, section 3.4).</summary>
internal sealed class RingClosures(MoleculeDraft draft)
{
    private const int Numbers = 100;
    private readonly OpenRing[] _rings = new OpenRing[Numbers];

    /// <summary>Opens or closes a ring at an atom.</summary>
    /// <param name="number">0 to 99.</param>
    /// <param name="position">Index of its first character.</param>
    /// <param name="atom">The atom it follows.</param>
    /// <param name="bond">The bond written before it.</param>
    /// <param name="direction">The stereo mark written before it.</param>
    public StructureError? Use(int number, int position, int atom, WrittenBond bond, sbyte direction)
    {
        ref var ring = ref _rings[number];
        if (!ring.IsOpen)
        {
            ring = new OpenRing(true, atom, position, bond, direction);
            // the neighbour is known when the ring closes
            draft.AddToMark(atom, Placeholder(number));
            return null;
        }

        if (ring.Atom == atom)
        {
            return new StructureError(position, $"ring {number} closes on the atom it was opened on");
        }

        for (var b = 0; b < draft.BondCount; b++)
        {
            ref readonly var other = ref draft.Bonds[b];
            if ((other.First == ring.Atom && other.Second == atom) || (other.Second == ring.Atom && other.First == atom))
            {
                return new StructureError(position, $"ring {number} would bind two atoms that are bound already; write a double bond with =");
            }
        }

        if (ring.Bond != WrittenBond.Default && bond != WrittenBond.Default && ring.Bond != bond)
        {
            return new StructureError(position, $"ring {number} was opened with another bond at character {ring.Position + 1}");
        }

        draft.Add(new DraftBond
        {
            First = ring.Atom,
            Second = atom,
            Written = ring.Bond != WrittenBond.Default ? ring.Bond : bond,
            // written at the closing atom the mark points back to the opening one
            Direction = ring.Direction != 0 ? ring.Direction : (sbyte)-direction,
        });
        if (draft.Order is { } order && order.TryGetValue(ring.Atom, out var mark))
        {
            mark.Neighbours[mark.Neighbours.IndexOf(Placeholder(number))] = atom;
        }

        draft.AddToMark(atom, ring.Atom);
        ring = default;
        return null;
    }

    /// <summary>The first number that was opened and never closed, or null.</summary>
    public StructureError? Unclosed()
    {
        var number = Array.FindIndex(_rings, static r => r.IsOpen);
        return number < 0 ? null : new StructureError(_rings[number].Position, $"ring {number} is opened here and never closed");
    }

    private static int Placeholder(int number) => -2 - number;

    private readonly record struct OpenRing(bool IsOpen, int Atom, int Position, WrittenBond Bond, sbyte Direction);
}
