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
        var substances = emitting.Substances;
        if (substances.Count == 0)
        {
            yield break;
        }

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
            Steps = [.. context.Plan.Steps.Select(static step => step.Id).Where(emitting.IsAt)],
            Materials = emitting.Materials,
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

    private static Emission Emitting(ScreeningContext context, OpenLiquid[] opens)
    {
        var emission = new Emission();
        foreach (var open in opens)
        {
            foreach (var content in open.Burning)
            {
                emission.Add(open.State, content.Substance, content.MaterialId);
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
                    emission.AddGas(state, state.Contents[index].Substance, state.Contents[index].MaterialId);
                }
            }

            for (var index = 0; index < state.GasMade.Count; index++)
            {
                emission.AddGas(state, state.GasMade[index].Gas, null);
            }

            if (state.Headspace is Headspace.Gas over)
            {
                emission.AddGas(state, over.Substance, null);
            }
        }

        return emission;
    }

    /// <summary>What gives a flammable vapour or gas in the open: the substances in the order of their keys, the materials in theirs, and the steps.</summary>
    private sealed class Emission
    {
        // in the order of the walk, each once
        private readonly List<string> steps = [];

        public List<PlanSubstance> Substances { get; } = [];

        public List<string> Materials { get; } = [];

        public bool IsAt(string step) => steps.Contains(step);

        public void AddGas(StepState state, PlanSubstance substance, string? material)
        {
            if (substance.Known is not null && BurningMaterials.Of(substance) == Burning.Gas)
            {
                Add(state, substance, material);
            }
        }

        public void Add(StepState state, PlanSubstance substance, string? material)
        {
            if (substance.Known is null)
            {
                return;
            }

            if (!steps.Contains(state.Step.Id))
            {
                steps.Add(state.Step.Id);
            }

            var at = 0;
            while (at < Substances.Count && string.CompareOrdinal(Substances[at].Key, substance.Key) < 0)
            {
                at++;
            }

            if (at == Substances.Count || !string.Equals(Substances[at].Key, substance.Key, StringComparison.Ordinal))
            {
                Substances.Insert(at, substance);
            }

            if (material is not null)
            {
                Materials.AddInOrder(material);
            }
        }
    }
}
