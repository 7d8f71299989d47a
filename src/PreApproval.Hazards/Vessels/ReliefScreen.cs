using System.Globalization;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>The stated set pressure of a relief device, against the vessel it protects and the pressure it works at. No pressure counts as limited by it. Grounds: docs/methods/ratings.md.</summary>
public sealed class ReliefScreen : IScreen
{
    /// <summary>Highest share of the set pressure to work at under a valve (API 520, from memory).</summary>
    public const double ValveShare = 0.9;

    /// <summary>Highest share of the burst pressure to work at under an ordinary disc (ISO 4126-6 and API 520 say 0.7 to 0.8, from memory).</summary>
    public const double DiscShare = 0.75;

    /// <inheritdoc/>
    public IEnumerable<Finding> Find(ScreeningContext context)
    {
        foreach (var closed in Grouping.Of(context.Walk.States, static state => state is { Sealed: true, Vessel.Relief: not null }, static (one, other) => one.VesselIndex == other.VesselIndex))
        {
            var relief = closed[0].Vessel.Relief!;
            if (Above(closed, relief, context) is { } above)
            {
                yield return context.IsTrial ? above : above with { ClearedBy = Tried(above, context, Lower(closed)) };
            }

            if (Margin(closed, relief, context) is { } margin)
            {
                yield return context.IsTrial ? margin : margin with { ClearedBy = Tried(margin, context, Higher(closed, relief, context)) };
            }
        }
    }

    private static Finding? Above(StepState[] closed, Relief relief, ScreeningContext context)
    {
        var rating = Rating(closed);
        var pressed = closed.Chosen(state => !(context.Closed(state)?.WorstPaGauge <= context.Policy.UnratedNothingPa));
        if (relief.SetPaGauge <= (rating.PaGauge ?? 0) || (rating.PaGauge is null && pressed.Length == 0))
        {
            return null;
        }

        var rated = rating.PaGauge is { } pascal ? $"more than the {Wording.BarGauge(pascal)} that {rating.Of} is rated for{rating.Note}" : $"and {rating.Of} has no stated rating, which counts as 0 bar(g)";
        return Of("pressure.relief-above-rating", Severity.Danger, closed,
            $"The {Name(relief)} of “{closed[0].Vessel.Id}” opens at {Wording.BarGauge(relief.SetPaGauge)}, {rated}: it protects nothing.",
            Confinement.Findings.Number("set pressure of the relief device", relief.SetPaGauge / 1e5, "bar(g)", (rating.PaGauge ?? 0) / 1e5, "set at or below the weakest rating", Quality.Assumed, "iso-4126-6", "api-520"));
    }

    /// <summary>Share of the set pressure from which a device opens by the scatter of its setting alone (5 %; common practice, no source).</summary>
    private const double NearlyOpenShare = 0.95;

    private static Finding? Margin(StepState[] closed, Relief relief, ScreeningContext context)
    {
        var (work, at) = Working(closed, context);
        if (at is null || work <= Share(relief) * relief.SetPaGauge)
        {
            return null;
        }

        var opens = work > relief.SetPaGauge;
        // what is left out of it can only raise it
        var atLeast = context.Closed(at) is { LeftOut.Count: > 0 } ? "at least " : "";
        return Of("pressure.relief-margin", opens ? Severity.Warning : work > NearlyOpenShare * relief.SetPaGauge ? Severity.Caution : Severity.Notice, closed.Chosen(state => Pressure(state, context) > Share(relief) * relief.SetPaGauge),
            $"“{at.Vessel.Id}” comes to {atLeast}{Wording.BarGauge(work)} at its set temperature of {Wording.Celsius(at.TemperatureK)}; {(opens ? $"its {Name(relief)} opens at {Wording.BarGauge(relief.SetPaGauge)} in the planned work and lets the contents out" : $"that is more than {Wording.Text(100 * Share(relief))} % of the {Wording.BarGauge(relief.SetPaGauge)} at which its {Name(relief)} opens, which may weep or tire")}.",
            Confinement.Findings.Number("pressure at the set temperature", work / 1e5, "bar(g)", Share(relief) * relief.SetPaGauge / 1e5, $"at most {Wording.Text(Share(relief))} of the set pressure of a {Name(relief)}", Quality.Assumed, "iso-4126-6", "api-520"));
    }

    /// <summary>The highest pressure at a set temperature; none where it is full or not known, which other findings say.</summary>
    private static (double PaGauge, StepState? At) Working(StepState[] closed, ScreeningContext context)
    {
        var highest = (0.0, (StepState?)null);
        foreach (var state in closed)
        {
            if (Pressure(state, context) is var pressure && pressure > highest.Item1)
            {
                highest = (pressure, state);
            }
        }

        return highest;
    }

    private static double Pressure(StepState state, ScreeningContext context) =>
        context.Closed(state) is { LiquidFull: false, AtSet.PressurePaAbs: { } pascal } ? pascal - AtmospherePa : 0;

    /// <summary>The weakest rating at the hottest of the steps; where that is above the temperature limit, at the limit: the temperature is a finding of its own.</summary>
    private static GoverningRating Rating(StepState[] closed)
    {
        var hottest = closed.MaxBy(static state => state.WorstTemperatureK)!;
        return GoverningRating.At(hottest, Math.Min(hottest.WorstTemperatureK, TemperatureLimit.Of(hottest.Vessel, hottest.VesselIndex)?.TemperatureK ?? double.PositiveInfinity));
    }

    private static Clearing? Lower(StepState[] closed) =>
        Rating(closed).PaGauge is { } rated && Math.Floor(rated / 1e4) / 10 is > 0 and var bar ? Set(closed, bar) : null;

    private static Clearing? Higher(StepState[] closed, Relief relief, ScreeningContext context) =>
        Math.Ceiling(Working(closed, context).PaGauge / Share(relief) / 1e4) / 10 is var bar && bar * 1e5 <= Rating(closed).PaGauge ? Set(closed, bar) : null;

    private static Clearing Set(StepState[] closed, double bar) =>
        new("relief set pressure", $"/vessels/{closed[0].VesselIndex.ToString(CultureInfo.InvariantCulture)}/relief/set", bar, "bar(g)", null);

    private IReadOnlyList<Clearing> Tried(Finding finding, ScreeningContext context, Clearing? offer) =>
        offer is null ? [] : Confinement.Findings.Tried(this, finding, context, offer);

    private static double Share(Relief relief) => relief.Kind switch
    {
        ReliefKind.Valve => ValveShare,
        ReliefKind.BurstingDisc => DiscShare,
    };

    private static string Name(Relief relief) => relief.Kind switch
    {
        ReliefKind.Valve => "relief valve",
        ReliefKind.BurstingDisc => "bursting disc",
    };

    private static Finding Of(string code, Severity severity, StepState[] states, string statement, Evidence evidence) => new()
    {
        Code = code,
        Hazard = Hazard.Pressure,
        Severity = severity,
        Steps = StepIds.Of(states),
        Vessel = states[0].Vessel.Id,
        Statement = statement,
        Evidence = [evidence],
    };
}
