using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Exposure;

/// <summary>
/// Toxic gas that a declared reaction gives off on an open bench, mixed into the nearest cubic metre, against the concentration that is immediately dangerous (NIOSH IDLH): the
/// person beside the vessel breathes that long before the gas is spread over the room, and hoods and rooms are the matter of the gas screen. Method: docs/methods/release.md.
/// </summary>
public sealed class ReleasedGasScreen : IScreen
{
    /// <summary>Air around the head of the person in m³. Common practice, no source.</summary>
    private const double NearestAirM3 = 1;

    private const double LitresPerM3 = 1000;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        if (context.Plan.Place?.Kind != PlaceKind.Bench)
        {
            yield break;
        }

        foreach (var state in context.Walk.States.Where(static state => !state.Sealed))
        {
            foreach (var (gas, ppm, limit, idlh) in Above(state))
            {
                yield return new Finding
                {
                    Code = "toxicity.gas-released",
                    About = gas.Key,
                    Hazard = Hazard.Toxicity,
                    Severity = Severity.Warning,
                    Steps = [state.Step.Id],
                    Vessel = state.Vessel.Id,
                    Materials = [.. state.Reactions.SelectMany(static reaction => reaction.Consumes).Select(static one => one.MaterialId).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
                    Statement = $"Step {state.Step.Id} gives off {gas.Name} enough for {Wording.Figures(ppm)} ppm in the nearest cubic metre; {Wording.Figures(limit)} ppm are immediately dangerous. On an open bench that is breathed: work in a hood, with a scrubber.",
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
}
