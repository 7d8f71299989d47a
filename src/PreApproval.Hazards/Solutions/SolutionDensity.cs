using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Solutions;

/// <summary>Density of the solutions of one solute in one solvent over the mass fraction, at 20 or 25 °C.</summary>
/// <remarks>
/// Between the tabulated points the specific volume 1/ρ is linear in the mass fraction w, which is what volumes that add would
/// give; from w = 0 the solvent's own density leads to the first point. Mass and volume of the solution are then m = ρ(w) V, and
/// the concentration is c = w ρ(w)/M, which rises with w and is inverted by bisection. Data/solution-densities.tsv, Data/solutions.tsv.
/// </remarks>
public sealed class SolutionDensity
{
    private const double Beyond = 1.15;
    private static readonly FrozenDictionary<(string, string), SolutionDensity> Curves = Read();
    private readonly double[] fractions;
    private readonly double[] densities;

    private SolutionDensity(double[] fractions, double[] densities, double temperatureK)
    {
        this.fractions = fractions;
        this.densities = densities;
        TemperatureK = temperatureK;
    }

    /// <summary>Temperature the densities hold at, in K.</summary>
    public double TemperatureK { get; }

    /// <summary>Key of the source in <c>sources.bib</c>.</summary>
    public static string Source => "from-memory";

    /// <summary>How the densities came about.</summary>
    public static Quality Quality => Quality.Assumed;

    /// <summary>Highest mass fraction the table answers for.</summary>
    public double MostMassFraction => Math.Min(1, fractions[^1] * Beyond);

    /// <summary>The curve of a solute in a solvent by their CAS numbers; null when none is on file.</summary>
    public static SolutionDensity? Of(string? soluteCas, string? solventCas) =>
        soluteCas is not null && solventCas is not null ? Curves.GetValueOrDefault((soluteCas, solventCas)) : null;

    /// <summary>Density in kg/m³ at a mass fraction of 0 to <see cref="MostMassFraction"/>; null beyond.</summary>
    public double? At(double massFraction)
    {
        if (!(massFraction >= 0) || massFraction > MostMassFraction)
        {
            return null;
        }

        if (fractions.Length == 1)
        {
            return densities[0];
        }

        var upper = Array.FindIndex(fractions, point => point >= massFraction);
        upper = upper < 0 ? fractions.Length - 1 : Math.Max(upper, 1);
        var share = (massFraction - fractions[upper - 1]) / (fractions[upper] - fractions[upper - 1]);
        return 1 / ((1 / densities[upper - 1]) + (share * ((1 / densities[upper]) - (1 / densities[upper - 1]))));
    }

    /// <summary>Mass fraction of a solution of a concentration in mol/m³; null beyond the table.</summary>
    public double? MassFraction(double molPerM3, double soluteKgPerMol)
    {
        double low = 0;
        var high = MostMassFraction;
        if (high * At(high) < molPerM3 * soluteKgPerMol)
        {
            return null;
        }

        for (var i = 0; i < 60; i++)
        {
            var middle = 0.5 * (low + high);
            if (middle * At(middle) < molPerM3 * soluteKgPerMol)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return 0.5 * (low + high);
    }

    private static FrozenDictionary<(string, string), SolutionDensity> Read()
    {
        var points = new Dictionary<(string, string), SortedDictionary<double, double>>();
        var temperatures = new Dictionary<(string, string), double>();
        foreach (var row in EmbeddedTable.Rows("solution-densities.tsv"))
        {
            foreach (var point in EmbeddedTable.Entries(row["points"]))
            {
                var pair = point.Split('=');
                Add((row["solute"], row["solvent"]), Number(pair[0]) / 100, Number(pair[1]), Number(row["atC"]));
            }
        }

        foreach (var row in SolutionRow.All.Where(static row => row.Densities.Count > 0))
        {
            foreach (var (strength, density) in row.Strengths.Zip(row.Densities))
            {
                Add((row.SoluteCas, row.SolventCas), strength.MassFractionAt(density, KgPerMol(row.SoluteCas)), density, row.DensityAtC);
            }
        }

        foreach (var (key, curve) in points)
        {
            if (Catalog.Default.TryFindByCas(key.Item2, out var solvent) && solvent.DensityKgPerM3 is { } pure && solvent.PhaseAt298K == Phase.Liquid)
            {
                curve.TryAdd(0, pure.Value);
            }
        }

        return points.ToFrozenDictionary(static pair => pair.Key, pair => new SolutionDensity([.. pair.Value.Keys], [.. pair.Value.Values], temperatures[pair.Key]));

        void Add((string, string) key, double fraction, double density, double atC)
        {
            if (!points.TryGetValue(key, out var curve))
            {
                points[key] = curve = [];
            }

            curve[fraction] = density;
            temperatures[key] = atC + 273.15;
        }
    }

    private static double KgPerMol(string cas) =>
        Catalog.Default.TryFindByCas(cas, out var substance) && substance.Identity.MolarMassKgPerMol is { } mass
            ? mass
            : throw new InvalidOperationException($"solutions.tsv: {cas} has no molar mass in the catalogue");

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
