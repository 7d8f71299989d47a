using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Reactivity;

/// <summary>An encounter that happens: who meets whom.</summary>
/// <param name="Encounter">The row of the table.</param>
/// <param name="A">Members of the first family.</param>
/// <param name="B">Members of the second family.</param>
/// <param name="C">Members of the third family; empty when the row has none.</param>
internal sealed record Meeting(Encounter Encounter, IReadOnlyList<Content> A, IReadOnlyList<Content> B, IReadOnlyList<Content> C)
{
    private static readonly FamilyTable Families = FamilyTable.Default;

    public IEnumerable<Content> Everyone => [.. A, .. B, .. C];

    /// <summary>Equivalents of the limiting partner in mol; null when no amount is known on either side.</summary>
    public double? LimitingEquivalents
    {
        get
        {
            double?[] sides = [Equivalents(A, Encounter.A), Equivalents(B, Encounter.B)];
            return sides.Min();
        }
    }

    /// <summary>Gas in mol; null when it cannot be had; 0 when the row makes none.</summary>
    public double? GasMol => Encounter.Gas is null ? 0 : LimitingEquivalents * Encounter.GasPerEquivalent;

    /// <summary>Every encounter among what shares a vessel at a step, the air over it and the glass around it included.</summary>
    public static IReadOnlyList<Meeting> At(StepState state)
    {
        var partners = new List<(Content Content, double? Fraction)>();
        foreach (var content in state.Contents)
        {
            if (!content.Spent && content.Mol is null or > 0)
            {
                partners.Add((content, Strength(content, state)));
            }
        }

        foreach (var gas in Gases(state))
        {
            partners.Add((new Content(gas, null, null, null), null));
        }

        var scene = new List<string>();
        if (state.Headspace is Headspace.Air)
        {
            scene.Add(EncounterTable.Air);
        }

        if (VesselKinds.SaysGlass(state.Vessel.Kind))
        {
            scene.Add(EncounterTable.Glass);
        }

        return Among(partners, scene, state.WorstTemperatureK);
    }

    /// <summary>Every encounter among materials that end up together, at room temperature, in contact with air.</summary>
    public static IReadOnlyList<Meeting> Among(IEnumerable<Content> contents) =>
        Among([.. contents.Select(static content => (content, content.MassFraction))], [], Walk.RoomTemperatureK);

    private static List<Meeting> Among(List<(Content Content, double? Fraction)> partners, List<string> scene, double temperatureK)
    {
        var byFamily = new Dictionary<string, List<Content>>(StringComparer.Ordinal);
        foreach (var (content, fraction) in partners)
        {
            foreach (var family in Families.Of(content.Substance, fraction))
            {
                if (!byFamily.TryGetValue(family, out var members))
                {
                    byFamily[family] = members = [];
                }

                members.Add(content);
            }
        }

        foreach (var pseudo in scene)
        {
            byFamily[pseudo] = [];
        }

        var meetings = new List<Meeting>();
        foreach (var encounter in EncounterTable.All)
        {
            if (Happens(encounter, byFamily, temperatureK) is { } meeting)
            {
                meetings.Add(meeting);
            }
        }

        return meetings;
    }

    private static Meeting? Happens(Encounter encounter, Dictionary<string, List<Content>> byFamily, double temperatureK)
    {
        if (!byFamily.TryGetValue(encounter.A, out var a) || !byFamily.TryGetValue(encounter.B, out var b)
            || temperatureK <= encounter.AboveK || temperatureK > encounter.BelowK)
        {
            return null;
        }

        List<Content>? c = [];
        if (encounter.C is { } third && !byFamily.TryGetValue(third, out c))
        {
            return null;
        }

        // one bottle is no encounter: butyllithium in hexane, borane in tetrahydrofuran, an acid in water
        var apart = b.Count == 0 || a.Exists(one => b.Exists(other => !SameBottle(one, other)));
        return apart ? new Meeting(encounter, a, b, c) : null;
    }

    private static bool SameBottle(Content one, Content other) =>
        ReferenceEquals(one, other) || (one.MaterialId is not null && string.Equals(one.MaterialId, other.MaterialId, StringComparison.Ordinal))
        || string.Equals(one.Substance.Key, other.Substance.Key, StringComparison.Ordinal);

    private static IEnumerable<PlanSubstance> Gases(StepState state)
    {
        if (state.Headspace is Headspace.Gas over)
        {
            yield return over.Substance;
        }

        foreach (var (gas, _) in state.Closing?.Gases ?? [])
        {
            // oxygen of trapped air is air, not oxygen
            if (state.Headspace is not Headspace.Air && !(gas == StandardGases.Oxygen || gas == StandardGases.Nitrogen)
                && !(state.Headspace is Headspace.Gas known && string.Equals(known.Substance.Key, gas.Key, StringComparison.Ordinal)))
            {
                yield return gas;
            }
        }
    }

    /// <summary>Mass fraction that counts: as delivered in the step that brings it, later the weaker of that and what the vessel has made of it.</summary>
    private static double? Strength(Content content, StepState state)
    {
        if (content.MassFraction is null || AddedNow(content, state))
        {
            return content.MassFraction;
        }

        double? own = null;
        double total = 0;
        foreach (var other in state.Contents)
        {
            var mass = AddedNow(other, state) ? null : other.Mol * other.Substance.Known?.Identity.MolarMassKgPerMol;
            total += mass ?? 0;
            own = ReferenceEquals(other, content) ? mass : own;
        }

        return own is { } mine && total > 0 ? Math.Min(content.MassFraction.Value, mine / total) : content.MassFraction;
    }

    private static bool AddedNow(Content content, StepState state) =>
        state.Step.Materials.Any(use => string.Equals(use.MaterialId, content.MaterialId, StringComparison.Ordinal));

    private static double? Equivalents(IReadOnlyList<Content> members, string family)
    {
        double? sum = null;
        foreach (var member in members)
        {
            if (member.Mol is not { } mol)
            {
                continue;
            }

            sum = (sum ?? 0) + (mol * Families.Equivalents(member.Substance, family));
        }

        return sum;
    }
}
