using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Fire;

/// <summary>A flash point of a mixture, or why there is none.</summary>
public sealed record FlashPointEstimate
{
    /// <summary>Closed-cup flash point in K; null where there is none that could serve as a margin.</summary>
    public double? FlashPointK { get; init; }

    /// <summary>
    /// Temperature in K at which the saturated vapour reaches the lower limit, where components without a flash point take part
    /// (dichloromethane): the vapour burns above it although no flash point is found.
    /// </summary>
    public double? LowerExplosionPointK { get; init; }

    public LiquidModel? Liquid { get; init; }

    /// <summary>True for one substance alone, whose flash point is on file.</summary>
    public bool Published { get; init; }

    /// <summary>True where measured constants of the pair gave the activities (van Laar), not UNIFAC.</summary>
    public bool FromMeasuredPair { get; init; }

    public Quality Quality { get; init; }

    /// <summary>Full references.</summary>
    public IReadOnlyList<string> Sources { get; init; } = [];

    public IReadOnlyList<string> Warnings { get; init; } = [];

    public string? Because { get; init; }
}

/// <summary>
/// Flash point of a liquid mixture after Liaw et al. (2002): the temperature at which Σ a_i Psat_i(T)/Psat_i(T_fp,i) = 1 over the
/// flammable components, with the activities a = x γ of the whole mixture; water and what does not burn only dilute. Where the liquid
/// splits, the activities are those of the two liquids in equilibrium, the same in both (Liaw et al. 2008). A component
/// without groups, or a mixture without parameters, takes part with the highest activity it can have, 1: the flash point is then a lower bound.
/// A flammable component without a flash point takes part by Psat = LFL · 101 325 Pa. Method: docs/methods/mixture-flash-point.md.
/// </summary>
public static class MixtureFlashPoint
{
    /// <summary>Flash point of a mixture.</summary>
    public static FlashPointEstimate Of(LiquidMixture mixture)
    {
        mixture = InOrder(mixture);
        var present = mixture.Parts.Where(static part => part.MoleFraction > 0).ToArray();
        if (present is [{ Substance: { FlashPointK.Governing: { } published } only }] && !VapourLimits.DoesNotBurn(only))
        {
            return new FlashPointEstimate { FlashPointK = published.Value, Liquid = LiquidModel.Pure, Published = true, Quality = published.Quality, Sources = References.Full(published.Sources) };
        }

        var fuels = new List<Fuel>();
        var warnings = new List<string>();
        var unknown = new List<string>();
        for (var index = 0; index < mixture.Parts.Count; index++)
        {
            var part = mixture.Parts[index];
            if (part.MoleFraction <= 0 || VapourLimits.DoesNotBurn(part.Substance) || mixture.LeftOut.Contains(index))
            {
                continue;
            }

            if (Fuel.Of(part.Substance, index) is { } fuel)
            {
                fuels.Add(fuel);
                if (fuel.Warning is { } warning)
                {
                    warnings.Add(warning);
                }
            }
            else
            {
                unknown.Add(part.Substance.Identity.Name);
            }
        }

        if (unknown.Count > 0)
        {
            return new FlashPointEstimate { Because = $"neither a flash point nor a flammable limit of {Wording.List(unknown)} is on file, and none can be estimated", Warnings = warnings };
        }

        if (mixture.Held.Count > 0)
        {
            return new FlashPointEstimate { Because = $"no model on file represents {ImmiscibleBound.Names(mixture.Held)} dissolved in these liquids", Warnings = warnings };
        }

        return fuels.Count == 0
            ? new FlashPointEstimate { Because = "nothing in it is known to burn" }
            : Solved(mixture, fuels, warnings);
    }

    /// <summary>
    /// The lowest flash point that liquids can have together, in whatever amounts: each counts with the highest activity a liquid can have, 1.
    /// </summary>
    public static FlashPointEstimate InAnyAmounts(IReadOnlyList<Substance> liquids)
    {
        var mixture = InOrder(new LiquidMixture([.. liquids.Select(static liquid => new MixtureComponent(liquid, 1))]));
        Fuel[] fuels = [.. mixture.Parts.Select(static (part, index) => VapourLimits.DoesNotBurn(part.Substance) ? null : Fuel.Of(part.Substance, index)).OfType<Fuel>()];
        var temperatureK = 1 / BubblePoint.InverseTemperature(mixture, inverse => Math.Log(fuels.Sum(fuel => VapourPressure.At(fuel.Substance, 1 / inverse).Pascal / fuel.ReferencePa)));
        return double.IsFinite(temperatureK)
            ? new FlashPointEstimate
            {
                FlashPointK = temperatureK,
                Liquid = LiquidModel.Bound,
                Quality = fuels.Max(static fuel => fuel.Quality),
                Sources = References.Full(["liaw-2002", .. fuels.SelectMany(static fuel => fuel.Sources)]),
                Warnings = ["The flash point is a lower bound: amounts are not known, so each liquid counts at its full vapour pressure."],
            }
            : new FlashPointEstimate { Because = NotReached(mixture) };
    }

