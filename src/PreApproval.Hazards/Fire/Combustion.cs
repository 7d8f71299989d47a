using System.Runtime.CompilerServices;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>A heat of combustion.</summary>
/// <param name="JPerMol">Net heat (water as vapour) released per mole of the gas, in J/mol, positive.</param>
/// <param name="Quality">Correlated from enthalpies of formation, estimated from the oxygen used.</param>
/// <param name="Sources">Keys of sources.</param>
public sealed record HeatOfCombustion(double JPerMol, Quality Quality, IReadOnlyList<string> Sources);

/// <summary>
/// Complete combustion in air of what is made of C, H, O, N, S and halogens: to carbon dioxide, water vapour, nitrogen, sulfur dioxide
/// and hydrogen halides.
/// </summary>
public static class Combustion
{
    /// <summary>Volume fraction of oxygen in air as the published rules have it.</summary>
    public const double OxygenInAir = 0.21;

    // Standard enthalpies of formation at 298.15 K in J/mol: CODATA Key Values for Thermodynamics (1989).
    private const double CarbonDioxide = -393_510;
    private const double WaterVapour = -241_826;
    private const double SulfurDioxide = -296_810;

    // 13.1 kJ per gram of oxygen used, within 5 % for organic fuels (Huggett 1980).
    private const double JPerMolOxygen = 13.1e3 * 31.998;

    // the formulae of the catalogue are asked for again and again; the table lets go of a text that nothing else holds
    private static readonly ConditionalWeakTable<string, IReadOnlyDictionary<string, int>?> Counted = [];

    private static readonly string[] Burned = ["C", "H", "D", "O", "N", "S", "F", "Cl", "Br", "I"];
    private static readonly string[] Halogens = ["F", "Cl", "Br", "I"];

    /// <summary>True for a compound of carbon with a halogen.</summary>
    public static bool IsHalogenated(Substance substance) =>
        Atoms(substance) is { } atoms && atoms.ContainsKey("C") && HasHalogen(atoms);

    /// <summary>Moles of oxygen that burn one mole; null without a formula of the elements named, or for what has nothing to burn.</summary>
    public static double? OxygenPerMol(Substance substance)
    {
        if (Atoms(substance) is not { } atoms || HoldsOther(atoms))
        {
            return null;
        }

        var halogen = Count(atoms, "F") + Count(atoms, "Cl") + Count(atoms, "Br") + Count(atoms, "I");
        var hydrogen = Count(atoms, "H") + Count(atoms, "D");
        var oxygen = Count(atoms, "C") + Count(atoms, "S") + (Math.Max(hydrogen - halogen, 0) / 4) - (Count(atoms, "O") / 2);
        return oxygen > 0 ? oxygen : null;
    }

    /// <summary>Volume fraction in air of the stoichiometric mixture; null as for the oxygen.</summary>
    public static double? StoichiometricFraction(Substance substance) => OxygenPerMol(substance) is { } z ? 1 / (1 + (z / OxygenInAir)) : null;

    /// <summary>
    /// Net heat of combustion: from the enthalpy of formation of the gas for C, H, O, N and S, else 13.1 kJ per gram of oxygen used
    /// (Huggett 1980, within 5 %); null without a formula.
    /// </summary>
    public static HeatOfCombustion? Heat(Substance substance)
    {
        if (OxygenPerMol(substance) is not { } z)
        {
            return null;
        }

        var atoms = Atoms(substance)!;
        if (substance.GasEnthalpyOfFormationJPerMol is { } formation && !HasHalogen(atoms))
        {
            var hydrogen = Count(atoms, "H") + Count(atoms, "D");
            var heat = formation.Value - (Count(atoms, "C") * CarbonDioxide) - (hydrogen / 2 * WaterVapour) - (Count(atoms, "S") * SulfurDioxide);
            if (heat > 0)
            {
                return new HeatOfCombustion(heat, formation.Quality > Quality.Correlated ? formation.Quality : Quality.Correlated, formation.Sources);
            }
        }

        return new HeatOfCombustion(z * JPerMolOxygen, Quality.Estimated, ["huggett-1980"]);
    }

    private static IReadOnlyDictionary<string, int>? Atoms(Substance substance) => substance.Identity.Formula is { } formula ? Counted.GetValue(formula, Formula.Atoms) : null;

    private static bool HoldsOther(IReadOnlyDictionary<string, int> atoms)
    {
        foreach (var (element, _) in atoms)
        {
            if (!Burned.Contains(element, StringComparer.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    private static bool HasHalogen(IReadOnlyDictionary<string, int> atoms)
    {
        foreach (var halogen in Halogens)
        {
            if (atoms.ContainsKey(halogen))
            {
                return true;
            }
        }

        return false;
    }

    private static double Count(IReadOnlyDictionary<string, int> atoms, string element) => atoms.GetValueOrDefault(element);
}
