using System.Collections.Frozen;
using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Structures;

/// <summary>What a pattern of the table names.</summary>
public enum StructurePatternKind
{
    /// <summary>A functional group of organic chemistry.</summary>
    FunctionalGroup,

    /// <summary>A group that can release much energy or gas by itself.</summary>
    EnergeticGroup,

    /// <summary>A family of the encounter table and nothing else.</summary>
    Family,

    /// <summary>Something that may decompose, polymerise or react with water and has no better name here.</summary>
    ReactiveSign,
}

/// <summary>A named group with the patterns that recognise it.</summary>
/// <param name="Name">Name in chemistry, for instance "primary alcohol".</param>
/// <param name="Kind">Functional group, energetic group or family.</param>
/// <param name="Family">Family of families.tsv whose members it recognises, or null.</param>
/// <param name="IsSign">A sign that it may decompose, polymerise or react with water or air: an unknown substance with it is not warmed unseen.</param>
/// <param name="Patterns">Any of them is enough.</param>
/// <param name="Unless">None of them may be in the structure.</param>
/// <param name="PresentIn">Structures that have the group.</param>
/// <param name="AbsentFrom">Structures that are close and do not have it.</param>
public sealed record StructureGroup(
    string Name,
    StructurePatternKind Kind,
    string? Family,
    bool IsSign,
    IReadOnlyList<SubstructurePattern> Patterns,
    IReadOnlyList<SubstructurePattern> Unless,
    IReadOnlyList<string> PresentIn,
    IReadOnlyList<string> AbsentFrom);

/// <summary>The groups found in a structure.</summary>
/// <param name="Present">Groups that are in the structure, in the order of the table.</param>
/// <param name="Undecided">Groups whose search was given up after its bound of steps: they may be there.</param>
public sealed record StructureGroups(IReadOnlyList<StructureGroup> Present, IReadOnlyList<StructureGroup> Undecided)
{
    /// <summary>Functional groups by name.</summary>
    public IEnumerable<string> FunctionalGroups => Names(StructurePatternKind.FunctionalGroup);

    /// <summary>Energetic groups by name.</summary>
    public IEnumerable<string> EnergeticGroups => Names(StructurePatternKind.EnergeticGroup);

    /// <summary>Families of families.tsv the structure belongs to.</summary>
    public IEnumerable<string> Families => Present.Where(g => g.Family is not null).Select(g => g.Family!).Distinct(StringComparer.Ordinal);

    /// <summary>Signs that the substance may decompose, polymerise or react with water or air, energetic groups among them, by name; what was not decided counts.</summary>
    public IEnumerable<string> ReactiveSigns => Present.Concat(Undecided).Where(g => g.IsSign).Select(g => g.Name);

    private IEnumerable<string> Names(StructurePatternKind kind) => Present.Where(g => g.Kind == kind).Select(g => g.Name);
}

/// <summary>The table of groups (Data/structure-patterns.tsv), read once. Immutable and safe for concurrent use.</summary>
public sealed class StructurePatterns
{
    private readonly FrozenDictionary<string, StructureGroup> _byName;

    private StructurePatterns(IReadOnlyList<StructureGroup> groups)
    {
        Groups = groups;
        _byName = groups.ToFrozenDictionary(g => g.Name, StringComparer.Ordinal);
    }

    /// <summary>The table embedded in this assembly.</summary>
    public static StructurePatterns Default { get; } = Read();

    /// <summary>All groups in the order of the table.</summary>
    public IReadOnlyList<StructureGroup> Groups { get; }

    /// <summary>The group of a name; an unknown name is a fault of the caller.</summary>
    public StructureGroup Group(string name) => _byName[name];

    /// <summary>Finds every group of the table in a structure.</summary>
    public StructureGroups In(Molecule molecule)
    {
        ArgumentNullException.ThrowIfNull(molecule);
        var search = new SubstructureSearch(molecule);
        var present = new List<StructureGroup>();
        List<StructureGroup>? undecided = null;
        foreach (var group in Groups)
        {
            switch (Match(group, search))
            {
                case PatternMatch.Present:
                    present.Add(group);
                    break;
                case PatternMatch.Undecided:
                    (undecided ??= []).Add(group);
                    break;
                case PatternMatch.Absent:
                    break;
            }
        }

        return new StructureGroups(present, undecided ?? []);
    }

    /// <summary>Whether one group is in a structure.</summary>
    public static PatternMatch Match(StructureGroup group, Molecule molecule)
    {
        ArgumentNullException.ThrowIfNull(group);
        ArgumentNullException.ThrowIfNull(molecule);
        return Match(group, new SubstructureSearch(molecule));
    }

    private static PatternMatch Match(StructureGroup group, SubstructureSearch search)
    {
        var found = Any(group.Patterns, search);
        return found == PatternMatch.Absent ? PatternMatch.Absent : Any(group.Unless, search) switch
        {
            PatternMatch.Absent => found,
            PatternMatch.Present => PatternMatch.Absent,
            PatternMatch.Undecided => PatternMatch.Undecided,
        };
    }

    private static PatternMatch Any(IReadOnlyList<SubstructurePattern> patterns, SubstructureSearch search)
    {
        var undecided = false;
        for (var i = 0; i < patterns.Count; i++)
        {
            if (!patterns[i].MayBeIn(search.Molecule))
            {
                continue;
            }

            search.Restart();
            switch (search.Match(patterns[i]))
            {
                case PatternMatch.Present:
                    return PatternMatch.Present;
                case PatternMatch.Undecided:
                    undecided = true;
                    break;
                case PatternMatch.Absent:
                    break;
            }
        }

        return undecided ? PatternMatch.Undecided : PatternMatch.Absent;
    }

    private static StructurePatterns Read() => new(
    [
        .. EmbeddedTable.Rows("structure-patterns.tsv").Select(row => new StructureGroup(
            row["name"],
            row["kind"] switch
            {
                "functional group" => StructurePatternKind.FunctionalGroup,
                "energetic group" => StructurePatternKind.EnergeticGroup,
                "family" => StructurePatternKind.Family,
                "reactive sign" => StructurePatternKind.ReactiveSign,
                var other => throw new InvalidOperationException($"Unknown kind of pattern '{other}'."),
            },
            row["family"].Length > 0 ? row["family"] : null,
            row["sign"] is "yes" || row["kind"] is "energetic group",
            Patterns(row["patterns"]),
            Patterns(row["unless"]),
            Words(row["present_in"]),
            Words(row["absent_from"]))),
    ]);

    internal static List<SubstructurePattern> Patterns(string cell) => Words(cell).ToList().ConvertAll(text =>
        SubstructurePattern.TryParse(text, out var pattern, out var error)
            ? pattern
            : throw new InvalidOperationException($"Pattern {text}: {error}"));

    private static string[] Words(string cell) => cell.Split(' ', StringSplitOptions.RemoveEmptyEntries);
}
