using PreApproval.Documents.Units;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>Numbers of a step in the units people use, and what is to be said of a safe window.</summary>
public static class ExplorerWords
{
    private const double PascalPerBar = 1e5;

    public static string Celsius(double kelvin) => $"{Words.Number(Math.Round(kelvin - UnitTable.CelsiusZeroK, 1))} °C";

    public static string Celsius(double? kelvin) => kelvin is { } k ? Celsius(k) : "–";

    public static string Difference(double? kelvin) => kelvin is { } k ? $"{Words.Number(Math.Round(k, 1))} K" : "–";

    public static string Bar(double? paGauge) => paGauge is { } pa ? $"{Words.Figures(pa / PascalPerBar)} bar(g)" : "–";

    public static string Percent(double? fraction) => fraction is { } f ? $"{Words.Number(Math.Round(100 * f, 1))} %" : "–";

    /// <summary>The pressure that counts: full of liquid, a number, or not known.</summary>
    public static string Pressure(SafeWindowPoint point)
    {
        ArgumentNullException.ThrowIfNull(point);
        return point.LiquidFull ? "full of liquid: above every rating" : point.GoverningPaGauge is { } pa ? Bar(pa) : "not known";
    }

    /// <summary>True, false and not known in words.</summary>
    public static string Safe(bool? safe) => safe switch
    {
        true => "inside the limits",
        false => "outside",
        null => "not known",
    };

    /// <summary>One sentence: where the step is safe, and where the tried point lies.</summary>
    /// <param name="curve">Over temperature.</param>
    /// <param name="point">As tried.</param>
    /// <param name="state">As tried.</param>
    public static string Window(SafeWindowCurve curve, SafeWindowPoint point, StepState state)
    {
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(point);
        ArgumentNullException.ThrowIfNull(state);
        string range = $"between {Celsius(curve.Points[0].At)} and {Celsius(curve.Points[^1].At)}";
        string here = $"The set temperature of {Celsius(point.TemperatureK)} is {point.Safe switch { true => "inside", false => "outside", null => "not judged" }}{(Reasons(curve, point, state) is { Count: > 0 } why ? ": " + string.Join("; ", why) : "")}.";
        string window = curve switch
        {
            { SafeFrom: { } from, SafeTo: { } to } => $"Step {state.Step.Id} stays inside its limits {(from <= curve.Points[0].At ? "up to" : $"from {Celsius(from)} to")} {Celsius(to)}{(to >= curve.Points[^1].At ? ", the end of what was computed" : "")}.",
            { Missing.Count: > 0 } => $"No safe window of step {state.Step.Id} can be given {range}: the pressure leaves out {string.Join(", ", curve.Missing)}.",
            _ => $"Step {state.Step.Id} has no safe set temperature {range}.",
        };
        return $"{window} {here}";
    }

    /// <summary>Which limits the point passes, and what is missing for a judgement; empty: none.</summary>
    public static IReadOnlyList<string> Reasons(SafeWindowCurve curve, SafeWindowPoint point, StepState state)
    {
        ArgumentNullException.ThrowIfNull(curve);
        ArgumentNullException.ThrowIfNull(point);
        ArgumentNullException.ThrowIfNull(state);
        List<string> why = [];
        if (point.LiquidFull)
        {
            why.Add($"the liquid fills the vessel on the way to {Celsius(point.WorstTemperatureK)}");
        }
        else if (point.GoverningPaGauge > curve.QuietLimitPaGauge)
        {
            why.Add($"{Bar(point.GoverningPaGauge)} at {Celsius(point.WorstTemperatureK)} is above {Bar(curve.QuietLimitPaGauge)}, {QuietWords(curve)}");
        }

        if (point.SurfaceMarginK < 0)
        {
            why.Add($"the hottest surface is {Difference(-point.SurfaceMarginK)} above what the autoignition temperature allows");
        }

        if (point.LimitMarginK < 0)
        {
            why.Add($"the vessel's temperature limit is passed by {Difference(-point.LimitMarginK)}");
        }

        if (!state.Sealed && point.FlashMarginK < curve.FlashMarginNeededK)
        {
            why.Add(point.FlashMarginK < 0
                ? $"the open contents are {Difference(-point.FlashMarginK)} above their flash point"
                : $"the open contents are only {Difference(point.FlashMarginK)} below their flash point, {Difference(curve.FlashMarginNeededK)} are kept");
        }

        if (why.Count == 0 && point.Safe is null)
        {
            why.Add(curve.Missing.Count > 0 ? $"the pressure leaves out {string.Join(", ", curve.Missing)}"
                : state.Vessel.VolumeM3 is null ? $"the volume of {state.Vessel.Id} is not known"
                : "no model gives the pressure");
        }

        return why;
    }

    /// <summary>What the quiet limit is.</summary>
    public static string QuietWords(SafeWindowCurve curve)
    {
        ArgumentNullException.ThrowIfNull(curve);
        return curve.RatingPaGauge is { } rating and > 0
            ? $"{Percent(curve.QuietLimitPaGauge / rating)} of the {Bar(rating)} that {curve.RatingOf} is rated for"
            : $"the most for a vessel whose rating is not known ({curve.RatingOf} counts as 0 bar(g))";
    }

    /// <summary>Why the fill is not known, in words.</summary>
    public static string WhyNoFill(StepState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        string[] without = [.. state.Contents.Where(static c => c.Substance.Known is not { PhaseAt298K: Phase.Gas } && c is not { Mol: not null, Substance.Known: { DensityKgPerM3: not null, Identity.MolarMassKgPerMol: not null } })
            .Select(static c => c.Substance.Name).Distinct(StringComparer.Ordinal)];
        return state.Vessel.VolumeM3 is null ? $"the volume of {state.Vessel.Id} is not known" : $"no amount or density is known for {string.Join(", ", without)}";
    }

    /// <summary>Contents without a flash point on file, of those that may burn.</summary>
    public static IReadOnlyList<string> WithoutFlashPoint(StepState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return [.. Burnable(state).Where(static c => c.Substance.Known is null or { PhaseAt298K: Phase.Liquid, FlashPointK: null }).Select(static c => c.Substance.Name).Distinct(StringComparer.Ordinal)];
    }

    /// <summary>Volatile contents without an autoignition temperature on file, of those that may burn.</summary>
    public static IReadOnlyList<string> WithoutAutoignition(StepState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return [.. Burnable(state).Where(static c => c.Substance.Known is null or { AutoignitionK: null }).Select(static c => c.Substance.Name).Distinct(StringComparer.Ordinal)];
    }

    private static IEnumerable<Content> Burnable(StepState state) => state.Contents.Where(static c =>
        c is { Spent: false, Substance.Known: null or { NonFlammable: not { Value: true }, Involatile: false, PhaseAt298K: not Phase.Solid } });
}
