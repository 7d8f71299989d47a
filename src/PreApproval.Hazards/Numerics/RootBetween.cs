namespace PreApproval.Hazards.Numerics;

/// <summary>
/// Root of a function that changes its sign between two ends: false position with the Illinois modification (Dowell and Jarratt,
/// BIT 11 (1971) 168), and bisection where it gains too little. Never leaves the bracket.
/// </summary>
internal static class RootBetween
{
    private const int MaximumIterations = 200;

    /// <summary>The root, to a relative accuracy in the argument; NaN when the function is NaN inside the bracket or does not change its sign.</summary>
    public static double Find(Func<double, double> function, double low, double high, double relative = 1e-13) =>
        Find(function, low, high, function(low), function(high), relative);

    /// <summary>The same where the values at the ends are known.</summary>
    public static double Find(Func<double, double> function, double low, double high, double atLow, double atHigh, double relative = 1e-13)
    {
        if (atLow == 0)
        {
            return low;
        }

        if (atHigh == 0)
        {
            return high;
        }

        if (!(atLow * atHigh < 0))
        {
            return double.NaN;
        }

        var side = 0;
        for (var iteration = 0; iteration < MaximumIterations && Math.Abs(high - low) > relative * Math.Abs(high); iteration++)
        {
            var next = iteration % 8 == 7 ? (low + high) / 2 : ((low * atHigh) - (high * atLow)) / (atHigh - atLow);
            var value = function(next);
            if (value == 0 || double.IsNaN(value))
            {
                return value == 0 ? next : double.NaN;
            }

            if (Math.Sign(value) == Math.Sign(atHigh))
            {
                if (Math.Abs(next - high) <= relative * Math.Abs(next))
                {
                    return next;
                }

                (high, atHigh) = (next, value);
                atLow = side == 1 ? atLow / 2 : atLow;
                side = 1;
            }
            else
            {
                if (Math.Abs(next - low) <= relative * Math.Abs(next))
                {
                    return next;
                }

                (low, atLow) = (next, value);
                atHigh = side == -1 ? atHigh / 2 : atHigh;
                side = -1;
            }
        }

        return (low + high) / 2;
    }
}
