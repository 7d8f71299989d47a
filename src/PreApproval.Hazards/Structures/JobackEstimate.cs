using System.Globalization;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Structures;

/// <summary>
/// Properties of a pure substance from the groups of its structure: normal boiling point, critical point, enthalpy of formation and heat capacity
/// of the ideal gas. Estimates: each carries the error bar that docs/methods/structure-estimates.md derives.
/// </summary>
/// <remarks>
/// Joback and Reid, Chem. Eng. Commun. 57 (1987) 233, doi:10.1080/00986448708960487. Tb/K = 198 + Σ; Tc = Tb / (0.584 + 0.965 Σ − Σ²);
/// Pc/bar = (0.113 + 0.0032 n − Σ)⁻², n the number of atoms with hydrogens; ΔfH°/(kJ/mol) = 68.29 + Σ; Cp°/(J/(mol K)) = Σa − 37.93 +
/// (Σb + 0.210) T + (Σc − 3.91·10⁻⁴) T² + (Σd + 2.06·10⁻⁷) T³. Groups that the paper fitted on few compounds are left out (=O beside the
/// groups that hold it, =NH, −N= outside rings), and so are amides, carbonates, lactones and nitrogen with three
/// ring or chain bonds in a ring, for which it has no group of their own: a structure with them gets no estimate. Acetone: 321.9 K, −217.8 kJ/mol.
/// </remarks>
public sealed record JobackEstimate
{
    /// <summary>Name shown beside every number.</summary>
    public const string Model = "group contributions of Joback and Reid";

    /// <summary>Key in sources.bib.</summary>
    public const string Source = "joback1987";

    /// <summary>Error bar of the boiling point in K: 95 % of the measured ones in the catalogue lie within it.</summary>
    public const double BoilingPointErrorK = 45;

    /// <summary>Error bar of the critical temperature in K, found in the same way, the boiling point estimated too.</summary>
    public const double CriticalTemperatureErrorK = 75;

    /// <summary>Relative error bar of the critical pressure, found in the same way.</summary>
    public const double CriticalPressureRelativeError = 0.2;

    /// <summary>Error bar of the enthalpy of formation in J/mol, found in the same way.</summary>
    public const double EnthalpyOfFormationErrorJPerMol = 45_000;

    /// <summary>Relative error bar of the heat capacity: own choice, three times the mean deviation of 1.4 % that the paper gives (from memory).</summary>
    public const double HeatCapacityRelativeError = 0.05;

    // an unstrained ring has five atoms or more; the groups hold no strain
    private const int SmallestUnstrainedRing = 5;

    private static readonly Dictionary<string, double[]> Values;

    static JobackEstimate()
    {
        var rows = EmbeddedTable.Rows("joback-groups.tsv");
        Rules = GroupFragments.Rules(rows, "group");
        Values = rows.ToDictionary(static r => r["group"], static r => Columns.Select(c => double.Parse(r[c], CultureInfo.InvariantCulture)).ToArray(), StringComparer.Ordinal);
    }

    private static string[] Columns { get; } =
        ["critical_temperature", "critical_pressure", "boiling_point_K", "enthalpy_of_formation_kJ_per_mol", "heat_capacity_a", "heat_capacity_b", "heat_capacity_c", "heat_capacity_d"];

    private static IReadOnlyList<FragmentRule> Rules { get; }

    /// <summary>Groups with how often.</summary>
    public required IReadOnlyDictionary<string, int> Groups { get; init; }

    /// <summary>Normal boiling point in K.</summary>
    public required double BoilingPointK { get; init; }

    /// <summary>Critical temperature in K, from the estimated boiling point.</summary>
    public required double CriticalTemperatureK { get; init; }

    /// <summary>Critical pressure in Pa.</summary>
    public required double CriticalPressurePa { get; init; }

    /// <summary>Enthalpy of formation of the ideal gas in J/mol at 298.15 K; null with a ring of three or four atoms, whose strain no group holds.</summary>
    public required double? GasEnthalpyOfFormationJPerMol { get; init; }

    /// <summary>Coefficients of the heat capacity: J/(mol K), then over K, K² and K³.</summary>
    public required IReadOnlyList<double> HeatCapacity { get; init; }

    /// <summary>Heat capacity of the ideal gas in J/(mol K) at a temperature in K, 273 to about 1000 K.</summary>
    public double GasHeatCapacityJPerMolK(double temperatureK) =>
        HeatCapacity[0] + (temperatureK * (HeatCapacity[1] + (temperatureK * (HeatCapacity[2] + (temperatureK * HeatCapacity[3])))));

    /// <summary>The estimate, or null with the reason why there is none.</summary>
    public static JobackEstimate? Of(Molecule molecule, out string? because)
    {
        ArgumentNullException.ThrowIfNull(molecule);
        var fragments = GroupFragments.Of(molecule, Rules);
        because = fragments.Because;
        if (because is not null)
        {
            return null;
        }

        var sum = new double[Columns.Length];
        foreach (var (group, count) in fragments.Counts)
        {
            for (var i = 0; i < sum.Length; i++)
            {
                sum[i] += count * Values[group][i];
            }
        }

        var boiling = 198 + sum[2];
        var atoms = molecule.Atoms.Length + molecule.Count("H");
        var denominator = 0.584 + (0.965 * sum[0]) - (sum[0] * sum[0]);
        var root = 0.113 + (0.0032 * atoms) - sum[1];
        if (denominator <= 0.584 || root <= 0)
        {
            // the parabola of Tc turns over beyond Σ = 0.965: far outside of what was fitted
            because = "the structure is far larger than those the method was fitted on";
            return null;
        }

        return new JobackEstimate
        {
            Groups = fragments.Counts,
            BoilingPointK = boiling,
            CriticalTemperatureK = boiling / denominator,
            CriticalPressurePa = 1e5 / (root * root),
            GasEnthalpyOfFormationJPerMol = molecule.Rings.All.Any(static r => r.Count < SmallestUnstrainedRing) ? null : (68.29 + sum[3]) * 1000,
            HeatCapacity = [sum[4] - 37.93, sum[5] + 0.210, sum[6] - 3.91e-4, sum[7] + 2.06e-7],
        };
    }
}
