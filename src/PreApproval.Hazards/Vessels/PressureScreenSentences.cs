using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>Sentences of the pressure screen.</summary>
internal static class PressureSentences
{
    public static string For(ClosedAssessment worst, GoverningRating rating, string code, Severity severity, IReadOnlyList<string> steps, Policy policy)
    {
        var state = worst.State;
        var temperature = Math.Abs(worst.Peak.TemperatureK - state.WorstTemperatureK) < 0.5
            ? Temperature(state)
            : $"at {Wording.Celsius(worst.Peak.TemperatureK)}, on the way to {Wording.Celsius(state.WorstTemperatureK)}";
        var gas = worst.UndeclaredGas is { } words ? $"; this counts {words}" : "";
        if (string.Equals(code, "pressure.liquid-full", StringComparison.Ordinal))
        {
            return $"{Wording.Capital(temperature)}, the liquid fills “{state.Vessel.Id}” completely in {Wording.Steps(steps)}; a full vessel bursts whatever its rating{gas}.";
        }

        var pressure = worst.WorstPaGauge!.Value;
        // what is left out can only raise it
        var atLeast = worst.LeftOut.Count > 0 ? "at least " : "";
        var reaches = $"{Wording.Capital(temperature)}, “{state.Vessel.Id}” reaches {atLeast}{Wording.BarGauge(pressure)} in {Wording.Steps(steps)}";
        if (string.Equals(code, "pressure.unknown-rating", StringComparison.Ordinal))
        {
            var standing = rating.PaGauge is null
                ? $"{rating.Of} has no stated rating, which counts as 0 bar(g)"
                : $"{rating.Of} is rated 0 bar(g){rating.Note}";
            var band = severity == Severity.Caution ? $"; unheated, this stays within {Wording.BarGauge(policy.UnratedCautionPa)}" : "";
            return $"{reaches}, and {standing}{band}{gas}.";
        }

        var rated = rating.PaGauge!.Value;
        return string.Equals(code, "pressure.exceeds-rating", StringComparison.Ordinal)
            ? $"{reaches}, above the {Wording.BarGauge(rated)} that {rating.Of} is rated for{rating.Note}{gas}."
            : $"{reaches}, {atLeast}{Wording.Text(Math.Floor(100 * pressure / rated))} % of the {Wording.BarGauge(rated)} that {rating.Of} is rated for{rating.Note}{gas}.";
    }

    /// <summary>For the model of a number that something is left out of: it is a lower bound. Empty when nothing is.</summary>
    public static string AtLeast(IReadOnlyList<string> leftOut) => leftOut.Count == 0 ? "" : $"; at least, without {Wording.List(leftOut)}";

    public static string ModelWords(VesselModel model) => model switch
    {
        VesselModel.ModifiedRaoult => "modified Raoult with UNIFAC activity coefficients, isochoric",
        VesselModel.PengRobinson => "Peng–Robinson, isochoric",
        VesselModel.ModifiedUnifac => "modified Raoult with modified UNIFAC activity coefficients, isochoric",
        VesselModel.Psrk => "PSRK (predictive Soave–Redlich–Kwong), isochoric",
        VesselModel.ImmiscibleBound => "immiscible bound: sum of pure vapour pressures and trapped gas",
    };

    /// <summary>How the reaction came to govern the worst credible temperature.</summary>
    public static string ReactionModel(StepState state) => (state.ReactionHeat is { AccumulationDeclared: true }
        ? "temperature that the reaction reaches without cooling, with the declared accumulation"
        : "temperature that the reaction reaches without cooling, with all of the reagent counted as unreacted")
        + (state.ReactionHeat is { LookedUp: { Count: > 0 } from } ? $"; heat not stated, estimated from {Wording.List(from)}" : "");

    private static string Temperature(StepState state) =>
        state.ReactionGoverns
            ? $"at {Wording.Celsius(state.WorstTemperatureK)}, which the reaction reaches from {Wording.Celsius(state.TemperatureK)} without cooling{(state.ReactionHeat!.AccumulationDeclared ? "" : " (all of the reagent counts as unreacted; no accumulation is stated)")}{(state.ReactionHeat.LookedUp.Count > 0 ? " (heat not stated; estimated)" : "")}"
        : state.WorstTemperatureK <= state.TemperatureK ? $"at {Wording.Celsius(state.TemperatureK)}"
        : state.SurfaceStated && state.SurfaceTemperatureK >= state.WorstTemperatureK
            ? $"at {Wording.Celsius(state.WorstTemperatureK)}, the temperature of the hottest surface"
        : state.Heated
            ? $"at {Wording.Celsius(state.WorstTemperatureK)}, the set {Wording.Celsius(state.TemperatureK)} and {Wording.Text(Math.Round(state.WorstTemperatureK - state.TemperatureK))} K overshoot"
            : $"at {Wording.Celsius(state.WorstTemperatureK)}, should the cooling fail";
}

