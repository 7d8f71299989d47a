using PreApproval.Hazards.Mixtures;
using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Vessels;

/// <summary>The closed vessel by an equation of state: Peng–Robinson, and PSRK where its groups and parameters are complete.</summary>
internal static class EquationOfStateVessel
{
    private const double PermanentGasTcK = 200;

    // The equations' liquid volumes are off by several per cent, which a compressed liquid turns into thousands of bar.
    private const double LargestSensiblePa = 1e8;

    // Denser than its critical density by this much, a single phase is a liquid.
    private const double LiquidPacking = 2.6;
    private const string NothingToDo = "there is nothing to apply an equation of state to";

    private static readonly string[] PengRobinsonSources = ["peng-robinson1976"];
    private static readonly string[] PsrkSources = ["holderbaum1991", "horstmann2005", "peneloux1982"];

    /// <summary>Peng–Robinson at the temperature of the point; says why where it cannot.</summary>
    public static ModelState PengRobinson(VesselPoint point)
    {
        var components = point.Charge.EquationComponents;
        if (components is null)
        {
            return Refuse(VesselModel.PengRobinson, "critical constants are not on file for every content");
        }

        return components.Length == 0 || point.RoomM3 >= point.Charge.VolumeM3
            ? Refuse(VesselModel.PengRobinson, NothingToDo)
            : Solve(VesselModel.PengRobinson, point, components, new PengRobinson(Array.ConvertAll(components, static c => c.Critical), point.TemperatureK), [], 0);
    }

    /// <summary>PSRK at the temperature of the point; names the groups or parameters it lacks.</summary>
    public static ModelState Psrk(VesselPoint point)
    {
        var charge = point.Charge.Psrk;
        if (charge.Because is { } because)
        {
            return Refuse(VesselModel.Psrk, because);
        }

        var components = charge.Components;
        if (components.Length == 0 || point.RoomM3 >= point.Charge.VolumeM3)
        {
            return Refuse(VesselModel.Psrk, NothingToDo);
        }

        Span<double> saturation = stackalloc double[components.Length];
        saturation.Fill(double.NaN);
        var condensable = point.Condensable;
        for (var i = 0; i < condensable.Length; i++)
        {
            saturation[i] = condensable[i].SaturationPa;
        }

        var equation = new Psrk(Array.ConvertAll(components, static c => c.Critical), saturation, charge.Model?.At(point.TemperatureK), point.TemperatureK);
        Span<double> shifts = stackalloc double[components.Length];
        charge.Translate(equation, condensable, point.TemperatureK, shifts);
        return Solve(VesselModel.Psrk, point, components, equation, shifts, charge.InsolubleMol);
    }

    /// <summary>True when Peng–Robinson is trusted to govern: hydrocarbons and permanent gases, and carbon dioxide above Tr 0.9.</summary>
    public static bool PengRobinsonMayGovern(VesselPoint point) =>
        point.Charge.EquationMayEverGovern && point.Charge.Input.Contents.All(c =>
            c.Substance.Identity.Cas is not "124-38-9" || point.TemperatureK > 0.9 * c.Substance.CriticalTemperatureK!.Value);

    /// <summary>True when there is a temperature at which a vessel with nothing else in it may be governed by Peng–Robinson.</summary>
    public static bool MayEverGovern(Substance substance) =>
        IsHydrocarbon(substance) || substance.CriticalTemperatureK?.Value < PermanentGasTcK || substance.Identity.Cas is "124-38-9";

    private static bool IsHydrocarbon(Substance substance) =>
        substance.Identity.Formula is { } formula && formula.StartsWith('C') && formula.All(c => c is 'C' or 'H' || char.IsAsciiDigit(c));

    private static ModelState Solve(VesselModel model, VesselPoint point, EquationComponent[] components, CubicEquation equation, ReadOnlySpan<double> shifts, double insolubleMol)
    {
        var count = components.Length;
        var volume = point.Charge.VolumeM3 - point.RoomM3;
        var rt = GasConstant * point.TemperatureK;
        Span<double> n = stackalloc double[count];
        Span<double> e = stackalloc double[count];
        Span<double> dense = stackalloc double[count];
        for (var i = 0; i < count; i++)
        {
            var (tc, pc, omega) = components[i].Critical;
            n[i] = components[i].Mol;
            // Wilson's first guess of x-to-y
            e[i] = pc * Math.Exp(5.373 * (1 + omega) * (1 - (tc / point.TemperatureK))) / rt;
        }

        var free = Math.Max(volume - (point.CondensedM3 - point.RoomM3), 0.05 * volume);
        var state = VolumeFlash.Solve(equation, n, volume + Shift(shifts, n), e, free, dense);
        return state.Phases switch
        {
            FlashPhases.TooDense => Full(model, null),
            FlashPhases.Two => Two(model, point, components, equation, n, dense, state, shifts, insolubleMol),
            FlashPhases.One => One(model, point, components, equation, n, state, insolubleMol),
        };
    }

