using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Exposure;

/// <summary>
/// What people would breathe beside an open vessel, as a ratio to the exposure limit, by amount, temperature and place. A closed vessel gives nothing off here; what it does when it lets go is the matter of the release.
/// Method and examples: docs/methods/airborne.md.
/// </summary>
public sealed class AirborneScreen : IScreen
{
    /// <summary>Ratio to the limit from which the bench is a warning: the model is good to a factor of three. Common practice, no source.</summary>
    internal const double WarningRatio = 3;

    private const double WaterKgPerMol = 0.018015;
    private const double ShiftS = 8 * 3600;
    private const double ShortTermS = 15 * 60;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        var place = context.Plan.Place?.Kind;
        var worst = new Dictionary<string, List<Breathed>>(StringComparer.Ordinal);
        foreach (var state in context.Walk.States)
        {
            if (OpenSurface.M2(state) is not { } area)
            {
                continue;
            }

            for (var index = 0; index < state.Contents.Count; index++)
            {
                if (Above(state, state.Contents[index], area, context) is { } breathed)
                {
                    if (!worst.TryGetValue(state.Vessel.Id, out var list))
                    {
                        worst[state.Vessel.Id] = list = [];
                    }

                    list.Add(breathed);
                }
            }
        }

        foreach (var (vessel, list) in worst)
        {
            yield return Describe(vessel, list, place, context);
        }

        if (NotJudged(context, place) is { } unjudged)
        {
            yield return unjudged;
        }

