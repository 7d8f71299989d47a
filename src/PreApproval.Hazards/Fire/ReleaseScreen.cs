using PreApproval.Hazards.Health;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// If it lets go: for each closed vessel that is heated, gassing or under pressure, what flashes off, what room it makes flammable, what lights it, and
/// what people breathe; and what a spill of the open ones does. Consequences, not likelihoods: a notice or a caution. Rules: docs/methods/release.md.
/// </summary>
internal static partial class ReleaseScreen
{
    /// <summary>A room concentration counts from vapour pressures at this temperature, in K.</summary>
    private const double RoomK = 298.15;

    private static readonly string AssumedRoom = $"a room of {Wording.Text(FireThresholds.DefaultRoomM3)} m³ (not stated; assumed)";

    public static IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var group in context.Walk.ByVessel)
        {
            var closed = group.Chosen(static state => state.Sealed && (state.Heated || state.HeatedOrGassingSinceClosing || state.Closing!.PressurePaAbs > 1.05 * AtmospherePa));
            if (closed.Length > 0)
            {
                foreach (var finding in LetsGo(closed, context))
                {
                    yield return finding;
                }
            }

            var open = group.Chosen(static state => !state.Sealed);
            if (Spilled(open, context) is { } spill)
            {
                yield return spill;
            }

            if (FireSpill(open, context) is { } fire)
            {
                yield return fire;
            }
        }
    }

    private static IEnumerable<Finding> LetsGo(StepState[] states, ScreeningContext context)
    {
        var state = states.MaxBy(static one => one.WorstTemperatureK)!;
        if (ReleaseEstimate.Of(state) is not { } release)
        {
            yield break;
        }

        string[] steps = StepIds.Of(states);
        if (release.Parts.Any(static part => BurningMaterials.Of(part.Substance) is not null))
        {
            yield return Fire(state, steps, release, context);
        }

        var exposures = release.Parts.Select(part => new Exposure(part.Substance, part.Mol, RoomOf(context))).ToArray();
        if (Array.Exists(exposures, static exposure => exposure.AboveIdlh || exposure.AboveLimit))
        {
            yield return Breathed("toxicity.release", state, steps, exposures.Chosen(static exposure => exposure.AboveIdlh || exposure.AboveLimit), $"If “{state.Vessel.Id}” lets go and evaporates", context) with
            {
                Severity = Array.Exists(exposures, static exposure => exposure.AboveIdlh) ? Severity.Caution : Severity.Notice,
            };
        }

        // below a limit on file a missing dangerous concentration decides nothing; above it the sentence there says so
        var unlimited = exposures.Chosen(static exposure => exposure is { Limit: null, AboveIdlh: false } && !IsHarmless(exposure.Substance));
        if (unlimited.Length > 0)
        {
            string[] sentences =
            [
                .. NotJudged("Neither an exposure limit nor an immediately dangerous concentration of", unlimited.Where(static exposure => exposure.Danger is null)),
                .. NotJudged("No exposure limit of", unlimited.Where(static exposure => exposure.Danger is not null)),
            ];
            yield return new Finding
            {
                Code = "data.exposure-limit",
                Hazard = Hazard.Data,
                Severity = Severity.Notice,
                Steps = steps,
                Vessel = state.Vessel.Id,
                Statement = $"{string.Join("; ", sentences)}: what people would breathe if “{state.Vessel.Id}” lets go is not judged by it.",
            };
        }
    }

    private static IEnumerable<string> NotJudged(string what, IEnumerable<Exposure> exposures)
    {
        string[] names = [.. exposures.Select(static exposure => exposure.Substance.Name).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        return names.Length == 0 ? [] : [$"{what} {Wording.List(names)} is on file"];
    }

    // water and inert gases need no limit of their own
    private static bool IsHarmless(PlanSubstance substance) => FamilyTable.Default.Of(substance).Any(static family => family is "water" or "inert gases");

    private static Finding Fire(StepState state, string[] steps, ReleaseEstimate release, ScreeningContext context)
    {
        var room = RoomOf(context);
        var inRoom = release.ShareOfLimit(room);
        var inHood = release.ShareOfLimit(FireThresholds.StillHoodM3);
        var ignites = state.Contents.Where(static content => !content.Spent && content.Substance.Known?.AutoignitionK is not null && content.Substance.Known.NonFlammable is not { Value: true })
            .OrderBy(static content => content.Substance.Known!.AutoignitionK!.Governing.Value)
            .ThenBy(static content => content.Substance.Key, StringComparer.Ordinal)
            .FirstOrDefault(content => HotSurface.SurfaceK(state) >= content.Substance.Known!.AutoignitionK!.Governing.Value);
        var spread = ReleaseSpread.Of(context.Plan.Place);
        var evaporating = release.ShareAsItEvaporates(spread);
        var grave = ignites is not null || release.CloudM3 >= FireThresholds.StillHoodM3 ? Severity.Caution : Severity.Notice;
        return new Finding
        {
            Code = "fire.release",
            Hazard = Hazard.Fire,
            Severity = evaporating is { } share && ReleaseSpread.Of(share) < grave ? ReleaseSpread.Of(share) : grave,
            Steps = steps,
            Vessel = state.Vessel.Id,
            Materials = MaterialIds.Of(state.Contents.Where(static content => !content.Spent && BurningMaterials.Of(content.Substance) is not null)),
            Statement = $"If “{state.Vessel.Id}” lets go at {Wording.Celsius(release.TemperatureK)}, {FlashWords(release)}; {CloudWords(release, evaporating, inRoom, inHood, context)}{(ignites is null ? "" : $". The surface at {Wording.Celsius(HotSurface.SurfaceK(state))} lights {ignites.Substance.Name} without a spark")}.",
            Evidence = [.. Evidence(release, evaporating, spread, inRoom, inHood, room)],
        };
    }

    private static string FlashWords(ReleaseEstimate release) => release switch
    {
        { FlashBecause: { } because } => $"how much flashes off is not known ({because}), so all of it counts: about {ShareWords.Volume(release.AtOnceM3)} of vapour",
        { FlashFraction: 0, AtOnceMol: 0 } => "nothing flashes off at once, the liquid is below its boiling point",
        { FlashFraction: > 0 and var fraction } => $"about {Wording.Text(Math.Round(fraction * 100))} % of the liquid flashes off at once, {ShareWords.Volume(release.AtOnceM3)} of vapour and gas, and takes droplets with it",
        _ => $"about {ShareWords.Volume(release.AtOnceM3)} of gas come out at once",
    };

    private static string CloudWords(ReleaseEstimate release, double? evaporating, double? inRoom, double? inHood, ScreeningContext context)
    {
        if (release.Flammability.Lower.Because is { } because)
        {
            return $"how much air that makes flammable cannot be said: {because}";
        }

        var cloud = release.CloudM3 > 0 ? $"that brings {ShareWords.Volume(release.CloudM3.Value)} of air to the lower limit; " : "";
        return $"{cloud}as it evaporates it reaches {Percent(evaporating)} of the lower limit in {(context.Plan.Place is { IsHood: true } ? "the hood, which draws" : RoomWords(context))}; all of it at once, without ventilation, {Percent(inRoom)} in {RoomWords(context)} and {Percent(inHood)} in the air standing in a hood ({Wording.Text(FireThresholds.StillHoodM3)} m³)";
    }

    private static string Percent(double? share) => share is { } value ? ShareWords.Percent(value) : "an unknown share";

    private static IEnumerable<Evidence> Evidence(ReleaseEstimate release, double? evaporating, ReleaseSpread spread, double? inRoom, double? inHood, double room)
    {
        var limitSources = release.Flammability.Lower.Sources;
        var limitQuality = release.Flammability.Lower.Quality;
        if (evaporating is { } reached)
        {
            yield return Line(
                $"share of the lower limit in the {(spread.IsHood ? "hood" : "room")}, as it evaporates",
                reached,
                "fraction",
                ReleaseSpread.StepOf(reached),
                SpreadModel(spread),
                [.. References.Full(["crowl-louvar", "epa-550-b-99-009"]), .. limitSources],
                Quality.Estimated);
        }

        if (release.FlashFraction is { } fraction)
        {
            yield return Line("share that flashes at once", fraction, "fraction", null, "cp (T − Tb)/ΔHvap", References.Full(["crowl-louvar", .. release.FlashSources]), release.FlashQuality);
        }

        yield return Line("vapour and gas at once", release.AtOnceM3 * 1000, "L", null, "ideal gas at 25 °C", References.Full(["crowl-louvar"]), release.FlashQuality);
        if (release.CloudM3 is { } cloud)
        {
            yield return Line("air brought to the lower limit", cloud, "m³", FireThresholds.StillHoodM3, "vapour volume over the lower limit", limitSources, limitQuality);
        }

        if (release.CloudHeatJ is { } heat && BlastLaw.CloudTntKg(heat, FireThresholds.CloudYield) is >= BlastLaw.BlastFromKg and var tnt)
        {
            yield return Line("equivalent of trinitrotoluene of the cloud", tnt * 1e3, "g", null, $"heat of combustion of what comes out at once, {Wording.Text(FireThresholds.CloudYield * 100)} % of it as blast, 4.5 MJ/kg: an upper bound, were all of it mixed with air when it is lit", References.Full(["crowl-louvar"]), Quality.Estimated);
        }

        if (inRoom is { } share)
        {
            yield return Line($"share of the lower limit in {Wording.Figures(room)} m³, evaporated whole", share, "fraction", null, "evenly mixed, no ventilation: an upper bound", limitSources, limitQuality);
        }

        if (inHood is { } hood)
        {
            yield return Line("share of the lower limit in the air standing in a hood", hood, "fraction", null, "evenly mixed, no ventilation: an upper bound", limitSources, limitQuality);
        }
    }

    private static Evidence Line(string name, double value, string unit, double? limit, string model, IReadOnlyList<string> sources, Quality quality) =>
        new() { Name = name, Value = value, Unit = unit, Limit = limit, Model = model, Sources = sources.Count == 0 ? References.Full(["common-practice"]) : sources, Quality = quality };

    private static IEnumerable<Evidence> PoolEvidence(Exposure exposure, ScreeningContext context)
    {
        var known = exposure.Substance.Known!;
        if (double.IsInfinity(exposure.Mol) || known.Identity.MolarMassKgPerMol is not { } molarMass || known.DensityKgPerM3 is not { Value: > 0 and var density }
            || VapourPressure.At(known, RoomK) is not { Volatility: Volatility.Condensable } pressure)
        {
            yield break;
        }

        var area = exposure.Mol * molarMass / density / FireThresholds.SpillDepthM;
        var rate = Evaporation.RateInWindKgPerS(FireThresholds.HoodAirSpeedMPerS, molarMass, area, pressure.Pascal, RoomK);
        var flow = context.Plan.Place?.AirFlowM3PerS is { } stated and > 0 ? stated : FireThresholds.DefaultHoodFlowM3PerS;
        yield return Line(
            $"{exposure.Substance.Name} in the air drawn off ({Wording.Text(flow)} m³/s), spilled 1 cm deep",
            Evaporation.SteadyFraction(rate, molarMass, flow, RoomK) * 1e6,
            "ppm",
            exposure.Danger,
            "evaporation of a pool at 0.5 m/s over a steady flow of air",
            References.Full(["epa-550-b-99-009", "crowl-louvar"]),
            Quality.Estimated);
    }

    private static Finding Breathed(string code, StepState state, string[] steps, Exposure[] exposures, string when, ScreeningContext context) => new()
    {
        Code = code,
        Hazard = Hazard.Toxicity,
        Severity = Severity.Notice,
        Steps = steps,
        Vessel = state.Vessel.Id,
        Materials = MaterialIds.Of(state.Contents.Where(content => IsAmong(exposures, content.Substance.Key))),
        Statement = $"{when}, {RoomWords(context)} would hold {Wording.List(Array.ConvertAll(exposures, Words))}: {(Array.Exists(exposures, static exposure => exposure.AboveIdlh) ? "leave, close the door, and do not go back in" : "leave and air the room before going back")}.",
        Evidence = Array.ConvertAll(exposures, static exposure => Line(
            $"{exposure.Substance.Name} in the room",
            exposure.Ppm,
            "ppm",
            exposure.AboveIdlh ? exposure.Danger : exposure.Limit?.Ppm,
            "evenly mixed without ventilation, at most saturated at 25 °C",
            SourcesOf(exposure),
            Quality.Estimated)),
    };

    private static bool IsAmong(Exposure[] exposures, string key)
    {
        foreach (var exposure in exposures)
        {
            if (string.Equals(exposure.Substance.Key, key, StringComparison.Ordinal))
            {
                return true;
            }
        }

        return false;
    }

    private static IReadOnlyList<string> SourcesOf(Exposure exposure) => (exposure.Substance.Known?.Idlh, exposure.Limit) switch
    {
        ({ } danger, { } limit) => References.Full([danger.Source, limit.Source]),
        ({ } danger, null) => References.Full([danger.Source]),
        (null, { } limit) => References.Full([limit.Source]),
        _ => [],
    };

    private static string Words(Exposure exposure) => exposure switch
    {
        { Mol: double.PositiveInfinity, Danger: { } danger } => $"up to {Wording.Text(Math.Round(exposure.Ppm))} ppm of {exposure.Substance.Name}, the saturated air, for want of its amount (immediately dangerous from {Wording.Figures(danger)} ppm)",
        { AboveIdlh: true, Danger: { } danger } => $"{Wording.Text(Math.Round(exposure.Ppm))} ppm of {exposure.Substance.Name} (immediately dangerous from {Wording.Figures(danger)} ppm)",
        { Limit.Ppm: { } limit } => $"{Wording.Text(Math.Round(exposure.Ppm))} ppm of {exposure.Substance.Name} (exposure limit {Wording.Figures(limit)} ppm{(exposure.Danger is null ? "; no immediately dangerous concentration on file" : "")})",
        _ => $"{Wording.Text(Math.Round(exposure.Ppm))} ppm of {exposure.Substance.Name}",
    };

    private static double RoomOf(ScreeningContext context) => context.Plan.Place?.RoomVolumeM3 is { } stated and > 0 ? stated : FireThresholds.DefaultRoomM3;

    private static string RoomWords(ScreeningContext context) =>
        context.Plan.Place?.RoomVolumeM3 is { } stated and > 0 ? $"the room of {Wording.Figures(stated)} m³" : AssumedRoom;
}
