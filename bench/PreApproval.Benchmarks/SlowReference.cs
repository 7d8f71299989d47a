using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Benchmarks;

/// <summary>
/// The equations as they stand in the publications, with look-ups, sequences and nested bisection and no thought of speed: the yardstick
/// for the engine. Trapped air is taken as 79 % nitrogen and 21 % oxygen at 101 325 Pa and 293.15 K, dry.
/// </summary>
internal static class SlowReference
{
    private const double R = 8.31446261815324;

    /// <summary>γ of original UNIFAC, group by group.</summary>
    public static double[] ActivityCoefficients(IReadOnlyList<Substance> substances, double[] x, double temperatureK)
    {
        UnifacTable table = UnifacTable.Default;
        List<Dictionary<int, int>> groups = [.. substances.Select(static s => s.UnifacGroups!.Value.ToDictionary(static g => g.Key, static g => g.Value))];
        double[] r = [.. groups.Select(g => g.Sum(k => k.Value * table.Subgroups[k.Key].Volume))];
        double[] q = [.. groups.Select(g => g.Sum(k => k.Value * table.Subgroups[k.Key].Surface))];
        Dictionary<int, double> mixture = groups.SelectMany((g, i) => g.Select(k => (k.Key, Amount: k.Value * x[i]))).GroupBy(static k => k.Key).ToDictionary(static k => k.Key, static k => k.Sum(static a => a.Amount));
        Dictionary<int, double> inMixture = LogGroups(mixture, table, temperatureK);
        return [.. substances.Select((_, i) =>
        {
            double v = r[i] / x.Select((xi, j) => xi * r[j]).Sum();
            double f = q[i] / x.Select((xi, j) => xi * q[j]).Sum();
            double combinatorial = 1 - v + Math.Log(v) - (5 * q[i] * (1 - (v / f) + Math.Log(v / f)));
            Dictionary<int, double> pure = LogGroups(groups[i].ToDictionary(static g => g.Key, static g => (double)g.Value), table, temperatureK);
            return Math.Exp(combinatorial + groups[i].Sum(g => g.Value * (inMixture[g.Key] - pure[g.Key])));
        })];
    }

    /// <summary>Pressure in Pa by modified Raoult: bisection on the amount of liquid inside a fixed point over γ and the gas volume.</summary>
    public static double ModifiedRaoult(IReadOnlyList<Substance> substances, double[] n, double volume, double temperatureK)
    {
        double cold = substances.Select((s, i) => n[i] * LiquidVolume.At(s, 293.15).M3PerMol).Sum();
        double air = 101_325 * (volume - cold) / (R * 293.15);
        double[] saturation = [.. substances.Select(s => VapourPressure.At(s, temperatureK).Pascal)];
        double[] molar = [.. substances.Select(s => LiquidVolume.At(s, temperatureK).M3PerMol)];
        double[] x = [.. n.Select(a => a / n.Sum())];
        double gas = volume - molar.Select((v, i) => v * n[i]).Sum();
        for (int iteration = 0; iteration < 60; iteration++)
        {
            double[] gamma = ActivityCoefficients(substances, x, temperatureK);
            double[] k = [.. saturation.Select((p, i) => gamma[i] * p * gas / (R * temperatureK))];
            double low = 0;
            double high = n.Sum();
            for (int halving = 0; halving < 60; halving++)
            {
                double middle = 0.5 * (low + high);
                (low, high) = n.Select((a, i) => a / (middle + k[i])).Sum() > 1 ? (middle, high) : (low, middle);
            }

            x = [.. n.Select((a, i) => a / (low + k[i]))];
            x = [.. x.Select(xi => xi / x.Sum())];
            gas = volume - x.Select((xi, i) => xi * low * molar[i]).Sum();
        }

        double[] last = ActivityCoefficients(substances, x, temperatureK);
        return (air * R * temperatureK / gas) + x.Select((xi, i) => xi * last[i] * saturation[i]).Sum();
    }

