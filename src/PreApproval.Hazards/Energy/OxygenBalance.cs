using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// Oxygen that a substance has beyond what its own combustion needs, in percent of its mass; negative: it lacks oxygen. Carbon burns to CO2,
/// hydrogen to H2O, sulfur to SO2, alkali metals to M2O; each halogen takes one hydrogen; nitrogen leaves as N2.
/// </summary>
/// <remarks>
/// OB = −100 M(O) (2 C + (H − X)/2 + 2 S + M/2 − O)/M, after Lothrop and Handrick, Chem. Rev. 44 (1949) 419, doi:10.1021/cr60139a001, who
/// state it for C, H and O. TNT: −73.96 %. What other elements burn to differs between authors: with them there is no balance here.
/// </remarks>
public static class OxygenBalance
{
    /// <summary>Key in sources.bib.</summary>
    public const string Source = "lothrop1949";

    private const double OxygenGramPerMol = 15.999;

    /// <summary>Percent of the mass, or null with an element whose oxide is not settled or with more halogen than hydrogen.</summary>
    public static double? Percent(string formula)
    {
        ArgumentNullException.ThrowIfNull(formula);
        if (Formula.Atoms(formula) is not { } atoms || Formula.MolarMassKgPerMol(formula) is not { } mass)
        {
            return null;
        }

        double needed = 0;
        double hydrogen = 0;
        foreach (var (element, count) in atoms)
        {
            switch (element)
            {
                case "C" or "S":
                    needed += 2.0 * count;
                    break;
                case "H" or "D":
                    hydrogen += count;
                    break;
                case "F" or "Cl" or "Br" or "I":
                    hydrogen -= count;
                    break;
                case "O":
                    needed -= count;
                    break;
                case "Li" or "Na" or "K" or "Rb" or "Cs":
                    needed += count / 2.0;
                    break;
                case "N":
                    break;
                default:
                    return null;
            }
        }

        return hydrogen < 0 ? null : -100 * OxygenGramPerMol * (needed + (hydrogen / 2)) / (mass * 1000);
    }
}
