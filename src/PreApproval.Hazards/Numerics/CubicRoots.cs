namespace PreApproval.Hazards.Numerics;

/// <summary>Real roots of z³ + c2 z² + c1 z + c0.</summary>
internal static class CubicRoots
{
    /// <summary>
    /// The smallest or largest real root above a limit; where none lies above it, the largest root. By the trigonometric and
    /// hyperbolic forms, polished by Newton steps.
    /// </summary>
    public static double Extreme(double c2, double c1, double c0, bool smallest, double above)
    {
        var shift = -c2 / 3;
        var p = c1 - (c2 * c2 / 3);
        var q = (2 * c2 * c2 * c2 / 27) - (c2 * c1 / 3) + c0;
        var discriminant = (q * q / 4) + (p * p * p / 27);
        if (discriminant > 0)
        {
            var root = Math.Sqrt(discriminant);
            // the larger of the two cube roots first: no cancellation
            var u = Math.Cbrt((-q / 2) + (q > 0 ? -root : root));
            return Polish(shift + u - (u == 0 ? 0 : p / (3 * u)), c2, c1, c0);
        }

        var radius = 2 * Math.Sqrt(Math.Max(-p / 3, 0));
        var angle = radius == 0 ? 0 : Math.Acos(Math.Clamp(3 * q / (p * radius), -1, 1)) / 3;
        var largest = Polish(shift + (radius * Math.Cos(angle)), c2, c1, c0);
        if (!smallest)
        {
            return largest;
        }

        var best = largest;
        for (var k = 1; k <= 2; k++)
        {
            var candidate = Polish(shift + (radius * Math.Cos(angle - (2 * Math.PI * k / 3))), c2, c1, c0);
            if (candidate > above && candidate < best)
            {
                best = candidate;
            }
        }

        return best;
    }

    private static double Polish(double z, double c2, double c1, double c0)
    {
        for (var i = 0; i < 3; i++)
        {
            var value = (((((z + c2) * z) + c1) * z) + c0);
            var slope = (((3 * z) + (2 * c2)) * z) + c1;
            if (slope == 0)
            {
                break;
            }

            var step = value / slope;
            if (Math.Abs(step) > 0.1 * Math.Abs(z))
            {
                break;
            }

            z -= step;
        }

        return z;
    }
}
