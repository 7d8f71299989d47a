using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Fire;

/// <summary>
/// The hottest surface against the lowest autoignition temperature of anything in the vessel. Share of the autoignition
/// temperature in °C as in TRGS 723, 5.2.3 (80 %).
/// </summary>
internal static partial class HotSurface
{
    /// <summary>What is counted at every heated step.</summary>
    public const string Surface = "surface temperature";

    /// <summary>Outlet of a heat gun in K (500 °C), when the plan states no surface. From memory of instrument data, no checked source.</summary>
    private const double HeatGunK = 773.15;

    /// <summary>
    /// Lowest autoignition temperature in IEC 60079-20-1, in K (carbon disulfide, 90 °C): a surface that is safe for it needs
    /// no value for anything else.
    /// </summary>
    private const double LowestListedK = 363.15;

    /// <summary>Partial pressure in Pa below which a substance cannot make a flammable vapour: 1 % of the atmosphere, the lower end of flammable limits.</summary>
    private const double WorthCountingPa = 1013;

    /// <summary>
    /// Temperature in K that the plate of a hotplate, the element of a mantle and the sand beside the wall of a bath are assumed to reach (300 °C) when no surface is stated: what holds the set temperature
    /// is a probe in the contents, not on them. Common practice, no source.
    /// </summary>
    private const double ElementK = 573.15;

    /// <summary>Highest autoignition temperature in K of temperature class T4 (200 °C; IEC 60079-20-1): what ignites at or below it is a warning over an element of unknown temperature.</summary>
    private const double IgnitesEasilyK = 473.15;

    /// <summary>How the note of a value begins that holds on rusty iron.</summary>
    private const string Rusty = "on rusty iron";

    public static IEnumerable<Finding> Find(ScreeningContext context, bool withClearings = true)
    {
        var groups = context.Walk.States.Where(IsHot).GroupBy(static state => (state.Vessel.Id, state.TemperatureStep));
        foreach (var group in groups)
        {
            StepState[] states = [.. group];
            if (ColderThanContents(states[0], context.Plan) is { } surfaceK)
            {
                yield return CannotBe(states, surfaceK);
            }

            if (Ignites(states, context) is { } ignites)
            {
                yield return withClearings ? ignites with { ClearedBy = Offers(ignites, states, context) } : ignites;
            }
            else if (SurfaceNotStated(states, context) is { } notStated)
            {
                yield return notStated;
            }

            if (AutoignitionMissing(states, context.Policy) is { } missing)
            {
                yield return missing;
            }
        }
    }

    /// <summary>Surface in K that counts for a step.</summary>
    public static double SurfaceK(StepState state) => state switch
    {
        { SurfaceStated: false, HeatSource: HeatSource.HeatGun } => Math.Max(HeatGunK, state.SurfaceTemperatureK),
        // steam is at 100 °C whatever temperature it holds the contents at
        { SurfaceStated: false, HeatSource: HeatSource.Steam } => Math.Max(HeaterOvershoot.WaterBoilsK, state.SurfaceTemperatureK),
        _ => state.SurfaceTemperatureK,
    };

    /// <summary>Highest permissible surface in K for an autoignition temperature in K: a share of it in °C.</summary>
    public static double LimitK(double autoignitionK, double share) => (share * (autoignitionK - 273.15)) + 273.15;

