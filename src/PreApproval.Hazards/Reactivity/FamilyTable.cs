using System.Collections.Frozen;
using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Solutions;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// Which families a substance belongs to: by its CAS number or name in Data/families.tsv, and, for one that the catalogue does not
/// list, by its structure (Data/structure-patterns.tsv).
/// </summary>
public sealed class FamilyTable
{
    private readonly FrozenDictionary<string, Memberships> byCas;
    private readonly FrozenDictionary<string, Memberships> byName;
    private readonly FrozenSet<string> destroyedByQuench;
    private readonly FrozenSet<string> burningAsMetal;
    private readonly FrozenSet<string> reactive;
    private readonly FrozenSet<string> energetic;
    private readonly FrozenSet<string> narrowing;
    private readonly FrozenDictionary<string, double> gates;
    private readonly FrozenDictionary<string, Severity> baths;

    private FamilyTable()
    {
        var rows = EmbeddedTable.Rows("families.tsv")
            .Select(static row => (Cas: row["cas"], Name: row["name"], Membership: new Membership(row["family"], Number(row["minimumMassFraction"]), Number(row["equivalents"]) ?? 1)))
            .ToArray();
        byCas = rows.GroupBy(static row => row.Cas, StringComparer.Ordinal)
            .ToFrozenDictionary(static group => group.Key, static group => new Memberships([.. group.Select(static row => row.Membership)]), StringComparer.Ordinal);
        byName = rows.GroupBy(static row => row.Name, StringComparer.OrdinalIgnoreCase)
            .ToFrozenDictionary(static group => group.Key, static group => new Memberships([.. group.Select(static row => row.Membership).Distinct()]), StringComparer.OrdinalIgnoreCase);
        var traits = EmbeddedTable.Rows("family-traits.tsv").ToArray();
        FrozenSet<string> With(string trait) => traits.Where(row => row[trait] is "yes").Select(static row => row["family"]).ToFrozenSet(StringComparer.Ordinal);
        destroyedByQuench = With("destroyedByQuench");
        burningAsMetal = With("burnsAsMetal");
        reactive = With("reactive");
        energetic = With("energetic");
        narrowing = traits.Where(static row => row["narrows"].Length > 0).Select(static row => row["family"]).ToFrozenSet(StringComparer.Ordinal);
        baths = traits.Where(static row => row["bath"].Length > 0).ToFrozenDictionary(static row => row["family"], static row => Enum.Parse<Severity>(row["bath"], ignoreCase: true), StringComparer.Ordinal);
        gates = rows.Where(static row => row.Membership.MinimumMassFraction is not null)
            .GroupBy(static row => row.Membership.Family, StringComparer.Ordinal)
            .ToFrozenDictionary(static group => group.Key, static group => group.Min(static row => row.Membership.MinimumMassFraction!.Value), StringComparer.Ordinal);
        All = rows.Select(static row => row.Membership.Family).Distinct(StringComparer.Ordinal).ToArray();
    }

    /// <summary>The embedded table, read once.</summary>
    public static FamilyTable Default { get; } = new();

    /// <summary>Every family, in the order of the table.</summary>
    public IReadOnlyList<string> All { get; }

    /// <summary>Families of a substance at a mass fraction in the material as delivered; an unknown fraction passes every gate.</summary>
    public IReadOnlyList<string> Of(PlanSubstance substance, double? massFraction = null)
    {
        ArgumentNullException.ThrowIfNull(substance);
        var listed = Find(substance).FamiliesAt(massFraction);
        return substance is { Known: not null, Structure: null } ? listed : WithStructure(substance, listed);
    }

    /// <summary>Reactive groups per molecule in a family, for the gas an encounter makes: from the table, else counted in the structure, else 1.</summary>
    public double Equivalents(PlanSubstance substance, string family)
    {
        ArgumentNullException.ThrowIfNull(substance);
        return Find(substance).Equivalents(family) ?? substance.Structure?.Equivalents(family) ?? 1;
    }

    /// <summary>True when water, alcohols or acids turn the substance over at once.</summary>
    public bool IsDestroyedByQuench(PlanSubstance substance) => IsAny(substance, destroyedByQuench);

    /// <summary>True when a fire of the substance is fought like a metal fire.</summary>
    public bool BurnsAsMetal(PlanSubstance substance) => IsAny(substance, burningAsMetal);

    /// <summary>True for families with which nothing unknown may share a vessel unseen.</summary>
    public bool IsReactive(string family) => reactive.Contains(family);

    /// <summary>True for families whose members can decompose by themselves with much heat or gas.</summary>
    public bool IsEnergetic(string family) => energetic.Contains(family);

    /// <summary>Lowest mass fraction from which a member of the family counts; null when they count at any.</summary>
    public double? LowestGate(string family) => gates.TryGetValue(family, out var gate) ? gate : null;

    /// <summary>True for families that only tell some members of a wider family apart.</summary>
    public bool OnlyNarrows(string family) => narrowing.Contains(family);

    /// <summary>Severity of a water or ice bath under the family, or null: none.</summary>
    public Severity? Bath(string family) => baths.TryGetValue(family, out var severity) ? severity : null;

    private static double? Number(string cell) => cell.Length == 0 ? null : double.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture);

    private bool IsAny(PlanSubstance substance, FrozenSet<string> families)
    {
        var own = Of(substance);
        for (var index = 0; index < own.Count; index++)
        {
            if (families.Contains(own[index]))
            {
                return true;
            }
        }

        return false;
    }

    private List<string> WithStructure(PlanSubstance substance, string[] listed)
    {
        List<string> families = [.. listed];
        if (substance.Structure is { } structure)
        {
            families.AddRange(structure.Families.Where(family => !families.Contains(family, StringComparer.Ordinal)));
        }

        if (substance.Known is null && SolutionCatalog.Default.TryFind(substance.Name, out var solution))
        {
            // a name such as bleach, where only a substance can stand, brings in what is in the bottle
            families.AddRange(solution.Parts.SelectMany(part => OfCas(part.Substance.Identity.Cas, part.MassFraction)).Where(family => !families.Contains(family, StringComparer.Ordinal)).Distinct(StringComparer.Ordinal).ToArray());
        }

        return families;
    }

    private string[] OfCas(string? cas, double? massFraction) =>
        cas is not null && byCas.TryGetValue(cas, out var members) ? members.FamiliesAt(massFraction) : [];

    private Memberships Find(PlanSubstance substance) =>
        byCas.TryGetValue(substance.Known?.Identity.Cas ?? substance.Key, out var members) || byName.TryGetValue(substance.Name, out members) ? members : Memberships.None;

    private sealed record Membership(string Family, double? MinimumMassFraction, double Equivalents);

    /// <summary>The rows of one substance, with the families of all of them at hand.</summary>
    private sealed class Memberships(Membership[] rows)
    {
        private readonly string[] families = Array.ConvertAll(rows, static row => row.Family);
        private readonly double highestGate = rows.Max(static row => row.MinimumMassFraction) ?? double.NegativeInfinity;

        public static Memberships None { get; } = new([]);

        public string[] FamiliesAt(double? massFraction) =>
            massFraction is not { } fraction || fraction >= highestGate ? families : Below(fraction);

        private string[] Below(double fraction) =>
            [.. rows.Where(row => row.MinimumMassFraction is not { } gate || fraction >= gate).Select(static row => row.Family)];

        public double? Equivalents(string family)
        {
            foreach (var row in rows)
            {
                if (string.Equals(row.Family, family, StringComparison.Ordinal))
                {
                    return row.Equivalents;
                }
            }

            return null;
        }
    }
}
