using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// Explosives that the plan makes without naming them (<see cref="PossibleProducts"/>), where a later step leaves them without solvent. Judged by the most that can have formed, by the limits of <see cref="IsolatedSolids"/>.
/// </summary>
internal static class LeftByEncounters
{
    public static IEnumerable<Finding> Find(ScreeningContext context)
    {
        for (var index = 0; index < context.Walk.States.Count; index++)
        {
            if (context.Walk.States[index].CanHold.Count > 0)
            {
                return Isolated(context);
            }
        }

        return [];
    }

    private static IEnumerable<Finding> Isolated(ScreeningContext context)
    {
        var isolated = new List<(StepState State, PossibleProduct Product)>();
        foreach (var state in context.Walk.States)
        {
            foreach (var product in state.CanHold)
            {
                if (IsLeft(state, product.Substance))
                {
                    isolated.Add((state, product));
                }
            }
        }

        foreach (var group in isolated.GroupBy(static one => (one.State.Vessel.Id, one.Product.Substance.Key)))
        {
            if (Describe([.. group]) is { } finding)
            {
                yield return finding;
            }
        }
    }

    private static bool IsLeft(StepState state, PlanSubstance substance) => state.Step.Action switch
    {
        StepAction.Filter or StepAction.Grind => true,
        StepAction.Concentrate => state.Evaporated.Count > 0,
        StepAction.Distil => true,
        StepAction.Dry => state.FilteredOff || !IsolatedSolids.HasLiquid(state.Contents, substance) || IsolatedSolids.LosesItsLiquid(state, substance),
        StepAction.Stir or StepAction.Heat or StepAction.Store => state.FilteredOff || !IsolatedSolids.HasLiquid(state.Contents, substance),
        _ => false,
    };

    private static Finding? Describe((StepState State, PossibleProduct Product)[] group)
    {
        var (first, product) = group[^1];
        var (_, most) = group.MaxBy(static one => one.Product.Kg ?? double.MaxValue);
        if (product.Profile is not { } profile || IsolatedSolids.ByMass(profile, most.Kg) is not { } severity)
        {
            return null;
        }

        // still wet on the filter, and no later step leaves it dry: one step less, as for an explosive that the plan names
        var wet = Array.TrueForAll(group, static one => one.State.Step.Action == StepAction.Filter) && severity < Severity.Notice && most.Kg < IsolatedSolids.NeverKg;
        var limit = IsolatedSolids.Limit(profile, most.Kg);
        var amount = most.Kg is { } kg ? $"up to {Wording.Figures(kg * 1000)} g of it" : "an amount that is not known";
        return new Finding
        {
            Code = "energetic.formed-isolated",
            Hazard = Hazard.Energetic,
            Severity = wet ? severity + 1 : severity,
            Steps = StepIds.Of([.. group.Select(static one => one.State)]),
            Vessel = first.Vessel.Id,
            Materials = product.Materials,
            Statement = $"{Wording.Capital(product.Substance.Name)} can have formed in step {product.Step} though the plan does not name it, and {amount} {(most.Kg is null ? "is" : "are")} {IsolatedSolids.Word(first.Step.Action) ?? "left in the still"} in step {first.Step.Id}: it can be set off by a blow, friction or heat{limit.Words}. Keep the partners apart; a shield does not lift this limit.",
            Evidence = most.Kg is { } mass ? [Findings.Number("mass that can have formed", mass * 1000, "g", limit.Kg * 1000, "all of the limiting partner", Quality.Assumed, [.. profile.Sources, "energetic-practice"])] : [],
            LeavesCheckUndone = most.Kg is null,
        };
    }
}
