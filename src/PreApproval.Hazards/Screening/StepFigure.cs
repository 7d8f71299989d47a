using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Screening;

/// <summary>What is compared at every step, finding or not.</summary>
internal enum StepQuantity
{
    Pressure,
    ShareOfRating,
    FlashMargin,
    SurfaceMargin,
}

/// <summary>
/// The numbers of one step that a comparison looks at whether or not they are a finding: how high the pressure may get, how much of the rating
/// that is, how far an open liquid stays below its flash point and a heated surface below what is permitted.
/// </summary>
internal sealed class StepFigures
{
    private readonly Evidence?[] figures = new Evidence?[Enum.GetValues<StepQuantity>().Length];

    private StepFigures(StepState state) => State = state;

    public StepState State { get; }

    /// <summary>Closed, and the pressure is not known or fills the vessel with liquid: there are findings that say so.</summary>
    public bool PressureUnknown { get; private init; }

    /// <summary>Something is left out of the pressure: it is at least as high.</summary>
    public bool PressureAtLeast { get; private init; }

    /// <summary>Weakest rating in Pa gauge; null: not stated.</summary>
    public double? RatingPaGauge { get; private init; }

    public Evidence? this[StepQuantity quantity] => figures[(int)quantity];

    /// <summary>The hazard a quantity belongs to.</summary>
    public static Hazard HazardOf(StepQuantity quantity) => quantity switch
    {
        StepQuantity.Pressure or StepQuantity.ShareOfRating => Hazard.Pressure,
        StepQuantity.FlashMargin or StepQuantity.SurfaceMargin => Hazard.Fire,
    };

    /// <summary>True where a finding with this leading number tells the same as the quantity.</summary>
    public static bool IsToldBy(StepQuantity quantity, string leading) => quantity switch
    {
        StepQuantity.Pressure => leading is PressureEvidence.Worst,
        StepQuantity.ShareOfRating => leading is PressureEvidence.Share,
        StepQuantity.FlashMargin => leading is OpenFlammables.BelowFlashPoint,
        StepQuantity.SurfaceMargin => leading is HotSurface.Surface,
    };

    public static StepFigures Of(StepState state, ScreeningContext context)
    {
        var policy = context.Policy;
        var limits = SafeWindowLimits.Of(state, policy);
        var assessment = context.Closed(state);
        var point = limits.Point(state.TemperatureK, state, assessment, null);
        var rating = limits.Rating.PaGauge;
        var numbers = new StepFigures(state)
        {
            PressureUnknown = state.Sealed && point.GoverningPaGauge is null,
            PressureAtLeast = assessment is { LeftOut.Count: > 0 },
            RatingPaGauge = rating,
        };
        if (point.GoverningPaGauge is { } pressure && assessment is not null)
        {
            var model = PressureSentences.ModelWords(assessment.Worst.Model) + PressureSentences.AtLeast(assessment.LeftOut);
            numbers.Set(StepQuantity.Pressure, PressureEvidence.Worst, pressure / 1e5, "bar(g)", rating is > 0 ? rating / 1e5 : null, model, assessment.Worst.Quality, assessment.Worst.Sources);
            if (point.ShareOfRating is { } share)
            {
                numbers.Set(StepQuantity.ShareOfRating, PressureEvidence.Share, share, "fraction", GoverningRating.WarningShare(state.Vessel, policy), model, assessment.Worst.Quality, assessment.Worst.Sources);
            }
        }

        if (!state.Sealed && point.FlashMarginK is { } flash)
        {
            numbers.Set(StepQuantity.FlashMargin, OpenFlammables.BelowFlashPoint, flash, "K", limits.FlashMarginK, "flash point of the liquids less temperature of the step", Quality.Estimated, ["liaw-2002", "trgs-721"], WorseWhen.Lower);
        }

        if (HotSurface.IsHot(state) && point.SurfaceMarginK is { } surface)
        {
            numbers.Set(StepQuantity.SurfaceMargin, "distance of the surface below what is permitted", surface, "K", 0, "share of the lowest autoignition temperature less the hottest surface", state.SurfaceStated ? Quality.Measured : Quality.Assumed, ["trgs-723"], WorseWhen.Lower);
        }

        return numbers;
    }

    private void Set(StepQuantity quantity, string name, double value, string unit, double? limit, string model, Quality quality, IEnumerable<string> sources, WorseWhen worse = WorseWhen.Higher) =>
        figures[(int)quantity] = new Evidence { Name = name, Value = value, Unit = unit, Limit = limit, Worse = worse, Model = model, Sources = References.Full(sources), Quality = quality };
}
