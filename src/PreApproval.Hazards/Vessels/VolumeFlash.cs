using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;

namespace PreApproval.Hazards.Vessels;

/// <summary>
/// Peng–Robinson at fixed temperature, volume and amounts, the trapped gas among the components. With E = f_L/(x R T · f_V/(c R T)),
/// the concentration in the vapour over the mole fraction in the liquid, each balance is n = x (L + E V_gas), and Σx = 1 is one
/// monotone equation in the amount of liquid: the same shape as modified Raoult, and as well conditioned, unlike a pressure loop
/// around a flash. A single phase is kept only when no trial phase lowers the Helmholtz energy: Mikyška and Firoozabadi, Fluid Phase
/// Equilib. 321 (2012) 1, doi:10.1016/j.fluid.2012.01.026.
/// </summary>
internal static class VolumeFlash
{
    private const int MaximumIterations = 2000;
    private const double Convergence = 1e-11;
    private const double PermanentGasTcK = 200;

    // The equation's liquid volumes are off by several per cent, which a compressed liquid turns into thousands of bar.
    private const double LargestSensiblePa = 1e8;
    private static readonly string[] MethodSources = ["peng-robinson1976"];

    /// <summary>Solves the charge at the temperature of the point; says why where it cannot.</summary>
    public static ModelState Solve(VesselPoint point)
    {
        var charge = point.Charge;
        var components = charge.EquationComponents;
        if (components is null)
        {
            return Refuse("critical constants are not on file for every content");
        }

        var volume = charge.VolumeM3 - point.RoomM3;
        if (components.Count == 0 || volume <= 0)
        {
            return Refuse("there is nothing to apply an equation of state to");
        }

        var n = components.Select(c => c.Mol).ToArray();
        var equation = new PengRobinson([.. components.Select(c => c.Critical)], point.TemperatureK);
        return Split(point, components, equation, n, volume) ?? Single(point, components, equation, n, volume);
    }

    /// <summary>True when the equation is trusted to govern: hydrocarbons and permanent gases, and carbon dioxide above Tr 0.9.</summary>
    public static bool MayGovern(VesselPoint point) =>
        point.Charge.Input.Contents.Count > 0 && point.Charge.Input.Contents.All(c =>
            IsHydrocarbon(c.Substance)
            || c.Substance.CriticalTemperatureK?.Value < PermanentGasTcK
            || (c.Substance.Identity.Cas is "124-38-9" && point.TemperatureK > 0.9 * c.Substance.CriticalTemperatureK!.Value));

    /// <summary>True when there is a temperature at which a vessel with nothing else in it may be governed by the equation.</summary>
    public static bool MayEverGovern(Substance substance) =>
        IsHydrocarbon(substance) || substance.CriticalTemperatureK?.Value < PermanentGasTcK || substance.Identity.Cas is "124-38-9";

    private static bool IsHydrocarbon(Substance substance) =>
        substance.Identity.Formula is { } formula && formula.StartsWith('C') && formula.All(c => c is 'C' or 'H' || char.IsAsciiDigit(c));

