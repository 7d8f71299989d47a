using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Mixtures;

/// <summary>Partial pressures over a solution in water.</summary>
/// <param name="SolutePa">Of the solute, in Pa.</param>
/// <param name="WaterActivity">Activity of the water, 0 to 1; times its vapour pressure gives its partial pressure.</param>
/// <param name="InRange">True inside the range of the published data; else an extrapolation.</param>
/// <param name="Source">Key in <c>sources.bib</c>.</param>
public readonly record struct AqueousPressures(double SolutePa, double WaterActivity, bool InRange, string Source);

/// <summary>
/// Partial pressures over solutions of gases and of volatile acids, from published tables or Henry's law, never from the vapour
/// pressure of the pure gas: that is 42 bar for hydrogen chloride at 20 °C, and 0.2 bar over its 37 % solution. docs/methods/solutions.md.
/// </summary>
public static class SolutionVapour
{
    /// <summary>CAS number of water.</summary>
    public const string Water = "7732-18-5";

    private const string Other = "other";
    private const string HydrogenPeroxide = "7722-84-1";
    private const double WaterKgPerMol = 0.018015;

    /// <summary>mol of water in a m³ of water.</summary>
    private const double WaterMolPerM3 = 55_340;

    /// <summary>Henry's law holds for dilute solutions; the share of moles up to which it is taken as in range.</summary>
    private const double DiluteShare = 0.05;

    private const double HenryK = 298.15;
    private const double ChordK = 293.15;

    private static readonly FrozenDictionary<(string, string), Henry> Constants = EmbeddedTable.Rows("solution-henry.tsv").ToFrozenDictionary(
        static row => (row["solute"], row["solvent"]),
        static row => new Henry(Number(row["value"]), Number(row["slopeK"]), row["source"]));

    /// <summary>True when partial pressures over the aqueous solution of this substance are on file.</summary>
    public static bool HasAqueous(string cas) => cas is HydrogenPeroxide || AqueousVapour.Of(cas) is not null || Constants.ContainsKey((cas, Water));

    /// <summary>True when a bound over organic solvents is on file.</summary>
    public static bool HasOrganic(string cas) => Constants.ContainsKey((cas, Other));

    /// <summary>True when this very solvent is on file, and not only the worst of them.</summary>
    public static bool HasSolvent(string soluteCas, string solventCas) => Constants.ContainsKey((soluteCas, solventCas));

    /// <summary>Partial pressures over a solution in water alone; null when nothing is on file for the solute.</summary>
    /// <param name="solute">The solute.</param>
    /// <param name="soluteMol">Its amount in the liquid.</param>
    /// <param name="waterMol">The water in the liquid.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public static AqueousPressures? Aqueous(Substance solute, double soluteMol, double waterMol, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(solute);
        var cas = solute.Key;
        var total = soluteMol + waterMol;
        var water = total > 0 ? waterMol / total : 1;
        if (cas is HydrogenPeroxide)
        {
            return new AqueousPressures(HydrogenPeroxideVapour.SolutePa(water, temperatureK), HydrogenPeroxideVapour.WaterActivity(water, temperatureK), temperatureK is > 273 and < 379, HydrogenPeroxideVapour.Source);
        }

        if (AqueousVapour.Of(cas) is { } table && solute.Identity.MolarMassKgPerMol is { } molarMass)
        {
            var mass = (soluteMol * molarMass) + (waterMol * WaterKgPerMol);
            var w = mass > 0 ? soluteMol * molarMass / mass : 0;
            return new AqueousPressures(
                Math.Min(table.SolutePa(w, temperatureK), Ceiling(solute, temperatureK)), table.WaterActivity(w, water, temperatureK), table.Covers(w, temperatureK), table.Source);
        }

        if (Constants.TryGetValue((cas, Water), out var henry))
        {
            var solubility = henry.Value * Math.Exp(henry.SlopeK * ((1 / temperatureK) - (1 / HenryK)));
            var pressure = waterMol > 0 ? soluteMol / waterMol * WaterMolPerM3 / solubility : double.PositiveInfinity;
            return new AqueousPressures(Math.Min(pressure, Ceiling(solute, temperatureK)), water, 1 - water <= DiluteShare && temperatureK is > 273 and < 373.2, henry.Source);
        }

        return null;
    }

    /// <summary>
    /// Ratio p/x in Pa of a solute over organic solvents: the listed ones, weighted by their moles in ln; any other counts as an alkane.
    /// Null when nothing is on file. It bounds the pressure from above up to the solubility at one atmosphere.
    /// </summary>
    public static double? OrganicPa(string soluteCas, IReadOnlyList<(string Cas, double Mol)> solvents, double temperatureK)
    {
        ArgumentNullException.ThrowIfNull(solvents);
        double sum = 0;
        double weight = 0;
        foreach (var (cas, mol) in solvents)
        {
            if (!Constants.TryGetValue((soluteCas, cas), out var henry) && !Constants.TryGetValue((soluteCas, Other), out henry))
            {
                return null;
            }

            var ratio = henry.Value * Math.Exp(-henry.SlopeK * ((1 / temperatureK) - (1 / ChordK)));
            sum += mol * Math.Log(ratio);
            weight += mol;
        }

        return weight > 0 ? Math.Exp(sum / weight) : null;
    }

    /// <summary>Below the critical temperature a solute gives off no more than when it is pure.</summary>
    private static double Ceiling(Substance solute, double temperatureK) =>
        VapourPressure.At(solute, temperatureK) is { Volatility: Volatility.Condensable, Pascal: var pascal } ? pascal : double.PositiveInfinity;

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private readonly record struct Henry(double Value, double SlopeK, string Source);
}
