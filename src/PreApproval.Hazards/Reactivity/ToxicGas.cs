using PreApproval.Hazards.Confinement;
using PreApproval.Hazards.Exposure;
using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Health;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Reactivity;

/// <summary>A toxic gas in the air of hood, bench and room, against what is immediately dangerous and against its limit over 15 minutes. Rules: docs/methods/gas.md.</summary>
internal static class ToxicGas
{
    /// <summary>Air in m³ around the head of a person at a bench. Common practice, no source.</summary>
    private const double NearestAirM3 = 1;

    /// <summary>Share of the IDLH from which a toxic gas is named. Common practice, no source.</summary>
    private const double NamedShare = 0.1;

    /// <summary>Time in s in which gas without a stated time comes. Common practice, no source.</summary>
    private const double AtOnceS = 60;

    /// <summary>Multiple of the IDLH in the air of the hood from which a hood without a scrubber is a warning: the dilution is good to a factor of three. Common practice, no source.</summary>
    private const double WithoutScrubberShare = 3;

    private const double LitresPerM3 = 1e3;

    /// <param name="screen">Who asks, for the trial of a longer time.</param>
    /// <param name="state">The step.</param>
    /// <param name="gases">Its gases of known amount.</param>
    /// <param name="verb">What the step does with them: gives off, lets out.</param>
    /// <param name="context">What is screened.</param>
    public static IEnumerable<Finding> Find(IScreen screen, StepState state, OpenGas[] gases, string verb, ScreeningContext context) =>
        gases.Where(static gas => gas.Gas?.Idlh?.Ppm is > 0 && gas.CountedMol > 0)
            .GroupBy(static gas => gas.Gas!.Key, StringComparer.Ordinal)
            .Select(toxic => Of(screen, state, [.. toxic], Verb(toxic, verb), context))
            .OfType<Finding>();

    private static string Verb(IEnumerable<OpenGas> gases, string verb)
    {
        var (made, led) = (gases.Any(static gas => !gas.IsLedIn), gases.Any(static gas => gas.IsLedIn));
        return made && led ? $"leads in and {verb}" : led ? "leads in" : verb;
    }

    private static Finding? Of(IScreen screen, StepState state, OpenGas[] gases, string verb, ScreeningContext context)
    {
        var gas = gases[0].Gas!;
        var danger = gas.Idlh!;
        var limit = danger.Ppm!.Value;
        var mol = gases.Sum(static one => one.CountedMol!.Value);
        // a place that is not stated has the air of a bench
        var place = context.Plan.Place;
        var bench = place is not { IsHood: true };
        var exhaust = place?.AirFlowM3PerS is { } stated and > 0 ? stated : FireThresholds.DefaultHoodFlowM3PerS;
        var atOnce = gases.Where(one => Seconds(one, state) is null).Sum(static one => one.CountedMol!.Value);
        var timed = atOnce <= 0;
        var inExhaust = GasDilution.PpmInExhaust(gases.Sum(one => Seconds(one, state) is { } own ? one.CountedMol!.Value / own : 0), exhaust);
        double? drawn = !bench && timed ? inExhaust : null;
        var ppm = drawn ?? (bench ? GasDilution.PpmIn(mol, NearestAirM3) : GasDilution.PpmIn(atOnce, FireThresholds.StillHoodM3) + inExhaust);
        var room = new InRoom(gas, mol, place?.RoomVolumeM3 is > 0 and var size ? size : FireThresholds.DefaultRoomM3);
        var breathed = bench && room.Ratio >= 1;
        double? near = bench ? NearPpm(gases.Sum(one => one.CountedMol!.Value / (Seconds(one, state) ?? AtOnceS)), room) : null;
        var breathesDanger = near >= limit || (bench && room.Ppm >= limit);
        if (ppm < NamedShare * limit && !breathed && !breathesDanger)
        {
            return null;
        }

        var where = place?.Kind is null ? "in the nearest cubic metre of a bench, for want of a stated place" : bench ? "in the nearest cubic metre" : drawn is null ? inExhaust > 0 ? "in the air standing in a hood, because no time is stated for a part of it" : "in the air standing in a hood, for want of a stated time" : $"in an exhaust of {Wording.Figures(exhaust)} m³/s over the time of the step";
        var named = Array.TrueForAll(gases, one => string.Equals(gas.Identity.Name, one.Name, StringComparison.Ordinal)) ? gas.Identity.Name : $"{GasScreen.Names(gases)} (taken as {gas.Identity.Name})";
        var above = ppm >= limit;
        var finding = new Finding
        {
            Code = "toxicity.gas",
            Hazard = Hazard.Toxicity,
            Materials = GasScreen.Materials(gases),
            Severity = Grade(above, breathed, place?.Kind, breathesDanger, !bench && ppm >= WithoutScrubberShare * limit && !HasScrubber(context, state)),
            LeavesCheckUndone = (above || breathesDanger) && place?.Kind is null,
            Steps = [state.Step.Id],
            Vessel = state.Vessel.Id,
            About = gas.Key,
            Statement = $"Step {state.Step.Id} {verb} {GasScreen.UpTo(gases)} {Wording.Figures(ReleaseLaw.VapourM3(mol) * LitresPerM3)} L of {named}: {Wording.Figures(ppm)} ppm {where}, {(above ? "above" : "below")} the {Wording.Figures(limit)} ppm that are immediately dangerous to life and health{(near >= limit ? $", and about {Wording.Figures(near.Value)} ppm beside the vessel over the time of the step" : "")}{(breathed ? room.Words : "")}{(Array.Exists(gases, static one => one.IsLedIn) ? "; all of it counts as unabsorbed, save what declared reactions use up" : "")}. {(bench ? "Do it in a hood, into a scrubber." : "Lead it into a scrubber and keep the sash down.")}",
            Evidence =
            [
                Findings.Number($"{gas.Identity.Name} in the air", ppm, "ppm", limit, drawn is null ? "evenly mixed, no ventilation" : "steady flow, evenly mixed into the exhaust", danger.Quality, danger.Source, "ideal-gas"),
                .. room.Evidence(),
                .. near is { } beside ? [Findings.Number($"{gas.Identity.Name} beside the vessel", beside, "ppm", limit, timed ? "near field and room, steady over the time of the step" : "near field and room, what has no stated time within 60 s", Quality.Estimated, danger.Source, "nicas-1996", "common-practice")] : Array.Empty<Evidence>(),
            ],
        };
        return !above || drawn is null || context.IsTrial || state.Step.Materials.Count == 0
            ? finding
            : finding with { ClearedBy = Findings.Tried(screen, finding, context, new Clearing("time of addition", Findings.Step(state.Index, "over"), Math.Ceiling(GasDilution.PpmInExhaust(mol, exhaust) / (NamedShare * limit) / 60 * 1.001), "min", null)) };
    }

