using System.Globalization;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Structures;

namespace PreApproval.Hazards.Energy;

/// <summary>How a group counts when it is isolated.</summary>
public enum EnergeticKind
{
    /// <summary>Set off by a blow, friction or mild heat: the amount isolated counts.</summary>
    Explosive,

    /// <summary>Counts by the energy it brings into a mixture.</summary>
    Reactive,

    /// <summary>Explosive only with a fuel in the same salt.</summary>
    Oxidiser,
}

/// <summary>A group that can release much energy by itself (Data/energetic-groups.tsv). SI units.</summary>
public sealed record EnergeticGroup
{
    public required string Name { get; init; }

    /// <summary>The group of the structure table, or null for a row that only families reach.</summary>
    public StructureGroup? Structure { get; init; }

    /// <summary>Families whose members have it, for a substance without a structure on file.</summary>
    public required IReadOnlyList<string> Families { get; init; }

    public required EnergeticKind Kind { get; init; }

    /// <summary>Heat of decomposition for one group in J/mol, lower end, above 0; null: no figure on file.</summary>
    public double? LowJPerMol { get; init; }

    /// <summary>The same, upper end.</summary>
    public double? HighJPerMol { get; init; }

    /// <summary>Usual onset in K, lower end; null: no figure on file.</summary>
    public double? OnsetK { get; init; }

    /// <summary>True with both a heat and an onset on file.</summary>
    public bool HasFigures => HighJPerMol is not null && OnsetK is not null;

    /// <summary>True when the group itself holds oxygen.</summary>
    public bool HoldsOxygen { get; init; }

    /// <summary>True where products speed the decomposition up, so that its thermal history counts.</summary>
    public bool Autocatalytic { get; init; }

    public required string Note { get; init; }

    /// <summary>Keys of the references.</summary>
    public required IReadOnlyList<string> Sources { get; init; }

    /// <summary>Every row in the order of the table.</summary>
    public static IReadOnlyList<EnergeticGroup> All { get; } = [.. EmbeddedTable.Rows("energetic-groups.tsv").Select(Read)];

    private static EnergeticGroup Read(IReadOnlyDictionary<string, string> row) => new()
    {
        Name = row["group"],
        Structure = StructurePatterns.Default.Groups.FirstOrDefault(group => group.Kind == StructurePatternKind.EnergeticGroup && string.Equals(group.Name, row["group"], StringComparison.Ordinal)),
        Families = EmbeddedTable.Entries(row["families"]),
        Kind = Enum.Parse<EnergeticKind>(row["kind"], ignoreCase: true),
        LowJPerMol = Number(row["lowKilojoulePerMol"]) * 1000,
        HighJPerMol = Number(row["highKilojoulePerMol"]) * 1000,
        OnsetK = Number(row["onsetLowC"]) + 273.15,
        HoldsOxygen = row["oxygen"] is "yes",
        Autocatalytic = row["autocatalytic"] is "yes",
        Note = row["note"],
        Sources = EmbeddedTable.Entries(row["sources"]),
    };

    private static double? Number(string cell) => cell.Length == 0 ? null : double.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture);
}
