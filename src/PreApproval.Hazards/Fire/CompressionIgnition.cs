using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// Oxygen, air or dinitrogen oxide pressed fast onto what burns: the gas in the vessel is compressed and heats up, past the autoignition temperature without any spark. Rules: docs/methods/inerting.md.
/// </summary>
internal static class CompressionIgnition
{
    public static IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var state in context.Walk.States)
        {
            if (state.Step.Action == StepAction.Pressurise && Of(state, context.Policy) is { } finding)
            {
                yield return finding;
            }
        }
    }

    private static Finding? Of(StepState state, Policy policy)
    {
        if (!(Inerting.Supports(state.Step.Gas) || Inerting.IsAir(state.Step.Gas)) || state.Closing is not { } closing || state.Step.DurationS >= FireThresholds.SlowPressurisingS || state.Step.OverS >= FireThresholds.SlowPressurisingS)
        {
            return null;
        }

        var lowest = state.Contents.Where(static content => content is { Spent: false, Mol: null or > 0, Substance.Known.AutoignitionK: not null } && BurningMaterials.Of(content.Substance) is not null)
            .OrderBy(static content => content.Substance.Known!.AutoignitionK!.Governing.Value)
            .ThenBy(static content => content.Substance.Key, StringComparer.Ordinal)
            .FirstOrDefault();
        var startK = Math.Max(state.TemperatureK, Walk.RoomTemperatureK);
        var reachedK = AdiabaticCompression.TemperatureK(startK, AtmospherePa, closing.PressurePaAbs);
        if (lowest?.Substance.Known!.AutoignitionK!.Governing is not { } ignition || reachedK < HotSurface.LimitK(ignition.Value, policy.HotSurfaceShare))
        {
            return null;
        }

        var lights = reachedK >= ignition.Value;
        return new Finding
        {
            Code = "fire.compression-ignition",
            Hazard = Hazard.Fire,
            Severity = lights ? Severity.Warning : Severity.Caution,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = MaterialIds.Of(state.Contents.Where(static content => !content.Spent && BurningMaterials.Of(content.Substance) is not null)),
            Statement = $"Pressed fast to {Wording.BarGauge(closing.PressurePaAbs - AtmospherePa)}, the gas over the contents of “{state.Vessel.Id}” gets up to {Wording.Celsius(reachedK)} by its own compression, {(lights ? "above" : "near")} the autoignition temperature of {lowest.Substance.Name} ({Wording.Celsius(ignition.Value)} in air, less under pressure and in oxygen): let {state.Step.Gas!.Name} in slowly, over {Wording.Text(FireThresholds.SlowPressurisingS)} s or more, and say so in the step, or bring the vessel under inert gas first.",
            Evidence =
            [
                Findings.Number("temperature of the compressed gas", Wording.InCelsius(reachedK), "°C", Wording.InCelsius(ignition.Value), $"ideal gas compressed from one atmosphere without loss of heat, exponent {Wording.Text(AdiabaticCompression.AirExponent)}: an upper bound", Quality.Estimated, ["crowl-louvar", .. ignition.Sources]),
            ],
        };
    }
}