    /// <summary>What whoever stands at the vessel breathes in ppm: near field and room as beside an evaporating liquid, the room with no more than all of it.</summary>
    private static double NearPpm(double molPerS, InRoom room)
    {
        var source = GasDilution.PpmIn(molPerS, 1);
        return (source / BreathingZone.NearFieldFlowM3PerS) + Math.Min(source / BreathingZone.RoomFlowM3PerS(room.RoomM3), room.Ppm);
    }

    /// <summary>Time in s over which one source comes: what is led in or vented takes the whole step, what reacts only as long as it is dosed; null when none is stated.</summary>
    private static double? Seconds(OpenGas gas, StepState state) =>
        (state.Step.OverS ?? (gas.IsLedIn || state.Step.Action is StepAction.Vent or StepAction.Purge or StepAction.Evacuate ? state.Step.DurationS : null)) is > 0 and var seconds ? seconds : null;

    private static bool HasScrubber(ScreeningContext context, StepState state) =>
        context.Plan.Place?.Kind == PlaceKind.HoodWithScrubber
        || context.Safeguards.Any(safeguard => string.Equals(safeguard.Control, "scrubber", StringComparison.Ordinal)
            && (safeguard.Safeguard.Steps.Count == 0 || safeguard.Safeguard.Steps.Contains(state.Step.Id, StringComparer.Ordinal)));

    private static Severity Grade(bool above, bool breathed, PlaceKind? place, bool breathesDanger, bool muchUnscrubbed) => breathesDanger ? Severity.Danger : (above, place) switch
    {
        // nothing stands between the gas and the room
        (true, PlaceKind.Bench) => Severity.Warning,
        (true, null) => Severity.Caution,
        (true, _) => muchUnscrubbed ? Severity.Warning : Severity.Caution,
        (false, _) => breathed ? Severity.Caution : Severity.Notice,
    };

    /// <summary>The gas evenly mixed into the room, against its limit over 15 minutes or its ceiling.</summary>
    private sealed record InRoom(Substance Gas, double Mol, double RoomM3)
    {
        public double Ppm { get; } = GasDilution.PpmIn(Mol, RoomM3);

        public double? Ratio => Ppm / Limit?.Ppm;

        public string Words => $", and {Wording.Figures(Ppm)} ppm in a room of {Wording.Figures(RoomM3)} m³, {Wording.Figures(Ratio ?? 0)} times the {(Limit?.Kind == LimitKind.Ceiling ? "ceiling" : "short-term limit")} of {PpmWords.Of(Limit?.Ppm ?? 0)} ppm ({Limit?.Jurisdiction})";

        private ExposureLimit? Limit { get; } = Gas.ExposureLimits?.All.Where(static limit => limit.Kind is LimitKind.ShortTerm or LimitKind.Ceiling && limit.Ppm is > 0).MinBy(static limit => limit.Ppm);

        public IEnumerable<Evidence> Evidence()
        {
            if (Limit is { Ppm: { } ppm } limit)
            {
                yield return Findings.Number($"{Gas.Identity.Name} in the air of the room", Ppm, "ppm", ppm, $"evenly mixed into {Wording.Figures(RoomM3)} m³, no ventilation", limit.Quality, limit.Source, "ideal-gas");
            }
        }
    }
}
