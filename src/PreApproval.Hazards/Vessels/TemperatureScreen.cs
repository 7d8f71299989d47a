using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>Every step against the temperature limit of vessel, closure, seal and fittings, stated or usual for the kind. Grounds: docs/methods/ratings.md.</summary>
public sealed class TemperatureScreen : IScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context) => Find(context, withClearings: true);

    private static IEnumerable<Finding> Find(ScreeningContext context, bool withClearings)
    {
        var groups = context.Walk.States
            .Select(static state => (State: state, Limit: TemperatureLimit.Of(state.Vessel, state.VesselIndex)))
            .Where(static pair => pair.Limit is { } limit && pair.State.WorstTemperatureK > limit.TemperatureK)
            .GroupBy(static pair => (pair.State.Vessel.Id, pair.State.TemperatureStep, pair.State.Sealed));
        foreach (var group in groups)
        {
            var worst = group.MaxBy(static pair => pair.State.WorstTemperatureK);
            var (limit, state) = (worst.Limit!.Value, worst.State);
            var set = state.TemperatureK > limit.TemperatureK;
            var finding = new Finding
            {
                Code = "temperature.exceeds-vessel",
                Hazard = Hazard.Temperature,
                Severity = limit.Kind is { } kind ? OfKind(kind, [.. group.Select(static pair => pair.State)], context) : OfMark(set, state.Sealed),
                Steps = [.. group.Select(static pair => pair.State.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = state.Vessel.Id,
                Statement = $"{limit.Words}; {(set ? "the set temperature is" : "the worst credible temperature is")} {Wording.Celsius(set ? state.TemperatureK : state.WorstTemperatureK)}.",
                Evidence =
                [
                    new Evidence
                    {
                        Name = "worst credible temperature",
                        Value = Wording.InCelsius(state.WorstTemperatureK),
                        Unit = "°C",
                        Limit = Wording.InCelsius(limit.TemperatureK),
                        Model = Model(state, context.Policy),
                        Sources = References.Full(["common-practice"]),
                        Quality = Quality.Assumed,
                    },
                ],
            };
            yield return withClearings ? finding with { ClearedBy = Offers(finding, [.. group.Select(static pair => pair.State)], limit, context) } : finding;
        }

        foreach (var beyond in withClearings ? BeyondUsual(context) : [])
        {
            yield return beyond;
        }
    }

    /// <summary>A rating without a temperature beside it, at a set temperature above the one that ratings of the kind are commonly good to. Metal has a rule of its own.</summary>
    private static IEnumerable<Finding> BeyondUsual(ScreeningContext context)
    {
        foreach (var group in Grouping.Of(context.Walk.States, static state => UpTo(state) < state.TemperatureK, static (one, other) => one.VesselIndex == other.VesselIndex && one.Closing!.StepIndex == other.Closing!.StepIndex))
        {
            var pressed = group.Chosen(state => IsPressed(state, context));
            if (pressed.Length == 0)
            {
                continue;
            }

            var hottest = pressed.MaxBy(static state => state.TemperatureK)!;
            var kind = VesselKinds.TypicalOf(hottest.Vessel.Kind)!;
            yield return new Finding
            {
                Code = "temperature.beyond-rating",
                Hazard = Hazard.Temperature,
                Severity = Severity.Caution,
                Steps = StepIds.Of(pressed),
                Vessel = hottest.Vessel.Id,
                Statement = $"No temperature is stated up to which “{hottest.Vessel.Id}” holds {(hottest.Vessel.RatingPaGauge is > 0 and var rated ? $"its {Wording.BarGauge(rated)}" : "pressure")}; the rating of such a vessel ({kind.Kind}) is commonly good to {Wording.Celsius(kind.UpToK!.Value)}, and it is set to {Wording.Celsius(hottest.TemperatureK)}.",
                Evidence = [Confinement.Findings.Number("set temperature", Wording.InCelsius(hottest.TemperatureK), "°C", Wording.InCelsius(kind.UpToK!.Value), "temperature that the rating of such a vessel is commonly good to", Quality.Assumed, "common-practice")],
            };
        }
    }

    // a limit that is passed is a finding of its own, and a stated one has been thought of
    private static double? UpTo(StepState state) =>
        state is { Sealed: true, Vessel: var vessel } && VesselKinds.MaterialOf(vessel.Kind) != VesselMaterial.Metal
        && TemperatureLimit.Of(vessel, state.VesselIndex) is var limit && (limit is not { } of || (of.Kind is not null && state.WorstTemperatureK <= of.TemperatureK))
            ? VesselKinds.TypicalOf(vessel.Kind)?.UpToK : null;

    private static Severity OfMark(bool set, bool closed) => (set, closed) switch
    {
        (true, true) => Severity.Danger,
        (true, false) or (false, true) => Severity.Warning,
        (false, false) => Severity.Caution,
    };

    private static Severity OfKind(TypicalVessel kind, StepState[] states, ScreeningContext context) =>
        kind.LimitStands || Array.Exists(states, state => IsPressed(state, context)) ? Severity.Danger : Severity.Warning;

    /// <summary>True where it is closed and its pressure more than nothing, or not known.</summary>
    private static bool IsPressed(StepState state, ScreeningContext context) =>
        state.Sealed && !(context.Closed(state)?.WorstPaGauge <= context.Policy.UnratedNothingPa);

    /// <summary>How the worst temperature came about: surface, reaction or heater.</summary>
    private static string Model(StepState state, Policy policy)
    {
        if (state.ReactionGoverns)
        {
            return PressureSentences.ReactionModel(state);
        }

        var overshoot = HeaterOvershoot.K(state.HeatSource, state.TemperatureK, state.IndependentCutOut, policy);
        return state.Heated && overshoot > 0 && state.WorstTemperatureK > state.TemperatureK
            ? $"larger of set temperature plus {Wording.Figures(overshoot)} K and hottest surface; {HeaterOvershoot.Basis(state.HeatSource)}{(state.IndependentCutOut ? "" : ", and no independent cut-out is stated")}"
            : "larger of set temperature and hottest surface";
    }

    private static Clearing[] Offers(Finding finding, IReadOnlyList<StepState> states, TemperatureLimit limit, ScreeningContext context)
    {
        var needed = states.Max(static state => state.WorstTemperatureK);
        var offers = new List<Clearing>(2);
        // of a usual limit only a look at the vessel tells: a number would only be typed in
        if (limit.Kind is null && needed <= (VesselKinds.TypicalOf(limit.Vessel.Kind)?.LimitK ?? ClosedVessel.CeilingK))
        {
            offers.Add(new Clearing("temperature limit", limit.Path, Math.Ceiling(Wording.InCelsius(needed)), "°C", null));
        }

        if (states[0].TemperatureStep is { } setBy)
        {
            var celsius = Math.Floor(Wording.InCelsius(states.Min(state => limit.TemperatureK - (state.WorstTemperatureK - state.TemperatureK))));
            // below the room it is no longer a change of the heating
            if (celsius + 273.15 >= Walk.RoomTemperatureK)
            {
                offers.Insert(0, new Clearing("set temperature", $"/steps/{setBy.ToString(CultureInfo.InvariantCulture)}/temperature", celsius, "°C", null));
            }
        }

        return [.. offers.Where(offer => Clears(offer, finding, context))];
    }

    private static bool Clears(Clearing offer, Finding finding, ScreeningContext context)
    {
        var plan = Clearings.Apply(context.Plan, offer);
        var trial = new ScreeningContext(plan, context.Policy, Walk.Follow(plan, context.Policy));
        return !Find(trial, withClearings: false).Any(other =>
            string.Equals(other.Vessel, finding.Vessel, StringComparison.Ordinal)
            && other.Steps.Any(step => finding.Steps.Contains(step, StringComparer.Ordinal)));
    }
}
