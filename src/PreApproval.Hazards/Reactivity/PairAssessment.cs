using PreApproval.Hazards.Screening;

namespace PreApproval.Hazards.Reactivity;

/// <summary>What can be said of two that meet. Not assessed never means compatible.</summary>
public enum Assessment
{
    Hazard,
    NoneKnown,
    NotAssessed,
}

/// <summary>One that may meet another: a substance with its families, or air, or what a vessel is made of.</summary>
/// <param name="Name">For a sentence.</param>
/// <param name="Families">Its families; a pseudo-family for air and materials of construction; empty: nobody knows.</param>
public sealed record PairPartner(string Name, IReadOnlyList<string> Families)
{
    /// <summary>True for what comes as a liquid far below freezing (liquid nitrogen): rows that hold only there speak of it.</summary>
    public bool IsCryogenic { get; init; }
}

/// <summary>What two partners do to each other.</summary>
public sealed record PairAnswer
{
    public required PairPartner A { get; init; }

    public required PairPartner B { get; init; }

    public required Assessment Assessment { get; init; }

    /// <summary>Rows of the table of encounters that speak of the two, worst first; empty unless it is a hazard.</summary>
    public IReadOnlyList<Encounter> Encounters { get; init; } = [];

    /// <summary>Why none is known; empty unless none is known.</summary>
    public IReadOnlyList<HarmlessBasis> Bases { get; init; } = [];

    /// <summary>Severity at laboratory scale without any control; null unless it is a hazard.</summary>
    public Severity? Severity => Encounters.Count == 0 ? null : Encounters.Min(static encounter => encounter.Severity);
}

/// <summary>
/// Judges pairs by their families. A row of the table of encounters makes a hazard. Without one, "none known" needs a basis for
/// every family of the one with every family of the other; a row that holds only above a temperature is such a basis below it.
/// Everything else is not assessed.
/// </summary>
public static class PairAssessment
{
    /// <summary>Temperature in K below which only what comes as a cryogenic liquid is ever used.</summary>
    public const double CryogenicK = 120;

    private static readonly Encounter[] InThree = [.. EncounterTable.All.Where(static row => row.C is { } third && !EncounterTable.Pseudo.Contains(third, StringComparer.Ordinal))];

    /// <summary>
    /// Every pair of the partners, in their order, with every row that may apply at any temperature. Three-part rows count where the third
    /// is among the partners, or where one of the two is a bottle that brings two of the three parts.
    /// </summary>
    public static IReadOnlyList<PairAnswer> Of(IReadOnlyList<PairPartner> partners)
    {
        ArgumentNullException.ThrowIfNull(partners);
        var answers = new List<PairAnswer>();
        for (var i = 0; i < partners.Count; i++)
        {
            for (var j = i + 1; j < partners.Count; j++)
            {
                var (one, other) = (i, j);
                bool Applies(Encounter row) => (row.BelowK is not < CryogenicK || partners[one].IsCryogenic || partners[other].IsCryogenic)
                    && (row.C is not { } third || EncounterTable.Pseudo.Contains(third, StringComparer.Ordinal) || HasAll(partners[one], partners[other], row)
                        || partners.Where((_, index) => index != one && index != other).Any(partner => partner.Families.Contains(third, StringComparer.Ordinal)));
                answers.Add(Judge(partners[i], partners[j], Applies, [.. InThree.Where(row => HasAll(partners[one], partners[other], row))]));
            }
        }

        return answers;
    }

    /// <summary>Two partners, given which rows apply where they meet.</summary>
    internal static PairAnswer Judge(PairPartner a, PairPartner b, Func<Encounter, bool> applies) => Judge(a, b, applies, []);

