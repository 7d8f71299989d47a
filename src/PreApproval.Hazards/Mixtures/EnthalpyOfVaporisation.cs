using PreApproval.Hazards.Substances;
using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Molar enthalpy of vaporisation in J/mol over temperature. From the published value at the normal boiling point by Watson's relation; without one, from the slope of
/// the vapour pressure by the equation of Clapeyron. Zero at the critical temperature; nothing above it.
/// </summary>
public static class EnthalpyOfVaporisation
{
    private const double WatsonExponent = 0.38;

    /// <summary>
    /// The enthalpy of vaporisation in J/mol at a temperature in K (above 0); null where neither a value with its boiling point and critical temperature nor
    /// a vapour pressure with critical constants is on file, or above the critical temperature. At the boiling point the published value itself, elsewhere estimated.
    /// </summary>
    public static Sourced<double>? At(Substance substance, double temperatureK)
    {
        if (substance is { EnthalpyOfVaporisationJPerMol: { } atBoiling, BoilingPointK: { } tb, CriticalTemperatureK: { } tc } && temperatureK <= tc.Value && tb.Value < tc.Value)
        {
            return temperatureK == tb.Value
                ? atBoiling
                : new Sourced<double>(Watson(atBoiling.Value, tb.Value, tc.Value, temperatureK), Quality.Estimated, [.. atBoiling.Sources, "watson1943"]);
        }

        return Clapeyron(substance, temperatureK);
    }

    /// <summary>
    /// Watson: ΔH(T) = ΔH(T1) ((Tc − T)/(Tc − T1))^0.38, temperatures in K, enthalpies in J/mol. Ind. Eng. Chem. 35 (1943) 398. Water: 40 650 J/mol at 373.15 K
    /// gives 44 570 at 298.15 K; steam tables 43 990.
    /// </summary>
    public static double Watson(double enthalpyJPerMol, double knownK, double criticalK, double temperatureK) =>
        enthalpyJPerMol * Math.Pow(Math.Max(criticalK - temperatureK, 0) / (criticalK - knownK), WatsonExponent);

    /// <summary>
    /// Clapeyron: ΔH = R T² (d ln P/dT) ΔZ, where ΔZ = √(1 − Pr/Tr³) stands for the departure of the vapour from an ideal gas and the volume of the liquid (Haggenmacher,
    /// J. Am. Chem. Soc. 68 (1946) 1633; for Tr up to about 0.9). Wrong where the vapour is associated (carboxylic acids). Null without
    /// a vapour pressure or critical constants.
    /// </summary>
    public static Sourced<double>? Clapeyron(Substance substance, double temperatureK)
    {
        const double relative = 1e-4;
        if (substance is not { CriticalTemperatureK: { } tc, CriticalPressurePa: { } pc } || temperatureK * (1 + relative) > tc.Value
            || VapourPressure.At(substance, temperatureK) is not { Volatility: Volatility.Condensable } here)
        {
            return null;
        }

        var below = VapourPressure.At(substance, temperatureK * (1 - relative));
        var above = VapourPressure.At(substance, temperatureK * (1 + relative));
        if (below.Volatility != Volatility.Condensable || above.Volatility != Volatility.Condensable)
        {
            return null;
        }

        var slope = Math.Log(above.Pascal / below.Pascal) / (2 * relative * temperatureK);
        var tr = temperatureK / tc.Value;
        var departure = Math.Sqrt(Math.Max(1 - (here.Pascal / pc.Value / (tr * tr * tr)), 0));
        return new Sourced<double>(GasConstant * temperatureK * temperatureK * slope * departure, Quality.Estimated, [here.Source, "haggenmacher1946"]);
    }
}
