using System.Collections.Frozen;
using System.Runtime.InteropServices;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Mixtures;

/// <summary>A subgroup of the original UNIFAC method.</summary>
/// <param name="Number">Subgroup number.</param>
/// <param name="Label">What it stands for, for instance CH3.</param>
/// <param name="MainGroup">Main group, which carries the interactions.</param>
/// <param name="MainLabel">Name of the main group.</param>
/// <param name="Volume">Relative volume R.</param>
/// <param name="Surface">Relative surface Q.</param>
public sealed record UnifacSubgroup(int Number, string Label, int MainGroup, string MainLabel, double Volume, double Surface);

/// <summary>Interaction of two main groups: ψ = exp(−(a + b T + c T²)/T). Original UNIFAC has a alone.</summary>
/// <param name="A">In K.</param>
/// <param name="B">Without unit.</param>
/// <param name="C">In 1/K.</param>
[StructLayout(LayoutKind.Auto)]
public readonly record struct UnifacInteraction(double A, double B, double C);

/// <summary>Published groups and interaction parameters of one variant of UNIFAC.</summary>
public sealed class UnifacTable
{
    private const short None = -1;

    // each main group has a row; a pair of rows has a place among the interactions, the first of which is that of a group with itself
    private readonly FrozenDictionary<int, int> _rows;
    private readonly short[] _places;
    private readonly UnifacInteraction[] _interactions;

    private UnifacTable(FrozenDictionary<int, UnifacSubgroup> subgroups, Dictionary<(int First, int Second), UnifacInteraction> interactions, double volumeExponent)
    {
        Subgroups = subgroups;
        VolumeExponent = volumeExponent;
        _rows = subgroups.Values.Select(static subgroup => subgroup.MainGroup)
            .Concat(interactions.Keys.SelectMany(static pair => new[] { pair.First, pair.Second }))
            .Distinct().Select(static (group, row) => (group, row))
            .ToFrozenDictionary(static pair => pair.group, static pair => pair.row);
        _interactions = [default, .. interactions.Values];
        _places = new short[_rows.Count * _rows.Count];
        Array.Fill(_places, None);
        for (var row = 0; row < _rows.Count; row++)
        {
            _places[(row * _rows.Count) + row] = 0;
        }

        short place = 1;
        foreach (var ((first, second), _) in interactions)
        {
            _places[(_rows[first] * _rows.Count) + _rows[second]] = first == second ? (short)0 : place;
            place++;
        }
    }

    /// <summary>Original UNIFAC, and ammonia as a group with the parameters of PSRK.</summary>
    public static UnifacTable Default { get; } = Read("unifac-subgroups.tsv", ["unifac-interactions.tsv", "psrk-ammonia.tsv"], 1);

    /// <summary>The groups and parameters of PSRK, its gases among them.</summary>
    public static UnifacTable Psrk { get; } = Read("psrk-subgroups.tsv", ["psrk-interactions.tsv"], 1);

    /// <summary>Modified UNIFAC (Dortmund), the part that mixtures of cyclic ethers and water need.</summary>
    public static UnifacTable Dortmund { get; } = Read("unifac-dortmund-subgroups.tsv", ["unifac-dortmund-interactions.tsv"], 0.75);

    /// <summary>Subgroups by number.</summary>
    public IReadOnlyDictionary<int, UnifacSubgroup> Subgroups { get; }

    /// <summary>Exponent of the relative volume in the first part of the combinatorial term: 1 originally, 3/4 in modified UNIFAC.</summary>
    public double VolumeExponent { get; }

    /// <summary>Interaction of one main group with another; zero with itself; null when none is published.</summary>
    public UnifacInteraction? Interaction(int mainGroup, int withMainGroup) =>
        mainGroup == withMainGroup ? default(UnifacInteraction)
        : _rows.TryGetValue(mainGroup, out var row) && _rows.TryGetValue(withMainGroup, out var with) && Has(row, with) ? Of(row, with) : null;

    /// <summary>The row of a main group, for <see cref="Has"/> and <see cref="Of"/>.</summary>
    internal int RowOf(int mainGroup) => _rows[mainGroup];

    /// <summary>True when the interaction of one row with another is published.</summary>
    internal bool Has(int row, int with) => _places[(row * _rows.Count) + with] != None;

    /// <summary>A published interaction.</summary>
    internal UnifacInteraction Of(int row, int with) => _interactions[_places[(row * _rows.Count) + with]];

    private static UnifacTable Read(string subgroupFile, string[] interactionFiles, double volumeExponent)
    {
        var faults = new List<string>();
        var subgroups = new Dictionary<int, UnifacSubgroup>();
        foreach (var row in TsvRow.Read(subgroupFile, CatalogReader.EmbeddedFile("Data/" + subgroupFile), faults))
        {
            var number = (int)row.Number("subgroup", faults);
            subgroups.Add(number, new UnifacSubgroup(number, row["label"], (int)row.Number("main_group", faults), row["main_label"], row.Number("volume_R", faults), row.Number("surface_Q", faults)));
        }

        var interactions = new Dictionary<(int, int), UnifacInteraction>();
        foreach (var file in interactionFiles)
        {
            foreach (var row in TsvRow.Read(file, CatalogReader.EmbeddedFile("Data/" + file), faults))
            {
                var original = row.Optional("b") is null;
                interactions.Add(
                    ((int)row.Number("main_group", faults), (int)row.Number("with_main_group", faults)),
                    new UnifacInteraction(row.Number("a_K", faults), original ? 0 : row.Number("b", faults), original ? 0 : row.Number("c_per_K", faults)));
            }
        }

        return faults.Count == 0
            ? new UnifacTable(subgroups.ToFrozenDictionary(), interactions, volumeExponent)
            : throw new InvalidDataException(string.Join(Environment.NewLine, faults));
    }
}