    /// <summary>Pressure in Pa by Peng–Robinson: bisection on the pressure around a flash at temperature and pressure.</summary>
    public static double PengRobinson(IReadOnlyList<Substance> substances, double[] n, double volume, double temperatureK)
    {
        double total = n.Sum();
        double[] z = [.. n.Select(a => a / total)];
        double[] b = [.. substances.Select(static s => 0.077796073903888455 * R * s.CriticalTemperatureK!.Value / s.CriticalPressurePa!.Value)];
        double[] a = [.. substances.Select(s =>
        {
            double tc = s.CriticalTemperatureK!.Value;
            double w = s.AcentricFactor!.Value;
            double alpha = 1 + ((0.37464 + (1.54226 * w) - (0.26992 * w * w)) * (1 - Math.Sqrt(temperatureK / tc)));
            return 0.45723552892138218 * R * R * tc * tc / s.CriticalPressurePa!.Value * alpha * alpha;
        })];
        double low = 1e3;
        double high = 1e8;
        double[] k = [.. substances.Select((s, i) => 1.0)];
        for (int halving = 0; halving < 50; halving++)
        {
            double p = Math.Sqrt(low * high);
            k = [.. substances.Select(s => s.CriticalPressurePa!.Value / p * Math.Exp(5.373 * (1 + s.AcentricFactor!.Value) * (1 - (s.CriticalTemperatureK!.Value / temperatureK))))];
            double v = 0;
            for (int iteration = 0; iteration < 200; iteration++)
            {
                double share = Vapour(z, k);
                double[] x = [.. z.Select((zi, i) => zi / (1 + (share * (k[i] - 1))))];
                double[] y = [.. x.Select((xi, i) => xi * k[i])];
                x = [.. x.Select(xi => xi / x.Sum())];
                y = [.. y.Select(yi => yi / y.Sum())];
                (double liquid, double[] liquidLog) = Phase(x, a, b, p, temperatureK, true);
                (double gas, double[] gasLog) = Phase(y, a, b, p, temperatureK, false);
                double[] next = [.. liquidLog.Select((l, i) => Math.Exp(l - gasLog[i]))];
                double change = next.Select((ki, i) => Math.Abs((ki / k[i]) - 1)).Max();
                k = next;
                v = total * ((share * gas) + ((1 - share) * liquid));
                if (change < 1e-10)
                {
                    break;
                }
            }

            (low, high) = v > volume ? (p, high) : (low, p);
        }

        return low;
    }

    private static double Vapour(double[] z, double[] k)
    {
        double low = 0;
        double high = 1;
        for (int halving = 0; halving < 60; halving++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = z.Select((zi, i) => zi * (k[i] - 1) / (1 + (middle * (k[i] - 1)))).Sum() > 0 ? (middle, high) : (low, middle);
        }

        return 0.5 * (low + high);
    }

    private static (double Volume, double[] LogFugacity) Phase(double[] x, double[] a, double[] b, double p, double temperatureK, bool liquid)
    {
        double rt = R * temperatureK;
        double bm = x.Select((xi, i) => xi * b[i]).Sum();
        double am = x.SelectMany((xi, i) => x.Select((xj, j) => xi * xj * Math.Sqrt(a[i] * a[j]))).Sum();
        double capitalA = am * p / (rt * rt);
        double capitalB = bm * p / rt;
        double[] roots = Roots(capitalB - 1, capitalA - (3 * capitalB * capitalB) - (2 * capitalB), (capitalB * capitalB * capitalB) + (capitalB * capitalB) - (capitalA * capitalB), capitalB);
        double z = liquid ? roots.Min() : roots.Max();
        double root = Math.Sqrt(2);
        return (z * rt / p, [.. x.Select((_, i) => (b[i] / bm * (z - 1)) - Math.Log(z - capitalB)
            - (capitalA / (2 * root * capitalB) * ((2 * x.Select((xj, j) => xj * Math.Sqrt(a[i] * a[j])).Sum() / am) - (b[i] / bm)) * Math.Log((z + ((1 + root) * capitalB)) / (z + ((1 - root) * capitalB)))))]);
    }

    private static double[] Roots(double c2, double c1, double c0, double above)
    {
        var roots = new List<double>();
        const int Steps = 400;
        double Value(double z) => (((((z + c2) * z) + c1) * z) + c0);
        double At(int i) => above * Math.Exp(Math.Log(3 / above) * i / Steps);
        for (int i = 0; i < Steps; i++)
        {
            double low = At(i);
            double high = At(i + 1);
            if (Value(low) * Value(high) <= 0)
            {
                bool rising = Value(low) < 0;
                for (int halving = 0; halving < 60; halving++)
                {
                    double middle = 0.5 * (low + high);
                    (low, high) = Value(middle) < 0 == rising ? (middle, high) : (low, middle);
                }

                roots.Add(0.5 * (low + high));
            }
        }

        return [.. roots.DefaultIfEmpty(1)];
    }

    private static Dictionary<int, double> LogGroups(Dictionary<int, double> amounts, UnifacTable table, double temperatureK)
    {
        double Psi(int m, int k) => Math.Exp(-table.Interaction(table.Subgroups[m].MainGroup, table.Subgroups[k].MainGroup)!.Value.A / temperatureK);
        double total = amounts.Sum(g => g.Value * table.Subgroups[g.Key].Surface);
        Dictionary<int, double> theta = amounts.ToDictionary(static g => g.Key, g => g.Value * table.Subgroups[g.Key].Surface / total);
        return amounts.Keys.ToDictionary(static k => k, k =>
        {
            double sum = theta.Sum(m => m.Value * Psi(m.Key, k));
            double second = theta.Sum(m => m.Value * Psi(k, m.Key) / theta.Sum(n => n.Value * Psi(n.Key, m.Key)));
            return table.Subgroups[k].Surface * (1 - Math.Log(sum) - second);
        });
    }
}
