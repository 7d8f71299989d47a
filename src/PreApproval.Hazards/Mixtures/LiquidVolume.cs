using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Mixtures;

/// <summary>A molar volume of the condensed phase at one temperature.</summary>
/// <param name="M3PerMol">Molar volume in m³/mol.</param>
/// <param name="Quality">Correlated inside a published range, estimated or assumed outside.</param>
/// <param name="Source">Key in <c>sources.bib</c>.</param>
public readonly record struct LiquidVolumeValue(double M3PerMol, Quality Quality, string Source);

/// <summary>
/// Molar volume of the saturated liquid (or the solid). Published correlations first, inside their range; outside, <see cref="Costald"/> scaled
/// to meet the nearer end, so that the curve is continuous. Without a correlation: the Rackett equation with its parameter fitted to the density
/// on file (Spencer and Danner 1972); then <see cref="Costald"/> with the critical volume as characteristic volume; then Rackett with the parameter
/// from the acentric factor (Yamada and Gunn 1973); then the density with the thermal expansion common for organic liquids,
/// 1.2·10⁻³ 1/K (assumed); solids without expansion; last, 1000 kg/m³ (assumed).
/// </summary>
public static class LiquidVolume
{
    private const double ExpansionPerK = 1.2e-3;

    /// <summary>Molar volume at a temperature in K (above 0).</summary>
    public static LiquidVolumeValue At(Substance substance, double temperatureK)
    {
        if (substance.PhaseAt298K == Phase.Solid && substance.LiquidDensity.Count == 0)
        {
            return Constant(substance);
        }

        if (substance.LiquidDensity.Count > 0)
        {
            return FromCorrelations(substance, temperatureK);
        }

        if (substance is { CriticalTemperatureK: { } tc, CriticalPressurePa: { } pc } && RackettParameter(substance, tc.Value, pc.Value) is { } z)
        {
            return new LiquidVolumeValue(Rackett(tc.Value, pc.Value, z, temperatureK), Quality.Estimated, "rackett1970");
        }

        if ((substance.DensityKgPerM3 is null || substance.PhaseAt298K == Phase.Gas) && CostaldReduced(substance, temperatureK) is { } reduced)
        {
            if (substance.CriticalVolumeM3PerMol is { } volume)
            {
                return new LiquidVolumeValue(volume.Value * reduced, Quality.Estimated, "hankinson-thomson1979");
            }

            if (substance.CriticalPressurePa is { } pressure && substance.AcentricFactor is { } omega)
            {
                var critical = substance.CriticalTemperatureK!.Value;
                return new LiquidVolumeValue(Rackett(critical, pressure.Value, 0.29056 - (0.08775 * omega.Value), temperatureK), Quality.Estimated, "rackett1970");
            }
        }

        var constant = Constant(substance);
        return constant with { M3PerMol = constant.M3PerMol * Math.Max(1 + (ExpansionPerK * (temperatureK - substance.DensityTemperatureK)), 0.7), Quality = Quality.Assumed };
    }

    private static LiquidVolumeValue FromCorrelations(Substance substance, double temperatureK)
    {
        var nearest = substance.LiquidDensity[0];
        var distanceK = double.PositiveInfinity;
        // by index: asked at every temperature of a search, and the list would make an enumerator each time
        for (var index = 0; index < substance.LiquidDensity.Count; index++)
        {
            var candidate = substance.LiquidDensity[index];
            var outsideK = Math.Max(Math.Max(candidate.MinimumK - temperatureK, temperatureK - candidate.MaximumK), 0);
            if (outsideK < distanceK)
            {
                (nearest, distanceK) = (candidate, outsideK);
            }
        }

        var inside = Math.Clamp(temperatureK, nearest.MinimumK, nearest.MaximumK);
        if (Evaluate(nearest, inside, substance.Identity.MolarMassKgPerMol) is not { } atEnd)
        {
            return Constant(substance);
        }

        return inside == temperatureK
            ? new LiquidVolumeValue(atEnd, Quality.Correlated, nearest.Source)
            : CostaldReduced(substance, temperatureK) / CostaldReduced(substance, inside) is { } growth
            ? new LiquidVolumeValue(atEnd * growth, Quality.Estimated, "hankinson-thomson1979")
            : new LiquidVolumeValue(atEnd, Quality.Estimated, nearest.Source);
    }

