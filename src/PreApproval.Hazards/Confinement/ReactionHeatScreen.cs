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

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var state in context.Walk.States)
        {
            if (state.ReactionHeat is not { } heat)
            {
                continue;
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
