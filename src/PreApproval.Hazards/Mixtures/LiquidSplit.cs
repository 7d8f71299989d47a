namespace PreApproval.Hazards.Mixtures;

/// <summary>Two liquids in equilibrium: the activities of every component are the same in both.</summary>
/// <param name="First">Mole fractions of the one.</param>
/// <param name="Second">Mole fractions of the other.</param>
/// <param name="SecondShare">Moles of the second per mole of both, between 0 and 1.</param>
public sealed record TwoLiquids(IReadOnlyList<double> First, IReadOnlyList<double> Second, double SecondShare);

/// <summary>
/// Liquid–liquid flash at a temperature: successive substitution from the trial liquid of the tangent-plane test, with the amount from
/// the Rachford–Rice equation (Michelsen, Fluid Phase Equilib. 9 (1982) 21,
/// doi:10.1016/0378-3812(82)85002-4).
/// </summary>
internal static class LiquidSplit
{
    private const int MaximumIterations = 4000;
    private const double Convergence = 1e-11;
    private const double SameActivity = 1e-7;
    private const double SlowActivity = 1e-5;
    private const double NearlyOne = 0.3;
    private const int StepsBetween = 5;
    private const double LargestEigenvalue = 0.98;
    private const double ShareAccuracy = 1e-15;

    /// <summary>
    /// The two liquids, or null with <paramref name="oneLiquid"/> true for a composition that stays one, false where more than two
    /// liquids form or the flash does not end in two that are in equilibrium.
    /// </summary>
    public static TwoLiquids? Find(Unifac.UnifacAtTemperature model, double[] feed, out bool oneLiquid)
    {
        Span<double> trial = stackalloc double[feed.Length];
        oneLiquid = !LiquidStability.TryFindSecond(model, feed, trial);
        if (oneLiquid)
        {
            return null;
        }

        // where longer steps lead nowhere, or to liquids that would part again, the plain ones decide
        if (Flash(model, feed, trial, accelerated: true, out _) is { } near && IsStable(model, near))
        {
            return near;
        }

        var split = Flash(model, feed, trial, accelerated: false, out var largestLogK);

        // Close to where the two liquids become one, their pressure is that of the undivided liquid.
        oneLiquid = split is null && largestLogK < NearlyOne;
        return split is not null && IsStable(model, split) ? split : null;
    }

    private static bool IsStable(Unifac.UnifacAtTemperature model, TwoLiquids split) =>
        LiquidStability.IsOneLiquid(model, (double[])split.First) && LiquidStability.IsOneLiquid(model, (double[])split.Second);

    private static TwoLiquids? Flash(Unifac.UnifacAtTemperature model, double[] feed, ReadOnlySpan<double> trial, bool accelerated, out double largestLogK)
    {
        var n = feed.Length;
        var first = (double[])feed.Clone();
        var second = trial.ToArray();
        Span<double> logFirst = stackalloc double[n];
        Span<double> logSecond = stackalloc double[n];
        Span<double> logK = stackalloc double[n];
        Span<double> step = stackalloc double[n];
        Span<double> last = stackalloc double[n];
        Span<double> ratio = stackalloc double[n];
        logK.Clear();
        double share = 0;
        double previous = 0;
        largestLogK = double.PositiveInfinity;
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            model.LogActivityCoefficients(first, logFirst);
            model.LogActivityCoefficients(second, logSecond);
            double change = 0;
            largestLogK = 0;
            step.CopyTo(last);
            for (var i = 0; i < n; i++)
            {
                step[i] = iteration == 0 ? 0 : logFirst[i] - logSecond[i] - logK[i];
                change += step[i] * step[i];
                logK[i] = logFirst[i] - logSecond[i];
                largestLogK = Math.Max(largestLogK, Math.Abs(logK[i]));
            }

            change = Math.Sqrt(change);
            if (largestLogK < 1e-6)
            {
                return null;
            }

            if (accelerated && iteration % StepsBetween == StepsBetween - 1)
            {
                Lengthen(logK, step, last);
            }

            for (var i = 0; i < n; i++)
            {
                ratio[i] = Math.Exp(logK[i]);
            }

            share = Share(feed, ratio);
            Divide(feed, ratio, share, first, second);
            if (iteration > 0 && change < Convergence * Math.Max(1 - (previous > 0 ? change / previous : 0), 1e-3))
            {
                if (share is <= 0 or >= 1)
                {
                    // the feed lies beside the tie line: all of it is in the one liquid
                    largestLogK = 0;
                    return null;
                }

                return InEquilibrium(model, first, second, logFirst, logSecond, SameActivity) ? new TwoLiquids(first, second, share) : null;
            }

            previous = change;
        }