    private static double? CostaldReduced(Substance substance, double temperatureK) =>
        substance.CriticalTemperatureK is { } tc && VapourPressure.AcentricFactor(substance) is { } omega ? Costald.ReducedVolume(temperatureK / tc.Value, omega) : null;

    /// <summary>Number of coefficients of a form, or 0 for an unknown form.</summary>
    internal static int CoefficientCount(string form) => form switch
    {
        "dippr105" => 4,
        "vdi" => 6,
        "iapws-saturated" => 8,
        _ => 0,
    };

    /// <summary>Unit in which a form gives the density.</summary>
    internal static string Unit(string form) => form switch { "dippr105" => "mol/m3", _ => "kg/m3" };

    private static double? Evaluate(LiquidDensityCorrelation correlation, double temperatureK, double? molarMassKgPerMol)
    {
        var c = correlation.Coefficients;
        switch (correlation.Form)
        {
            case "dippr105":
                // rho = C1/C2^(1 + (1 - T/C3)^C4) in mol/m3
                return Math.Pow(c[1], 1 + Math.Pow(Math.Max(1 - (temperatureK / c[2]), 0), c[3])) / c[0];
            case "vdi":
                // rho = rho_c + A t^0.35 + B t^(2/3) + C t + D t^(4/3) in kg/m3, t = 1 - T/Tc
                var t = Math.Max(1 - (temperatureK / c[0]), 0);
                var third = Math.Cbrt(t);
                var density = c[1] + (c[2] * Math.Pow(t, 0.35)) + (c[3] * third * third) + (c[4] * t) + (c[5] * third * t);
                return molarMassKgPerMol / density;
            case "iapws-saturated":
                // rho/rho_c = 1 + b1 t^(1/3) + b2 t^(2/3) + b3 t^(5/3) + b4 t^(16/3) + b5 t^(43/3) + b6 t^(110/3)
                return molarMassKgPerMol / (c[1] * WaterSaturated(c, Math.Cbrt(Math.Max(1 - (temperatureK / c[0]), 0))));
            default:
                throw new ArgumentException($"Unknown form '{correlation.Form}'.", nameof(correlation));
        }
    }

    private static double WaterSaturated(IReadOnlyList<double> c, double third)
    {
        var p2 = third * third;
        var p5 = p2 * p2 * third;
        var p16 = p5 * p5 * p5 * third;
        var p43 = p16 * p16 * p5 * p5 * third;
        var p110 = p43 * p43 * p16 * p5 * p2 * third;
        return 1 + (c[2] * third) + (c[3] * p2) + (c[4] * p5) + (c[5] * p16) + (c[6] * p43) + (c[7] * p110);
    }

    // V = (R Tc/Pc) Z^(1 + (1 - Tr)^(2/7))
    private static double Rackett(double tc, double pc, double z, double temperatureK) => GasConstant * tc / pc * Math.Pow(z, RackettExponent(tc, temperatureK));

    private static double RackettExponent(double tc, double temperatureK) => 1 + Math.Pow(Math.Max(1 - (temperatureK / tc), 0), 2.0 / 7);

    private static double? RackettParameter(Substance substance, double tc, double pc) =>
        Mass(substance) is { } mass && substance.DensityKgPerM3 is { } density && substance.PhaseAt298K == Phase.Liquid && substance.DensityTemperatureK < tc
            ? Math.Pow(mass / density.Value * pc / (GasConstant * tc), 1 / RackettExponent(tc, substance.DensityTemperatureK))
            : null;

    private static double? Mass(Substance substance) => substance.Identity.MolarMassKgPerMol;

    private static LiquidVolumeValue Constant(Substance substance)
    {
        // Without a molar mass nothing is known of the size of a mole; 0.1 L is a common solvent's.
        if (Mass(substance) is not { } mass)
        {
            return new LiquidVolumeValue(1e-4, Quality.Assumed, "common-practice");
        }

        return substance.DensityKgPerM3 is { } density
            ? new LiquidVolumeValue(mass / density.Value, density.Quality, density.Sources[0])
            : new LiquidVolumeValue(mass / 1000, Quality.Assumed, "common-practice");
    }
}
