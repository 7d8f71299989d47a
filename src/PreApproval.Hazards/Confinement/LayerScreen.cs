using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Confinement;

/// <summary>An extraction or a washing with liquids that mix forms no layers: what is thought to be washed out stays.</summary>
public sealed class LayerScreen : IScreen
{
    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        if (context.IsTrial)
        {
            yield break;
        }

        foreach (var state in context.Walk.States)
        {
            if (state.Step.Action is not (StepAction.Extract or StepAction.Wash) || !HasLiquids(state) || LiquidLayers.Of(state.Contents, state.TemperatureK).Mix is not true)
            {
                continue;
            }

            yield return new Finding
            {
                Code = "data.no-layers",
                Hazard = Hazard.Data,
                Severity = Severity.Notice,
                Steps = [state.Step.Id],
                Vessel = state.Vessel.Id,
                Statement = $"In step {state.Step.Id} the liquids in “{state.Vessel.Id}” mix by computation, so no layers form unless salt drives them apart.",
                Evidence = [Findings.Number("liquid layers", 1, "1", 2, "liquid–liquid equilibrium of original UNIFAC, salts left out", Quality.Estimated, "fredenslund1975", "unifac-published") with { Worse = WorseWhen.Lower }],
            };
        }
    }

    private static bool HasLiquids(StepState state)
    {
        string? first = null;
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (state.Contents[index] is { Mol: null or > 0, Substance: { Known: { PhaseAt298K: Phase.Liquid, Involatile: false } } liquid })
            {
                first ??= liquid.Key;
                if (!string.Equals(first, liquid.Key, StringComparison.Ordinal))
                {
                    return true;
                }
            }
        }

        return false;
    }
}
