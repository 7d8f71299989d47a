using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Screening;

/// <summary>
/// Leaves out offers that clear their own finding and are no way out: a colder end of a cooling, whose heat came before it, and a larger vessel or a warmer step after which somebody opens the vessel under a pressure that is a danger.
/// </summary>
internal static class OfferCheck
{
    /// <summary>The finding without such offers; itself where it has none.</summary>
    public static Finding Worthwhile(Finding finding, ScreeningContext context)
    {
        for (var offer = 0; offer < finding.ClearedBy.Count; offer++)
        {
            if (!IsWorthwhile(finding.ClearedBy[offer], finding, context))
            {
                return finding with { ClearedBy = [.. finding.ClearedBy.Where(one => IsWorthwhile(one, finding, context))] };
            }
        }

        return finding;
    }

    private static bool IsWorthwhile(Clearing offer, Finding finding, ScreeningContext context) =>
        // most offers are of neither kind, at no cost
        !(offer.Path.EndsWith("/temperature", StringComparison.Ordinal) || offer.Path.EndsWith("/volume", StringComparison.Ordinal)) || IsWayOut(offer, finding, context);

    private static bool IsWayOut(Clearing offer, Finding finding, ScreeningContext context) => offer.Path.Split('/') switch
    {
        ["", "steps", var place, "temperature"] when offer.Value + 273.15 is { } offered && context.Plan.Steps[int.Parse(place, NumberStyles.None, CultureInfo.InvariantCulture)] is var step =>
            offered < step.TemperatureK
                // what is opened is meant to be colder first
                ? step.Action != StepAction.Cool || finding.Code.StartsWith("pressure.opened-", StringComparison.Ordinal)
                : !IsOpenedWorse(offer, context),
        ["", "vessels", _, "volume"] => !IsOpenedWorse(offer, context),
        _ => true,
    };

    private static bool IsOpenedWorse(Clearing offer, ScreeningContext context)
    {
        if (!context.Walk.States.Any(static state => state.ClosedBefore is not null))
        {
            return false;
        }

        var plan = Clearings.Apply(context.Plan, offer);
        var trial = new ScreeningContext(plan, context.Policy, Walk.Follow(plan, context.Policy)) { IsTrial = true };
        for (var index = 0; index < trial.Walk.States.Count && index < context.Walk.States.Count; index++)
        {
            if (IsDanger(trial.Walk.States[index], trial) && !IsDanger(context.Walk.States[index], context))
            {
                return true;
            }
        }

        return false;
    }

    private static bool IsDanger(StepState state, ScreeningContext context) =>
        OpeningPressure.Opened(state, context, withClearings: false) is { Severity: Severity.Danger };
}
