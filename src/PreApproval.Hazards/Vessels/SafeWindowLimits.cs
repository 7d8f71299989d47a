using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>What does not move along the axis.</summary>
internal sealed record SafeWindowLimits(StepState State, Policy Policy, GoverningRating Rating, double? FlashK, double FlashMarginK, double? SurfaceLimitK, double? LimitK)
{
    public static SafeWindowLimits Of(StepState state, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(policy);
        var flash = Flash(state, out var several);
        var autoignition = state.Contents.Where(static content => content.Substance.Known is { NonFlammable: not { Value: true }, AutoignitionK: not null })
            .Min(static content => (double?)content.Substance.Known!.AutoignitionK!.Governing.Value);
        return new SafeWindowLimits(
            state,
            policy,
            GoverningRating.For(state),
            flash,
            several ? policy.FlashMarginMixtureK : policy.FlashMarginK,
            autoignition is { } lowest ? HotSurface.LimitK(lowest, policy.HotSurfaceShare) : null,
            TemperatureLimit.Of(state.Vessel, state.VesselIndex)?.TemperatureK);
    }

    public SafeWindowPoint Point(double at, StepState moved, ClosedAssessment? assessment, RisingPeak? peaks)
    {
        var peak = assessment is null ? null : peaks?.UpTo(moved.TemperatureK, moved.WorstTemperatureK) ?? assessment.Peak;
        var full = peak?.State.Phase == VesselPhase.LiquidFull;
        var unknown = peak is { AtEnd: { PressurePaAbs: null, Phase: not VesselPhase.LiquidFull } };
        var governing = full ? null : Gauge(peak?.State.PressurePaAbs);
        var rating = RatingAt(moved);
        var point = new SafeWindowPoint(at)
        {
            TemperatureK = moved.TemperatureK,
            WorstTemperatureK = moved.WorstTemperatureK,
            ExpectedPaGauge = assessment is null ? null : Gauge(assessment.Charge.PressureAt(moved.TemperatureK).PascalAbs),
            BoundPaGauge = assessment is null ? null : Gauge(assessment.Charge.BoundPaAt(moved.WorstTemperatureK)),
            GoverningPaGauge = governing,
            LiquidFull = full,
            ShareOfRating = rating.PaGauge is { } rated and > 0 ? governing / rated : null,
            FlashMarginK = FlashK - moved.TemperatureK,
            SurfaceMarginK = SurfaceLimitK - HotSurface.SurfaceK(moved),
            LimitMarginK = LimitK - moved.WorstTemperatureK,
            Model = peak is { State: { PressurePaAbs: not null, Model: var model } } ? PressureSentences.ModelWords(model) : null,
            Sources = peak?.State.Sources ?? [],
        };
        return point with { Safe = IsSafe(point, moved, rating, assessment, unknown) };
    }

    public SafeWindowCurve Curve(SafeWindowPoint[] points, double? current, IReadOnlyList<string> missing)
    {
        var inside = points.Length > 0 && current >= points[0].At && current <= points[^1].At;
        var (from, to) = Interval(points, inside ? current : null);
        return new SafeWindowCurve(points, from, to, missing)
        {
            RatingPaGauge = Rating.PaGauge,
            RatingOf = Rating.Of,
            QuietLimitPaGauge = Rating.QuietLimitPaGauge(State.Vessel, Policy),
            Current = inside ? current : null,
            FlashMarginNeededK = State.Sealed ? null : FlashMarginK,
        };
    }

    // the same record serves wherever the whole rating counts
    private GoverningRating RatingAt(StepState moved) =>
        moved.WorstTemperatureK == Rating.TemperatureK
        || (VesselKinds.MaterialOf(moved.Vessel.Kind) != VesselMaterial.Metal && !(Math.Max(moved.WorstTemperatureK, Rating.TemperatureK) > LimitK)) ? Rating : GoverningRating.For(moved);

    private bool? IsSafe(SafeWindowPoint point, StepState moved, GoverningRating rating, ClosedAssessment? assessment, bool unknown)
    {
        var limit = rating.QuietLimitPaGauge(State.Vessel, Policy);
        var passed = point.LiquidFull || point.GoverningPaGauge > limit || point.SurfaceMarginK < 0 || point.LimitMarginK < 0
            || (!moved.Sealed && point.FlashMarginK < FlashMarginK);
        return passed ? false
            : moved.Sealed && (assessment is null || unknown || point.GoverningPaGauge is null || assessment.NotCounted.Count > 0 || assessment.Charge.MissingAt(moved.WorstTemperatureK).Count > 0) ? null
            : true;
    }

    // the run of safe points that holds where the step stands, else the longest
    private static (double? From, double? To) Interval(SafeWindowPoint[] points, double? current)
    {
        (int Start, int Length, bool Holds) best = (0, 0, false);
        for (var start = 0; start < points.Length; start++)
        {
            var length = 0;
            while (start + length < points.Length && points[start + length].Safe is true)
            {
                length++;
            }

            var holds = length > 0 && current >= points[start].At && current <= points[start + length - 1].At;
            if ((holds && !best.Holds) || (holds == best.Holds && length > best.Length))
            {
                best = (start, length, holds);
            }

            start += length;
        }

        return best.Length == 0 ? (null, null) : (points[best.Start].At, points[best.Start + best.Length - 1].At);
    }

    private static double? Gauge(double? absolute) => absolute - AtmospherePa;

    private static double? Flash(StepState state, out bool several)
    {
        MixtureComponent[] liquids =
        [
            .. state.Contents.Where(static content => content is { Spent: false, Mol: > 0, Substance.Known.PhaseAt298K: Phase.Liquid })
                .GroupBy(static content => content.Substance.Known!.Key, StringComparer.Ordinal)
                .Select(static group => new MixtureComponent(group.First().Substance.Known!, group.Sum(static content => content.Mol!.Value))),
        ];
        several = liquids.Length > 1;
        var pure = state.Contents.Where(ContentsFlashPoint.Flashes).Min(static content => content.Substance.Known!.FlashPointK?.Governing.Value);
        return several && pure is not null ? MixtureFlashPoint.Of(new LiquidMixture(liquids)).FlashPointK ?? pure : pure;
    }
}
