using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>Open vessels that a chemist would not leave so: far above the boiling point without a condenser, or fuller than they are large.</summary>
public sealed class OpenVesselScreen : IScreen
{
    /// <summary>How far above boiling an open vessel is no mere gentle boil, in K. Common practice, no source.</summary>
    private const double FarAboveK = 10;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context) => [.. AboveBoiling(context), .. OpenedHot(context), .. Overfilled(context)];

    /// <summary>A closed vessel that is opened while its liquids are above their boiling point: they boil over at once.</summary>
    private IEnumerable<Finding> OpenedHot(ScreeningContext context)
    {
        foreach (var state in context.Walk.States.Where(static state => state.ClosedBefore is not null))
        {
            var contents = state.ClosedBefore!.ContentsAfter;
            var pressure = LiquidVapour.IdealPa(contents, state.TemperatureK);
            if (!(pressure > AtmospherePa))
            {
                continue;
            }

            var boilsK = LiquidVapour.BelowPressureK(contents, state.TemperatureK, AtmospherePa);
            var finding = new Finding
            {
                Code = "pressure.opened-above-boiling",
                Hazard = Hazard.Pressure,
                Severity = state.Step.Action == StepAction.Vent ? Severity.Caution : Severity.Warning,
                Steps = [state.Step.Id],
                Vessel = state.Vessel.Id,
                Materials = Findings.Ids(contents.Where(static content => content.Substance.Known is { PhaseAt298K: Phase.Liquid, Involatile: false })),
                Statement = $"Step {state.Step.Id} lets “{state.Vessel.Id}” open at {Wording.Celsius(state.TemperatureK)}, above the boiling point of its liquids ({Wording.Celsius(boilsK)}): they boil over at once; cool it first.",
                Evidence = [Findings.Number("temperature at opening", Wording.InCelsius(state.TemperatureK), "°C", Wording.InCelsius(boilsK), "ideal mixture (Raoult) at 1.01325 bar", Quality.Estimated, "common-practice")],
            };
            yield return context.IsTrial || state.TemperatureStep is not { } setBy
                ? finding
                : finding with { ClearedBy = Findings.Tried(this, finding, context, new Clearing("set temperature", Findings.Step(setBy, "temperature"), Math.Floor(Wording.InCelsius(boilsK)), "°C", null)) };
        }
    }

    private static IEnumerable<Finding> AboveBoiling(ScreeningContext context)
    {
        var groups = context.Walk.States
            // what is opened hot is judged by the pressure it opens with
            .Where(state => state is { Heated: true, Sealed: false, ClosedBefore: null } && !BoilingIsMeant(state, context.Plan))
            .Select(static state => (State: state, Boiling: FarAboveBoiling(state)))
            .Where(static pair => pair.Boiling is not null)
            .GroupBy(static pair => (pair.State.Vessel.Id, pair.State.TemperatureStep, pair.State.Vent));
        foreach (var group in groups)
        {
            var (state, boiling) = group.First();
            var lowest = boiling!;
            var what = $"{lowest.Identity.Name} (boils at {Wording.Celsius(lowest.BoilingPointK!.Value)})";
            yield return new Finding
            {
                Code = "temperature.open-above-boiling",
                Hazard = Hazard.Temperature,
                Severity = Severity.Warning,
                Steps = [.. group.Select(static pair => pair.State.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = state.Vessel.Id,
                Materials = MaterialIds.Of(state.Contents.Where(content => string.Equals(content.Substance.Key, lowest.Key, StringComparison.Ordinal))),
                Statement = state.Vent is Closure.Balloon or Closure.Needle
                    ? $"“{state.Vessel.Id}” is heated to {Wording.Celsius(state.TemperatureK)}, far above the boiling point of {what}, with only a {(state.Vent == Closure.Balloon ? "balloon" : "needle")} on it: an improvised vent is no condenser and no relief."
                    : $"“{state.Vessel.Id}” is open at {Wording.Celsius(state.TemperatureK)}, far above the boiling point of {what}: {WhatToDo(state, lowest, context.Policy)}",
                Evidence =
                [
                    new Evidence
                    {
                        Name = "set temperature",
                        Value = Wording.InCelsius(state.TemperatureK),
                        Unit = "°C",
                        Limit = Wording.InCelsius(lowest.BoilingPointK!.Value),
                        Model = $"sum of mole fraction times vapour pressure above 1.01325 bar already {Wording.Text(FarAboveK)} K below",
                        Sources = References.Full(["common-practice"]),
                        Quality = Quality.Estimated,
                    },
                ],
            };
        }
    }

    /// <summary>What makes it safe. Closing it is named only for a vessel whose stated rating stands the vapour and is believed: any other would burst.</summary>
    private static string WhatToDo(StepState state, Substance lowest, Policy policy) =>
        state.MovedIn.Count > 0 || state.Step.Action is StepAction.Add or StepAction.Transfer or StepAction.Quench
            ? $"what is poured together boils up and sprays at once. Let the hot part cool below {Wording.Celsius(lowest.BoilingPointK!.Value)} first."
        : state.Step.Action is StepAction.Open or StepAction.Vent
            ? $"it boils over as it is opened. Cool it below {Wording.Celsius(lowest.BoilingPointK!.Value)} first."
            : $"in the open it boils away and does not get that hot. Set a lower temperature, or reflux it under a condenser{(StandsItClosed(state, policy) ? "; if it is meant closed, the seal step is missing" : "")}.";

    private static bool StandsItClosed(StepState state, Policy policy) =>
        state.Vessel.RatingPaGauge is { } rated && RatingCredibility.IsWorthOffering(state.Vessel.Kind, rated / 1e5)
        // past its critical temperature a liquid counts as no vapour at all
        && LiquidVapour.IdealPa(state.Contents, state.WorstTemperatureK) is > AtmospherePa and var vapour && vapour <= rated * GoverningRating.WarningShare(state.Vessel, policy);

    /// <summary>Refluxing, distilling, evaporating and drying are meant to boil; so is everything while the vessel stays as a reflux left it.</summary>
    private static bool BoilingIsMeant(StepState state, Plan plan)
    {
        static bool Means(StepAction action) => action is StepAction.Reflux or StepAction.Distil or StepAction.Concentrate or StepAction.Dry;
        var setBy = state.TemperatureStep is { } index ? plan.Steps[index].Action : state.Step.Action;
        return Means(state.Step.Action) || Means(setBy)
            || $"{state.Vessel.Kind} {state.Vessel.Closure}".Contains("condenser", StringComparison.OrdinalIgnoreCase);
    }

    /// <summary>
    /// The lowest-boiling liquid when the mixture, taken as ideal, boils more than the margin below the set temperature; else null.
    /// Where an amount is not known the lowest-boiling liquid is taken alone.
    /// </summary>
    private static Substance? FarAboveBoiling(StepState state)
    {
        Substance? lowest = null;
        double total = 0;
        double pressure = 0;
        var unknown = false;
        foreach (var content in state.Contents)
        {
            if (content is not { Mol: null or > 0, Substance.Known: { PhaseAt298K: Phase.Liquid } known })
            {
                continue;
            }

            var mol = content.Mol ?? 0;
            if (known.Involatile)
            {
                // sulfuric acid and the like hold the others back without a vapour of their own
                total += mol;
                continue;
            }

            unknown |= content.Mol is null;
            total += mol;
            var saturation = VapourPressure.At(known, Math.Max(state.TemperatureK - FarAboveK, 1));
            if (saturation.Volatility == Volatility.Gas)
            {
                pressure = double.PositiveInfinity;
            }
            else if (saturation.Volatility == Volatility.Condensable)
            {
                pressure += mol * saturation.Pascal;
            }

            if (known.BoilingPointK is { } boiling && !(lowest?.BoilingPointK!.Value <= boiling.Value))
            {
                lowest = known;
            }
        }

        return unknown
            ? lowest?.BoilingPointK!.Value < state.TemperatureK - FarAboveK ? lowest : null
            : total > 0 && pressure / total > AtmospherePa ? lowest : null;
    }

    private static IEnumerable<Finding> Overfilled(ScreeningContext context)
    {
        // layers are drawn off between washes and eluent runs through: neither is followed, so later volumes say nothing
        var drained = new HashSet<string>(StringComparer.Ordinal);
        var states = new List<(StepState State, double M3)>();
        foreach (var state in context.Walk.States)
        {
            if (drained.Contains(context.Plan.Steps[state.Index].Vessel))
            {
                drained.Add(state.Vessel.Id);
            }

            if (!drained.Contains(state.Vessel.Id) && state.Step.Action != StepAction.Chromatograph && LiquidM3(state) is var liquid && liquid > state.Vessel.VolumeM3)
            {
                states.Add((state, liquid));
            }

            if (state.Step.Action is StepAction.Wash or StepAction.Extract or StepAction.Chromatograph or StepAction.Filter)
            {
                drained.Add(state.Vessel.Id);
            }
        }

        foreach (var vessel in states.GroupBy(static entry => entry.State.Vessel.Id, StringComparer.Ordinal))
        {
            var (state, liquid) = vessel.MaxBy(static entry => entry.M3);
            yield return new Finding
            {
                Code = "vessel.overfilled",
                Hazard = Hazard.Data,
                Severity = vessel.Any(static entry => entry.State.Heated) ? Severity.Warning : Severity.Caution,
                Steps = [.. vessel.Select(static entry => entry.State.Step.Id).Distinct(StringComparer.Ordinal)],
                Vessel = vessel.Key,
                Statement = $"“{vessel.Key}” holds {Wording.Text(Math.Round(state.Vessel.VolumeM3!.Value * 1e6))} mL but gets about {Wording.Text(Math.Round(liquid * 1e6))} mL of liquid: a volume or a vessel is wrong.",
            };
        }
    }

    private static double LiquidM3(StepState state)
    {
        double sum = 0;
        foreach (var content in state.Contents)
        {
            // a liquefied gas takes room as well, as long as it is cold
            if (content is { Mol: { } cold, Substance.Known: { PhaseAt298K: Phase.Gas, BoilingPointK.Value: var boilsK } gas } && content.MassFraction is not < 1 && state.TemperatureK < boilsK)
            {
                sum += cold * LiquidVolume.At(gas, state.TemperatureK).M3PerMol;
            }

            if (content is { Mol: { } mol, Substance.Known: { PhaseAt298K: Phase.Liquid, DensityKgPerM3.Value: var density, Identity.MolarMassKgPerMol: { } molarMass } })
            {
                sum += mol * molarMass / density;
            }
        }

        return sum;
    }
}
