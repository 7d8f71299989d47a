using BenchmarkDotNet.Attributes;
using PreApproval.Hazards.Structures;

namespace PreApproval.Benchmarks;

/// <summary>A structure of 60 atoms beside hydrogen: reading, all groups of the table, and the key.</summary>
[MemoryDiagnoser]
[System.Diagnostics.CodeAnalysis.SuppressMessage("Performance", "CA1822", Justification = "benchmarks are instance methods")]
public class StructureBenchmarks
{
    // a peptide derivative with three rings, two amides of proline and arginine, an ester and an ether: 60 atoms
    private const string Smiles = "CC(=O)Nc1ccc(cc1)C(=O)N[C@@H](Cc1ccccc1)C(=O)N1CCC[C@H]1C(=O)N[C@@H](CCCNC(=N)N)C(=O)N[C@@H](CC(=O)O)C(=O)OCCOCCCN(C)CC";
    private static readonly Molecule Read60 = SmilesReader.TryRead(Smiles, out var molecule, out _) && molecule.Atoms.Length == 60
        ? molecule
        : throw new InvalidOperationException("The structure has 60 atoms.");

    [Benchmark]
    public bool Read() => SmilesReader.TryRead(Smiles, out _, out _);

    [Benchmark]
    public int ReadAndMatchEveryPattern() => SmilesReader.TryRead(Smiles, out var molecule, out _) ? StructurePatterns.Default.In(molecule).Present.Count : 0;

    [Benchmark]
    public string Key() => StructureKey.Of(Read60).WithStereo;
}