    private static PairAnswer Judge(PairPartner a, PairPartner b, Func<Encounter, bool> applies, Encounter[] inThree)
    {
        var rows = inThree.Length == 0 ? Between(a, b, applies) : [.. (Between(a, b, applies) ?? []).UnionBy(inThree.Where(applies), static row => row.Key, StringComparer.Ordinal)];
        if (rows?.Count > 0)
        {
            return new PairAnswer { A = a, B = b, Assessment = Assessment.Hazard, Encounters = rows.Count == 1 ? rows : [.. rows.OrderBy(static row => row.Severity)] };
        }

        var bases = Bases(a.Families, b.Families);
        return new PairAnswer { A = a, B = b, Assessment = bases.Count == 0 ? Assessment.NotAssessed : Assessment.NoneKnown, Bases = bases };
    }

    /// <summary>Why two sets of families are said to be without a known hazard; empty when any two of them are not covered.</summary>
    internal static IReadOnlyList<HarmlessBasis> Bases(IReadOnlyList<string> a, IReadOnlyList<string> b)
    {
        HarmlessBasis? first = null;
        List<HarmlessBasis>? several = null;
        var (narrowA, narrowB) = (OnlyNarrow(a), OnlyNarrow(b));
        for (var i = 0; i < a.Count; i++)
        {
            for (var j = 0; j < b.Count; j++)
            {
                if (IsLeftOut(a[i], narrowA) || IsLeftOut(b[j], narrowB))
                {
                    continue;
                }

                if ((HarmlessTable.Of(a[i], b[j]) ?? OutOfRange(a[i], b[j])) is not { } basis)
                {
                    return [];
                }

                first ??= basis;
                if (!Holds(several, first, basis.Key))
                {
                    (several ??= [first]).Add(basis);
                }
            }
        }

        return several ?? first?.Alone ?? [];
    }

    /// <summary>The rows between two partners that apply, each once; null: none.</summary>
    internal static List<Encounter>? Between(PairPartner a, PairPartner b, Func<Encounter, bool> applies)
    {
        List<Encounter>? rows = null;
        for (var i = 0; i < a.Families.Count; i++)
        {
            for (var j = 0; j < b.Families.Count; j++)
            {
                foreach (var row in EncounterIndex.Default.Between(a.Families[i], b.Families[j]))
                {
                    if (applies(row) && rows?.Exists(known => string.Equals(known.Key, row.Key, StringComparison.Ordinal)) is not true)
                    {
                        (rows ??= []).Add(row);
                    }
                }
            }
        }

        return rows;
    }

    /// <summary>The two bring all three parts of a row, and neither of them alone.</summary>
    private static bool HasAll(PairPartner a, PairPartner b, Encounter row)
    {
        var (a1, a2, a3) = (Has(a, row.A), Has(a, row.B), Has(a, row.C));
        var (b1, b2, b3) = (Has(b, row.A), Has(b, row.B), Has(b, row.C));
        return (a1 || b1) && (a2 || b2) && (a3 || b3) && !(a1 && a2 && a3) && !(b1 && b2 && b3);

        static bool Has(PairPartner partner, string? family) => family is not null && partner.Families.Contains(family, StringComparer.Ordinal);
    }

    private static bool Holds(List<HarmlessBasis>? several, HarmlessBasis first, string key)
    {
        for (var index = 1; index < several?.Count; index++)
        {
            if (string.Equals(several[index].Key, key, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return string.Equals(first.Key, key, StringComparison.Ordinal);
    }

    /// <summary>Families that only tell members of a wider one apart say nothing of their own, as long as there is another.</summary>
    private static bool IsLeftOut(string family, bool onlyNarrow) => !onlyNarrow && FamilyTable.Default.OnlyNarrows(family);

    private static bool OnlyNarrow(IReadOnlyList<string> families)
    {
        for (var index = 0; index < families.Count; index++)
        {
            if (!FamilyTable.Default.OnlyNarrows(families[index]))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>The pair is known, and the row holds only in another range of temperature.</summary>
    private static HarmlessBasis? OutOfRange(string one, string other)
    {
        foreach (var row in EncounterIndex.Default.Between(one, other))
        {
            if (row is { C: null } && (row.AboveK ?? row.BelowK) is not null)
            {
                return row.OutOfRange;
            }
        }

        return null;
    }
}
