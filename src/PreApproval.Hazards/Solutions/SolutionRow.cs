using System.Globalization;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Solutions;

/// <summary>A strength as chemists write it: percent by mass, or mol/L.</summary>
/// <param name="Value">Mass fraction (0 to 1), or mol/m³.</param>
/// <param name="IsMolar">True: mol/m³.</param>
public readonly record struct SolutionStrength(double Value, bool IsMolar)
{
    /// <summary>For instance <c>37 %</c> or <c>2 M</c>.</summary>
    public override string ToString() => IsMolar
        ? string.Create(CultureInfo.InvariantCulture, $"{Value / 1000:0.####} M")
        : string.Create(CultureInfo.InvariantCulture, $"{Value * 100:0.####} %");

    internal static SolutionStrength Parse(string text) => text.EndsWith('%')
        ? new(double.Parse(text.TrimEnd('%'), CultureInfo.InvariantCulture) / 100, IsMolar: false)
        : new(double.Parse(text.TrimEnd('M'), CultureInfo.InvariantCulture) * 1000, IsMolar: true);

    /// <summary>Mass fraction of a solution of this density in kg/m³.</summary>
    internal double MassFractionAt(double density, double soluteKgPerMol) => IsMolar ? Value * soluteKgPerMol / density : Value;
}

/// <summary>One line of Data/solutions.tsv.</summary>
internal sealed record SolutionRow
{
    public static IReadOnlyList<SolutionRow> All { get; } = [.. EmbeddedTable.Rows("solutions.tsv").Select(Read)];

    public required string Name { get; init; }

    public required IReadOnlyList<string> Names { get; init; }

    /// <summary>Names the catalogue gives to the pure solute, which in a procedure mean this.</summary>
    public required IReadOnlyList<string> Bare { get; init; }

    public string? Cas { get; init; }

    public required string SoluteCas { get; init; }

    public required string SolventCas { get; init; }

    /// <summary>Usual strengths; the first is meant when none is typed.</summary>
    public required IReadOnlyList<SolutionStrength> Strengths { get; init; }

    /// <summary>True when a bottle of another strength goes by the same name.</summary>
    public required bool AsksForStrength { get; init; }

    /// <summary>A typed strength above this mass fraction means the purity of the pure solute, not a solution.</summary>
    public required double MostMassFraction { get; init; }

    /// <summary>Densities in kg/m³ in the order of <see cref="Strengths"/>; empty: from the table over strength.</summary>
    public required IReadOnlyList<double> Densities { get; init; }

    public double DensityAtC { get; init; }

    public required string Note { get; init; }

    private static SolutionRow Read(IReadOnlyDictionary<string, string> row) => new()
    {
        Name = row["name"],
        Names = EmbeddedTable.Entries(row["names"]),
        Bare = EmbeddedTable.Entries(row["bare"]),
        Cas = row["cas"].Length == 0 ? null : row["cas"],
        SoluteCas = row["solute"],
        SolventCas = row["solvent"],
        Strengths = [.. EmbeddedTable.Entries(row["strengths"]).Select(SolutionStrength.Parse)],
        AsksForStrength = row["notice"] is "yes",
        MostMassFraction = Number(row["mostMassPercent"]) / 100,
        Densities = [.. EmbeddedTable.Entries(row["densities"]).Select(Number)],
        DensityAtC = row["atC"].Length == 0 ? 20 : Number(row["atC"]),
        Note = row["note"],
    };

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
