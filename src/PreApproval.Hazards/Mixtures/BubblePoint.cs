using PreApproval.Hazards.Numerics;
using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Where a liquid begins to boil: p = Σ a_i Psat_i(T) with the activities a = x γ of original UNIFAC and an ideal vapour. A liquid that
/// splits boils from all its liquids at once (heteroazeotropic); their activities are equal, so any gives the pressure. What has no
/// groups, or a mixture without parameters, counts at its full vapour pressure: an upper bound. Method: docs/methods/bubble-and-dew-points.md.
/// </summary>
public static class BubblePoint
{
    /// <summary>Where searches over 1/T begin, in 1/K.</summary>
    internal const double StartPerK = 1 / 300.0;

    /// <summary>Bubble pressure at a temperature in K.</summary>
    public static EquilibriumPoint PressureAt(LiquidMixture mixture, double temperatureK) => PressureAt(mixture, temperatureK, null);

    private static EquilibriumPoint PressureAt(LiquidMixture mixture, double temperatureK, Unifac.UnifacAtTemperature? model)
    {
        if (mixture.Held.Count > 0)
        {
            return EquilibriumPoint.None($"no model on file represents {ImmiscibleBound.Names(mixture.Held)} dissolved in these liquids");
        }

        var pressures = VapourPressures.At(mixture, temperatureK);
        if (pressures.Because is { } because)
        {
            return EquilibriumPoint.None(because);
        }

        var liquid = mixture.At(temperatureK, model: model);
        var total = Total(liquid, pressures, out var partial);
        if (!(total > 0))
        {
            return EquilibriumPoint.None("nothing in it leaves a vapour worth counting at this temperature");
        }

        // Where a bound stands in, the true composition of the vapour is not known.
        return new EquilibriumPoint
        {
            TemperatureK = temperatureK,
            PressurePaAbs = total,
            VapourMoleFractions = liquid.Model == LiquidModel.Bound ? null : [.. partial.Select(pascal => pascal / total)],
            LiquidMoleFractions = [.. mixture.Parts.Select(static part => part.MoleFraction)],
            Model = liquid.Model,
            Liquids = liquid.Liquids,
            Quality = mixture.Model is null ? pressures.Quality : VesselPoint.Worse(pressures.Quality, Quality.Estimated),
            Sources = [.. pressures.Sources, .. mixture.ModelSources],
            Warnings = [.. pressures.Warnings, .. LiquidWarnings(mixture, liquid)],
        };
    }

    /// <summary>Bubble temperature at a pressure in Pa absolute (above 0).</summary>
    public static EquilibriumPoint TemperatureAt(LiquidMixture mixture, double pressurePaAbs)
    {
        if (mixture.Held.Count > 0)
        {
            return EquilibriumPoint.None($"no model on file represents {ImmiscibleBound.Names(mixture.Held)} dissolved in these liquids");
        }

        var model = mixture.Model?.At(1 / StartPerK);
        var inverse = InverseAt(mixture, pressurePaAbs, model);
        return double.IsNaN(inverse)
            ? EquilibriumPoint.None(NoTemperature(mixture, pressurePaAbs))
            : PressureAt(mixture, 1 / inverse, model);
    }

    /// <summary>The temperature of <see cref="TemperatureAt"/> alone, in K; null where there is none.</summary>
    internal static double? KelvinAt(LiquidMixture mixture, double pressurePaAbs)
    {
        if (mixture.Held.Count > 0)
        {
            return null;
        }

        var inverse = InverseAt(mixture, pressurePaAbs, mixture.Model?.At(1 / StartPerK));
        return double.IsNaN(inverse) ? null : 1 / inverse;
    }

    private static double InverseAt(LiquidMixture mixture, double pressurePaAbs, Unifac.UnifacAtTemperature? model)
    {
        var pascal = new double[mixture.Parts.Count];
        var activities = new double[mixture.Parts.Count];
        return InverseTemperature(mixture, reciprocal => Math.Log(PressurePa(mixture, 1 / reciprocal, pascal, activities, model) / pressurePaAbs));
    }

    /// <summary>Root in 1/T of a function that falls as 1/T rises; NaN where it has none below the lowest critical temperature.</summary>
    internal static double InverseTemperature(LiquidMixture mixture, Func<double, double> function)
    {
        var least = 1 / VapourPressures.CeilingK(mixture);
        const double most = 1 / VapourPressures.LowestK;
        var low = Math.Max(StartPerK, least);
        var high = low;
        var value = function(low);
        var up = value < 0;
        for (var reach = 0; reach < 80 && !double.IsNaN(value); reach++)
        {
            // a colder end where the value is above 0, a hotter one where it is below
            var next = up ? Math.Max(low / 1.1, least) : Math.Min(high * 1.1, most);
            if (next == (up ? low : high))
            {
                return double.NaN;
            }

            var before = value;
            value = function(next);
            for (var nearer = 0; nearer < 12 && double.IsNaN(value); nearer++)
            {
                // a vapour pressure ends on the way: what lies before its end may still hold the answer
                next = (next + (up ? low : high)) / 2;
                value = function(next);
            }

            if (up)
            {
                high = low;
                low = next;
            }
            else
            {
                low = high;
                high = next;
            }

            if (up ? value >= 0 : value <= 0)
            {
                return up ? RootBetween.Find(function, low, high, value, before) : RootBetween.Find(function, low, high, before, value);
            }
        }

        return double.NaN;
    }

    internal static string NoTemperature(LiquidMixture mixture, double pressurePaAbs) =>
        $"no temperature below {Wording.Celsius(VapourPressures.CeilingK(mixture))}, where the first component passes its critical point, gives {Wording.Figures(pressurePaAbs / 1e5)} bar, or a vapour pressure on the way there is not on file";

    internal static IEnumerable<string> LiquidWarnings(LiquidMixture mixture, LiquidState liquid)
    {
        if (liquid.Liquids.Length > 0)
        {
            yield return liquid.Liquids.Length == 2
                ? "UNIFAC predicts two liquids: pressure, vapour and flash point hold for both in equilibrium; the activity coefficients are those of the composition as given."
                : $"UNIFAC predicts {liquid.Liquids.Length} liquids: pressure, vapour and flash point hold for all of them in equilibrium; the activity coefficients are those of the composition as given.";
        }
        else if (liquid.Model == LiquidModel.Bound && mixture is { Gaps.Count: 0, Apart.Length: 0 })
        {
            yield return "UNIFAC predicts more than one liquid and their compositions could not be had: every component counts at its full vapour pressure.";
        }
    }

    private static double PressurePa(LiquidMixture mixture, double temperatureK, double[] pascal, double[] activities, Unifac.UnifacAtTemperature? model)
    {
        if (!VapourPressures.TryFill(mixture, temperatureK, pascal))
        {
            return double.NaN;
        }

        mixture.At(temperatureK, model: model, activities: activities);
        double total = 0;
        for (var i = 0; i < pascal.Length; i++)
        {
            total += activities[i] * pascal[i];
        }

        return total;
    }

    private static double Total(LiquidState liquid, VapourPressures pressures, out double[] partial)
    {
        partial = new double[liquid.Activities.Length];
        double total = 0;
        for (var i = 0; i < partial.Length; i++)
        {
            partial[i] = liquid.Activities[i] * pressures.Pascal[i];
            total += partial[i];
        }

        return total;
    }
}
