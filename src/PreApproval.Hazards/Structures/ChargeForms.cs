namespace PreApproval.Hazards.Structures;

/// <summary>
/// Brings the common ways of drawing one bonding to one form: nitro, nitrate and N-oxide as N⁺–O⁻, azide and diazo as N=N⁺=N⁻;
/// sulfoxides, phosphine oxides and oxo acids of the halogens with double bonds instead of separated charges; alkali metals on O, N,
/// S or a halogen as ions.
/// </summary>
internal static class ChargeForms
{
    public static void Normalise(MoleculeDraft draft)
    {
        SplitSalts(draft);
        for (var a = 0; a < draft.AtomCount; a++)
        {
            ref var atom = ref draft.Atoms[a];
            switch (atom.Element)
            {
                case Elements.Nitrogen when atom.Charge == 0 && HydrogenCount.Sum(draft, a) == 5:
                    Separate(draft, a);
                    break;
                case Elements.Nitrogen when atom.Charge == 1:
                    Cumulate(draft, a);
                    break;
                case Elements.Phosphorus or Elements.Sulfur or Elements.Selenium or Elements.Tellurium or Elements.Chlorine or Elements.Bromine or Elements.Iodine
                    when atom.Charge > 0:
                    Join(draft, a);
                    break;
                default:
                    break;
            }
        }
    }

    private static void SplitSalts(MoleculeDraft draft)
    {
        var split = false;
        for (var b = 0; b < draft.BondCount; b++)
        {
            ref var bond = ref draft.Bonds[b];
            if (bond.Order != 1 || bond.InRing)
            {
                continue;
            }

            var (metal, other) = Elements.IsAlkaliMetal(draft.Atoms[bond.First].Element) ? (bond.First, bond.Second) : (bond.Second, bond.First);
            if (Elements.IsAlkaliMetal(draft.Atoms[metal].Element) && draft.Degree(metal) == 1 && draft.Atoms[metal].Charge == 0 && draft.Atoms[other] is
                {
                    Charge: 0,
                    Element: Elements.Nitrogen or Elements.Oxygen or Elements.Sulfur or Elements.Selenium or Elements.Fluorine or Elements.Chlorine or Elements.Bromine or Elements.Iodine
                })
            {
                draft.Atoms[metal].Charge = 1;
                draft.Atoms[other].Charge = -1;
                bond.Order = 0;
                split = true;
            }
        }

        if (split)
        {
            draft.RemoveBondsOfOrderZero();
        }
    }

    // N(=O) with five bonds becomes N+ – O-, N#N with five bonds N+ = N-
    private static void Separate(MoleculeDraft draft, int nitrogen)
    {
        foreach (var (neighbour, b) in draft.NeighboursOf(nitrogen))
        {
            ref var other = ref draft.Atoms[neighbour];
            ref var bond = ref draft.Bonds[b];
            if (other.Charge == 0 && draft.Degree(neighbour) == 1 && other.Hydrogens == 0
                && ((other.Element == Elements.Oxygen && bond.Order == 2) || (other.Element == Elements.Nitrogen && bond.Order == 3)))
            {
                bond.Order--;
                other.Charge--;
                draft.Atoms[nitrogen].Charge++;
                return;
            }
        }
    }

    // X- – N+ # N becomes X = N+ = N-
    private static void Cumulate(MoleculeDraft draft, int nitrogen)
    {
        if (draft.Degree(nitrogen) != 2)
        {
            return;
        }

        var ((left, toLeft), (right, toRight)) = (draft.NeighboursOf(nitrogen)[0], draft.NeighboursOf(nitrogen)[1]);
        if (draft.Bonds[toLeft].Order == 3)
        {
            ((left, toLeft), (right, toRight)) = ((right, toRight), (left, toLeft));
        }

        if (draft.Bonds[toRight].Order == 3 && draft.Bonds[toLeft].Order == 1
            && draft.Atoms[right] is { Element: Elements.Nitrogen, Charge: 0 }
            && draft.Atoms[left] is { Element: Elements.Nitrogen or Elements.Carbon, Charge: -1 })
        {
            draft.Bonds[toRight].Order = draft.Bonds[toLeft].Order = 2;
            draft.Atoms[right].Charge = -1;
            draft.Atoms[left].Charge = 0;
        }
    }

    private static void Join(MoleculeDraft draft, int atom)
    {
        foreach (var (neighbour, b) in draft.NeighboursOf(atom))
        {
            ref var other = ref draft.Atoms[neighbour];
            ref var bond = ref draft.Bonds[b];
            if (draft.Atoms[atom].Charge > 0 && other is { Element: Elements.Oxygen, Charge: -1, Hydrogens: 0 } && draft.Degree(neighbour) == 1 && bond.Order == 1)
            {
                bond.Order = 2;
                other.Charge = 0;
                draft.Atoms[atom].Charge--;
            }
        }
    }
}
