using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Mixtures;

/// <summary>Partial pressure of a volatile solute over its aqueous solution, and the activity of the water, by a published table.</summary>
/// <remarks>
/// log10(p/mmHg) = a(w) − b(w)/T with a and b linear in the mass fraction w between the rows; below the first row p falls with a power
/// of w; above the last, ln p goes on with the slope of the last two rows. ln a_w(w, T) = ln a_w(w, 25 °C)·(1 − k (T − 298.15 K)), a
/// blank activity is the mole fraction of water. Data/solution-vapour.tsv; sources in docs/methods/solutions.md.
/// </remarks>
public sealed class AqueousVapour
{
    /// <summary>Pa per mmHg.</summary>
    private const double MmHgPa = 133.322;

    private const double RoomK = 298.15;
    private static readonly FrozenDictionary<string, AqueousVapour> BySolute = Read();
    private readonly double[] fractions;
    private readonly double[] a;
    private readonly double[] b;
    private readonly double[]? logActivity;
    private readonly double waterPerK;
    private readonly double power;

    private AqueousVapour(Range range, double[] fractions, double[] a, double[] b, double[]? logActivity)
    {
        (FromK, ToK, waterPerK, power, Source) = range;
        (this.fractions, this.a, this.b, this.logActivity) = (fractions, a, b, logActivity);
    }

    /// <summary>Lowest temperature of the table in K.</summary>
    public double FromK { get; }

    /// <summary>Highest temperature of the table in K.</summary>
    public double ToK { get; }

    /// <summary>Highest mass fraction of the table.</summary>
    public double MostMassFraction => fractions[^1];

    /// <summary>Key of the source in <c>sources.bib</c>.</summary>
    public string Source { get; }

    /// <summary>The table of a solute by its CAS number; null when none is on file.</summary>
    public static AqueousVapour? Of(string cas) => BySolute.GetValueOrDefault(cas);

    /// <summary>True inside the temperatures and strengths of the table; outside, the answer is an extrapolation.</summary>
    public bool Covers(double massFraction, double temperatureK) =>
        massFraction <= MostMassFraction && temperatureK >= FromK && temperatureK <= ToK;

    /// <summary>Partial pressure of the solute in Pa at a mass fraction of 0 to 1.</summary>
    public double SolutePa(double massFraction, double temperatureK)
    {
        if (massFraction <= 0)
        {
            return 0;
        }

        if (massFraction < fractions[0])
        {
            return Row(0, temperatureK) * Math.Pow(massFraction / fractions[0], power);
        }

        var last = fractions.Length - 1;
        if (massFraction > fractions[last])
        {
            var slope = Math.Log(Row(last, temperatureK) / Row(last - 1, temperatureK)) / (fractions[last] - fractions[last - 1]);
            return Row(last, temperatureK) * Math.Exp(Math.Max(slope, 0) * (massFraction - fractions[last]));
        }

        var (lower, share) = Between(massFraction);
        return Pascal(a[lower] + (share * (a[lower + 1] - a[lower])), b[lower] + (share * (b[lower + 1] - b[lower])), temperatureK);
    }

    /// <summary>Activity of the water, 0 to 1, at a mass fraction of the solute; its mole fraction where the table gives none.</summary>
    /// <param name="massFraction">Mass fraction of the solute.</param>
    /// <param name="waterMoleFraction">Mole fraction of water in the binary.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public double WaterActivity(double massFraction, double waterMoleFraction, double temperatureK)
    {
        if (logActivity is null)
        {
            return waterMoleFraction;
        }

        double log;
        if (massFraction < fractions[0])
        {
            log = logActivity[0] * massFraction / fractions[0];
        }
        else if (massFraction > fractions[^1])
        {
            // the last of the water follows its amount
            log = logActivity[^1] + Math.Log(Math.Max((1 - massFraction) / Math.Max(1 - fractions[^1], 1e-9), 1e-12));
        }
        else
        {
            var (lower, share) = Between(massFraction);
            log = logActivity[lower] + (share * (logActivity[lower + 1] - logActivity[lower]));
        }

        return Math.Exp(log * Math.Clamp(1 - (waterPerK * (temperatureK - RoomK)), 0.5, 1.2));
    }

    private (int Lower, double Share) Between(double massFraction)
    {
        var upper = Math.Clamp(Array.FindIndex(fractions, point => point >= massFraction), 1, fractions.Length - 1);
        return (upper - 1, (massFraction - fractions[upper - 1]) / (fractions[upper] - fractions[upper - 1]));
    }

    private double Row(int index, double temperatureK) => Pascal(a[index], b[index], temperatureK);

    private static double Pascal(double a, double b, double temperatureK) => MmHgPa * Math.Pow(10, a - (b / temperatureK));

    private static FrozenDictionary<string, AqueousVapour> Read()
    {
        var rows = EmbeddedTable.Rows("solution-vapour.tsv").ToLookup(static row => row["solute"], StringComparer.Ordinal);
        return EmbeddedTable.Rows("solution-vapour-ranges.tsv").ToFrozenDictionary(
            static row => row["solute"],
            row =>
            {
                var table = rows[row["solute"]].OrderBy(static one => Number(one["percent"])).ToArray();
                return new AqueousVapour(
                    new Range(Number(row["fromC"]) + 273.15, Number(row["toC"]) + 273.15, Number(row["waterPerK"]), Number(row["power"]), row["source"]),
                    [.. table.Select(static one => Number(one["percent"]) / 100)],
                    [.. table.Select(static one => Number(one["a"]))],
                    [.. table.Select(static one => Number(one["b"]))],
                    table[0]["waterActivity"].Length == 0 ? null : [.. table.Select(static one => Math.Log(Number(one["waterActivity"])))]);
            },
            StringComparer.Ordinal);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private readonly record struct Range(double FromK, double ToK, double WaterPerK, double Power, string Source);
}
