using PreApproval.Documents.Reading;

namespace PreApproval.Documents.Comparing;

/// <summary>What a document states of a vessel.</summary>
internal static class VesselStatements
{
    public static Statements Of(VesselEntry vessel)
    {
        Statements all = new Statements()
            .Plain("kind", vessel.Kind)
            .With("volume", vessel.Volume)
            .With("rating", vessel.Rating)
            .With("evidence of the rating", vessel.RatingEvidence)
            .With("highest temperature", vessel.MaximumTemperature)
            .With("closure", vessel.Closure)
            .With("relief device", Relief(vessel.Relief), vessel.Relief is { } relief ? $"{relief.Device} {PlanWords.KeyOf(relief.Set)}" : null)
            .With("glass", Glass(vessel.GlassTube))
            .With("inspected on", vessel.InspectedOn);
        foreach (IGrouping<string, VesselPartEntry> same in (vessel.Parts ?? []).GroupBy(static part => part.Part, StringComparer.OrdinalIgnoreCase))
        {
            all.With($"part “{same.Key}”", string.Join("; ", same.Select(Part)), PlanWords.KeyOf(same.Select(static part => $"{PlanWords.KeyOf(part.Rating)} {PlanWords.KeyOf(part.MaximumTemperature)}")));
        }

        return all;
    }

    private static string? Relief(ReliefEntry? relief) => relief is null ? null
        : string.Join(", ", new[] { relief.DeviceWord, relief.Set is { } set ? $"set to {PlanWords.Of(set)}" : "" }.Where(static word => word.Length > 0));

    private static string? Glass(GlassTubeEntry? tube) => tube is not { OutsideDiameterMm: { } outside, WallMm: { } wall } ? null
        : $"{PlanWords.Number(outside)} mm outside, wall {PlanWords.Number(wall)} mm{tube.Annealed switch { true => ", annealed", false => ", not annealed", null => "" }}";

    private static string Part(VesselPartEntry part) => (part.Rating, part.MaximumTemperature) switch
    {
        ({ } rating, { } highest) => $"{PlanWords.Of(rating)}, up to {PlanWords.Of(highest)}",
        ({ } rating, null) => PlanWords.Of(rating)!,
        (null, { } highest) => $"up to {PlanWords.Of(highest)}",
        (null, null) => "there",
    };
}
