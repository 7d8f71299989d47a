using System.Globalization;
using System.Text;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// What an azide salt makes of a halide or a sulfonate, by its formula: the leaving group goes, N3 comes. Where two kinds of halogen are there the lighter goes, so that the mass is at most too large; the ratio
/// (C + O)/N does not depend on it. By hand, benzyl bromide C7H7Br, 171.03 g/mol: C7H7N3, 133.15 g/mol, 7/3 = 2.33.
/// </summary>
/// <param name="Formula">Of the azide, its elements in alphabetical order.</param>
/// <param name="KgPerMol">Its molar mass.</param>
/// <param name="Azides">Azide groups in one molecule, at least 1.</param>
internal sealed record AzideExchange(string Formula, double KgPerMol, int Azides)
{
    private static readonly string[] Halogens = ["Cl", "Br", "I"];

    /// <summary>Sulfonates that leave as a whole: what shows them, and what goes with them.</summary>
    private static readonly (SubstructurePattern Pattern, string Leaving)[] Sulfonates =
    [
        (Read("[#6][OX2][SX4](=O)(=O)c1ccc([CH3])cc1"), "C7H7O3S"),
        (Read("[#6][OX2][SX4](=O)(=O)[CH3]"), "CH3O3S"),
        (Read("[#6][OX2][SX4](=O)(=O)C(F)(F)F"), "CF3O3S"),
    ];

    /// <summary>The azide; null where the formula is not known or holds no group that leaves by it.</summary>
    /// <param name="substance">The halide or sulfonate.</param>
    /// <param name="groups">Groups that leave; null: every halogen.</param>
    public static AzideExchange? Of(PlanSubstance substance, double? groups)
    {
        var onFile = substance.Known?.Identity;
        Molecule? molecule = null;
        _ = (onFile?.Smiles ?? substance.Smiles) is { } smiles && SmilesReader.TryRead(smiles, out molecule, out _);
        if ((onFile?.Formula ?? molecule?.Formula) is not { } formula || !Substances.Formula.TryCount(formula, out var counted))
        {
            return null;
        }

        var atoms = new SortedDictionary<string, int>(StringComparer.Ordinal);
        foreach (var (element, count) in counted)
        {
            atoms[element] = count;
        }

        var azides = molecule is null ? 0 : WithoutSulfonates(atoms, molecule);
        var most = groups ?? double.PositiveInfinity;
        foreach (var halogen in Halogens)
        {
            while (azides < most && atoms.TryGetValue(halogen, out var left) && left >= 1)
            {
                atoms[halogen] = left - 1;
                azides++;
            }
        }

        if (azides == 0)
        {
            return null;
        }

        atoms["N"] = atoms.GetValueOrDefault("N") + (3 * azides);
        var text = Write(atoms);
        return Substances.Formula.MolarMassKgPerMol(text) is { } molarMass ? new AzideExchange(text, molarMass, azides) : null;
    }

    private static int WithoutSulfonates(SortedDictionary<string, int> atoms, Molecule molecule)
    {
        var left = 0;
        foreach (var (pattern, leaving) in Sulfonates)
        {
            var times = pattern.FindAll(molecule)?.DistinctBy(static match => match[2]).Count() ?? 0;
            _ = Substances.Formula.TryCount(leaving, out var gone);
            foreach (var (element, count) in gone)
            {
                atoms[element] = atoms.GetValueOrDefault(element) - (times * count);
            }

            left += times;
        }

        return left;
    }

    private static string Write(SortedDictionary<string, int> atoms)
    {
        var text = new StringBuilder();
        foreach (var (element, count) in atoms)
        {
            if (count > 0)
            {
                text.Append(element).Append(count.ToString(CultureInfo.InvariantCulture));
            }
        }

        return text.ToString();
    }

    private static SubstructurePattern Read(string text) => SubstructurePattern.TryParse(text, out var pattern, out var error) ? pattern : throw new FormatException($"{text}: {error.Message}");
}
