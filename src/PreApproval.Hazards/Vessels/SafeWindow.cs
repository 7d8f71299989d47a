using PreApproval.Hazards.Fire;
using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// How close a step stands to its limits, along temperature, fill, another vessel, another solvent. Pure functions of the walked step:
/// nothing is remembered between calls. A point is safe when pressure, temperature limits and hottest surface are all quiet by the thresholds of
/// the screens, and, in the open, when the contents stay below their flash point by the policy's margin.
/// </summary>
public static class SafeWindow
{
    /// <summary>Most points of one curve.</summary>
    public const int MostPoints = 1000;

    /// <summary>The states of one step; a transfer has two. Empty when the plan has no such step.</summary>
    public static IReadOnlyList<StepState> StatesOf(Plan plan, Policy policy, string stepId)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. Walk.Follow(plan, policy).States.Where(state => string.Equals(state.Step.Id, stepId, StringComparison.Ordinal))];
    }

    /// <summary>The states that have a safe window, in the order of the walk: a vessel with contents that is closed or heated.</summary>
    public static IReadOnlyList<StepState> StatesOf(Plan plan, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return [.. Walk.Follow(plan, policy).States.Where(static state => state.Contents.Count > 0 && (state.Sealed || state.Heated))];
    }

    /// <summary>The step as it stands: the point that the curves pass through.</summary>
    public static SafeWindowPoint At(StepState state, Policy policy)
    {
        var judged = Judged.Of(state, policy);
        return judged.Point(state.TemperatureK, state, ClosedAssessment.Of(state), null);
    }

    /// <summary>A closed vessel as a step: charged and closed under air at 20 °C, then heated.</summary>
    /// <param name="vessel">The vessel.</param>
    /// <param name="contents">What is charged, in mol.</param>
    /// <param name="temperatureK">Set temperature in K.</param>
    /// <param name="source">What heats it.</param>
    /// <param name="policy">Thresholds, overshoot among them.</param>
    public static StepState StateOf(Vessel vessel, IReadOnlyList<ChargedSubstance> contents, double temperatureK, HeatSource source, Policy policy)
    {
        ArgumentNullException.ThrowIfNull(vessel);
        ArgumentNullException.ThrowIfNull(contents);
        Material[] materials =
        [
            .. contents.Select(static (content, index) => new Material
            {
                Id = FormattableString.Invariant($"m{index}"),
                Composition = new Composition.Pure(new PlanSubstance(content.Substance.Key, content.Substance.Identity.Name, content.Substance)),
                Role = Role.Other,
                Amount = new Amount.Mol(content.Mol),
            }),
        ];
        var plan = new Plan
        {
            Materials = materials,
            Vessels = [vessel],
            Steps =
            [
                new Step { Id = "charge", Action = StepAction.Charge, Vessel = vessel.Id, Materials = [.. materials.Select(static material => new MaterialUse(material.Id, null))] },
                new Step { Id = "seal", Action = StepAction.Seal, Vessel = vessel.Id },
                new Step { Id = "heat", Action = StepAction.Heat, Vessel = vessel.Id, TemperatureK = temperatureK, HeatSource = source },
            ],
        };
        return StatesOf(plan, policy, "heat")[0];
    }

    /// <summary>The step at other set temperatures; overshoot and, downwards, a stated surface move along.</summary>
    /// <param name="state">A step of the walk, closed or open.</param>
    /// <param name="policy">Thresholds.</param>
    /// <param name="fromK">Lowest set temperature in K.</param>
    /// <param name="toK">Highest set temperature in K.</param>
    /// <param name="points">Number of points, 2 to <see cref="MostPoints"/>, evenly spaced, both ends included.</param>
    /// <exception cref="ArgumentOutOfRangeException">Range or number of points is not as said.</exception>
    public static SafeWindowCurve OverTemperature(StepState state, Policy policy, double fromK, double toK, int points)
    {
        var axis = Axis(fromK, toK, points, 1, ClosedVessel.CeilingK);
        var fixedPart = Judged.Of(state, policy);
        var assessment = ClosedAssessment.Of(state);
        var peaks = assessment is null ? null : new RisingPeak(assessment);
        var window = axis.Select(at => fixedPart.Point(at, Moved(state, at), assessment, peaks));
        return fixedPart.Curve([.. window], state.TemperatureK, assessment?.LeftOut ?? []);
    }

    /// <summary>The step with more or less in the vessel: all amounts are scaled together.</summary>
    /// <param name="state">A step of the walk.</param>
    /// <param name="policy">Thresholds.</param>
    /// <param name="fromFill">Lowest fill: volume of what is not gas at 25 °C over the vessel's volume, above 0.</param>
    /// <param name="toFill">Highest fill, at most 1.</param>
    /// <param name="points">Number of points, 2 to <see cref="MostPoints"/>.</param>
    /// <returns>The curve; without points when the vessel is empty or of unknown volume.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Range or number of points is not as said.</exception>
    public static SafeWindowCurve OverFill(StepState state, Policy policy, double fromFill, double toFill, int points)
    {
        var axis = Axis(fromFill, toFill, points, 1e-6, 1);
        var fixedPart = Judged.Of(state, policy);
        if (FillLimits.FillOf(state) is not (> 0 and { } fill))
        {
            return fixedPart.Curve([], null, ["the fill, because volume or amounts are not known"]);
        }

        var missing = new SortedSet<string>(StringComparer.Ordinal);
        var window = axis.Select(at =>
        {
            var scaled = Scaled(state, at / fill);
            var assessment = ClosedAssessment.Of(scaled);
            missing.UnionWith(assessment?.LeftOut ?? []);
            return fixedPart.Point(at, scaled, assessment, null);
        }).ToArray();
        return fixedPart.Curve(window, fill, [.. missing]);
    }

    /// <summary>The same contents in another vessel, over temperature as in <see cref="OverTemperature"/>.</summary>
    public static SafeWindowCurve WithVessel(StepState state, Policy policy, Vessel vessel, double fromK, double toK, int points)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(vessel);
        return OverTemperature(state with { Vessel = vessel }, policy, fromK, toK, points);
    }

    /// <summary>The step with one substance exchanged for the same volume of another (the same mass where a density is missing), over temperature as in <see cref="OverTemperature"/>.</summary>
    /// <param name="state">A step of the walk.</param>
    /// <param name="policy">Thresholds.</param>
    /// <param name="solventKey">Key of the substance to exchange; no effect when it is not there.</param>
    /// <param name="instead">What comes instead; its molar mass must be known.</param>
    /// <param name="fromK">Lowest set temperature in K.</param>
    /// <param name="toK">Highest set temperature in K.</param>
    /// <param name="points">Number of points.</param>
    public static SafeWindowCurve WithSolvent(StepState state, Policy policy, string solventKey, Substance instead, double fromK, double toK, int points)
    {
        ArgumentNullException.ThrowIfNull(state);
        ArgumentNullException.ThrowIfNull(instead);
        return OverTemperature(Mapped(state, Exchange), policy, fromK, toK, points);

        Content Exchange(Content content)
        {
            if (content.Substance.Known is not { } old || !string.Equals(content.Substance.Key, solventKey, StringComparison.Ordinal))
            {
                return content;
            }

            var massKg = content.Mol * old.Identity.MolarMassKgPerMol;
            var density = old.DensityKgPerM3?.Value is { } before && instead.DensityKgPerM3?.Value is { } after ? after / before : 1;
            return content with { Substance = new PlanSubstance(instead.Key, instead.Identity.Name, instead), Mol = massKg * density / instead.Identity.MolarMassKgPerMol };
        }
    }

    private static double[] Axis(double from, double to, int points, double lowest, double highest)
    {
        if (double.IsNaN(from) || double.IsNaN(to))
        {
            throw new ArgumentOutOfRangeException(nameof(from), "The range must be of numbers.");
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(from, lowest);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(to, highest);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(from, to);
        ArgumentOutOfRangeException.ThrowIfLessThan(points, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(points, MostPoints);
        return [.. Enumerable.Range(0, points).Select(index => from + ((to - from) * index / (points - 1)))];
    }

    private static StepState Moved(StepState state, double temperatureK)
    {
        var risen = temperatureK - state.TemperatureK;
        var overshootK = state.SurfaceStated && state.SurfaceTemperatureK >= state.WorstTemperatureK ? 0 : state.WorstTemperatureK - state.TemperatureK;
        var surfaceK = state.SurfaceStated ? state.SurfaceTemperatureK + Math.Min(0, risen) : double.MinValue;
        var floorK = state.Sealed ? Math.Max(temperatureK, Walk.RoomTemperatureK) : temperatureK;
        var worstK = Math.Max(Math.Max(state.Heated ? temperatureK + overshootK : temperatureK, floorK), surfaceK);
        return state with { TemperatureK = temperatureK, WorstTemperatureK = worstK, SurfaceTemperatureK = state.SurfaceStated ? Math.Max(surfaceK, temperatureK) : worstK };
    }

    internal static StepState Scaled(StepState state, double factor) =>
        Mapped(state, content => content with { Mol = content.Mol * factor }) with { GasEvolvedMol = state.GasEvolvedMol * factor };

    private static StepState Mapped(StepState state, Func<Content, Content> change) => state with
    {
        Contents = [.. state.Contents.Select(change)],
        Remaining = [.. state.Remaining.Select(change)],
        ContentsAfter = [.. state.ContentsAfter.Select(change)],
        Closing = state.Closing is { } closing ? closing with { Contents = [.. closing.Contents.Select(change)] } : null,
    };

    /// <summary>The peak from closing up to ever higher temperatures, each built on the one before.</summary>
    private sealed class RisingPeak(ClosedAssessment assessment)
    {
        private readonly double closedK = assessment.State.Closing!.TemperatureK;
        private PeakPressure? last;
        private double reachedK;

        public PeakPressure UpTo(double setK, double worstK)
        {
            if (last is not null && worstK >= reachedK)
            {
                var next = PeakPressure.Between(assessment.Charge, reachedK, worstK);
                last = PeakPressure.Height(last.State) > PeakPressure.Height(next.State) ? last with { AtEnd = next.AtEnd } : next;
            }
            else
            {
                last = PeakPressure.Between(assessment.Charge, Math.Min(closedK, setK), worstK);
            }

            reachedK = worstK;
            return last;
        }
    }

    /// <summary>What does not move along the axis.</summary>
    private sealed record Judged(StepState State, Policy Policy, GoverningRating Rating, double? FlashK, double FlashMarginK, double? SurfaceLimitK, double? LimitK)
    {
        public static Judged Of(StepState state, Policy policy)
        {
            ArgumentNullException.ThrowIfNull(state);
            ArgumentNullException.ThrowIfNull(policy);
            var flash = Flash(state, out var several);
            var autoignition = state.Contents.Where(static content => content.Substance.Known is { NonFlammable: not { Value: true }, AutoignitionK: not null })
                .Min(static content => (double?)content.Substance.Known!.AutoignitionK!.Governing.Value);
            return new Judged(
                state,
                policy,
                GoverningRating.For(state.Vessel, state.VesselIndex),
                flash,
                several ? policy.FlashMarginMixtureK : policy.FlashMarginK,
                autoignition is { } lowest ? HotSurface.LimitK(lowest, policy.HotSurfaceShare) : null,
                state.Vessel.Parts.Select(static part => part.MaximumTemperatureK).Append(state.Vessel.MaximumTemperatureK).Min());
        }

        public SafeWindowPoint Point(double at, StepState moved, ClosedAssessment? assessment, RisingPeak? peaks)
        {
            var peak = assessment is null ? null : peaks?.UpTo(moved.TemperatureK, moved.WorstTemperatureK) ?? assessment.Peak;
            var full = peak?.State.Phase == VesselPhase.LiquidFull;
            var unknown = peak is { AtEnd: { PressurePaAbs: null, Phase: not VesselPhase.LiquidFull } };
            var governing = full ? null : Gauge(peak?.State.PressurePaAbs);
            var point = new SafeWindowPoint(at)
            {
                TemperatureK = moved.TemperatureK,
                WorstTemperatureK = moved.WorstTemperatureK,
                ExpectedPaGauge = assessment is null ? null : Gauge(assessment.Charge.GoverningAt(moved.TemperatureK).PressurePaAbs),
                BoundPaGauge = assessment is null ? null : Gauge(assessment.Charge.BoundPaAt(moved.WorstTemperatureK)),
                GoverningPaGauge = governing,
                LiquidFull = full,
                ShareOfRating = Rating.PaGauge is { } rated and > 0 ? governing / rated : null,
                FlashMarginK = FlashK - moved.TemperatureK,
                SurfaceMarginK = SurfaceLimitK - HotSurface.SurfaceK(moved),
                LimitMarginK = LimitK - moved.WorstTemperatureK,
                Model = peak is { State: { PressurePaAbs: not null, Model: var model } } ? PressureSentences.ModelWords(model) : null,
                Sources = peak?.State.Sources ?? [],
            };
            return point with { Safe = IsSafe(point, moved, assessment, unknown) };
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

        private bool? IsSafe(SafeWindowPoint point, StepState moved, ClosedAssessment? assessment, bool unknown)
        {
            var limit = Rating.QuietLimitPaGauge(State.Vessel, Policy);
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
}