    /// <summary>A metal vessel closed without oxygen: nothing inside can burn, and only a leak brings vapour to the surface. Glass is not trusted to hold.</summary>
    private static bool OnlyALeakIgnites(StepState state)
    {
        if (state.Closing is not { } closing || VesselKinds.MaterialOf(state.Vessel.Kind) != VesselMaterial.Metal)
        {
            return false;
        }

        foreach (var (gas, _) in closing.Gases)
        {
            if (gas == StandardGases.Oxygen || !FamilyTable.Default.Of(gas).Contains("inert gases", StringComparer.Ordinal))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>True where a surface is to be looked at.</summary>
    public static bool IsHot(StepState state) => state.Heated || SurfaceK(state) > Walk.WarmK;

    private static (Content Content, Published Autoignition)? Lowest(StepState state)
    {
        (Content Content, Published Autoignition)? lowest = null;
        foreach (var content in state.Contents)
        {
            if (content.Substance.Known is { AutoignitionK: { } published, NonFlammable: not { Value: true } }
                && On(state.Vessel, published) is var autoignition
                && (lowest is not { } known || IsLower(autoignition, content, known.Autoignition, known.Content)))
            {
                lowest = (content, autoignition);
            }
        }

        return lowest;
    }

    /// <summary>
    /// Where a value for rusty iron is on file it governs in a vessel of metal: whether that is free of rust nobody states, and on glass the other one holds. Hydrazine is the known case.
    /// </summary>
    private static Published On(Vessel vessel, Published published)
    {
        for (var index = 0; index < published.All.Count; index++)
        {
            var value = published.All[index];
            if (value.Note is { } note && value.Value < published.Governing.Value && note.StartsWith(Rusty, StringComparison.Ordinal) && VesselKinds.MaterialOf(vessel.Kind) == VesselMaterial.Metal)
            {
                return published with { Governing = value };
            }
        }

        return published;
    }

    private static bool IsLower(Published one, Content content, Published other, Content otherContent) =>
        one.Governing.Value < other.Governing.Value
        || (one.Governing.Value == other.Governing.Value && string.CompareOrdinal(content.Substance.Key, otherContent.Substance.Key) < 0);

    private static Finding? Ignites(StepState[] states, ScreeningContext context)
    {
        var share = context.Policy.HotSurfaceShare;
        var flagged = states.Select(static state => (State: state, Lowest: Lowest(state)))
            .Where(pair => pair.Lowest is { } lowest && SurfaceK(pair.State) > LimitK(lowest.Autoignition.Governing.Value, share))
            .ToArray();
        if (flagged.Length == 0)
        {
            return null;
        }

        var (state, found) = flagged.MaxBy(static pair => SurfaceK(pair.State) - pair.Lowest!.Value.Autoignition.Governing.Value);
        var (content, autoignition) = found!.Value;
        var limit = LimitK(autoignition.Governing.Value, share);
        var surface = SurfaceK(state);
        var kind = state.SurfaceStated ? "surface"
            : ColderThanContents(state, context.Plan) is not null ? "surface (stated as colder than the contents; taken from the heat source)"
            : "surface (not stated; taken from the heat source)";
        var disagree = autoignition.All.Count > 1 && autoignition.All.Max(static value => value.Value) - autoignition.Governing.Value > 5
            ? $" Published values run from {Wording.Celsius(autoignition.Governing.Value)} to {Wording.Celsius(autoignition.All.Max(static value => value.Value))}; the lower counts{(autoignition.Governing.Note is { } holds ? $" ({holds})" : "")}."
            : "";
        return new Finding
        {
            Code = "fire.hot-surface",
            Hazard = Hazard.Fire,
            Severity = surface >= autoignition.Governing.Value && !Array.TrueForAll(flagged, static one => OnlyALeakIgnites(one.State)) ? Severity.Danger : Severity.Warning,
            Steps = StepIds.Of(flagged, static one => one.State),
            Vessel = state.Vessel.Id,
            Materials = content.MaterialId is { } id ? [id] : [],
            Statement = $"A {kind} at {Wording.Celsius(surface)} under “{state.Vessel.Id}” is above {Wording.Celsius(limit)}, {Wording.Text(Math.Round(share * 100))} % of the {Wording.Celsius(autoignition.Governing.Value)} at which {content.Substance.Name} ignites by itself{(OnlyALeakIgnites(state) ? ", should it leak: the vessel is closed without air" : "")}.{disagree}",
            Evidence =
            [
                new Evidence
                {
                    Name = Surface,
                    Value = Wording.InCelsius(surface),
                    Unit = "°C",
                    Limit = Wording.InCelsius(limit),
                    Model = "share of the lowest autoignition temperature in °C",
                    Sources = [References.OfLimit("trgs-723", share, Policy.Default.HotSurfaceShare)],
                    Quality = state.SurfaceStated ? Quality.Measured : Quality.Assumed,
                },
                .. autoignition.All.OrderBy(static value => value.Value).Select(value => new Evidence
                {
                    Name = $"autoignition temperature of {content.Substance.Name}",
                    Quantity = "autoignition temperature",
                    Worse = WorseWhen.Lower,
                    Value = Wording.InCelsius(value.Value),
                    Unit = "°C",
                    Model = value.Note is { } note ? $"published value, {note}" : "published value",
                    Sources = References.Full(value.Sources),
                    Quality = value.Quality,
                }),
            ],
        };
    }

    private static Clearing[] Offers(Finding finding, StepState[] states, ScreeningContext context)
    {
        var offers = new List<Clearing>();
        var limits = states.Select(static state => (State: state, Lowest: Lowest(state)))
            .Where(static pair => pair.Lowest is not null)
            .Select(pair => (pair.State, LimitK: LimitK(pair.Lowest!.Value.Autoignition.Governing.Value, context.Policy.HotSurfaceShare)))
            .ToArray();
        if (states[0].TemperatureStep is { } setBy)
        {
            var celsius = Math.Floor(Wording.InCelsius(limits.Min(static pair => pair.LimitK - (SurfaceK(pair.State) - pair.State.TemperatureK))));
            if (celsius + 273.15 >= Walk.RoomTemperatureK)
            {
                offers.Add(new Clearing("set temperature", $"/steps/{setBy.ToString(CultureInfo.InvariantCulture)}/temperature", celsius, "°C", null));
            }

            if (states[0].SurfaceStated)
            {
                var surface = Math.Floor(Wording.InCelsius(limits.Min(static pair => pair.LimitK)));
                offers.Add(new Clearing("surface temperature", $"/steps/{setBy.ToString(CultureInfo.InvariantCulture)}/surfaceTemperature", surface, "°C", null));
            }
        }

        return [.. offers.Where(offer => Clears(offer, finding, context))];
    }

    private static bool Clears(Clearing offer, Finding finding, ScreeningContext context)
    {
        var plan = Clearings.Apply(context.Plan, offer);
        var trial = new ScreeningContext(plan, context.Policy, Walk.Follow(plan, context.Policy));
        return !Find(trial, withClearings: false).Any(other =>
            string.Equals(other.Code, finding.Code, StringComparison.Ordinal)
            && string.Equals(other.Vessel, finding.Vessel, StringComparison.Ordinal)
            && other.Steps.Any(step => finding.Steps.Contains(step, StringComparer.Ordinal)));
    }
}