    private static FlashPointEstimate Solved(LiquidMixture mixture, List<Fuel> fuels, List<string> warnings)
    {
        var measured = VanLaar.Find(mixture);
        var model = measured is null ? mixture.Model?.At(1 / BubblePoint.StartPerK) : null;
        var temperatureK = Temperature(mixture, fuels, measured, model);
        if (double.IsNaN(temperatureK))
        {
            return new FlashPointEstimate { Because = NotReached(mixture), Warnings = warnings };
        }

        var liquid = At(mixture, temperatureK, measured, maySplit: true, model);
        if (BoilsFirst(mixture, liquid, temperatureK))
        {
            return new FlashPointEstimate
            {
                Because = "the mixture boils before its vapour becomes flammable, so it has no closed-cup flash point; what distils from it may burn",
                Warnings = warnings,
            };
        }

        var halogenated = mixture.Parts.Where(static part => part.MoleFraction > 0 && Combustion.IsHalogenated(part.Substance)).Select(static part => part.Substance).ToArray();
        var hidden = fuels.Where(static fuel => fuel.ByLimit && Combustion.IsHalogenated(fuel.Substance)).Select(static fuel => fuel.Substance).ToArray();
        var result = new FlashPointEstimate
        {
            FlashPointK = temperatureK,
            Liquid = liquid.Model,
            FromMeasuredPair = measured is not null,
            Quality = VesselPoint.Worse(fuels.Max(static fuel => fuel.Quality), measured is null ? Quality.Estimated : Quality.Assumed),
            Sources = References.Full([.. Methods(liquid), .. fuels.SelectMany(static fuel => fuel.Sources), .. measured is { Pair.Sources: var fitted } ? fitted : mixture.ModelSources]),
            Warnings = [.. warnings, .. measured is null ? [] : Comparison(mixture, fuels, temperatureK), .. Remarks(mixture, liquid, halogenated, hidden)],
        };
        return hidden.Length == 0 ? result : result with
        {
            FlashPointK = null,
            LowerExplosionPointK = temperatureK,
            Because = $"{Names(hidden)} {(hidden.Length == 1 ? "has" : "have")} no flash point and yet a flammable vapour: no flash point is a valid margin for it",
        };
    }

    // Close to where a liquid begins to split, the search for the two liquids may end differently by the order of the parts: they get one order.
    private static LiquidMixture InOrder(LiquidMixture mixture)
    {
        for (var i = 1; i < mixture.Parts.Count; i++)
        {
            if (string.CompareOrdinal(mixture.Parts[i - 1].Substance.Key, mixture.Parts[i].Substance.Key) > 0)
            {
                return new LiquidMixture([.. mixture.Parts.OrderBy(static part => part.Substance.Key, StringComparer.Ordinal)]);
            }
        }

        return mixture;
    }

    private static IEnumerable<string> Methods(LiquidState liquid) => liquid.Model is LiquidModel.TwoLiquids or LiquidModel.MoreLiquids ? ["liaw-2002", "liaw-2008"] : ["liaw-2002"];

    private static IEnumerable<string> Remarks(LiquidMixture mixture, LiquidState liquid, Substance[] halogenated, Substance[] hidden)
    {
        if (hidden.Length == 0 && halogenated.Length > 0 && mixture.Parts.Count(static part => part.MoleFraction > 0) > 1)
        {
            yield return $"With {Names(halogenated)} in it no distance to the flash point is a valid margin: halogenated parts suppress the flash in the cup and evaporate first or last.";
        }

        if (liquid.Model == LiquidModel.TwoLiquids)
        {
            yield return "The liquid splits in two at its flash point; both flash at the same temperature.";
        }
        else if (liquid.Model == LiquidModel.MoreLiquids)
        {
            yield return $"The liquid splits in {liquid.Liquids.Length} at its flash point; all flash at the same temperature.";
        }
        else if (liquid.Model == LiquidModel.Bound)
        {
            yield return "The flash point is a lower bound: activity coefficients are missing, so components count at their full vapour pressure.";
        }
    }

    // The pair's own measurements count; what the general model would say is shown where it differs.
    private static IEnumerable<string> Comparison(LiquidMixture mixture, List<Fuel> fuels, double temperatureK)
    {
        var general = Temperature(mixture, fuels, null, mixture.Model?.At(1 / BubblePoint.StartPerK));
        if (Math.Abs(general - temperatureK) >= 2)
        {
            yield return $"The activities are those of the pair's measured equilibrium (van Laar); UNIFAC alone would give a flash point of {Wording.Celsius(general)}.";
        }
    }

