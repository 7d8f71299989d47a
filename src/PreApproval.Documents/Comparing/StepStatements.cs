using PreApproval.Documents.Reading;

namespace PreApproval.Documents.Comparing;

/// <summary>What a document states of a step. Names of other parts are compared as the later document has them.</summary>
internal static class StepStatements
{
    private const string AllThatIsLeft = "all that is left";

    public static Statements Of(StepEntry step, PartNames materials, PartNames vessels)
    {
        Statements all = new Statements()
            .Plain("action", ActionOf(step))
            .With("vessel", step.Vessel, vessels.Of(step.Vessel))
            .With("into", step.To, step.To is { } to ? vessels.Of(to) : null);
        foreach (IGrouping<string, MaterialUseEntry> same in (step.Materials ?? []).GroupBy(use => materials.Of(use.Id), StringComparer.Ordinal))
        {
            all.With($"“{same.Key}”", string.Join(" + ", same.Select(static use => PlanWords.Of(use.Amount) ?? AllThatIsLeft)), PlanWords.KeyOf(same.Select(static use => PlanWords.KeyOf(use.Amount) ?? AllThatIsLeft)));
        }

        return all
            .With("temperature", step.Temperature)
            .With("duration", step.Duration)
            .With("over", step.Over)
            .With("heat source", step.HeatSource is { } source ? Words.HeatSources.WordOf(source) : null)
            // left out it is none, as the engine reads it
            .With("independent cut-out", step.IndependentCutOut is true ? "yes" : null)
            .With("surface temperature", step.SurfaceTemperature)
            .With("gas over the contents", PlanWords.Of(step.Headspace), PlanWords.KeyOf(step.Headspace))
            .With("closed with", step.Closure is { } closure ? Words.Closures.WordOf(closure) : null)
            .With("gas", PlanWords.Of(step.Gas), PlanWords.KeyOf(step.Gas))
            .With("pressure", step.Pressure);
    }

    public static string ActionOf(StepEntry step) => step.Action is { } action ? Words.Actions.WordOf(action) : "";
}
