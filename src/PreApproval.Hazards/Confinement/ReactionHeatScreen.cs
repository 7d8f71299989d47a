using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Confinement;

/// <summary>
/// Declared heat of reaction against what the contents can take up: adiabatic rise and MTSR with the bands of Stoessel (below 50 K
/// low, 50 to 200 K medium, above 200 K high). Method: docs/methods/walk.md.
/// </summary>
public sealed class ReactionHeatScreen : IScreen
{
    private const double MediumK = 50;
    private const double HighK = 200;

    /// <summary>An addition this much colder than the reaction accumulates, in K. Convention, no source.</summary>
    private const double ColderK = 10;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var state in context.Walk.States)
        {
            if (state.ReactionHeat is not { } heat)
            {
                continue;
            }

            if (AddedCold(state, context.Walk) is { } accumulated)
            {
                yield return accumulated;
            }

            if (heat.NotComputed is { } why)
            {
                yield return new Finding
                {
                    Code = "data.reaction-heat",
                    Hazard = Hazard.Data,
                    Severity = state.Sealed ? Severity.Caution : Severity.Notice,
                    Steps = [state.Step.Id],
                    Vessel = state.Vessel.Id,
                    Statement = $"Step {state.Step.Id} gives heat, but how hot that can make “{state.Vessel.Id}” is not computed: {why}.",
                };
            }
            else if (OfRise(state, heat) is { } finding)
            {
                yield return finding;
            }
        }
    }

    /// <summary>Reagent dosed colder than it reacts is all there when the vessel is warmed: the dosing then controls nothing.</summary>
    private static Finding? AddedCold(StepState state, WalkResult walk)
    {
        var consumed = state.Reactions.Where(static reaction => reaction.HeatJPerMol < 0).SelectMany(static reaction => reaction.Consumes).Select(static one => one.MaterialId).ToHashSet(StringComparer.Ordinal);
        var cold = walk.States.Where(earlier => earlier.Index < state.Index && string.Equals(earlier.Vessel.Id, state.Vessel.Id, StringComparison.Ordinal))
            .SelectMany(static earlier => earlier.Additions.Select(addition => (State: earlier, Addition: addition)))
            .Where(pair => consumed.Contains(pair.Addition.MaterialId) && pair.Addition.OverS >= ControlNeeds.DosedFromS && pair.Addition.TemperatureK < state.TemperatureK - ColderK)
            .ToArray();
        if (cold.Length == 0)
        {
            return null;
        }

        var first = cold[0];
        return new Finding
        {
            Code = "heat.accumulated",
            Hazard = Hazard.Heat,
            Severity = Severity.Caution,
            Steps = [.. cold.Select(static pair => pair.State.Step.Id).Distinct(StringComparer.Ordinal), state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = [.. cold.Select(static pair => pair.Addition.MaterialId).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Statement = $"“{first.Addition.MaterialId}” is dosed in step {first.State.Step.Id} at {Wording.Celsius(first.Addition.TemperatureK)} but reacts in step {state.Step.Id} at {Wording.Celsius(state.TemperatureK)}: all of it is there when the vessel warms, so the slow addition controls nothing; warm in stages.",
            Evidence = [Findings.Number("share of reagent not reacted when warming begins", 1, "fraction", null, $"declared reaction {Wording.Text(Math.Round(state.TemperatureK - first.Addition.TemperatureK))} K above the addition", Quality.Assumed, "stoessel")],
        };
    }

    private static Finding? OfRise(StepState state, ReactionHeat heat)
    {
        var rise = heat.AdiabaticRiseK!.Value;
        var mtsr = heat.MtsrK!.Value;
        var onset = state.Reactions.Min(static reaction => reaction.DecompositionOnsetK);
        var decomposes = mtsr >= onset;
        if (rise < MediumK && !decomposes)
        {
            return null;
        }

        var dosed = state.Step.OverS >= ControlNeeds.DosedFromS;
        var boilsK = state.Sealed ? (double?)null : LiquidVapour.BelowPressureK(state.Contents, Math.Max(mtsr, 51), 101_325);
        var boils = boilsK < mtsr - 0.02;
        var severity = decomposes ? Severity.Danger
            : state.Sealed || (rise > HighK && !dosed) ? Severity.Warning
            : Severity.Caution;
        var share = heat.AccumulationDeclared ? $"with the declared accumulation of {Wording.Text(Math.Round(heat.Accumulation * 100))} %" : "with all of the reagent counted as unreacted";
        return new Finding
        {
            Code = "heat.reaction",
            Hazard = Hazard.Heat,
            Severity = severity,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Statement = $"Without cooling, step {state.Step.Id} heats “{state.Vessel.Id}” by up to {Wording.Figures(rise)} K; {share} it reaches {Wording.Celsius(mtsr)}"
                + (decomposes ? $", above the declared onset of decomposition at {Wording.Celsius(onset!.Value)}." : boils ? $", past boiling at {Wording.Celsius(boilsK!.Value)}: dose it, and keep a condenser on." : state.Sealed ? " in a closed vessel." : ": dose it."),
            Evidence =
            [
                Findings.Number("adiabatic rise", rise, "K", MediumK, Model(heat), heat.Quality > Quality.Estimated ? heat.Quality : Quality.Estimated, [.. heat.Sources, "stoessel"]),
                Findings.Number("MTSR", Wording.InCelsius(mtsr), "°C", onset is { } at ? Wording.InCelsius(at) : boils ? Wording.InCelsius(boilsK!.Value) : null, $"set temperature plus {Wording.Text(Math.Round(heat.Accumulation, 3))} of the adiabatic rise", heat.AccumulationDeclared ? Quality.Estimated : Quality.Assumed, "stoessel"),
            ],
        };
    }

    private static string Model(ReactionHeat heat) =>
        $"declared heat over the heat capacity of the liquids at 25 °C{(heat.LeftOut.Count == 0 ? "" : $"; left out, which makes it larger: {Wording.List(heat.LeftOut)}")}";
}
