namespace PreApproval.Hazards.Mixtures;

/// <summary>One of several liquids in equilibrium: the activities of every component are the same in all of them.</summary>
/// <param name="MoleFractions">Its mole fractions.</param>
/// <param name="Share">Moles of it per mole of all, between 0 and 1.</param>
public sealed record LiquidPhase(IReadOnlyList<double> MoleFractions, double Share);

/// <summary>
/// The liquids into which a composition parts at a temperature. Two by successive substitution from the trial liquid of the tangent-plane test, with the
/// amount from the Rachford–Rice equation (Michelsen, Fluid Phase Equilib. 9 (1982) 21, doi:10.1016/0378-3812(82)85002-4). Where that
/// does not settle soon, or its liquids would part again, <see cref="LiquidGibbs"/> goes down in Gibbs energy and takes up a further liquid for as long as the test finds one.
/// </summary>
internal static class LiquidSplit
{
    private const int MaximumIterations = 200;
    private const int MaximumAdditions = 10;
    private const double Convergence = 1e-11;
    private const double SameActivity = 1e-7;
    private const int StepsBetween = 5;
    private const double LargestEigenvalue = 0.98;
    private const double ShareAccuracy = 1e-15;

    /// <summary>
    /// The liquids, two or more, or null with <paramref name="oneLiquid"/> true for a composition that stays one, false where no liquids were
    /// found that are in equilibrium and stable.
    /// </summary>
    public static LiquidPhase[]? Find(Unifac.UnifacAtTemperature model, double[] feed, out bool oneLiquid)
    {
        Span<double> trial = stackalloc double[feed.Length];
        oneLiquid = !LiquidStability.TryFindSecond(model, feed, trial);
        if (oneLiquid)
        {
            return null;
        }

        return TwoByFlash(model, feed, trial) is { } two && Unstable(model, two, stackalloc double[feed.Length]) < 0
            ? two
            : ByGibbsEnergy(model, feed, trial, out oneLiquid);
    }

    private static LiquidPhase[]? ByGibbsEnergy(Unifac.UnifacAtTemperature model, double[] feed, Span<double> trial, out bool oneLiquid)
    {
        var gibbs = new LiquidGibbs(model, feed);
        oneLiquid = false;
        var from = 0;
        for (var addition = 0; addition < MaximumAdditions; addition++)
        {
            if (!gibbs.TryPart(from, trial) || !gibbs.TrySettle())
            {
                return null;
            }

            // Close to where the liquids become one, their pressure is that of the undivided liquid.
            oneLiquid = gibbs.Count == 1;
            var liquids = gibbs.Liquids();
            from = oneLiquid ? -1 : Unstable(model, liquids, trial);
            if (from < 0)
            {
                return oneLiquid ? null : liquids;
            }
        }

        return null;
    }

    /// <summary>Which of the liquids would part, into what; −1 where none would.</summary>
    private static int Unstable(Unifac.UnifacAtTemperature model, LiquidPhase[] liquids, Span<double> trial)
    {
        for (var index = 0; index < liquids.Length; index++)
        {
            if (LiquidStability.TryFindSecond(model, (double[])liquids[index].MoleFractions, trial))
            {
                return index;
            }
        }

        return -1;
    }

    private static LiquidPhase[]? TwoByFlash(Unifac.UnifacAtTemperature model, double[] feed, ReadOnlySpan<double> trial)
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
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            model.LogActivityCoefficients(first, logFirst);
            model.LogActivityCoefficients(second, logSecond);
            double change = 0;
            double largestLogK = 0;
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

            if (iteration % StepsBetween == StepsBetween - 1)
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
                // a share of none or of more than all: the feed lies beside the tie line
                return share is > 0 and < 1 && InEquilibrium(model, first, second, logFirst, logSecond)
                    ? [new LiquidPhase(first, 1 - share), new LiquidPhase(second, share)]
                    : null;
            }

            previous = change;
        }

        return null;
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

    private static bool InEquilibrium(Unifac.UnifacAtTemperature model, double[] first, double[] second, Span<double> logFirst, Span<double> logSecond)
    {
        model.LogActivityCoefficients(first, logFirst);
        model.LogActivityCoefficients(second, logSecond);
        double distance = 0;
        for (var i = 0; i < first.Length; i++)
        {
            distance = Math.Max(distance, Math.Abs(first[i] - second[i]));
            if (Math.Abs((first[i] * Math.Exp(logFirst[i])) - (second[i] * Math.Exp(logSecond[i]))) > SameActivity)
            {
                return false;
            }
        }

        return distance > 1e-4;
    }
}
