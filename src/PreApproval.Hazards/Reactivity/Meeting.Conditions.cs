using System.Collections.Frozen;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
namespace PreApproval.Hazards.Reactivity;

/// <content>What keeps partners apart or takes them away before they meet, and how strong they are where they do.</content>
internal sealed partial record Meeting
{
    /// <summary>True where a reductant is there in at least the amount of the ozone, which stands for the ozonide it has made; an amount that is missing reduces nothing.</summary>
    private static bool IsOzonideReduced(List<Partner> partners)
    {
        double? ozone = 0;
        double? reductant = 0;
        foreach (var (content, families) in partners)
        {
            if (families.Contains(Ozone, StringComparer.Ordinal))
            {
                ozone += content.Mol;
            }
            else if (OzonideReductants.Any(family => families.Contains(family, StringComparer.Ordinal)))
            {
                reductant += content.Mol;
            }
        }

        return reductant > 0 && reductant >= ozone;
    }

    /// <summary>Who stands for a family: its members, for a treatment a partner that a sentence can name, for air and glass nobody.</summary>
    private static IReadOnlyList<Content> Members(List<Partner> partners, string family)
    {
        if (EncounterTable.StandIns.TryGetValue(family, out var standIn))
        {
            return standIn;
        }

        var members = new List<Content>(2);
        foreach (var (content, families) in partners)
        {
            if (families.Contains(family, StringComparer.Ordinal))
            {
                members.Add(content);
            }
        }

        return members;
    }

    /// <summary>True where someone of the first family meets someone else of the second.</summary>
    private bool AreApart()
    {
        for (var first = 0; first < A.Count; first++)
        {
            for (var second = 0; second < B.Count; second++)
            {
                if (!IsNoEncounter(Encounter, A[first], B[second]))
                {
                    return true;
                }
            }
        }

        return B.Count == 0;
    }

    /// <summary>
    /// True where another row says it, and rightly: water that came as the lesser part of another strong acid is mixed acid, not water on sulfuric acid, and an ester that mixed acid nitrates is its substrate, not a solvent.
    /// </summary>
    private static bool IsToldElsewhere(Meeting meeting, List<Partner> partners, HashSet<string> present) => meeting.Encounter.Key switch
    {
        "sulfuric-acid-with-water" => IsOfStrongAcids(meeting.B, partners),
        // fluoride binds hydrogen fluoride (HF2−), it frees none
        "acid-with-fluoride-salt" => meeting.A.All(static one => Families.Of(one.Substance).Contains("hydrogen fluoride", StringComparer.Ordinal)),
        "nitric-acid-with-solvent" => present.Contains(meeting.Encounter.A) && present.Contains(Superacids) && meeting.B.All(static one => Families.Of(one.Substance).Contains("arenes that mixed acid nitrates", StringComparer.Ordinal)),
        _ => false,
    };

    private const string Superacids = "concentrated sulfuric and superacids";

    /// <summary>Share by mass from which an acid is the main part of its bottle. Common practice, no source.</summary>
    private const double StrongAcidShare = 0.6;

    private static bool IsOfStrongAcids(IReadOnlyList<Content> waters, List<Partner> partners)
    {
        for (var index = 0; index < waters.Count; index++)
        {
            if (!IsOfStrongAcid(waters[index], partners))
            {
                return false;
            }
        }

        return true;
    }

    private static bool IsOfStrongAcid(Content water, List<Partner> partners)
    {
        foreach (var (content, families) in partners)
        {
            if (water.MaterialId is { } id && string.Equals(content.MaterialId, id, StringComparison.Ordinal) && content.MassFraction >= StrongAcidShare
                && (families.Contains("mineral acids", StringComparer.Ordinal) || families.Contains(Superacids, StringComparer.Ordinal)))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>One substance does not meet itself; what is sold in one bottle is stable there.</summary>
    private static bool IsNoEncounter(Encounter encounter, Content one, Content other) =>
        ReferenceEquals(one, other) || string.Equals(one.Substance.Key, other.Substance.Key, StringComparison.Ordinal) || KeepsInOneBottle(encounter, one, other);

    /// <summary>True when the two are parts of one material that Data/stock-solutions.tsv lists for the row, in the order of the row.</summary>
    internal static bool KeepsInOneBottle(Encounter encounter, Content one, Content other) =>
        one.MaterialId is not null && string.Equals(one.MaterialId, other.MaterialId, StringComparison.Ordinal)
        && StockSolutions.Contains((encounter.Key, Cas(one), Cas(other)));

    private static string Cas(Content content) => content.Substance.Known?.Identity.Cas ?? content.Substance.Key;

    private static void AddGases(List<Partner> partners, StepState state)
    {
        if (state.Headspace is Headspace.Gas over)
        {
            partners.Add(Partner.Of(new Content(over.Substance, null, null, null), null));
        }

        for (var index = 0; index < state.Closing?.Gases.Count; index++)
        {
            var gas = state.Closing.Gases[index].Gas;
            // oxygen of trapped air is air, not oxygen
            if (state.Headspace is not Headspace.Air && !(gas == StandardGases.Oxygen || gas == StandardGases.Nitrogen)
                && !(state.Headspace is Headspace.Gas known && string.Equals(known.Substance.Key, gas.Key, StringComparison.Ordinal)))
            {
                partners.Add(Partner.Of(new Content(gas, null, null, null), null));
            }
        }
    }

    /// <summary>Mass fraction that counts: as delivered in the step that brings it, later the weaker of that and what the vessel has made of it.</summary>
    internal static double? Strength(Content content, StepState state)
    {
        if (content.MassFraction is null || AddedNow(content, state))
        {
            return content.MassFraction;
        }

        // a solid that is tipped over dry arrives as the solid
        if (state.MovedIn.Count > 0 && IsTippedOverDry(content, state.MovedIn))
        {
            return content.MassFraction;
        }

        double? own = null;
        double total = 0;
        for (var index = 0; index < state.Contents.Count; index++)
        {
            var other = state.Contents[index];
            var mass = AddedNow(other, state) ? null : other.Mol * other.Substance.Known?.Identity.MolarMassKgPerMol;
            total += mass ?? 0;
            own = ReferenceEquals(other, content) ? mass : own;
        }

        return own is { } mine && total > 0 ? Math.Min(content.MassFraction.Value, mine / total) : content.MassFraction;
    }

    private static bool IsTippedOverDry(Content content, IReadOnlyList<Content> movedIn) =>
        movedIn.Any(moved => SameKind(moved, content)) && !movedIn.Any(static moved => moved.Substance.Known is { PhaseAt298K: Substances.Phase.Liquid });

    private static bool AddedNow(Content content, StepState state)
    {
        for (var index = 0; index < state.Step.Materials.Count; index++)
        {
            if (string.Equals(state.Step.Materials[index].MaterialId, content.MaterialId, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }
}
