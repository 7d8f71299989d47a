using System.Runtime.CompilerServices;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Structures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// The energetic groups of one substance and what follows from them. Groups are read from the structure where one is on file or typed, else from the families the
/// substance is listed in, one group each; of one with nothing but a name, from its words. Method: docs/methods/energetic-substances.md.
/// </summary>
public sealed record EnergeticProfile
{
    // what is on file for a substance never changes; weak keys let a group's own substances go
    private static readonly ConditionalWeakTable<Substance, Entry> Known = new();

    // what somebody typed holds for that line of the plan alone
    private static readonly ConditionalWeakTable<PlanSubstance, Entry> Typed = new();

    /// <summary>Groups with how many of each.</summary>
    public required IReadOnlyList<(EnergeticGroup Group, int Count)> Groups { get; init; }

    public string? Formula { get; init; }

    /// <summary>Molar mass in kg/mol; null when unknown.</summary>
    public double? MolarMassKgPerMol { get; init; }

    /// <summary>True when the groups come from a structure, not only from a list.</summary>
    public bool FromStructure { get; init; }

    /// <summary>True when a word of the name is all there is: assumed.</summary>
    public bool FromName { get; init; }

    /// <summary>Heat of decomposition in J/kg, lower end, above 0: of the groups with a figure, so at least this. Null when none has one or the molar mass is unknown.</summary>
    public double? LowJPerKg => Sum(static group => group.LowJPerMol) / MolarMassKgPerMol;

    /// <summary>The same, upper end: this one governs.</summary>
    public double? HighJPerKg => Sum(static group => group.HighJPerMol) / MolarMassKgPerMol;

    /// <summary>Lowest usual onset in K of the groups with a figure, so at most this; null when none has one.</summary>
    public double? OnsetK => Groups.Min(static one => one.Group.OnsetK);

    /// <summary>False: a group has no heat on file, so what is summed is less than all.</summary>
    public bool HeatIsComplete => Groups.All(static one => one.Group.HighJPerMol is not null);

    /// <summary>Names of the groups without a heat or without an onset on file.</summary>
    public IReadOnlyList<string> WithoutFigures => [.. Groups.Where(static one => !one.Group.HasFigures).Select(static one => one.Group.Name)];

    public double? OxygenBalancePercent => Formula is null ? null : OxygenBalance.Percent(Formula);

    /// <summary>True for what is set off by a blow or friction: an explosive group, an oxidising anion with a fuel in the same salt, or two nitro groups and more.</summary>
    public bool IsExplosive =>
        Groups.Any(static one => one.Group.Kind == EnergeticKind.Explosive)
        || (Groups.Any(static one => one.Group.Kind == EnergeticKind.Oxidiser) && HasFuel)
        || Groups.Where(static one => one.Group.HoldsOxygen && one.Group.HighJPerMol >= NitroJPerMol).Sum(static one => one.Count) >= 2;

    /// <summary>True for what the least friction, a spark or a flame sets off: azides, fulminates and acetylides of heavy metals, cyclic peroxides of three peroxide links, and what the words of a name tell.</summary>
    public bool IsPrimary => PrimaryInName || Groups.Any(static one => one.Group.Name is "metal bound to azide, fulminate or acetylide" || one is { Group.Name: "dialkyl or diacyl peroxide", Count: >= 3 });

    /// <summary>True when every group is a peroxide, which a sulfite or thiosulfate reduces.</summary>
    public bool IsPeroxide => Groups.All(static one => one.Group.Name is "dialkyl or diacyl peroxide" or "hydroperoxide" or "peracid" or "peroxide by list");

    public bool Autocatalytic => Groups.Any(static one => one.Group.Autocatalytic);

    /// <summary>(C + O)/N by atoms, where an azide, diazo or tetrazole group asks for it. The oxygen of a nitrate ester is what it burns with and counts for nothing.</summary>
    public double? NitrogenRatio => Formula is not null && Groups.Any(static one => HasRatio(one.Group)) ? OxygenBalance.CarbonAndOxygenPerNitrogen(Formula, NitrateOxygen * Groups.Where(static one => one.Group.Name is NitrateEster).Sum(static one => one.Count)) : null;

