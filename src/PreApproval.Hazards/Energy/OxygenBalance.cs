using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// Screens on the formula of a substance. Oxygen balance in % = −1600 (2 C + H/2 − O)/M with M in g/mol (UN Manual of Tests and Criteria, Appendix 6), written here
/// for more elements: a halogen takes a metal (KCl), else a hydrogen (HCl), sulfur goes to SO2, nitrogen to N2, what is left of a metal to its oxide. Method: docs/methods/energetic-substances.md.
/// </summary>
public static class OxygenBalance
{
    /// <summary>Key in sources.bib of the first to write it, for carbon, hydrogen and oxygen.</summary>
    public const string Source = "lothrop1949";

    /// <summary>
    /// Oxygen balance in %: below 0 oxygen is missing. Null where the text is no formula, holds an element that the convention does not cover, or more halogen than metal and hydrogen take.
    /// Example: trinitrotoluene C7H5N3O6, −1600 (14 + 2.5 − 6)/227.13 = −73.97 %.
    /// </summary>
    /// <param name="formula">Molecular formula.</param>
    public static double? Percent(string formula)
    {
        ArgumentNullException.ThrowIfNull(formula);
        if (!Formula.TryCount(formula, out var atoms) || Formula.MolarMassKgPerMol(formula) is not { } molarMass)
        {
            return null;
        }

        double needed = 0;
        double hydrogen = 0;
        double halogen = 0;
        double metal = 0;
        foreach (var (element, count) in atoms)
        {
            switch (element)
            {
                case "H" or "D":
                    hydrogen += count;
                    break;
                case "F" or "Cl" or "Br" or "I":
                    halogen += count;
                    break;
                case "Li" or "Na" or "K" or "Rb" or "Cs" or "Ag" or "Tl":
                    metal += count;
                    break;
                case "Be" or "Mg" or "Ca" or "Sr" or "Ba" or "Mn" or "Co" or "Ni" or "Cu" or "Zn" or "Cd" or "Pb" or "Pd" or "Pt":
                    metal += 2 * count;
                    break;
                default:
                    if (OxygenPerAtom(element) is not { } oxygen)
                    {
                        return null;
                    }

                    needed += oxygen * count;
                    break;
            }
        }

        var left = Math.Max(0, halogen - metal);
        if (left > hydrogen)
        {
            return null;
        }

        needed += (hydrogen - left + Math.Max(0, metal - halogen)) / 2;
        return -1600 * needed / (molarMass * 1000);
    }

    /// <summary>
    /// (C + O)/N by atoms, the rule of thumb for organic azides: 3 or more can be kept in small amounts, below 1 is never isolated (P. A. S. Smith; Bräse and others, Angew.
    /// Chem. Int. Ed. 2005, 44, 5188). Null without nitrogen. Passing it proves nothing: tosyl azide has exactly 3.
    /// </summary>
    /// <param name="formula">Molecular formula.</param>
    /// <param name="oxygenLeftOut">Oxygen atoms that do not count, as those of a nitrate ester.</param>
    public static double? CarbonAndOxygenPerNitrogen(string formula, int oxygenLeftOut = 0)
    {
        ArgumentNullException.ThrowIfNull(formula);
        return Formula.TryCount(formula, out var atoms) && atoms.TryGetValue("N", out var nitrogen)
            ? (double)(atoms.GetValueOrDefault("C") + Math.Max(0, atoms.GetValueOrDefault("O") - oxygenLeftOut)) / nitrogen
            : null;
    }

    private static double? OxygenPerAtom(string element) => element switch
    {
        "N" => 0,
        "O" => -1,
        "C" or "S" or "Si" or "Se" or "Te" or "Ti" or "Zr" or "Sn" => 2,
        "B" or "Al" or "Ga" or "In" or "Fe" or "Cr" or "Ce" => 1.5,
        "P" or "As" or "Sb" or "V" => 2.5,
        _ => null,
    };
}