        if (AirborneGaps.Find(context) is { } gap)
        {
            yield return gap;
        }
    }

    /// <summary>What is breathed of a content, where that is the limit or more.</summary>
    private static Breathed? Above(StepState state, Content content, double areaM2, ScreeningContext context)
    {
        if (content is not { Spent: false, Mol: null or > 0, Substance.Known: { Involatile: false, ExposureLimits: { } limits } known } || PartialPressurePa(state, content, known) is not { } pressure)
        {
            return null;
        }

        // the lighter a molecule, the more of it evaporates: unknown, it counts as the lightest liquid
        var molarMass = known.Identity.MolarMassKgPerMol ?? WaterKgPerMol;
        var duration = state.Step.DurationS ?? state.Step.OverS;
        var source = IdealGas.VolumeM3(Evaporation.RateKgPerS(molarMass, areaM2, pressure, state.TemperatureK) / molarMass, Walk.RoomTemperatureK);
        if (content.Mol is { } mol && duration is > 0 and var lasts)
        {
            // no more than there is
            source = Math.Min(source, IdealGas.VolumeM3(mol, Walk.RoomTemperatureK) / lasts);
        }

        var ppm = 1e6 * (context.Plan.Place?.Kind is PlaceKind.Hood or PlaceKind.HoodWithScrubber ? BreathingZone.BeforeHood(source) : BreathingZone.OnBench(source, RoomFlowM3PerS(context.Plan.Place)));
        var (ratio, limit) = Worst(ppm, limits, duration);
        return limit is null || !(ratio >= 1) ? null : new Breathed(state, content, ppm, limit, ratio);
    }

    /// <summary>In Pa, at most one atmosphere; null where it cannot be had.</summary>
    private static double? PartialPressurePa(StepState state, Content content, Substance known) =>
        DissolvedGas.Pa(state, content) is { } dissolved ? Math.Min(dissolved, AtmospherePa)
        : IsLiquid(content, state) && VapourPressure.At(known, state.TemperatureK) is { Volatility: Volatility.Condensable } saturation ? Math.Min(MoleFraction(state, content) * saturation.Pascal, AtmospherePa)
        : null;

    /// <summary>
    /// True for a liquid, and for a gas that came in as a solution in a liquid other than water and has a vapour pressure at the temperature (phosgene in toluene): it is one of the liquids there. What liquids hold by
    /// reaction or strong solvation, ammonia and hydrogen chloride among them, is not.
    /// </summary>
    internal static bool IsLiquid(Content content, StepState state) => content.Substance.Known is { } known
        && (known.PhaseAt298K == Phase.Liquid
            || (known.PhaseAt298K == Phase.Gas && content.MassFraction is < 1 && !SealedCharge.IsHeld(known) && VapourPressure.At(known, state.TemperatureK) is { Volatility: Volatility.Condensable }
                && IsDissolved(content, state)));

    private static bool IsDissolved(Content gas, StepState state)
    {
        for (var index = 0; index < state.Contents.Count; index++)
        {
            if (state.Contents[index] is { Spent: false, Substance.Known: { PhaseAt298K: Phase.Liquid, Key: not SolutionVapour.Water } } other && string.Equals(other.MaterialId, gas.MaterialId, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>Share of the liquid by amount; 1, the cautious reading, where an amount is not known.</summary>
    private static double MoleFraction(StepState state, Content content)
    {
        double all = 0;
        double own = 0;
        for (var index = 0; index < state.Contents.Count; index++)
        {
            var other = state.Contents[index];
            if (!IsLiquid(other, state) || other.Spent)
            {
                continue;
            }

            if (other.Mol is not { } mol)
            {
                return 1;
            }

            all += mol;
            own += string.Equals(other.Substance.Key, content.Substance.Key, StringComparison.Ordinal) ? mol : 0;
        }

        return all > 0 ? own / all : 1;
    }

    private static double RoomFlowM3PerS(Place? place) =>
        place is { Kind: PlaceKind.Bench, AirFlowM3PerS: > 0 and var stated } ? stated : BreathingZone.RoomFlowM3PerS(place?.RoomVolumeM3 is > 0 and var room ? room : FireThresholds.DefaultRoomM3);

    /// <summary>The limit that the concentration comes nearest to: an average over a shift is scaled by the time of the step, which counts as a shift when it is not stated.</summary>
    private static (double Ratio, ExposureLimit? Limit) Worst(double ppm, ExposureLimits limits, double? durationS)
    {
        var (ratio, worst) = (0.0, (ExposureLimit?)null);
        ReadOnlySpan<(ExposureLimit? Limit, double Share)> all =
        [
            (WithPpm(limits, LimitKind.TimeWeightedAverage), Math.Min(1, (durationS ?? ShiftS) / ShiftS)),
            (WithPpm(limits, LimitKind.ShortTerm), Math.Min(1, (durationS ?? ShortTermS) / ShortTermS)),
            (WithPpm(limits, LimitKind.Ceiling), 1.0),
        ];
        foreach (var (limit, share) in all)
        {
            if (limit?.Ppm is > 0 and var allowed && ppm * share / allowed > ratio)
            {
                (ratio, worst) = (ppm * share / allowed, limit);
            }
        }

        return (ratio, worst);
    }

    /// <summary>The strictest limit of a kind that is known in ppm: a stricter one in mg/m³ alone hides no other.</summary>
    private static ExposureLimit? WithPpm(ExposureLimits limits, LimitKind kind) =>
        limits.Of(kind) is { Ppm: > 0 } strictest ? strictest : StrictestInPpm(limits, kind);

    private static ExposureLimit? StrictestInPpm(ExposureLimits limits, LimitKind kind)
    {
        ExposureLimit? strictest = null;
        for (var index = 0; index < limits.All.Count; index++)
        {
            var limit = limits.All[index];
            if (limit.Kind == kind && limit.Ppm is > 0 and var ppm && !(strictest?.Ppm <= ppm))
            {
                strictest = limit;
            }
        }

        return strictest;
    }

    private static Finding Describe(string vessel, List<Breathed> list, PlaceKind? place, ScreeningContext context)
    {
        var bySubstance = list.GroupBy(static one => one.Content.Substance.Key, StringComparer.Ordinal)
            .Select(static group => group.OrderByDescending(static one => one.Ratio).ThenBy(static one => one.State.Index).First())
            .OrderByDescending(static one => one.Ratio)
            .ThenBy(static one => one.Content.Substance.Key, StringComparer.Ordinal)
            .ToArray();
        var most = bySubstance[0];
        var dangerous = Array.Exists(bySubstance, static one => one.Ppm >= one.Content.Substance.Known!.Idlh?.Ppm);
        return new Finding
        {
            Code = "toxicity.airborne",
            Hazard = Hazard.Toxicity,
            Severity = place is null ? Severity.Caution : dangerous ? Severity.Danger : most.Ratio >= WarningRatio ? Severity.Warning : Severity.Caution,
            // what a bench would make a warning or a danger is not cleared by leaving out the place
            LeavesCheckUndone = place is null && (dangerous || most.Ratio >= WarningRatio),
            Steps = [.. list.OrderBy(static one => one.State.Index).Select(static one => one.State.Step.Id).Distinct(StringComparer.Ordinal)],
            Vessel = vessel,
            Materials = Findings.Ids(list.Select(static one => one.Content)),
            Statement = $"{PlaceWords(place)}, whoever stands at the open “{vessel}” would breathe {Wording.List(bySubstance.Select(Words))}: {(place is PlaceKind.Hood or PlaceKind.HoodWithScrubber ? "close it or cool it" : "work in a fume hood, or close it")}.",
            Evidence =
            [
                .. bySubstance.Select(one => Findings.Number(
                    $"{one.Content.Substance.Name} at the breathing zone in step {one.State.Step.Id}", one.Ppm, "ppm", one.Limit.Ppm, Model(one, place, context), Quality.Estimated,
                    [one.Limit.Source, "crowl-louvar", place is PlaceKind.Hood or PlaceKind.HoodWithScrubber ? "ansi-z9-5" : "nicas-1996"]) with
                {
                    Quantity = $"{one.Content.Substance.Name} at the breathing zone",
                }),
            ],
        };
    }

    private static string PlaceWords(PlaceKind? place) => place is not { } kind ? "The place is not stated: on an open bench" : kind switch
    {
        PlaceKind.Bench => "On the bench",
        PlaceKind.Hood => "Before the hood",
        PlaceKind.HoodWithScrubber => "Before the hood with a scrubber",
    };

    private static string Words(Breathed one) =>
        $"about {Wording.Figures(one.Ppm)} ppm of {one.Content.Substance.Name} at {Wording.Celsius(one.State.TemperatureK)}, {Wording.Figures(one.Ratio)} times the {LimitWords(one.Limit.Kind)} of {PpmWords.Of(one.Limit.Ppm!.Value)} ppm ({one.Limit.Jurisdiction}){(one.Content.Substance.Known!.Idlh?.Ppm is { } danger && one.Ppm >= danger ? $" and above the immediately dangerous {Wording.Figures(danger)} ppm" : "")}";

    private static string LimitWords(LimitKind kind) => kind switch
    {
        LimitKind.TimeWeightedAverage => "shift limit",
        LimitKind.ShortTerm => "short-term limit",
        LimitKind.Ceiling => "ceiling",
    };

    private static string Model(Breathed one, PlaceKind? place, ScreeningContext context)
    {
        var source = $"evaporation from the opening ({(one.Content.Substance.Known!.PhaseAt298K == Phase.Gas && DissolvedGas.Pa(one.State, one.Content) is not null ? "partial pressure over the solution in water" : "ideal mixture")}{(one.Content.Substance.Known!.Identity.MolarMassKgPerMol is null ? "; molar mass not known, taken as that of water" : "")})";
        return place is PlaceKind.Hood or PlaceKind.HoodWithScrubber
            ? $"{source}, leakage of a hood that holds its tracer test"
            : $"{source}, near field and room with {Wording.Figures(RoomFlowM3PerS(context.Plan.Place) * 3600)} m³/h of fresh air{(one.State.Step.DurationS is null && one.State.Step.OverS is null ? "; no time stated, so a whole shift" : "")}";
    }

    /// <summary>Volatile substances of a harmful band without an exposure limit that stand open: sorted by band only.</summary>
    private static Finding? NotJudged(ScreeningContext context, PlaceKind? place)
    {
        if (place is PlaceKind.Hood or PlaceKind.HoodWithScrubber)
        {
            return null;
        }

        Dictionary<string, (Content Content, char Band)>? found = null;
        var steps = new List<string>();
        foreach (var state in context.Walk.States)
        {
            for (var index = 0; index < state.Contents.Count; index++)
            {
                if (state.Contents[index] is { Spent: false, Mol: null or > 0, Substance.Known: { Involatile: false, PhaseAt298K: Phase.Liquid, ExposureLimits: null, BoilingPointK: { } boils, HazardStatements.Value: { Count: > 0 } statements } } content
                    && HealthBand.At(boils.Value - 273.15, state.TemperatureK - 273.15) != Evaporability.Low
                    && OpenSurface.M2(state) is not null
                    && HealthBand.Of(statements.Select(static statement => statement.Code)) is >= 'C' and var band)
                {
                    (found ??= new(StringComparer.Ordinal)).TryAdd(content.Substance.Key, (content, band));
                    steps.Add(state.Step.Id);
                }
            }
        }

        if (found is null)
        {
            return null;
        }

        var ordered = found.OrderBy(static pair => pair.Key, StringComparer.Ordinal).Select(static pair => pair.Value).ToArray();
        return new Finding
        {
            Code = "toxicity.no-limit",
            Hazard = Hazard.Toxicity,
            Severity = place == PlaceKind.Bench ? Severity.Caution : Severity.Notice,
            Steps = [.. steps.Distinct(StringComparer.Ordinal)],
            Materials = Findings.Ids(ordered.Select(static one => one.Content)),
            Statement = $"{Wording.Capital(Wording.List(ordered.Select(static one => one.Content.Substance.Name)))} {(ordered.Length == 1 ? "evaporates, has" : "evaporate, have")} no exposure limit on file and by {(ordered.Length == 1 ? "its" : "their")} hazard statements {(ordered.Length == 1 ? "is" : "are")} kept in a fume hood{(place is null ? "; the place is not stated" : ", not on the bench")}.",
            Evidence = [.. ordered.Select(static one => Findings.Number($"health band {one.Band} of {one.Content.Substance.Name}", 1, "rule", null, "hazard statements and volatility", Quality.Assumed, "health-bands-1998", "clp-annex-vi"))],
        };
    }

    /// <summary>One substance at one step.</summary>
    private sealed record Breathed(StepState State, Content Content, double Ppm, ExposureLimit Limit, double Ratio);
}
