using PreApproval.Hazards.Screening;
using PreApproval.Hazards.Substances;
using PreApproval.Hazards.Vessels;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Where a vapour begins to condense. A drop w has ln p = Σ w_i ln(w_i γ_i(w) Psat_i/y_i); the dew pressure is the smallest of these
/// (Michelsen, Fluid Phase Equilib. 9 (1982) 1: a vapour is stable until some drop lowers the Gibbs energy). Each descent starts from another
/// liquid and steps towards w_i ∝ y_i/(γ_i Psat_i), shortened until the value falls; the lowest end counts.
/// </summary>
public static class DewPoint
{
    private const int MaximumIterations = 2000;
    private const double Convergence = 1e-12;

    /// <summary>Dew pressure at a temperature in K; the fractions of the mixture are those of the vapour.</summary>
    public static EquilibriumPoint PressureAt(LiquidMixture vapour, double temperatureK)
    {
        if (Obstacle(vapour) is { } obstacle)
        {
            return EquilibriumPoint.None(obstacle);
        }

        var pressures = VapourPressures.At(vapour, temperatureK);
        if (pressures.Because is { } because)
        {
            return EquilibriumPoint.None(because);
        }

        var (logPressure, drop) = Drop(vapour, pressures.Pascal, temperatureK);
        var liquid = new double[vapour.Parts.Count];
        for (var i = 0; i < drop.Length; i++)
        {
            liquid[vapour.Mixing[i]] = drop[i];
        }

        return new EquilibriumPoint
        {
            TemperatureK = temperatureK,
            PressurePaAbs = Math.Exp(logPressure),
            VapourMoleFractions = [.. vapour.Parts.Select(static part => part.MoleFraction)],
            LiquidMoleFractions = liquid,
            Model = vapour.Mixing.Length == 1 ? LiquidModel.Pure : LiquidModel.OneLiquid,
            Quality = vapour.Model is null ? pressures.Quality : VesselPoint.Worse(pressures.Quality, Quality.Estimated),
            Sources = [.. pressures.Sources, .. vapour.ModelSources],
            Warnings = pressures.Warnings,
        };
    }

    /// <summary>Dew temperature at a pressure in Pa absolute (above 0); the fractions of the mixture are those of the vapour.</summary>
    public static EquilibriumPoint TemperatureAt(LiquidMixture vapour, double pressurePaAbs)
    {
        if (Obstacle(vapour) is { } obstacle)
        {
            return EquilibriumPoint.None(obstacle);
        }

        var inverse = BubblePoint.InverseTemperature(vapour, reciprocal =>
        {
            var pressures = VapourPressures.At(vapour, 1 / reciprocal);
            return pressures.Because is null ? Drop(vapour, pressures.Pascal, 1 / reciprocal).LogPressure - Math.Log(pressurePaAbs) : double.NaN;
        });
        return double.IsNaN(inverse)
            ? EquilibriumPoint.None(BubblePoint.NoTemperature(vapour, pressurePaAbs))
            : PressureAt(vapour, 1 / inverse);
    }

    private static string? Obstacle(LiquidMixture vapour)
    {
        if (vapour.Held.Count > 0)
        {
            return $"no model on file represents {ImmiscibleBound.Names(vapour.Held)} dissolved in these liquids";
        }

        if (vapour.Gaps.Count > 0)
        {
            return $"UNIFAC has no published interaction parameters for {string.Join(", ", vapour.Gaps)}";
        }

        var unfit = vapour.Apart.Concat(vapour.LeftOut).Select(index => vapour.Parts[index].Substance).Concat(vapour.Mixing.Select(index => vapour.Parts[index].Substance).Where(static s => s.Involatile)).ToArray();
        return unfit.Length == 0 ? null : $"{Wording.List(unfit.Select(static s => s.Identity.Name))} {(unfit.Length == 1 ? "has" : "have")} no vapour pressure or no UNIFAC groups on file";
    }

    private static (double LogPressure, double[] Drop) Drop(LiquidMixture vapour, double[] pascal, double temperatureK)
    {
        var n = vapour.Mixing.Length;
        var target = new double[n];
        for (var i = 0; i < n; i++)
        {
            target[i] = Math.Log(pascal[vapour.Mixing[i]]) - Math.Log(Math.Max(vapour.Mixed[i], 1e-300));
        }

        if (n == 1)
        {
            return (target[0], [1]);
        }

        var model = vapour.Model!.At(temperatureK);
        (double LogPressure, double[] Drop) best = (double.PositiveInfinity, []);
        for (var start = -1; start < n; start++)
        {
            var w = new double[n];
            for (var i = 0; i < n; i++)
            {
                w[i] = start < 0 ? Math.Exp(target.Min() - target[i]) : vapour.Mixed[i] > 0 ? i == start ? 1 : 1e-3 : 0;
            }

            Normalise(w);
            var logPressure = Descend(model, target, w);
            if (logPressure < best.LogPressure)
            {
                best = (logPressure, w);
            }
        }

        return best;
    }

    private static double Descend(Unifac.UnifacAtTemperature model, double[] target, double[] w)
    {
        var n = w.Length;
        var log = new double[n];
        var next = new double[n];
        var value = Value(model, target, w, log);
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            double change = 0;
            var shift = double.PositiveInfinity;
            for (var i = 0; i < n; i++)
            {
                shift = Math.Min(shift, target[i] + log[i]);
            }

            double sum = 0;
            for (var i = 0; i < n; i++)
            {
                next[i] = Math.Exp(shift - target[i] - log[i]);
                sum += next[i];
            }

            for (var i = 0; i < n; i++)
            {
                next[i] /= sum;
                change = Math.Max(change, Math.Abs(next[i] - w[i]));
            }

            if (change < Convergence)
            {
                return shift - Math.Log(sum);
            }

            // the direction is one of descent; where the full step overshoots, a shorter one does not
            var step = 1.0;
            var trial = new double[n];
            var lower = value;
            for (var halving = 0; halving < 40; halving++, step /= 2)
            {
                for (var i = 0; i < n; i++)
                {
                    trial[i] = w[i] + (step * (next[i] - w[i]));
                }

                lower = Value(model, target, trial, log);
                if (lower <= value + 1e-14)
                {
                    break;
                }
            }

            trial.CopyTo(w, 0);
            value = lower;
        }

        return value;
    }

    private static double Value(Unifac.UnifacAtTemperature model, double[] target, double[] w, double[] log)
    {
        model.LogActivityCoefficients(w, log);
        double sum = 0;
        for (var i = 0; i < w.Length; i++)
        {
            sum += w[i] > 0 ? w[i] * (Math.Log(w[i]) + log[i] + target[i]) : 0;
        }

        return sum;
    }

    private static void Normalise(double[] w)
    {
        var sum = w.Sum();
        for (var i = 0; i < w.Length; i++)
        {
            w[i] /= sum;
        }
    }
}
