using PreApproval.Hazards.Energy;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Structures;

/// <summary>
/// The structure of a substance that the catalogue does not list, as somebody typed it, and what follows from it: formula, molar mass, families,
/// functional and energetic groups, oxygen balance, estimates. Two are equal when their text is. Worked out when asked for.
/// </summary>
public sealed class TypedStructure : IEquatable<TypedStructure>
{
    private readonly Lazy<StructureGroups?> _groups;
    private readonly Lazy<Molecule?> _canonical;
    private readonly Lazy<(JobackEstimate? Estimate, string? Because)> _joback;
    private readonly Lazy<(IReadOnlyDictionary<int, int>? Groups, string? Because)> _unifac;
    private readonly Lazy<StructureRelation?> _relation;

    private TypedStructure(string smiles)
    {
        Smiles = smiles;
        Molecule = SmilesReader.TryRead(smiles, out var molecule, out var error) ? molecule : null;
        Error = error;
        _groups = new(() => Molecule is null ? null : StructurePatterns.Default.In(Molecule));
        _canonical = new(() => Molecule is null ? null : GroupFragments.Canonical(Molecule));
        _joback = new(() => _canonical.Value is { } m ? (JobackEstimate.Of(m, out var because), because) : (null, Unread));
        _unifac = new(() => _canonical.Value is { } m ? (UnifacFragments.Of(m, out var because), because) : (null, Unread));
        _relation = new(() => Molecule is null ? null : Catalog.Default.NearestStructure(Molecule));
    }

    /// <summary>As typed.</summary>
    public string Smiles { get; }

    /// <summary>Null when the text cannot be read.</summary>
    public Molecule? Molecule { get; }

    /// <summary>Why the text cannot be read, with the character; null when it can.</summary>
    public StructureError? Error { get; }

    /// <summary>Formula in Hill order, or null.</summary>
    public string? Formula => Molecule?.Formula;

    /// <summary>Molar mass in kg/mol, or null.</summary>
    public double? MolarMassKgPerMol => Molecule?.MolarMassKgPerMol;

    /// <summary>Groups found; null when the text cannot be read.</summary>
    public StructureGroups? Groups => _groups.Value;

    /// <summary>Families of the table of encounters. One whose search was given up counts as present: a family adds checks and never clears one.</summary>
    public IReadOnlyList<string> Families => Groups is { } groups
        ? [.. groups.Families.Concat(groups.Undecided.Select(static g => g.Family).OfType<string>()).Distinct(StringComparer.Ordinal)]
        : [];

    /// <summary>The listed substances that come nearest; null when none is kin.</summary>
    public StructureRelation? Relation => _relation.Value;

    /// <summary>Oxygen balance in percent of the mass, or null: see <see cref="Energy.OxygenBalance"/>.</summary>
    public double? OxygenBalancePercent => Formula is { } formula ? OxygenBalance.Percent(formula) : null;

    /// <summary>Estimates by group contributions, or null for the reason in <see cref="NoJobackBecause"/>.</summary>
    public JobackEstimate? Joback => _joback.Value.Estimate;

    public string? NoJobackBecause => _joback.Value.Because;

    /// <summary>Subgroups of original UNIFAC, or null for the reason in <see cref="NoUnifacBecause"/>.</summary>
    public IReadOnlyDictionary<int, int>? Unifac => _unifac.Value.Groups;

    public string? NoUnifacBecause => _unifac.Value.Because;

    private string Unread => $"the structure cannot be read: {Error}";

    /// <summary>A structure as typed; never fails, see <see cref="Error"/>.</summary>
    public static TypedStructure Of(string smiles)
    {
        ArgumentNullException.ThrowIfNull(smiles);
        return new TypedStructure(smiles.Trim());
    }

    /// <summary>Reactive groups per molecule in a family: the places its patterns cover, at least one, many where the search was given up.</summary>
    public int Equivalents(string family) => Molecule is { } molecule && Groups is { } groups
        ? Math.Max(1, groups.Present.Where(g => string.Equals(g.Family, family, StringComparison.Ordinal))
            .Max(g => (int?)g.Patterns.Sum(p => p.FindAll(molecule)?.Count ?? SubstructurePattern.MaximumMatches)) ?? 1)
        : 1;

    public bool Equals(TypedStructure? other) => string.Equals(Smiles, other?.Smiles, StringComparison.Ordinal);

    public override bool Equals(object? obj) => Equals(obj as TypedStructure);

    public override int GetHashCode() => StringComparer.Ordinal.GetHashCode(Smiles);
}
