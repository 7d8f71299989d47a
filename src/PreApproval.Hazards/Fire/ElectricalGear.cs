using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// What electrical equipment near the vessels must be marked with: the temperature class of the lowest autoignition temperature and the severest
/// gas group of whatever may give a flammable vapour or gas in the open (IEC 60079-20-1). One notice for the plan.
/// </summary>
internal static class ElectricalGear
{
    public static IEnumerable<Finding> Find(ScreeningContext context, OpenLiquid[] opens)
    {
        var emitting = Emitting(context, opens);
        if (emitting.Count == 0)
        {
            yield break;
        }

        var substances = emitting.DistinctBy(static pair => pair.Substance.Key, StringComparer.Ordinal).Select(static pair => pair.Substance).OrderBy(static substance => substance.Key, StringComparer.Ordinal).ToArray();
        var lowest = substances.Where(static substance => substance.Known!.AutoignitionK is not null).MinBy(static substance => substance.Known!.AutoignitionK!.Governing.Value);
        var worst = substances.Where(static substance => GasGroups.Of(substance.Known!) is not null).MaxBy(static substance => GasGroups.Of(substance.Known!)!.Value);
        string[] unknown =
        [
            .. Missing("autoignition temperature", substances.Where(static substance => substance.Known!.AutoignitionK is null)),
            .. Missing("gas group", substances.Where(static substance => GasGroups.Of(substance.Known!) is null)),
        ];
        var share = context.Policy.HotSurfaceShare;
        var fails = lowest is not null && TemperatureClasses.KeepingShare(lowest.Known!.AutoignitionK!.Governing.Value, share) is null;
        yield return new Finding
        {
            Code = "fire.electrical-gear",
            Hazard = Hazard.Fire,
            Severity = fails ? Severity.Caution : Severity.Notice,
            Steps = [.. context.Plan.Steps.Select(static step => step.Id).Where(step => emitting.Exists(pair => string.Equals(pair.State.Step.Id, step, StringComparison.Ordinal)))],
            Materials = [.. emitting.Select(static pair => pair.Material).OfType<string>().Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Statement = $"Electrical equipment that the vapour can reach needs {ClassWords(lowest, share)} and {(worst is not null ? $"gas group {GasGroups.Of(worst.Known!)!.Value} ({worst.Name})" : "a gas group that is not known")} (IEC 60079){(unknown.Length == 0 ? "" : $". Not on file: {Wording.List(unknown)}, so it may have to be stricter")}.",
            Evidence = lowest is null ? [] : [Evidence(lowest, share)],
        };
    }

    private static string ClassWords(PlanSubstance? lowest, double share)
    {
        if (lowest is null)
        {
            return "a temperature class that is not known";
        }

        var autoignition = lowest.Known!.AutoignitionK!.Governing.Value;
        var words = $"{lowest.Name} ignites at {Wording.Celsius(autoignition)}";
        return (TemperatureClasses.Of(autoignition), TemperatureClasses.KeepingShare(autoignition, share)) switch
        {
            ({ } own, { } keeping) when own == keeping => $"temperature class {own} ({words})",
            ({ } own, { } keeping) => $"temperature class {own}, or {keeping} to stay below {Wording.Celsius(HotSurface.LimitK(autoignition, share))} ({words})",
            ({ } own, null) => $"temperature class {own} and a surface below {Wording.Celsius(HotSurface.LimitK(autoignition, share))}, which the class does not promise ({words})",
            _ => $"to be elsewhere, for no temperature class serves ({words})",
        };
    }

    private static Evidence Evidence(PlanSubstance lowest, double share)
    {
        var value = lowest.Known!.AutoignitionK!.Governing;
        var own = TemperatureClasses.Of(value.Value);
        return new Evidence
        {
            Name = own is null ? $"autoignition temperature of {lowest.Name}" : $"largest surface temperature of class {own}",
            Quantity = own is null ? "autoignition temperature" : "largest surface temperature of the temperature class",
            Worse = WorseWhen.Lower,
            Value = Wording.InCelsius(own is { } found ? TemperatureClasses.MaximumSurfaceK(found) : value.Value),
            Unit = "°C",
            Limit = Wording.InCelsius(HotSurface.LimitK(value.Value, share)),
            Model = "temperature class below the lowest autoignition temperature; limit: share of it in °C",
            Sources = [References.Full("iec-60079-0"), References.OfLimit("trgs-723", share, Policy.Default.HotSurfaceShare), .. References.Full(value.Sources)],
            Quality = value.Quality,
        };
    }

    private static IEnumerable<string> Missing(string what, IEnumerable<PlanSubstance> substances)
    {
        string[] names = [.. substances.Select(static substance => substance.Name).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        return names.Length == 0 ? [] : [$"the {what} of {Wording.List(names)}"];
    }

    private static List<(StepState State, PlanSubstance Substance, string? Material)> Emitting(ScreeningContext context, OpenLiquid[] opens)
    {
        var emitting = new List<(StepState State, PlanSubstance Substance, string? Material)>();
        foreach (var open in opens)
        {
            foreach (var content in open.Burning)
            {
                Add(open.State, content.Substance, content.MaterialId, gasOnly: false);
            }
        }

        foreach (var state in context.Walk.States)
        {
            if (state.Sealed)
            {
                continue;
            }

            for (var index = 0; index < state.Contents.Count; index++)
            {
                if (!state.Contents[index].Spent)
                {
                    Add(state, state.Contents[index].Substance, state.Contents[index].MaterialId, gasOnly: true);
                }
            }

            for (var index = 0; index < state.GasMade.Count; index++)
            {
                Add(state, state.GasMade[index].Gas, null, gasOnly: true);
            }

            if (state.Headspace is Headspace.Gas over)
            {
                Add(state, over.Substance, null, gasOnly: true);
            }
        }

        return emitting;

        void Add(StepState state, PlanSubstance substance, string? material, bool gasOnly)
        {
            if (substance.Known is not null && (!gasOnly || BurningMaterials.Of(substance) == Burning.Gas))
            {
                emitting.Add((state, substance, material));
            }
        }
    }
}
