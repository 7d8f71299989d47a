using System.Runtime.CompilerServices;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// The energetic groups of one substance and what follows from them. Groups are read from the structure where one is on file or typed, else from the families the
/// substance is listed in, one group each. Method: docs/methods/energetic-substances.md.
/// </summary>
public sealed record EnergeticProfile
{
    // the profile of a catalogue substance never changes; weak keys let a group's own substances go
    private static readonly ConditionalWeakTable<Substance, Entry> Known = new();

    /// <summary>Groups with how many of each.</summary>
    public required IReadOnlyList<(EnergeticGroup Group, int Count)> Groups { get; init; }

    public string? Formula { get; init; }

    /// <summary>Molar mass in kg/mol; null when unknown.</summary>
    public double? MolarMassKgPerMol { get; init; }

    /// <summary>True when the groups come from a structure, not only from a list.</summary>
    public bool FromStructure { get; init; }

    /// <summary>Heat of decomposition in J/kg, lower end, above 0; null when a group has no figure or the molar mass is unknown.</summary>
    public double? LowJPerKg => Groups.Aggregate((double?)0, static (sum, one) => sum + (one.Group.LowJPerMol * one.Count)) / MolarMassKgPerMol;

    /// <summary>The same, upper end: this one governs.</summary>
    public double? HighJPerKg => Groups.Aggregate((double?)0, static (sum, one) => sum + (one.Group.HighJPerMol * one.Count)) / MolarMassKgPerMol;

    /// <summary>Lowest usual onset of the groups in K; null when one of them has none on file.</summary>
    public double? OnsetK => Groups.Any(static one => one.Group.OnsetK is null) ? null : Groups.Min(static one => one.Group.OnsetK);

    public double? OxygenBalancePercent => Formula is null ? null : OxygenBalance.Percent(Formula);

    /// <summary>True for what is set off by a blow or friction: an explosive group, an oxidising anion with a fuel in the same salt, or two nitro groups and more.</summary>
    public bool IsExplosive =>
        Groups.Any(static one => one.Group.Kind == EnergeticKind.Explosive)
        || (Groups.Any(static one => one.Group.Kind == EnergeticKind.Oxidiser) && HasFuel)
        || Groups.Where(static one => one.Group.HoldsOxygen && one.Group.HighJPerMol >= NitroJPerMol).Sum(static one => one.Count) >= 2;

    /// <summary>True when every group is a peroxide, which a sulfite or thiosulfate reduces.</summary>
    public bool IsPeroxide => Groups.All(static one => one.Group.Name is "dialkyl or diacyl peroxide" or "hydroperoxide" or "peracid" or "peroxide by list");

    public bool Autocatalytic => Groups.Any(static one => one.Group.Autocatalytic);

    /// <summary>(C + O)/N by atoms, where an azide, diazo or tetrazole group asks for it.</summary>
    public double? NitrogenRatio => Formula is not null && Groups.Any(static one => one.Group.Name is "organic azide" or "diazo compound" or "tetrazole") ? OxygenBalance.CarbonAndOxygenPerNitrogen(Formula) : null;

    /// <summary>Names of the groups with their number, for a sentence.</summary>
    public string GroupWords => Screening.Wording.List(Groups.Select(static one => one.Count == 1 ? one.Group.Name : $"{one.Count} × {one.Group.Name}"));

    /// <summary>Keys of the references.</summary>
    public IReadOnlyList<string> Sources => [.. Groups.SelectMany(static one => one.Group.Sources).Distinct(StringComparer.Ordinal)];

    // the lower end of the weakest group that counts as much as a nitro group
    private const double NitroJPerMol = 300_000;

    private bool HasFuel => Formula is not null && Substances.Formula.TryCount(Formula, out var atoms) && (atoms.ContainsKey("C") || atoms.ContainsKey("N"));

    /// <summary>The profile of a substance; null when it has no energetic group that a structure or a list shows.</summary>
    public static EnergeticProfile? Of(PlanSubstance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        if (substance.Known is not { } known)
        {
            return Read(substance, substance.Smiles, null, null);
        }

        if (!Known.TryGetValue(known, out var entry))
        {
            entry = new Entry(Read(substance, known.Identity.Smiles ?? substance.Smiles, known.Identity.Formula, known.Identity.MolarMassKgPerMol));
            Known.AddOrUpdate(known, entry);
        }

        return entry.Profile;
    }

    private static EnergeticProfile? Read(PlanSubstance substance, string? smiles, string? formula, double? molarMass)
    {
        Molecule? molecule = null;
        var read = smiles is not null && SmilesReader.TryRead(smiles, out molecule, out _);
        var groups = read ? InStructure(molecule!) : InFamilies(substance);
        return groups.Length == 0 ? null : new EnergeticProfile
        {
            Groups = groups,
            Formula = formula ?? molecule?.Formula,
            MolarMassKgPerMol = molarMass ?? molecule?.MolarMassKgPerMol,
            FromStructure = read,
        };
    }

    private static (EnergeticGroup Group, int Count)[] InStructure(Molecule molecule) =>
    [
        .. EnergeticGroup.All.Where(static group => group.Structure is not null)
            .Select(group => (Group: group, Count: StructurePatterns.Match(group.Structure!, molecule) switch
            {
                PatternMatch.Present => Times(group.Structure!, molecule),

                // a search that was given up may have missed it: counted once
                PatternMatch.Undecided => 1,
                PatternMatch.Absent => 0,
            }))
            .Where(static one => one.Count > 0),
    ];

    /// <summary>Matches that share no atom but carbon; a group all of carbon shares none.</summary>
    private static int Times(StructureGroup group, Molecule molecule)
    {
        var taken = new HashSet<int>();
        var times = 0;
        foreach (var match in group.Patterns.SelectMany(pattern => pattern.FindAll(molecule) ?? []))
        {
            var own = Array.FindAll(match, atom => molecule.Atoms[atom].Element != Carbon);
            if (Array.TrueForAll(own.Length == 0 ? match : own, atom => !taken.Contains(atom)))
            {
                taken.UnionWith(match);
                times++;
            }
        }

        return Math.Max(times, 1);
    }

    private const byte Carbon = 6;

    private static (EnergeticGroup Group, int Count)[] InFamilies(PlanSubstance substance)
    {
        var families = FamilyTable.Default.Of(substance);
        var found = families.Count == 0 ? [] : EnergeticGroup.All.Where(group => group.Families.Any(family => families.Contains(family, StringComparer.Ordinal))).Select(static group => (group, 1)).ToArray();

        // an explosive by list has no figure of its own: one of its groups gives one
        return found.Length > 1 ? Array.FindAll(found, static one => one.group.HighJPerMol is not null || one.group.Structure is not null) : found;
    }

    private sealed record Entry(EnergeticProfile? Profile);
}