    /// <summary>
    /// The ratio that sets the limits of isolating it; null where none does: beside another explosive group a ratio of 1 or more does not help, and that group's limits, which are lower, hold.
    /// </summary>
    internal double? GoverningRatio => NitrogenRatio is >= 1 && Groups.Any(static one => one.Group.Kind == EnergeticKind.Explosive && !HasRatio(one.Group)) ? null : NitrogenRatio;

    /// <summary>Names of the groups with their number, for a sentence.</summary>
    public string GroupWords => Screening.Wording.List(Groups.Select(static one => one.Count == 1 ? one.Group.Name : $"{one.Count} × {one.Group.Name}"));

    /// <summary>What the groups are read from, where that is no structure.</summary>
    public string BasisWords => FromStructure ? "" : FromName ? " (by the words of its name, so assumed)" : " (by its family; no structure on file)";

    /// <summary>Keys of the references.</summary>
    public IReadOnlyList<string> Sources => [.. Groups.SelectMany(static one => one.Group.Sources).Distinct(StringComparer.Ordinal)];

    // the lower end of the weakest group that counts as much as a nitro group
    private const double NitroJPerMol = 300_000;

    private const string NitrateEster = "nitrate ester";

    private const int NitrateOxygen = 3;

    private static bool HasRatio(EnergeticGroup group) => group.Name is "organic azide" or "diazo compound" or "tetrazole";

    private double? Sum(Func<EnergeticGroup, double?> heat)
    {
        var known = Groups.Where(one => heat(one.Group) is not null).ToArray();
        return known.Length == 0 ? null : known.Sum(one => heat(one.Group) * one.Count);
    }

    /// <summary>By its name it holds something that may burn.</summary>
    private bool FuelInName { get; init; }

    private bool PrimaryInName { get; init; }

    private bool HasFuel => FuelInName || Formula is not null && Substances.Formula.TryCount(Formula, out var atoms) && (atoms.ContainsKey("C") || atoms.ContainsKey("N"));

    /// <summary>The profile of a substance; null when it has no energetic group that a structure or a list shows.</summary>
    public static EnergeticProfile? Of(PlanSubstance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        if (substance is { Known: { } known, Smiles: null })
        {
            if (!Known.TryGetValue(known, out var entry))
            {
                entry = new Entry(Read(substance));
                Known.AddOrUpdate(known, entry);
            }

            return entry.Profile;
        }

        if (!Typed.TryGetValue(substance, out var own))
        {
            own = new Entry(Read(substance));
            Typed.AddOrUpdate(substance, own);
        }

        return own.Profile;
    }

    private static EnergeticProfile? Read(PlanSubstance substance)
    {
        var onFile = substance.Known?.Identity;
        Molecule? molecule = null;
        var read = (onFile?.Smiles ?? substance.Smiles) is { } smiles && SmilesReader.TryRead(smiles, out molecule, out _);
        var groups = read ? InStructure(molecule!) : [];
        var byStructure = groups.Length > 0;
        if (!read || (!byStructure && onFile is { Smiles: null }))
        {
            // a typed structure does not clear what the list says
            groups = InFamilies(substance);
        }

        if (substance.Known is null && Named(substance, molecule) is { } named)
        {
            // what is drawn is half of it at most: no formula, and the words stand beside what it shows
            return new EnergeticProfile { Groups = [.. groups, .. named.Groups.Where(group => !groups.Any(one => one.Group == group)).Select(static group => (group, 1))], FromName = true, FuelInName = named.HasFuel, PrimaryInName = named.IsPrimary };
        }

        return groups.Length == 0 ? null : new EnergeticProfile
        {
            Groups = groups,
            Formula = onFile?.Formula ?? molecule?.Formula,
            MolarMassKgPerMol = onFile?.MolarMassKgPerMol ?? molecule?.MolarMassKgPerMol,
            FromStructure = byStructure,
        };
    }

    /// <summary>Heard where nothing else tells: no structure and no family, or a structure with a charge left over, whose missing ion may be the one that the name speaks of.</summary>
    private static EnergeticName? Named(PlanSubstance substance, Molecule? drawn) =>
        (drawn is null ? FamilyTable.Default.Of(substance).Count == 0 : drawn.Charge != 0) ? EnergeticName.Of(substance.Name) : null;

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