    private static ModelState? Split(VesselPoint point, IReadOnlyList<EquationComponent> components, PengRobinson equation, double[] n, double volume)
    {
        var count = n.Length;
        var rt = PengRobinson.GasConstant * point.TemperatureK;
        var e = new double[count];
        var x = new double[count];
        var y = new double[count];
        var logLiquid = new double[count];
        var logVapour = new double[count];
        for (var i = 0; i < count; i++)
        {
            var (tc, pc, omega) = components[i].Critical;
            // Wilson's first guess of x-to-y
            e[i] = pc * Math.Exp(5.373 * (1 + omega) * (1 - (tc / point.TemperatureK))) / rt;
        }

        var free = Math.Max(volume - (point.CondensedM3 - point.RoomM3), 0.05 * volume);
        for (var iteration = 0; iteration < MaximumIterations; iteration++)
        {
            var liquid = LiquidAmount(n, e, free);
            if (liquid <= 0)
            {
                return null;
            }

            double vapour = 0;
            double sum = 0;
            for (var i = 0; i < count; i++)
            {
                x[i] = n[i] / (liquid + (e[i] * free));
                sum += x[i];
            }

            for (var i = 0; i < count; i++)
            {
                x[i] /= sum;
                y[i] = x[i] * e[i] * free;
                vapour += y[i];
            }

            for (var i = 0; i < count; i++)
            {
                y[i] /= vapour;
            }

            var vapourMolar = Math.Max(free / vapour, 1.2 * equation.CoVolume(y));
            var pressure = equation.Pressure(y, vapourMolar);
            if (!(pressure > 0))
            {
                return null;
            }

            var liquidMolar = equation.MolarVolume(x, pressure, liquid: true);
            equation.LogFugacityOverConcentration(x, liquidMolar, logLiquid);
            equation.LogFugacityOverConcentration(y, vapourMolar, logVapour);
            double change = 0;
            for (var i = 0; i < count; i++)
            {
                var next = Math.Exp(logLiquid[i] - logVapour[i]) / liquidMolar;
                change = Math.Max(change, Math.Abs((next / e[i]) - 1));
                e[i] = next;
            }

            var nextFree = volume - (liquid * liquidMolar);
            if (nextFree <= 0)
            {
                nextFree = 0.5 * free;
            }

            if (nextFree < 1e-7 * volume || (liquidMolar > 0.97 * vapourMolar && iteration > 10))
            {
                return null;
            }

            change = Math.Max(change, Math.Abs(nextFree - free) / free);
            free += (iteration < 300 ? 1 : 0.5) * (nextFree - free);
            if (change < Convergence)
            {
                return TwoPhase(point, components, x, y, pressure, 1 - (free / volume));
            }
        }

        return Refuse("the equation of state found no solution near its critical point");
    }

    private static double LiquidAmount(double[] n, double[] e, double free)
    {
        double dry = 0;
        double liquid = 0;
        for (var i = 0; i < n.Length; i++)
        {
            dry += n[i] / (e[i] * free);
            liquid = Math.Max(liquid, n[i] - (e[i] * free));
        }

        if (dry <= 1)
        {
            return 0;
        }

        for (var iteration = 0; iteration < 100; iteration++)
        {
            double value = -1;
            double slope = 0;
            for (var i = 0; i < n.Length; i++)
            {
                var all = liquid + (e[i] * free);
                value += n[i] / all;
                slope -= n[i] / (all * all);
            }

            var step = -value / slope;
            liquid += step;
            if (step <= 1e-15 * liquid)
            {
                break;
            }
        }

        return liquid;
    }

    private static ModelState TwoPhase(VesselPoint point, IReadOnlyList<EquationComponent> components, double[] x, double[] y, double pressure, double liquidShare)
    {
        var partial = new Dictionary<string, double>(StringComparer.Ordinal);
        var fractions = new Dictionary<string, double>(StringComparer.Ordinal);
        for (var i = 0; i < x.Length; i++)
        {
            partial[components[i].Key] = partial.GetValueOrDefault(components[i].Key) + (y[i] * pressure);
            fractions[components[i].Key] = fractions.GetValueOrDefault(components[i].Key) + x[i];
        }

        var room = point.RoomM3 / point.Charge.VolumeM3;
        return new ModelState
        {
            Model = VesselModel.PengRobinson,
            Phase = VesselPhase.TwoPhase,
            PressurePaAbs = pressure,
            PartialPressuresPa = partial,
            LiquidVolumeFraction = Math.Clamp(room + (liquidShare * (1 - room)), 0, 1),
            LiquidMoleFractions = fractions,
            Sources = MethodSources,
            Quality = Quality.Estimated,
        };
    }

