using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Safeguards;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Energy;

/// <summary>
/// Heat of reaction against what the contents can take up: adiabatic rise and MTSR with the bands of Stoessel (below 50 K low, 50 to 200 K medium, above 200 K
/// high) and his criticality class. The heat is the declared one, else from enthalpies of formation, else the usual one of its type. Method: docs/methods/runaway.md.
/// </summary>
public sealed class ReactionHeatScreen : IScreen
{
    private const double MediumK = 50;
    private const double HighK = 200;

    /// <summary>Heat in J from which somebody else should look at an addition: 25 kJ boil off some 70 g of ether (0.36 kJ/g). Convention, no source.</summary>
    private const double LargeHeatJ = 25_000;

    /// <summary>Heat in J that, given off at once past the boiling point, no condenser takes: 100 kJ boil off some 280 g of ether (0.36 kJ/g). Convention, no source.</summary>
    private const double BoilOverJ = 100_000;

    /// <summary>An addition this much colder than the reaction accumulates, in K. Convention, no source.</summary>
    private const double ColderK = 10;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var state in context.Walk.States)
        {
            if (state.Reactions.Count > 0)
            {
                foreach (var finding in Of(state, context))
                {
                    yield return finding;
                }
            }
        }
    }

    private IEnumerable<Finding> Of(StepState state, ScreeningContext context)
    {
        if (AddedCold(state, context.Walk) is { } accumulated)
        {
            yield return accumulated;
        }

        // what is stated governs; for each reaction that states none one is looked for
        var looked = state.Reactions.Where(static reaction => reaction.HeatJPerMol is null).Select(reaction => (Reaction: reaction, Heat: ReactionHeatSource.Of(reaction, context.Plan))).ToArray();
        var stated = state.Reactions.Where(static reaction => reaction.HeatJPerMol is not null).ToArray();
        (Reaction Reaction, FoundHeat Heat)[] found = [.. looked.Where(static one => one.Heat is not null).Select(static one => (one.Reaction, one.Heat!))];
        if (found.Length < looked.Length)
        {
            yield return NotKnown(state, found.Length + stated.Length > 0);
        }

        var heat = found.Length == 0 ? state.ReactionHeat : ReactionHeat.Of(
            [
                .. stated.Select(reaction => (reaction.HeatJPerMol!.Value, ReactionHeatSource.Turnover(reaction, state), reaction.Accumulation)),
                .. found.Select(one => (one.Heat.JPerMol, ReactionHeatSource.Turnover(one.Reaction, state), one.Reaction.Accumulation)),
            ],
            state.Contents,
            state.TemperatureK);
        if (heat is null)
        {
            yield break;
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
            yield break;
        }

        var basis = HeatBasis.Of(stated.Length > 0, [.. found.Select(static one => one.Heat)]);
        if (OfRise(state, heat, basis, context) is { } finding)
        {
            yield return finding;
        }

        if (DosingScreen.Of(this, state, heat, basis, context) is { } dosing)
        {
            yield return dosing;
        }
    }

    private static Finding NotKnown(StepState state, bool others) => new()
    {
        Code = "data.reaction-heat",
        Hazard = Hazard.Data,
        Severity = state.Sealed ? Severity.Caution : Severity.Notice,
        Steps = [state.Step.Id],
        Vessel = state.Vessel.Id,
        Statement = $"The heat of {(others ? "one reaction" : "the reaction")} of step {state.Step.Id} is not stated, and neither enthalpies of formation nor a usual heat of its type are on file: "
            + (others ? $"it is left out of the rise in “{state.Vessel.Id}”." : $"how hot it can make “{state.Vessel.Id}” is not computed."),
    };

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

    private static Finding? OfRise(StepState state, ReactionHeat heat, HeatBasis basis, ScreeningContext context)
    {
        var rise = heat.AdiabaticRiseK!.Value;
        var mtsr = heat.MtsrK!.Value;
        var declaredOnset = state.Reactions.Min(static reaction => reaction.DecompositionOnsetK);
        if (rise < MediumK && !(mtsr >= declaredOnset))
        {
            return null;
        }

        var runaway = RunawayAssessment.Of(state, heat, context);
        var decomposes = mtsr >= runaway.OnsetK;
        var dosed = state.Step.OverS >= ControlNeeds.DosedFromS;
        var boils = runaway.BoilsK < mtsr - 0.02;
        var atOnce = rise > HighK && boils && heat.HeatJ >= BoilOverJ && !dosed && !WasDosed(state, context.Walk);
        var severity = mtsr >= declaredOnset || atOnce ? Severity.Danger
            : decomposes || runaway.Class >= 4 || (rise > HighK && (state.Sealed || !dosed)) || state.Sealed
                || (boils && state.Additions.Count > 0 && !dosed) || (rise >= MediumK && heat.HeatJ >= LargeHeatJ) ? Severity.Warning
            : Severity.Caution;
        var share = heat.AccumulationDeclared ? $"with the declared accumulation of {Wording.Text(Math.Round(heat.Accumulation * 100))} %" : "with all of the reagent counted as unreacted";
        return new Finding
        {
            Code = "heat.reaction",
            Hazard = Hazard.Heat,
            Severity = severity,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            Materials = [.. state.Reactions.SelectMany(static reaction => reaction.Consumes).Select(static one => one.MaterialId).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            Statement = $"Without cooling, step {state.Step.Id} heats “{state.Vessel.Id}” by up to {Wording.Figures(rise)} K{basis.Words}; {share} it reaches {Wording.Celsius(mtsr)}"
                + (decomposes ? $", above the {(declaredOnset is null ? "usual" : "declared")} onset of decomposition at {Wording.Celsius(runaway.OnsetK!.Value)}." : boils ? $", past boiling at {Wording.Celsius(runaway.BoilsK!.Value)}: dose it, and keep a condenser on." : state.Sealed ? " in a closed vessel." : ": dose it.")
                + runaway.ClassWords,
            Evidence = [.. Evidence(state, heat, basis, runaway, boils)],
        };
    }

    /// <summary>What the reactions of the step consume was dosed into the vessel in an earlier step.</summary>
    private static bool WasDosed(StepState state, WalkResult walk) =>
        walk.States.Any(earlier => earlier.Index < state.Index && string.Equals(earlier.Vessel.Id, state.Vessel.Id, StringComparison.Ordinal)
            && earlier.Additions.Any(addition => addition.OverS >= ControlNeeds.DosedFromS && state.Reactions.Any(reaction => reaction.Consumes.Any(one => string.Equals(one.MaterialId, addition.MaterialId, StringComparison.Ordinal)))));

    private static IEnumerable<Evidence> Evidence(StepState state, ReactionHeat heat, HeatBasis basis, RunawayAssessment runaway, bool boils)
    {
        var mtsr = heat.MtsrK!.Value;
        Quality[] qualities = [heat.Quality, basis.Quality, Quality.Estimated];
        var quality = qualities.Max();
        yield return Findings.Number("adiabatic rise", heat.AdiabaticRiseK!.Value, "K", MediumK, Model(heat, basis), quality, [.. heat.Sources, .. basis.Sources, "stoessel"]);
        yield return Findings.Number("MTSR", Wording.InCelsius(mtsr), "°C", runaway.OnsetK is { } at ? Wording.InCelsius(at) : boils ? Wording.InCelsius(runaway.BoilsK!.Value) : null, $"set temperature plus {Wording.Text(Math.Round(heat.Accumulation, 3))} of the adiabatic rise", heat.AccumulationDeclared ? Quality.Estimated : Quality.Assumed, "stoessel");
        if (runaway.DayK is { } day)
        {
            yield return Findings.Number("temperature for a day to the maximum rate", Wording.InCelsius(day), "°C", null, $"{runaway.OnsetBasis} taken as {Wording.Text(Runaway.DetectionLimitWPerKg)} W/kg, activation energy {Wording.Text(Runaway.CautiousActivationJPerMol / 1000)} kJ/mol, zero order", runaway.OnsetQuality, "keller-1997", "stoessel") with { Worse = WorseWhen.Lower };
            yield return Findings.Number("criticality class", runaway.Class!.Value, "1", 3, state.Sealed ? "order of MTSR and the temperature for a day; nothing holds the temperature of a closed vessel" : "order of MTSR, boiling point and the temperature for a day", Quality.Estimated, "stoessel");
        }
    }

    private static string Model(ReactionHeat heat, HeatBasis basis) =>
        $"{basis.Model} over the heat capacity of the liquids at 25 °C{(heat.LeftOut.Count == 0 ? "" : $"; left out, which makes it larger: {Wording.List(heat.LeftOut)}")}";
}
