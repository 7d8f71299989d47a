using BenchmarkDotNet.Attributes;
using PreApproval.Hazards.Substances;

namespace PreApproval.Benchmarks;

/// <summary>Loading the catalogue from its embedded files, and finding a substance in it.</summary>
[MemoryDiagnoser]
[System.Diagnostics.CodeAnalysis.SuppressMessage("Performance", "CA1822", Justification = "benchmarks are instance methods")]
public class CatalogueBenchmarks
{
    [GlobalSetup]
    public void Load() => _ = Catalog.Default;

    [Benchmark]
    public object LoadCatalogue() => CatalogReader.ReadEmbedded();

    [Benchmark]
    public object SearchPrefix() => Catalog.Default.Search("meth", 20);

    [Benchmark]
    public object SearchOneLetter() => Catalog.Default.Search("a", 20);

    [Benchmark]
    public object SearchCas() => Catalog.Default.Search("109-", 20);

    [Benchmark]
    public object? FindByName() => Catalog.Default.TryFindByName("tetrahydrofuran", out Substance? substance) ? substance : null;
}