    private static ModelState Two(VesselModel model, VesselPoint point, EquationComponent[] components, CubicEquation equation, ReadOnlySpan<double> n, ReadOnlySpan<double> dense, FlashState state, ReadOnlySpan<double> shifts, double insolubleMol)
    {
        var volume = point.Charge.VolumeM3 - point.RoomM3;
        var denseM3 = state.DenseM3 - Shift(shifts, dense);
        var thinM3 = volume - denseM3;
        Span<double> thin = stackalloc double[n.Length];
        double liquid = 0;
        double vapour = 0;
        for (var i = 0; i < n.Length; i++)
        {
            thin[i] = n[i] - dense[i];
            vapour += thin[i];
            liquid += dense[i];
        }

        if (!(thinM3 > 0) || thinM3 + Shift(shifts, thin) < LiquidPacking * equation.CoVolume(thin))
        {
            // two liquids and no gas
            return Full(model, state.PressurePa <= LargestSensiblePa && insolubleMol == 0 ? state.PressurePa : null);
        }

        var insoluble = insolubleMol * GasConstant * point.TemperatureK / thinM3;
        var partial = new SpeciesValues(n.Length + 1);
        var fractions = new SpeciesValues(n.Length + 1);
        for (var i = 0; i < n.Length; i++)
        {
            var key = components[i].Key;
            partial[key] = partial.GetValueOrDefault(key) + (thin[i] / vapour * state.PressurePa);
            fractions[key] = fractions.GetValueOrDefault(key) + (dense[i] / liquid);
        }

        if (insoluble > 0)
        {
            partial["headspace"] = partial.GetValueOrDefault("headspace") + insoluble;
        }

        return new ModelState
        {
            Model = model,
            Phase = VesselPhase.TwoPhase,
            PressurePaAbs = state.PressurePa + insoluble,
            PartialPressuresPa = partial,
            LiquidVolumeFraction = Math.Clamp((point.RoomM3 + denseM3) / point.Charge.VolumeM3, 0, 1),
            LiquidMoleFractions = fractions,
            Point = model == VesselModel.Psrk ? point : null,
            Method = model == VesselModel.Psrk ? PsrkSources : PengRobinsonSources,
            Quality = Quality.Estimated,
        };
    }

    private static ModelState One(VesselModel model, VesselPoint point, EquationComponent[] components, CubicEquation equation, ReadOnlySpan<double> n, FlashState state, double insolubleMol)
    {
        var volume = point.Charge.VolumeM3 - point.RoomM3;
        var past = true;
        var condensablePast = true;
        var condensable = false;
        foreach (var component in components)
        {
            var above = point.TemperatureK > component.Critical.TcK;
            past &= above;
            condensable |= !component.IsGas;
            condensablePast &= above || component.IsGas;
        }

        if (!past && volume < LiquidPacking * equation.CoVolume(n))
        {
            return Full(model, state.PressurePa is > 0 and <= LargestSensiblePa && insolubleMol == 0 ? state.PressurePa : null);
        }

        var insoluble = insolubleMol * GasConstant * point.TemperatureK / volume;
        if (!(state.PressurePa > 0))
        {
            return Refuse(model, "the liquids part by this equation of state, and it finds no two phases that fill the vessel");
        }

        if (!(state.PressurePa + insoluble <= LargestSensiblePa))
        {
            return Refuse(model, "the equation of state gives more than 1000 bar, beyond what it describes");
        }

        double total = 0;
        foreach (var mol in n)
        {
            total += mol;
        }

        var partial = new SpeciesValues(n.Length + 1);
        for (var i = 0; i < n.Length; i++)
        {
            partial[components[i].Key] = partial.GetValueOrDefault(components[i].Key) + (n[i] / total * state.PressurePa);
        }

        if (insoluble > 0)
        {
            partial["headspace"] = partial.GetValueOrDefault("headspace") + insoluble;
        }

        return new ModelState
        {
            Model = model,
            Phase = condensable && condensablePast ? VesselPhase.Supercritical : VesselPhase.Vapour,
            PressurePaAbs = state.PressurePa + insoluble,
            PartialPressuresPa = partial,
            LiquidVolumeFraction = point.RoomM3 / point.Charge.VolumeM3,
            Point = model == VesselModel.Psrk ? point : null,
            Method = model == VesselModel.Psrk ? PsrkSources : PengRobinsonSources,
            Quality = Quality.Estimated,
        };
    }

    private static double Shift(ReadOnlySpan<double> shifts, ReadOnlySpan<double> n)
    {
        double sum = 0;
        for (var i = 0; i < shifts.Length; i++)
        {
            sum += shifts[i] * n[i];
        }

        return sum;
    }

    private static ModelState Full(VesselModel model, double? pressurePa) => new()
    {
        Model = model,
        Phase = VesselPhase.LiquidFull,
        PressurePaAbs = pressurePa,
        Because = pressurePa is null ? "the liquid fills the vessel, beyond what the equation of state describes" : null,
        LiquidVolumeFraction = 1,
        Sources = model == VesselModel.Psrk ? PsrkSources : PengRobinsonSources,
        Quality = Quality.Estimated,
    };

    private static ModelState Refuse(VesselModel model, string because) => new() { Model = model, Because = because };
}

/// <summary>A component of an equation of state.</summary>
/// <param name="Key">Substance key, or <c>headspace</c>.</param>
/// <param name="Mol">Amount in mol.</param>
/// <param name="Critical">Tc in K, Pc in Pa, ω.</param>
/// <param name="IsGas">True for trapped, evolved and charged gas.</param>
internal readonly record struct EquationComponent(string Key, double Mol, CriticalConstants Critical, bool IsGas);
