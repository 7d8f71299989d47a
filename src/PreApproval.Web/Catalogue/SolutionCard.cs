using PreApproval.Documents.Reporting;
using PreApproval.Documents.Units;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Web.Catalogue;

/// <summary>A part of a solution.</summary>
/// <param name="Key">For <c>GET substances/{key}</c>.</param>
/// <param name="Name">As in the catalogue.</param>
/// <param name="MassPercent">Percent by mass.</param>
public sealed record SolutionPartLine(string Key, string Name, double MassPercent);

/// <summary>Partial pressures over a solution at one temperature.</summary>
/// <param name="TemperatureC">In °C.</param>
/// <param name="SoluteBar">Of the solute, in bar.</param>
/// <param name="WaterBar">Of the water, in bar.</param>
/// <param name="InRange">False: beyond the published data, an extrapolation.</param>
/// <param name="Source">Full reference of the solute's pressure and of the activity of the water.</param>
public sealed record PartialPressureLine(double TemperatureC, double SoluteBar, double WaterBar, bool InRange, string Source);

/// <summary>What is known of a solution or mixture that chemists name.</summary>
/// <param name="Name">Without the strength.</param>
/// <param name="Strength">Percent by mass or mol/L as chemists write it; null for a mixture.</param>
/// <param name="StrengthAssumed">True: other strengths go by the same name, and none was typed.</param>
/// <param name="Parts">By mass.</param>
/// <param name="DensityKgPerM3">In kg/m³ at <paramref name="DensityAtC"/>; null: not on file.</param>
/// <param name="DensityAtC">In °C; null without a density.</param>
/// <param name="DensityQuality">Quality of the density; null without one.</param>
/// <param name="SoluteMolPerL">In mol/L; null without solute or density.</param>
/// <param name="PartialPressures">Over temperature; empty where nothing is on file for this solute in water.</param>
/// <param name="Note">What a reader must know; null: nothing.</param>
/// <param name="Quality">Of the composition.</param>
/// <param name="Source">Full references of composition and density.</param>
public sealed record SolutionCard(
    string Name, string? Strength, bool StrengthAssumed, IReadOnlyList<SolutionPartLine> Parts, double? DensityKgPerM3, double? DensityAtC, string? DensityQuality,
    double? SoluteMolPerL, IReadOnlyList<PartialPressureLine> PartialPressures, string? Note, string Quality, IReadOnlyList<string> Source)
{
    private const double PascalPerBar = 1e5;
    private static readonly double[] TemperaturesC = [0, 10, 20, 25, 30, 40, 50, 60, 80, 100];

    /// <summary>
    /// The solution a key names. A CAS number of the catalogue means the pure substance; a name that is both means the solution.
    /// </summary>
    public static NamedSolution? Find(string key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return Catalog.Default.TryFindByCas(key, out _) ? null
            : SolutionCatalog.Default.TryFindByCas(key, out NamedSolution? byCas) ? byCas
            : SolutionCatalog.Default.All.FirstOrDefault(solution => string.Equals(solution.Label, key.Trim(), StringComparison.OrdinalIgnoreCase)) is { } labelled ? labelled with { StrengthAssumed = false }
            : SolutionCatalog.Default.TryFind(key, out NamedSolution? byName) ? byName
            : null;
    }

    public static SolutionCard Of(NamedSolution solution)
    {
        ArgumentNullException.ThrowIfNull(solution);
        Sourced<double>? density = solution.DensityKgPerM3;
        return new SolutionCard(
            solution.Name,
            solution.Strength?.ToString(),
            solution.StrengthAssumed,
            [.. solution.Parts.Select(static part => new SolutionPartLine(part.Substance.Key, part.Substance.Identity.Name, Math.Round(part.MassFraction * 100, 4)))],
            density is null ? null : Math.Round(density.Value, 3),
            density is null ? null : SubstanceCard.Celsius(solution.DensityTemperatureK),
            density is null ? null : ReportWords.Of(density.Quality),
            solution.SoluteMolPerM3 is { } mol ? Math.Round(mol / 1000, 6) : null,
            [.. Pressures(solution)],
            solution.Note.Length == 0 ? null : solution.Note,
            ReportWords.Of(solution.Quality),
            [.. (density?.Sources ?? []).Prepend(solution.Source).Distinct(StringComparer.Ordinal).Select(Catalog.Default.Reference)]);
    }

    private static IEnumerable<PartialPressureLine> Pressures(NamedSolution solution)
    {
        if (solution.Parts.Count != 2 || solution.Solute is not { } solute
            || solution.Parts.FirstOrDefault(static part => string.Equals(part.Substance.Key, SolutionVapour.Water, StringComparison.Ordinal)) is not { Substance.Identity.MolarMassKgPerMol: { } waterMass } water
            || solution.Parts.FirstOrDefault(part => string.Equals(part.Substance.Key, solute.Key, StringComparison.Ordinal)) is not { Substance.Identity.MolarMassKgPerMol: { } soluteMass } dissolved
            || !SolutionVapour.HasAqueous(solute.Key))
        {
            yield break;
        }

        foreach (double celsius in TemperaturesC)
        {
            double kelvin = celsius + UnitTable.CelsiusZeroK;
            if (SolutionVapour.Aqueous(solute, dissolved.MassFraction / soluteMass, water.MassFraction / waterMass, kelvin) is { } pressures
                && double.IsFinite(pressures.SolutePa)
                && VapourPressure.At(water.Substance, kelvin) is { Volatility: Volatility.Condensable, Pascal: var pure })
            {
                yield return new PartialPressureLine(celsius, pressures.SolutePa / PascalPerBar, pressures.WaterActivity * pure / PascalPerBar, pressures.InRange, Catalog.Default.Reference(pressures.Source));
            }
        }
    }
}