    private static ModelState Single(VesselPoint point, IReadOnlyList<EquationComponent> components, PengRobinson equation, double[] n, double volume)
    {
        var total = n.Sum();
        var z = Array.ConvertAll(n, v => v / total);
        var molar = volume / total;
        if (molar <= equation.CoVolume(z))
        {
            return Full(null);
        }

        var pressure = equation.Pressure(z, molar);
        if (!(pressure > 0) || !IsStable(equation, z, molar, pressure))
        {
            return Refuse("the equation of state found no solution near its critical point");
        }

        // One dense phase that has more than one volume root, or is denser than its critical density, is a liquid.
        var past = components.All(c => point.TemperatureK > c.Critical.TcK);
        if (!past && molar < 2.6 * equation.CoVolume(z))
        {
            return Full(pressure <= LargestSensiblePa ? pressure : null);
        }

        if (pressure > LargestSensiblePa)
        {
            return Refuse("the equation of state gives more than 1000 bar, beyond what it describes");
        }

        var partial = new Dictionary<string, double>(StringComparer.Ordinal);
        for (var i = 0; i < n.Length; i++)
        {
            partial[components[i].Key] = partial.GetValueOrDefault(components[i].Key) + (z[i] * pressure);
        }

        var condensable = components.Where(c => !c.IsGas).ToList();
        return new ModelState
        {
            Model = VesselModel.PengRobinson,
            Phase = condensable.Count > 0 && condensable.TrueForAll(c => point.TemperatureK > c.Critical.TcK) ? VesselPhase.Supercritical : VesselPhase.Vapour,
            PressurePaAbs = pressure,
            PartialPressuresPa = partial,
            LiquidVolumeFraction = point.RoomM3 / point.Charge.VolumeM3,
            Sources = MethodSources,
            Quality = Quality.Estimated,
        };
    }

    // c'_i = f_i/(R T exp ψ_i(c')) from a vapour-like and from a liquid-like start; unstable when Σ(μ' − μ)c' − (p' − p) falls below 0.
    private static bool IsStable(PengRobinson equation, double[] z, double molar, double pressure)
    {
        var count = z.Length;
        var rt = PengRobinson.GasConstant * equation.TemperatureK;
        var feed = new double[count];
        var log = new double[count];
        var trial = new double[count];
        var fractions = new double[count];
        equation.LogFugacityOverConcentration(z, molar, feed);
        for (var i = 0; i < count; i++)
        {
            feed[i] += Math.Log(Math.Max(z[i], 1e-300) / molar);
        }

        for (var start = 0; start < 2; start++)
        {
            for (var i = 0; i < count; i++)
            {
                trial[i] = start == 0 ? Math.Exp(Math.Min(feed[i], 11)) : z[i] / (1.4 * equation.CoVolume(z));
            }

            for (var iteration = 0; iteration < 300; iteration++)
            {
                var sum = trial.Sum();
                for (var i = 0; i < count; i++)
                {
                    fractions[i] = trial[i] / sum;
                }

                var v = Math.Max(1 / sum, 1.05 * equation.CoVolume(fractions));
                equation.LogFugacityOverConcentration(fractions, v, log);
                double change = 0;
                double distance = 0;
                for (var i = 0; i < count; i++)
                {
                    var next = trial[i] + (0.7 * (Math.Exp(Math.Clamp(feed[i] - log[i], -700, 11.5)) - trial[i]));
                    change = Math.Max(change, Math.Abs(next - trial[i]) * molar);
                    distance = Math.Max(distance, Math.Abs((next * molar) - z[i]));
                    trial[i] = next;
                }

                if (distance < 1e-4)
                {
                    break;
                }

                if (change < 1e-9)
                {
                    // at a stationary point the criterion is −(p' − p)
                    var dense = trial.Sum();
                    for (var i = 0; i < count; i++)
                    {
                        fractions[i] = trial[i] / dense;
                    }

                    if (equation.Pressure(fractions, 1 / dense) > pressure * (1 + 1e-7))
                    {
                        return false;
                    }

                    break;
                }
            }
        }

        return true;
    }

    private static ModelState Full(double? pressurePa) => new()
    {
        Model = VesselModel.PengRobinson,
        Phase = VesselPhase.LiquidFull,
        PressurePaAbs = pressurePa,
        Because = pressurePa is null ? "the liquid fills the vessel, beyond what the equation of state describes" : null,
        LiquidVolumeFraction = 1,
        Sources = MethodSources,
        Quality = Quality.Estimated,
    };

    private static ModelState Refuse(string because) => new() { Model = VesselModel.PengRobinson, Because = because };
}

/// <summary>A component of the equation of state.</summary>
/// <param name="Key">Substance key, or <c>headspace</c>.</param>
/// <param name="Mol">Amount in mol.</param>
/// <param name="Critical">Tc in K, Pc in Pa, ω.</param>
/// <param name="IsGas">True for trapped, evolved and charged gas.</param>
internal readonly record struct EquationComponent(string Key, double Mol, (double TcK, double PcPa, double Omega) Critical, bool IsGas);
