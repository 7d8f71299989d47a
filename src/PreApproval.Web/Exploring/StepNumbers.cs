using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Vessels;
using PreApproval.Web.Shared;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Exploring;

/// <summary>The numbers of one step as it stands.</summary>
/// <param name="State">The step.</param>
/// <param name="Point">Pressure and margins.</param>
/// <param name="Result">What is known of a closed vessel beyond these; null: open, or of unknown volume.</param>
/// <param name="Fill">As a fraction; null: not known.</param>
/// <param name="Rating">The weakest rating in Pa above the atmosphere; null: not known.</param>
public sealed record StepNumbers(StepState State, SafeWindowPoint Point, ClosedResult? Result, double? Fill, double? Rating)
{
    public static StepNumbers Of(StepState state, Policy policy) =>
        Of(state, SafeWindow.At(state, policy), ClosedResult.Of(state, policy));

    private static StepNumbers Of(StepState state, SafeWindowPoint point, ClosedResult? result) =>
        new(state, point, result, FillLimits.FillOf(state), result is null ? WeakestRating(state.Vessel) : result.RatingPaGauge);

    /// <summary>One line of the comparison.</summary>
    public sealed record Row(string Name, string Before, string After)
    {
        public bool Differs => !string.Equals(Before, After, StringComparison.Ordinal);
    }

    /// <summary>Planned and tried side by side.</summary>
    public static IReadOnlyList<Row> Compare(StepNumbers before, StepNumbers after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        List<Row> rows = [];
        Add("Set temperature", static n => ExplorerWords.Celsius(n.State.TemperatureK));
        Add("Worst credible temperature", static n => ExplorerWords.Celsius(n.State.WorstTemperatureK));
        if (before.State.Sealed || after.State.Sealed)
        {
            Add("Vessel", static n => $"{n.State.Vessel.Kind}, {(n.State.Vessel.VolumeM3 is { } volume ? $"{Words.Number(volume * 1e6)} mL" : "volume not known")}");
            Add("Weakest rating", static n => n.Rating is { } rating ? ExplorerWords.Bar(rating) + (WallRating.Of(n.State.Vessel) is { } wall && wall.PaGauge == rating ? " " + wall.Basis : "") : "not known: counts as 0 bar(g)");
            Add("Fill", static n => n.Fill is { } fill ? ExplorerWords.Percent(fill) : "not known");
            Add("Pressure at the set temperature", static n => n.Point.ExpectedPaGauge is { } pa ? AtLeast(n) + ExplorerWords.Bar(pa) : "not known");
            Add("Worst-case pressure", static n => n.Point.LiquidFull || n.Point.GoverningPaGauge is null ? ExplorerWords.Pressure(n.Point) : AtLeast(n) + ExplorerWords.Pressure(n.Point));
            Add("Share of the rating", static n => n.Point.LiquidFull ? "above every rating" : n.Point.ShareOfRating is { } share ? AtLeast(n) + ExplorerWords.Percent(share) : "not known");
            Add("Highest permissible set temperature", static n => n.Result is { HighestSetK: { } highest, LeftOut.Count: 0 } ? ExplorerWords.Celsius(highest) : "none can be given");
            Add("Largest permissible fill", static n => n.Result is { HighestFill: { } fill, LeftOut.Count: 0 } ? ExplorerWords.Percent(fill) : "none can be given");
            Add("Rating needed", static n => n.Result?.RatingNeededPaGauge is { } needed ? AtLeast(n) + ExplorerWords.Bar(needed) : "none is enough or known");
            Add("The liquid fills the vessel at", static n => n.Result is null ? "not known" : n.Result.LiquidFullK is { } full ? ExplorerWords.Celsius(full) : $"never up to {ExplorerWords.Celsius(ClosedVessel.CeilingK)}");
            Add("Stored energy", static n => n.Result?.Energy is { } energy ? $"{Words.Figures(energy.TotalJ)} J" : "not known");
            Add("Equivalent of trinitrotoluene", static n => n.Result?.Energy is { } energy ? $"{Words.Figures(energy.TntKg * 1e3)} g" : "not known");
            Add("Shield", static n => n.Result?.Shield is { } shield ? ShieldClasses.Words(shield) : "not known");
        }

        Add("Margin to the flash point", static n => n.Point.FlashMarginK is { } margin ? ExplorerWords.Difference(margin) : "none on file");
        Add("Margin of the hottest surface", static n => n.Point.SurfaceMarginK is { } margin ? ExplorerWords.Difference(margin) : "no autoignition temperature on file");
        Add("Inside the limits of this page", static n => n.Point.Safe switch { true => "yes", false => "no", null => "not known" });
        return rows;

        void Add(string name, Func<StepNumbers, string> of) => rows.Add(new Row(name, of(before), of(after)));
    }

    /// <summary>What is left out of a pressure can only raise it.</summary>
    private static string AtLeast(StepNumbers numbers) => numbers.Result is { LeftOut.Count: > 0 } ? "at least " : "";

    private static double? WeakestRating(Vessel vessel) =>
        vessel.Parts.Any(static p => p.RatingPaGauge is null) ? null : vessel.Parts.Select(static p => p.RatingPaGauge).Append(WallRating.Of(vessel)?.PaGauge ?? vessel.RatingPaGauge).Aggregate((a, b) => a is null || b is null ? null : Math.Min(a.Value, b.Value));
}
