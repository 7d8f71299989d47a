namespace PreApproval.Hazards.Structures;

/// <summary>Hydrogens that the organic subset leaves out, and the check that no atom has more bonds than its element can bear.</summary>
/// <remarks>Source: OpenSMILES specification 1.0, section 3.1.5.</remarks>
internal static class HydrogenCount
{
    /// <summary>Hydrogens of aromatic atoms without brackets: the lowest valence less the sigma bonds and the one bond of the ring system.</summary>
    public static StructureError? OnAromaticAtoms(MoleculeDraft draft)
    {
        for (var a = 0; a < draft.AtomCount; a++)
        {
            ref var atom = ref draft.Atoms[a];
            if (!atom.LowerCase)
            {
                continue;
            }

            if (!InRing(draft, a))
            {
                return new StructureError(atom.Position, "an aromatic atom (lower case) must be part of a ring");
            }

            if (!atom.InBrackets)
            {
                var hydrogens = Elements.Valences(atom.Element)[0] - SigmaSum(draft, a) - 1;
                atom.Hydrogens = (byte)(atom.Hydrogens + Math.Max(hydrogens - atom.Hydrogens, 0));
            }
        }

        return null;
    }

    /// <summary>Hydrogens of the other atoms without brackets, once every bond has its order.</summary>
    public static StructureError? OnOtherAtoms(MoleculeDraft draft)
    {
        for (var a = 0; a < draft.AtomCount; a++)
        {
            ref var atom = ref draft.Atoms[a];
            if (atom.InBrackets || atom.LowerCase)
            {
                continue;
            }

            var sum = Sum(draft, a);
            var symbol = Elements.Symbol(atom.Element);
            if (atom.Element is Elements.Chlorine or Elements.Bromine or Elements.Iodine)
            {
                // only the lowest valence is filled up: OpenSMILES gives halogens in the organic subset the valence 1
                if (sum == 0)
                {
                    atom.Hydrogens++;
                }
                else if (sum % 2 == 0 || sum > 7)
                {
                    return new StructureError(atom.Position, $"{symbol} has {sum} bonds; 1, 3, 5 or 7 are possible, or write it in brackets with its charge");
                }

                continue;
            }

            var valence = 0;
            foreach (var allowed in Elements.Valences(atom.Element))
            {
                if (allowed >= sum)
                {
                    valence = allowed;
                    break;
                }
            }

            if (valence == 0)
            {
                return TooMany(symbol, sum, Elements.Valences(atom.Element)[^1], atom.Position);
            }

            if (atom.Element == Elements.Nitrogen && sum == 4)
            {
                return new StructureError(atom.Position, "nitrogen has four bonds and no charge; write [N+], or [NH] if it really has five");
            }

            atom.Hydrogens += (byte)(valence - sum);
        }

        return null;
    }

    /// <summary>No atom may have more bonds and hydrogens than its element and charge allow; metals are free.</summary>
    public static StructureError? Check(MoleculeDraft draft)
    {
        for (var a = 0; a < draft.AtomCount; a++)
        {
            ref readonly var atom = ref draft.Atoms[a];
            var highest = Elements.HighestValence(atom.Element, atom.Charge);
            var sum = Sum(draft, a);
            if (sum > highest && !IsBridgingHydrogen(draft, a))
            {
                return TooMany(Elements.Symbol(atom.Element) + Sign(atom.Charge), sum, Math.Max(highest, 0), atom.Position);
            }
        }

        return null;
    }

    /// <summary>Bonds and hydrogens of an atom, aromatic bonds counted by their Kekulé order.</summary>
    public static int Sum(MoleculeDraft draft, int atom)
    {
        int sum = draft.Atoms[atom].Hydrogens;
        foreach (var (_, bond) in draft.NeighboursOf(atom))
        {
            sum += draft.Bonds[bond].Order;
        }

        return sum;
    }

    /// <summary>Bonds of an atom with aromatic ones counted once.</summary>
    public static int SigmaSum(MoleculeDraft draft, int atom)
    {
        var sum = 0;
        foreach (var (_, bond) in draft.NeighboursOf(atom))
        {
            sum += draft.Bonds[bond].Written switch
            {
                WrittenBond.Double => 2,
                WrittenBond.Triple => 3,
                WrittenBond.Quadruple => 4,
                WrittenBond.Default or WrittenBond.Single or WrittenBond.Aromatic => 1,
            };
        }

        return sum;
    }

    private static bool InRing(MoleculeDraft draft, int atom)
    {
        foreach (var (_, bond) in draft.NeighboursOf(atom))
        {
            if (draft.Bonds[bond].InRing)
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsBridgingHydrogen(MoleculeDraft draft, int atom) =>
        draft.Atoms[atom].Element == Elements.Hydrogen && draft.Degree(atom) == 2;

    private static string Sign(int charge) => charge switch
    {
        0 => "",
        1 => "+",
        -1 => "-",
        > 0 => $"+{charge}",
        _ => $"{charge}",
    };

    private static StructureError TooMany(string symbol, int sum, int highest, int position) =>
        new(position, $"{symbol} has {sum} bonds, hydrogens included; {highest} is the most it can bear");
}
