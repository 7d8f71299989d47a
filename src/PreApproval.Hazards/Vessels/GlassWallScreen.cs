using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>A rating that is stated beside a glass wall which does not hold it. The mark on the vessel still governs. Grounds: docs/methods/ratings.md.</summary>
public sealed class GlassWallScreen : IScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var closed in Grouping.Of(context.Walk.States, static state => state is { Sealed: true, Vessel: { GlassTube: not null, RatingPaGauge: > 0 } }, static (one, other) => one.VesselIndex == other.VesselIndex))
        {
            var vessel = closed[0].Vessel;
            var (tube, rated) = (vessel.GlassTube!, vessel.RatingPaGauge!.Value);
            // at full strength: for a marked vessel its maker vouches for the annealing
            var holds = GlassStrength.PermissiblePa(tube.OuterDiameterM, tube.WallM);
            var pressed = closed.Chosen(state => !(context.Closed(state)?.WorstPaGauge <= context.Policy.UnratedNothingPa));
            if (rated <= holds || pressed.Length == 0)
            {
                continue;
            }

            var needed = GlassStrength.NeededWallM(tube with { Annealed = true }, rated);
            yield return new Finding
            {
                Code = "pressure.wall-doubtful",
                Hazard = Hazard.Pressure,
                Severity = Severity.Warning,
                Steps = StepIds.Of(pressed),
                Vessel = vessel.Id,
                Statement = $"“{vessel.Id}” is stated to hold {Wording.BarGauge(rated)}, but a wall of {Millimetres(tube.WallM)} at {Millimetres(tube.OuterDiameterM)} holds {Wording.BarGauge(holds)} (EN 1595): {(needed is { } wall ? $"it takes {Millimetres(wall)}" : "no wall does")}. The mark on the vessel, or a measurement, settles it.",
                Evidence =
                [
                    Confinement.Findings.Number("rating as stated", rated / 1e5, "bar(g)", holds / 1e5, "p = 140 s/(d − s), borosilicate glass 3.3, K/S = 7 N/mm²", Quality.Estimated, "en-1595"),
                    .. needed is { } least ? [Confinement.Findings.Number("wall needed", least * 1e3, "mm", null, "s = d p/(140 + p)", Quality.Estimated, "en-1595")] : Array.Empty<Evidence>(),
                ],
            };
        }
    }

    private static string Millimetres(double metres) => $"{Wording.Text(Math.Round(metres * 1e3, 2))} mm";
}
