using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Screening;

/// <summary>What one plan has as protection and the other has not, whether or not it is a finding: a relief device on a closed vessel, and a way out for the hydrogen of a hydride.</summary>
internal static class ProtectionComparison
{
    /// <summary>What gives hydrogen with water, alcohols and acids, the moisture of a solvent among them.</summary>
    private static readonly string[] GasMakingHydrides = ["saline hydrides", "aluminium hydrides", "borohydrides"];

    public static IEnumerable<HazardChange> Of(ScreeningContext before, ScreeningContext after)
    {
        foreach (var (old, now) in StepAlignment.Of(before.Walk.States, after.Walk.States).Select(pair => (before.Walk.States[pair.Before].VesselIndex, after.Walk.States[pair.After].VesselIndex)).Distinct())
        {
            var (was, becomes) = (Closed(before, old), Closed(after, now));
            if (HasRelief(before.Plan.Vessels[old]) && !HasRelief(after.Plan.Vessels[now]) && becomes.Length > 0)
            {
                yield return Relief(ChangeEffect.Introduced, becomes) with { Before = SetPressure(before.Plan.Vessels[old]) };
            }
            else if (!HasRelief(before.Plan.Vessels[old]) && HasRelief(after.Plan.Vessels[now]) && was.Length > 0)
            {
                yield return Relief(ChangeEffect.Removed, was) with { After = SetPressure(after.Plan.Vessels[now]) };
            }
        }

        foreach (var change in Hydrides(before, after, ChangeEffect.Introduced).Concat(Hydrides(after, before, ChangeEffect.Removed)))
        {
            yield return change;
        }
    }

    private static StepState[] Closed(ScreeningContext context, int vessel) => [.. context.Walk.States.Where(state => state.Sealed && state.VesselIndex == vessel)];

    /// <summary>One that opens too late is there all the same: a finding says so.</summary>
    private static bool HasRelief(Vessel vessel) => vessel.Relief is not null || ReliefDevice.On(vessel);

    private static HazardChange Relief(ChangeEffect effect, StepState[] closed) => new()
    {
        Hazard = Hazard.Pressure,
        Quantity = "missing relief device",
        Effect = effect,
        Vessel = closed[0].Vessel.Id,
        Steps = StepIds.Of(closed),
    };

    private static Evidence? SetPressure(Vessel vessel) => vessel.Relief is { } relief
        ? new Evidence { Name = "set pressure of the relief device", Value = relief.SetPaGauge / 1e5, Unit = "bar(g)", Worse = WorseWhen.Neither, Model = "as stated", Sources = [], Quality = Quality.Assumed }
        : null;

    /// <summary>Hydrides that only the one plan closes, and the other has in the open.</summary>
    private static IEnumerable<HazardChange> Hydrides(ScreeningContext open, ScreeningContext closed, ChangeEffect effect)
    {
        var never = open.Walk.States.Where(static state => !state.Sealed).SelectMany(HydridesIn).ToHashSet(StringComparer.Ordinal);
        never.ExceptWith(open.Walk.States.Where(static state => state.Sealed).SelectMany(HydridesIn));
        foreach (var name in never.Order(StringComparer.Ordinal))
        {
            foreach (var vessel in closed.Walk.States.Where(state => state.Sealed && HydridesIn(state).Contains(name, StringComparer.Ordinal)).GroupBy(static state => state.VesselIndex))
            {
                yield return new HazardChange
                {
                    Hazard = Hazard.Gas,
                    Quantity = $"{name} in a closed vessel",
                    Effect = effect,
                    Vessel = vessel.First().Vessel.Id,
                    Steps = StepIds.Of(vessel.ToArray()),
                };
            }
        }
    }

    private static IEnumerable<string> HydridesIn(StepState state) => state.Contents
        .Where(static content => !content.Spent && FamilyTable.Default.Of(content.Substance, content.MassFraction).Intersect(GasMakingHydrides, StringComparer.Ordinal).Any())
        .Select(static content => content.Substance.Known?.Identity.Name ?? content.Substance.Name)
        .Distinct(StringComparer.Ordinal);
}
