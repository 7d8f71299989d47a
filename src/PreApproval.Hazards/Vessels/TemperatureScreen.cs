using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>Every step against the temperature limits of vessel, closure, seal and fittings.</summary>
public sealed class TemperatureScreen : IScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context) => Find(context, withClearings: true);

    private static IEnumerable<Finding> Find(ScreeningContext context, bool withClearings)
    {
        var groups = context.Walk.States
            .Select(static state => (State: state, Limit: Lowest(state)))
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
                Severity = (set, state.Sealed) switch
                {
                    (true, true) => Severity.Danger,
                    (true, false) or (false, true) => Severity.Warning,
                    (false, false) => Severity.Caution,
                },
                Steps = [.. group.Select(static pair => pair.State.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = state.Vessel.Id,
                Statement = $"{limit.Name} is good to {Wording.Celsius(limit.TemperatureK)}; {(set ? "the set temperature is" : "the worst credible temperature is")} {Wording.Celsius(set ? state.TemperatureK : state.WorstTemperatureK)}.",
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
    }

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
        var offers = new List<Clearing> { new("temperature limit", limit.Path, Math.Ceiling(Wording.InCelsius(needed)), "°C", null) };
        if (states[0].TemperatureStep is { } setBy)
        {
            var celsius = Math.Floor(Wording.InCelsius(states.Min(state => limit.TemperatureK - (state.WorstTemperatureK - state.TemperatureK))));
            offers.Insert(0, new Clearing("set temperature", $"/steps/{setBy.ToString(CultureInfo.InvariantCulture)}/temperature", celsius, "°C", null));
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

    private static TemperatureLimit? Lowest(StepState state)
    {
        TemperatureLimit? lowest = state.Vessel.MaximumTemperatureK is { } own ? new TemperatureLimit(own, state, null) : null;
        for (var part = 0; part < state.Vessel.Parts.Count; part++)
        {
            if (state.Vessel.Parts[part].MaximumTemperatureK is { } limit && !(lowest?.TemperatureK <= limit))
            {
                lowest = new TemperatureLimit(limit, state, part);
            }
        }

        return lowest;
    }

    /// <summary>A limit of the vessel, or of one of its parts; named when it is exceeded.</summary>
    private readonly record struct TemperatureLimit(double TemperatureK, StepState State, int? Part)
    {
        public string Name => Part is { } part ? $"The {State.Vessel.Parts[part].Name} of “{State.Vessel.Id}”" : $"“{State.Vessel.Id}”";

        public string Path => Part is { } part
            ? string.Create(CultureInfo.InvariantCulture, $"/vessels/{State.VesselIndex}/parts/{part}/maximumTemperature")
            : string.Create(CultureInfo.InvariantCulture, $"/vessels/{State.VesselIndex}/maximumTemperature");
    }
}
