using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;

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
        var judged = SafeWindowLimits.Of(state, policy);
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

    /// <summary>The step at other set temperatures; overshoot and, downwards, a stated surface move along; above a stated surface the step counts as one that states none.</summary>
    /// <param name="state">A step of the walk, closed or open.</param>
    /// <param name="policy">Thresholds.</param>
    /// <param name="fromK">Lowest set temperature in K.</param>
    /// <param name="toK">Highest set temperature in K.</param>
    /// <param name="points">Number of points, 2 to <see cref="MostPoints"/>, evenly spaced, both ends included.</param>
    /// <exception cref="ArgumentOutOfRangeException">Range or number of points is not as said.</exception>
    public static SafeWindowCurve OverTemperature(StepState state, Policy policy, double fromK, double toK, int points)
    {
        var axis = Axis(fromK, toK, points, 1, ClosedVessel.CeilingK);
        var fixedPart = SafeWindowLimits.Of(state, policy);
        var assessment = ClosedAssessment.Of(state);
        if (assessment is { UndeclaredGas: not null } && PressesMoreWhenHot(state, policy, axis))
        {
            return WithCondensableGas(state, policy, fixedPart, axis);
        }

        var peaks = assessment is null ? null : new RisingPeak(assessment);
        var window = axis.Select(at => fixedPart.Point(at, Moved(state, policy, at), assessment, peaks));
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
        var fixedPart = SafeWindowLimits.Of(state, policy);
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

    private static bool PressesMoreWhenHot(StepState state, Policy policy, double[] axis) =>
        ClosedAssessment.Of(Moved(state, policy, axis[0]))?.Charge.Input.GasEvolvedMol != ClosedAssessment.Of(Moved(state, policy, axis[^1]))?.Charge.Input.GasEvolvedMol;

    // how much of the gas is liquid is another thing at every temperature: no charge serves for two points
    private static SafeWindowCurve WithCondensableGas(StepState state, Policy policy, SafeWindowLimits fixedPart, double[] axis)
    {
        var window = new SafeWindowPoint[axis.Length];
        var missing = new List<string>();
        ClosedAssessment? last = null;
        for (var index = 0; index < axis.Length; index++)
        {
            var moved = Moved(state, policy, axis[index]);
            last = ClosedAssessment.Of(moved, last);
            missing.AddRange((last?.LeftOut ?? []).Except(missing, StringComparer.Ordinal));
            window[index] = fixedPart.Point(axis[index], moved, last, null);
        }

        return fixedPart.Curve(window, state.TemperatureK, missing);
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

    /// <summary>The step as it would be walked at another set temperature, a stated surface lowered along with it as where a document is lowered.</summary>
    private static StepState Moved(StepState state, Policy policy, double temperatureK)
    {
        var statedK = state.SurfaceTemperatureK + Math.Min(0, temperatureK - state.TemperatureK);
        // set above its stated surface, a step no longer has one that can be
        var stated = state.SurfaceStated && (!state.Heated || HeaterOvershoot.CanHeat(statedK, temperatureK));
        var overshootK = state.SurfaceStated && state.SurfaceTemperatureK >= state.WorstTemperatureK
            ? HeaterOvershoot.K(state.HeatSource, temperatureK, state.IndependentCutOut, policy)
            : state.WorstTemperatureK - state.TemperatureK;
        var floorK = state.Sealed ? Math.Max(temperatureK, Walk.RoomTemperatureK) : temperatureK;
        var worstK = Math.Max(Math.Max(state.Heated || state.ReactionGoverns ? temperatureK + overshootK : temperatureK, floorK), stated ? statedK : 0);
        return state with { TemperatureK = temperatureK, WorstTemperatureK = worstK, SurfaceTemperatureK = stated ? statedK : worstK, SurfaceStated = stated };
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
}
