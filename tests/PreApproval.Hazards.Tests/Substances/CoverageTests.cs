using System.Globalization;
using System.Text;
using PreApproval.Hazards.Substances;
using PreApproval.Testing;

namespace PreApproval.Hazards.Tests.Substances;

/// <summary>What the catalogue covers: the table of docs/coverage.md, kept current. PREAPPROVAL_WRITE_COVERAGE=1 writes it anew.</summary>
public sealed class CoverageTests(ITestOutputHelper output)
{
    private static readonly string File = Path.Combine(RepositoryFolder.Path, "docs", "coverage.md");

    private static readonly IReadOnlyList<(string Name, Func<Substance, Quality?> Quality)> Properties =
    [
        ("melting point", static s => s.MeltingPointK?.Quality),
        ("boiling point", static s => s.BoilingPointK?.Quality),
        ("critical temperature", static s => s.CriticalTemperatureK?.Quality),
        ("critical pressure", static s => s.CriticalPressurePa?.Quality),
        ("critical volume", static s => s.CriticalVolumeM3PerMol?.Quality),
        ("acentric factor", static s => s.AcentricFactor?.Quality),
        ("vapour pressure, published correlation", static s => s.VapourPressure.Count > 0 ? Quality.Correlated : null),
        ("liquid density over temperature", static s => s.LiquidDensity.Count > 0 ? Quality.Correlated : null),
        ("density at one temperature", static s => s.DensityKgPerM3?.Quality),
        ("heat capacity, liquid", static s => s.LiquidHeatCapacityJPerMolK?.Quality),
        ("enthalpy of vaporisation", static s => s.EnthalpyOfVaporisationJPerMol?.Quality),
        ("enthalpy of formation, gas", static s => s.GasEnthalpyOfFormationJPerMol?.Quality),
        ("enthalpy of formation, liquid", static s => s.LiquidEnthalpyOfFormationJPerMol?.Quality),
        ("enthalpy of formation, solid", static s => s.SolidEnthalpyOfFormationJPerMol?.Quality),
        ("flash point, or does not burn", static s => s.FlashPointK?.Governing.Quality ?? s.NonFlammable?.Quality),
        ("autoignition temperature, or does not burn", static s => s.AutoignitionK?.Governing.Quality ?? s.NonFlammable?.Quality),
        ("lower flammable limit, or does not burn", static s => s.LowerFlammableLimit?.Governing.Quality ?? s.NonFlammable?.Quality),
        ("upper flammable limit, or does not burn", static s => s.UpperFlammableLimit?.Governing.Quality ?? s.NonFlammable?.Quality),
        ("UNIFAC groups", static s => s.UnifacGroups?.Quality),
    ];

    [Fact]
    public async Task Coverage_TableInDocs_IsCurrent()
    {
        var table = Table(Catalog.Default.Substances);
        output.WriteLine(table);
        if (string.Equals(Environment.GetEnvironmentVariable("PREAPPROVAL_WRITE_COVERAGE"), "1", StringComparison.Ordinal))
        {
            await System.IO.File.WriteAllTextAsync(File, table, TestContext.Current.CancellationToken);
        }

        Assert.Equal(table, await System.IO.File.ReadAllTextAsync(File, TestContext.Current.CancellationToken));
    }

    private static string Table(IReadOnlyList<Substance> substances)
    {
        var volatiles = substances.Where(s => !s.Involatile && s.PhaseAt298K is not Phase.Solid).ToList();
        var text = new StringBuilder()
            .Append("# What the catalogue covers\n\n")
            .Append(CultureInfo.InvariantCulture, $"{substances.Count} substances, {volatiles.Count} of them liquids and gases with a vapour. ")
            .Append("Counted by the quality of the value that governs.\nA test keeps this table current.\n\n")
            .Append("| property | substances with a value | measured | correlated | estimated | assumed | share of all | share of liquids and gases |\n")
            .Append("|---|---:|---:|---:|---:|---:|---:|---:|\n");
        foreach (var (name, quality) in Properties)
        {
            var qualities = substances.Select(quality).Where(q => q is not null).ToList();
            text.Append(CultureInfo.InvariantCulture, $"| {name} | {qualities.Count} | {Of(Quality.Measured)} | {Of(Quality.Correlated)} | {Of(Quality.Estimated)} | {Of(Quality.Assumed)} | ")
                .Append(CultureInfo.InvariantCulture, $"{Percent(qualities.Count, substances.Count)} | {Percent(volatiles.Count(s => quality(s) is not null), volatiles.Count)} |\n");

            int Of(Quality wanted) => qualities.Count(q => q == wanted);
        }

        return text.ToString();
    }

    private static string Percent(int part, int whole) => string.Create(CultureInfo.InvariantCulture, $"{100.0 * part / whole:0} %");
}
