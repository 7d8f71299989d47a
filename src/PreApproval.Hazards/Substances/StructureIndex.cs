using System.Diagnostics.CodeAnalysis;
using PreApproval.Hazards.Structures;

namespace PreApproval.Hazards.Substances;

/// <summary>How a structure relates to a listed one that it is not.</summary>
public enum StructureKinship
{
    /// <summary>The same structure under another CAS number or name.</summary>
    SameStructure,

    /// <summary>Equal but for stereo marks; one of the two may have none.</summary>
    Stereoisomer,

    /// <summary>Equal but for isotopes.</summary>
    Isotopologue,

    /// <summary>Equal once protons and charges are taken away or added: an ion, its acid or base, or a salt drawn otherwise.</summary>
    ChargeForm,
}

/// <summary>Listed substances that a structure is kin to. Their values are not taken.</summary>
/// <param name="Kinship">In what they differ.</param>
/// <param name="Listed">At least one, by name.</param>
public sealed record StructureRelation(StructureKinship Kinship, IReadOnlyList<Substance> Listed)
{
    /// <summary>For instance "stereoisomer of trans-stilbene, values not taken".</summary>
    public string Words
    {
        get
        {
            var names = string.Join(" or ", Listed.Select(static s => s.Identity.Name));
            return Kinship switch
            {
                StructureKinship.SameStructure => $"drawn like {names}, but named otherwise; values not taken",
                StructureKinship.Stereoisomer => $"stereoisomer of {names}, or {names} with other stereo marks than listed; values not taken",
                StructureKinship.Isotopologue => $"isotopologue of {names}, values not taken",
                StructureKinship.ChargeForm => $"another charge form of {names}, values not taken",
            };
        }
    }
}

/// <summary>Finds listed substances by structure, whichever way it is spelled. Immutable and safe for concurrent use.</summary>
internal sealed class StructureIndex
{
    private readonly Dictionary<string, Substance> _exact = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<Substance>> _withoutStereo = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<Substance>> _withoutIsotopes = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<Substance>> _neutral = new(StringComparer.Ordinal);

    public StructureIndex(IEnumerable<Substance> substances)
    {
        foreach (var substance in substances)
        {
            if (substance.Identity.Smiles is not { } smiles || !SmilesReader.TryRead(smiles, out var molecule, out _))
            {
                continue;
            }

            var key = StructureKey.Of(molecule);
            _exact.TryAdd(key.WithStereo, substance);
            Add(_withoutStereo, key.WithoutStereo, substance);
            Add(_withoutIsotopes, key.WithoutIsotopes, substance);
            Add(_neutral, Neutral(molecule, key), substance);
        }
    }

    /// <summary>The listed substance with the same atoms, bonds, charges, isotopes and stereo marks.</summary>
    public bool TryFind(Molecule molecule, [NotNullWhen(true)] out Substance? substance) => _exact.TryGetValue(StructureKey.Of(molecule).WithStereo, out substance);

    /// <summary>What comes nearest among the listed substances, or null.</summary>
    public StructureRelation? Nearest(Molecule molecule)
    {
        var key = StructureKey.Of(molecule);
        return _exact.TryGetValue(key.WithStereo, out var same) ? new StructureRelation(StructureKinship.SameStructure, [same])
            : _withoutStereo.TryGetValue(key.WithoutStereo, out var stereo) ? new StructureRelation(StructureKinship.Stereoisomer, stereo)
            : _withoutIsotopes.TryGetValue(key.WithoutIsotopes, out var isotopes) ? new StructureRelation(StructureKinship.Isotopologue, isotopes)
            : _neutral.TryGetValue(Neutral(molecule, key), out var neutral) ? new StructureRelation(StructureKinship.ChargeForm, neutral)
            : null;
    }

    private static string Neutral(Molecule molecule, StructureKey key)
    {
        var neutral = molecule.Neutralised();
        return ReferenceEquals(neutral, molecule) ? key.WithoutIsotopes : StructureKey.Of(neutral).WithoutIsotopes;
    }

    private static void Add(Dictionary<string, List<Substance>> index, string key, Substance substance)
    {
        if (!index.TryGetValue(key, out var list))
        {
            index[key] = list = [];
        }

        list.Add(substance);
    }
}