/// <summary>Numbers behind a pressure finding.</summary>
internal static class PressureEvidence
{
    /// <summary>Name of the leading number of a pressure finding.</summary>
    public const string Worst = "worst-case pressure";

    public const string Share = "share of the rating";

    private static IReadOnlyList<string> HeatSources(StepState state) =>
        state is { ReactionGoverns: true, ReactionHeat: { LookedUp.Count: > 0 } heat } ? ["common-practice", "stoessel", .. heat.Sources] : ["common-practice"];

    public static IReadOnlyList<Evidence> For(ClosedAssessment worst, GoverningRating rating, Policy policy)
    {
        var state = worst.State;
        var limitBar = (rating.PaGauge ?? 0) / 1e5;
        var lowerBound = PressureSentences.AtLeast(worst.LeftOut);
        var evidence = new List<Evidence>
        {
            new()
            {
                Name = "worst credible temperature",
                Value = Wording.InCelsius(state.WorstTemperatureK),
                Unit = "°C",
                Model = state.ReactionGoverns ? PressureSentences.ReactionModel(state) : "larger of set temperature plus overshoot and hottest surface",
                Sources = References.Full(HeatSources(state)),
                Quality = Quality.Assumed,
            },
        };
        if (worst.Peak.TemperatureK != state.WorstTemperatureK)
        {
            evidence.Add(new Evidence
            {
                Name = "temperature of the highest pressure",
                Value = Wording.InCelsius(worst.Peak.TemperatureK),
                Unit = "°C",
                Model = "highest governing pressure between closing and the worst credible temperature",
                Sources = References.Full(["common-practice"]),
                Quality = Quality.Estimated,
            });
        }

        if (rating is { Share: < 1, PaGauge: { } kept })
        {
            evidence.Add(new Evidence
            {
                Name = "rating at the worst credible temperature",
                Worse = WorseWhen.Lower,
                Value = kept / 1e5,
                Unit = "bar(g)",
                Model = rating.Passed is not null ? "nothing that is stated counts above the temperature limit" : "cold rating followed down the pressure–temperature table of austenitic steel, since no temperature stands beside it",
                Sources = References.Full(["common-practice"]),
                Quality = Quality.Assumed,
            });
        }

        if (rating.Wall is { } wall)
        {
            evidence.Add(new Evidence
            {
                Name = "rating of the glass wall",
                Worse = WorseWhen.Lower,
                Value = rating.PaGauge!.Value / 1e5,
                Unit = "bar(g)",
                Model = $"p = 140 s/(d − s), borosilicate glass 3.3, K/S = 7 N/mm²{(wall.Annealed ? "" : "; halved, since its annealing is not known")}",
                Sources = References.Full(["en-1595"]),
                Quality = Quality.Estimated,
            });
        }

        Add(Worst, worst.Worst, limitBar);
        Add("pressure at the set temperature", worst.AtSet, limitBar);
        if (worst.WorstPaGauge is { } pressure && rating.PaGauge is { } rated and > 0)
        {
            evidence.Add(new Evidence
            {
                Name = Share,
                Value = pressure / rated,
                Unit = "fraction",
                Limit = GoverningRating.WarningShare(state.Vessel, policy),
                Model = "worst-case gauge pressure over the weakest rating" + lowerBound,
                Sources = References.Full(["common-practice"]),
                Quality = worst.Worst.Quality,
            });
        }

        return evidence;

        void Add(string name, ModelState answer, double limit)
        {
            if (answer.PressurePaAbs is { } pa)
            {
                evidence.Add(new Evidence
                {
                    Name = name,
                    Value = Wording.InBarGauge(pa),
                    Unit = "bar(g)",
                    Limit = limit,
                    Model = PressureSentences.ModelWords(answer.Model) + lowerBound,
                    Sources = References.Full(answer.Sources),
                    Quality = answer.Quality,
                });
            }
        }
    }
}