    // One liquid is assumed first, and looked at once, at the answer.
    private static double Temperature(LiquidMixture mixture, List<Fuel> fuels, (VanLaar Pair, int First, int Second)? measured, Unifac.UnifacAtTemperature? model)
    {
        var activities = new double[mixture.Parts.Count];
        var reciprocal = BubblePoint.InverseTemperature(mixture, inverse => LogSum(mixture, fuels, 1 / inverse, measured, maySplit: false, model, activities));
        if (model is null || double.IsNaN(reciprocal))
        {
            return 1 / reciprocal;
        }

        model.MoveTo(1 / reciprocal);
        return LiquidStability.IsOneLiquid(model, [.. mixture.Mixed])
            ? 1 / reciprocal
            : 1 / BubblePoint.InverseTemperature(mixture, inverse => LogSum(mixture, fuels, 1 / inverse, null, maySplit: true, model, activities));
    }

    private static double LogSum(LiquidMixture mixture, List<Fuel> fuels, double temperatureK, (VanLaar Pair, int First, int Second)? measured, bool maySplit, Unifac.UnifacAtTemperature? model, double[] room)
    {
        var activities = At(mixture, temperatureK, measured, maySplit, model, room).Activities;
        double sum = 0;
        foreach (var fuel in fuels)
        {
            var pressure = VapourPressure.At(fuel.Substance, temperatureK);
            if (pressure.Volatility is Volatility.Gas or Volatility.Unknown)
            {
                return double.NaN;
            }

            sum += activities[fuel.Index] * pressure.Pascal / fuel.ReferencePa;
        }

        return Math.Log(sum);
    }

    private static LiquidState At(LiquidMixture mixture, double temperatureK, (VanLaar Pair, int First, int Second)? measured, bool maySplit, Unifac.UnifacAtTemperature? model = null, double[]? room = null)
    {
        if (measured is not { } known)
        {
            return mixture.At(temperatureK, maySplit, model, room);
        }

        var activities = new double[mixture.Parts.Count];
        var x = mixture.Parts[known.First].MoleFraction;
        var (first, second) = known.Pair.ActivityCoefficients(x, temperatureK);
        activities[known.First] = x * first;
        activities[known.Second] = (1 - x) * second;
        return new LiquidState(activities, LiquidModel.OneLiquid, []);
    }

    private static bool BoilsFirst(LiquidMixture mixture, LiquidState liquid, double temperatureK)
    {
        var pressures = VapourPressures.At(mixture, temperatureK);
        double total = 0;
        for (var i = 0; i < liquid.Activities.Length; i++)
        {
            total += liquid.Activities[i] * pressures.Pascal[i];
        }

        return liquid.Model != LiquidModel.Bound && total > AtmospherePa;
    }

    private static string NotReached(LiquidMixture mixture) =>
        $"its vapour does not become flammable below {Wording.Celsius(VapourPressures.CeilingK(mixture))}, where the first component passes its critical point, or a vapour pressure on the way there is not on file";

    private static string Names(IEnumerable<Substance> substances) => Wording.List(substances.Select(static substance => substance.Identity.Name));

    /// <summary>A flammable component and the vapour pressure at which it alone flashes.</summary>
    private sealed record Fuel(Substance Substance, int Index, double ReferencePa, bool ByLimit, Quality Quality, IReadOnlyList<string> Sources, string? Warning)
    {
        public static Fuel? Of(Substance substance, int index)
        {
            if (substance.FlashPointK?.Governing is { } flash && VapourPressure.At(substance, flash.Value) is { Volatility: Volatility.Condensable, Pascal: > 0 } pressure)
            {
                return new Fuel(substance, index, pressure.Pascal, ByLimit: false, flash.Quality, flash.Sources, null);
            }

            if (substance.LowerFlammableLimit?.Governing is { } limit)
            {
                return new Fuel(substance, index, limit.Value * AtmospherePa, ByLimit: true, VesselPoint.Worse(limit.Quality, Quality.Estimated), limit.Sources, $"{substance.Identity.Name} has no flash point on file: it takes part by its lower flammable limit.");
            }

            return !Combustion.IsHalogenated(substance) && Combustion.StoichiometricFraction(substance) is { } stoichiometric
                ? new Fuel(substance, index, FlammableLimits.LowerFromStoichiometry(stoichiometric) * AtmospherePa, ByLimit: true, Quality.Estimated, ["jones-1938"], $"{substance.Identity.Name} has neither flash point nor flammable limit on file: it takes part by a lower limit estimated from its formula (Jones).")
                : null;
        }
    }
}
