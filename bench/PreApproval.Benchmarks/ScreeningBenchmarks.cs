using BenchmarkDotNet.Attributes;
using PreApproval.Documents;
using PreApproval.Hazards.Screening;

namespace PreApproval.Benchmarks;

/// <summary>A plan of 20 steps and 12 materials with two closed vessels, from its document to the report.</summary>
[MemoryDiagnoser]
public class ScreeningBenchmarks
{
    private ProcedureDocument _document = null!;

    [GlobalSetup]
    public void Read()
    {
        using Stream stream = typeof(ScreeningBenchmarks).Assembly.GetManifestResourceStream("Plans/twenty-steps.json")!;
        using var memory = new MemoryStream();
        stream.CopyTo(memory);
        Result<ProcedureDocument, DocumentRefusal> read = DocumentReader.Read(memory.ToArray());
        _document = read.IsOk ? read.Value : throw new InvalidOperationException(string.Join(", ", read.Error.Faults.Select(static fault => $"{fault.Path}: {fault.Message}")));
    }

    [Benchmark]
    public object Screen() => DocumentScreening.Screen(_document, Policy.Default);
}