        // Slow to the end means nearly one: two liquids that agree to a hundred-thousandth give the pressure as well.
        // Longer steps may also go round the answer: then the plain ones decide.
        return !accelerated && share is > 0 and < 1 && InEquilibrium(model, first, second, logFirst, logSecond, SlowActivity) ? new TwoLiquids(first, second, share) : null;
    }

    /// <summary>One step to where a geometric series of such steps would end, by their dominant eigenvalue (Orbach and Crowe, Can. J. Chem. Eng. 49 (1971) 509).</summary>
    private static void Lengthen(Span<double> logK, ReadOnlySpan<double> step, ReadOnlySpan<double> last)
    {
        double across = 0;
        double square = 0;
        for (var i = 0; i < step.Length; i++)
        {
            across += step[i] * last[i];
            square += last[i] * last[i];
        }

        var eigenvalue = across / square;
        if (eigenvalue is > 0 and < LargestEigenvalue)
        {
            for (var i = 0; i < step.Length; i++)
            {
                logK[i] += step[i] * eigenvalue / (1 - eigenvalue);
            }
        }
    }

    // Σ z (K − 1)/(1 + β(K − 1)) = 0 falls in β between its poles; a share outside 0 to 1 on the way is allowed to come back.
    private static double Share(double[] feed, ReadOnlySpan<double> ratio)
    {
        double least = double.PositiveInfinity;
        double most = double.NegativeInfinity;
        foreach (var k in ratio)
        {
            least = Math.Min(least, k);
            most = Math.Max(most, k);
        }

        if (least >= 1 || most <= 1)
        {
            return least >= 1 ? 1 : 0;
        }

        var low = 1 / (1 - most);
        var high = 1 / (1 - least);
        var share = Math.Clamp(0.5, low, high);
        for (var iteration = 0; iteration < 200; iteration++)
        {
            double sum = 0;
            double slope = 0;
            for (var i = 0; i < feed.Length; i++)
            {
                var k = ratio[i] - 1;
                var part = k / (1 + (share * k));
                sum += feed[i] * part;
                slope -= feed[i] * part * part;
            }

            (low, high) = sum > 0 ? (share, high) : (low, share);
            // Newton's step, and a bisection where it would leave the bracket
            var next = share - (sum / slope);
            next = next > low && next < high ? next : (low + high) / 2;
            if (Math.Abs(next - share) <= ShareAccuracy)
            {
                return next;
            }

            share = next;
        }

        return share;
    }

    private static void Divide(double[] feed, ReadOnlySpan<double> ratio, double share, double[] first, double[] second)
    {
        double sumFirst = 0;
        double sumSecond = 0;
        for (var i = 0; i < feed.Length; i++)
        {
            first[i] = Math.Max(feed[i] / (1 + (share * (ratio[i] - 1))), 0);
            second[i] = ratio[i] * first[i];
            sumFirst += first[i];
            sumSecond += second[i];
        }

        for (var i = 0; i < feed.Length; i++)
        {
            first[i] /= sumFirst;
            second[i] /= sumSecond;
        }
    }

    private static bool InEquilibrium(Unifac.UnifacAtTemperature model, double[] first, double[] second, Span<double> logFirst, Span<double> logSecond, double tolerance)
    {
        model.LogActivityCoefficients(first, logFirst);
        model.LogActivityCoefficients(second, logSecond);
        double distance = 0;
        for (var i = 0; i < first.Length; i++)
        {
            distance = Math.Max(distance, Math.Abs(first[i] - second[i]));
            if (Math.Abs((first[i] * Math.Exp(logFirst[i])) - (second[i] * Math.Exp(logSecond[i]))) > tolerance)
            {
                return false;
            }
        }

        return distance > 1e-4;
    }
}
