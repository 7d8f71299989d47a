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
    private readonly FrozenDictionary<string, Membership[]> byCas;
    private readonly FrozenDictionary<string, Membership[]> byName;
    private readonly FrozenDictionary<string, IReadOnlyDictionary<string, string>> traits;

    private FamilyTable()
    {
        var rows = EmbeddedTable.Rows("families.tsv")
            .Select(static row => (Cas: row["cas"], Name: row["name"], Membership: new Membership(row["family"], Number(row["minimumMassFraction"]), Number(row["equivalents"]) ?? 1)))
            .ToArray();
        byCas = rows.GroupBy(static row => row.Cas, StringComparer.Ordinal)
            .ToFrozenDictionary(static group => group.Key, static group => group.Select(static row => row.Membership).ToArray(), StringComparer.Ordinal);
        byName = rows.GroupBy(static row => row.Name, StringComparer.OrdinalIgnoreCase)
            .ToFrozenDictionary(static group => group.Key, static group => group.Select(static row => row.Membership).Distinct().ToArray(), StringComparer.OrdinalIgnoreCase);
        traits = EmbeddedTable.Rows("family-traits.tsv").ToFrozenDictionary(static row => row["family"], StringComparer.Ordinal);
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
        var families = new List<string>();
        foreach (var membership in Memberships(substance))
        {
            if (massFraction is null || membership.MinimumMassFraction is not { } gate || massFraction >= gate)
            {
                families.Add(membership.Family);
            }
        }

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

    /// <summary>Reactive groups per molecule in a family, for the gas an encounter makes: from the table, else counted in the structure, else 1.</summary>
    public double Equivalents(PlanSubstance substance, string family)
    {
        ArgumentNullException.ThrowIfNull(substance);
        return Array.Find(Memberships(substance), membership => string.Equals(membership.Family, family, StringComparison.Ordinal))?.Equivalents
            ?? substance.Structure?.Equivalents(family) ?? 1;
    }

    /// <summary>True when water, alcohols or acids turn the substance over at once.</summary>
    public bool IsDestroyedByQuench(PlanSubstance substance) => Of(substance).Any(family => Trait(family, "destroyedByQuench") is "yes");

    /// <summary>True for families whose fires are fought like metal fires.</summary>
    public bool BurnsAsMetal(string family) => Trait(family, "burnsAsMetal") is "yes";

    /// <summary>True for families with which nothing unknown may share a vessel unseen.</summary>
    public bool IsReactive(string family) => Trait(family, "reactive") is "yes";

    /// <summary>True for families whose members can decompose by themselves with much heat or gas.</summary>
    public bool IsEnergetic(string family) => Trait(family, "energetic") is "yes";

    /// <summary>Severity of a water or ice bath under the family, or null: none.</summary>
    public Severity? Bath(string family) => Trait(family, "bath") is { Length: > 0 } word ? Enum.Parse<Severity>(word, ignoreCase: true) : null;

    private static double? Number(string cell) => cell.Length == 0 ? null : double.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture);

    private string? Trait(string family, string name) => traits.TryGetValue(family, out var row) ? row[name] : null;

    private IEnumerable<string> OfCas(string? cas, double? massFraction) =>
        cas is not null && byCas.TryGetValue(cas, out var members)
            ? members.Where(member => massFraction is null || member.MinimumMassFraction is not { } gate || massFraction >= gate).Select(static member => member.Family)
            : [];

    private Membership[] Memberships(PlanSubstance substance) =>
        byCas.TryGetValue(substance.Known?.Identity.Cas ?? substance.Key, out var members) || byName.TryGetValue(substance.Name, out members) ? members : [];

    private sealed record Membership(string Family, double? MinimumMassFraction, double Equivalents);
}
