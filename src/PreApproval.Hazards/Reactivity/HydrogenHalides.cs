using PreApproval.Hazards.Plans;

namespace PreApproval.Hazards.Reactivity;

/// <summary>
/// A hydrogen halide that forms beside an amine or an alkali hydroxide becomes its salt and does not come off, mol for mol; acid that is there takes up base first. Only for rows
/// that make nothing else, and only where every amount is known. docs/methods/gas.md; textbook acid and base.
/// </summary>
internal static class HydrogenHalides
{
    private static readonly string[] Gases = ["hydrogen chloride", "hydrogen bromide", "hydrogen halide"];

    private static readonly string[] Bases = ["amines", "alkali hydroxides"];

    private static readonly string[] Acids = ["mineral acids", "organic acids", "concentrated sulfuric and superacids", "ammonium salts"];

    // what is run with a base every day; what water turns over with violence is not taken up in time
    private static readonly string[] Sources = ["chlorosilanes", "acyl and sulfonyl chlorides", "phosgene and its equivalents"];

    /// <summary>The meetings, each with the share of its gas that the base leaves free; the same list where a base keeps none.</summary>
    public static IReadOnlyList<Meeting> KeptByBase(IReadOnlyList<Meeting> meetings, IReadOnlyList<Content> contents)
    {
        for (var index = 0; index < meetings.Count; index++)
        {
            if (!ReferenceEquals(KeptByBase(meetings[index], contents), meetings[index]))
            {
                return All(meetings, contents);
            }
        }

        return meetings;
    }

    private static Meeting[] All(IReadOnlyList<Meeting> meetings, IReadOnlyList<Content> contents) => [.. meetings.Select(meeting => KeptByBase(meeting, contents))];

    private static Meeting KeptByBase(Meeting meeting, IReadOnlyList<Content> contents)
    {
        if (meeting.Encounter is not { Gases: [var only] } encounter
            || !Gases.Contains(only.Name, StringComparer.Ordinal)
            || !Sources.Contains(encounter.A, StringComparer.Ordinal) || meeting.LimitingEquivalents is not > 0)
        {
            return meeting;
        }

        return Beside(meeting, encounter, contents);
    }

    private static Meeting Beside(Meeting meeting, Encounter encounter, IReadOnlyList<Content> contents)
    {
        double? left = 0;
        foreach (var content in contents)
        {
            if (content.Spent || meeting.Everyone.Any(partner => ReferenceEquals(partner, content)))
            {
                continue;
            }

            // base counts as one proton, however many it could take; of an acid every proton counts
            var families = FamilyTable.Default.Of(content.Substance);
            left += families.Any(static family => Bases.Contains(family, StringComparer.Ordinal)) ? content.Mol : 0;
            left -= families.Where(static family => Acids.Contains(family, StringComparer.Ordinal)).Select(family => FamilyTable.Default.Equivalents(content.Substance, family) * content.Mol).DefaultIfEmpty(0).Max();
        }

        var gas = (meeting.LimitingEquivalents ?? 0) * encounter.GasPerEquivalent;
        return left is > 0 and var kept ? meeting with { FreedShare = Math.Max(0, 1 - (kept / gas)) } : meeting;
    }
}
