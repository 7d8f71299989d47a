using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Exposure;

/// <summary>
/// Toxic gas that a declared reaction gives off from an open vessel, mixed into the nearest cubic metre, against the concentration that is immediately dangerous (NIOSH IDLH).
/// On a bench that is what the person breathes; a hood takes it away, a scrubber keeps it from the roof. Method: docs/methods/release.md.
/// </summary>
public sealed class ReleasedGasScreen : IScreen
{
    /// <summary>Air around the head of the person in m³. Common practice, no source.</summary>
    private const double NearestAirM3 = 1;

    private const double LitresPerM3 = 1000;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var state in context.Walk.States.Where(static state => !state.Sealed))
        {
            foreach (var (gas, ppm, limit, idlh) in Above(state))
            {
                var severity = SeverityAt(context.Plan.Place?.Kind);
                yield return new Finding
                {
                    Code = "toxicity.gas-released",
                    About = gas.Key,
                    Hazard = Hazard.Toxicity,
                    Severity = severity,
                    Steps = [state.Step.Id],
                    Vessel = state.Vessel.Id,
                    Materials = [.. state.Reactions.SelectMany(static reaction => reaction.Consumes).Select(static one => one.MaterialId).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
                    Statement = $"Step {state.Step.Id} gives off {gas.Name} enough for {Wording.Figures(ppm)} ppm in the nearest cubic metre; {Wording.Figures(limit)} ppm are immediately dangerous. {Where(context.Plan.Place?.Kind)}",
                    Evidence = [Findings.Number($"{gas.Name} in 1 m³", ppm, "ppm", limit, "gas of the declared reaction mixed into 1 m³ of air at 25 °C", Quality.Estimated, idlh.Source, "common-practice")],
                };
            }
        }
    }

    private static IEnumerable<(PlanSubstance Gas, double Ppm, double Limit, ImmediateDanger Idlh)> Above(StepState state)
    {
        foreach (var group in state.GasMade.GroupBy(static made => made.Gas.Key, StringComparer.Ordinal))
        {
            var gas = group.First().Gas;
            var ppm = group.Sum(static made => made.Mol ?? 0) * AirConcentration.MolarVolumeLPerMol / (NearestAirM3 * LitresPerM3) * 1e6;
            if (gas.Known?.Idlh is { Ppm: { } limit } idlh && ppm > limit)
            {
                yield return (gas, ppm, limit, idlh);
            }
        }
    }

    private static Severity SeverityAt(PlaceKind? place) => place switch
    {
        PlaceKind.HoodWithScrubber => Severity.Notice,
        PlaceKind.Hood => Severity.Caution,
        PlaceKind.Bench or null => Severity.Warning,
    };

    private static string Where(PlaceKind? place) => place switch
    {
        PlaceKind.HoodWithScrubber => "Keep the sash down and the scrubber running.",
        PlaceKind.Hood => "Keep the sash down and lead the gas into a scrubber.",
        PlaceKind.Bench => "On an open bench that is breathed: work in a hood, with a scrubber.",
        null => "The place is not stated: work in a hood, with a scrubber.",
    };
}
