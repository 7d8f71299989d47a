namespace PreApproval.Hazards.Fire;

/// <summary>
/// Rules for flammable limits, each from its publication; limits are volume fractions in air throughout, never percent. They hold at
/// 298.15 K and 101 325 Pa unless corrected. Method and worked examples: docs/methods/flammable-limits.md.
/// </summary>
public static class FlammableLimits
{
    private const double ReferenceK = 298.15;
    private const double JPerKilocalorie = 4184;
    private const double ZabetakisPerK = 0.000721;

    /// <summary>
    /// Limit of a mixture of fuels: 1/Σ(y_i/L_i) with y the fractions of the combustible part alone (Le Chatelier 1891). The
    /// fractions are divided by their sum. It holds for similar fuels; carbon disulfide, hydrogen and acetylene depart from it.
    /// </summary>
    /// <param name="fuels">Share in the combustible part and limit of each, both above 0.</param>
    /// <exception cref="ArgumentException">No fuel, or a share or limit not above 0.</exception>
    public static double LeChatelier(IReadOnlyList<(double Share, double Limit)> fuels)
    {
        var (shares, ofLimits) = (0.0, 0.0);
        for (var index = 0; index < fuels.Count; index++)
        {
            var (share, limit) = fuels[index];
            if (!(share > 0) || !(limit > 0))
            {
                throw new ArgumentException("Each fuel has a share and a limit above 0.", nameof(fuels));
            }

            shares += share;
            ofLimits += share / limit;
        }

        return fuels.Count > 0 ? shares / ofLimits : throw new ArgumentException("Each fuel has a share and a limit above 0.", nameof(fuels));
    }

    /// <summary>Lower limit at a temperature in K: in percent, L − 0.75 (t − 25)/ΔHc with ΔHc the net heat of combustion in kcal/mol (modified Burgess–Wheeler). Never below 0.</summary>
    public static double LowerAt(double lower298, double temperatureK, double heatOfCombustionJPerMol) =>
        Math.Max(lower298 - BurgessWheeler(temperatureK, heatOfCombustionJPerMol), 0);

    /// <summary>Lower limit at a temperature in K without a heat of combustion: L [1 − 0.000721 (t − 25)] (Zabetakis 1965). Never below 0.</summary>
    public static double LowerAt(double lower298, double temperatureK) => Math.Max(lower298 * (1 - (ZabetakisPerK * (temperatureK - ReferenceK))), 0);

    /// <summary>Upper limit at a temperature in K, as the lower one with the sign turned. Within 0 and 1.</summary>
    public static double UpperAt(double upper298, double temperatureK, double heatOfCombustionJPerMol) =>
        Math.Clamp(upper298 + BurgessWheeler(temperatureK, heatOfCombustionJPerMol), 0, 1);

    /// <summary>Upper limit at a temperature in K without a heat of combustion: U [1 + 0.000721 (t − 25)] (Zabetakis 1965). Within 0 and 1.</summary>
    public static double UpperAt(double upper298, double temperatureK) => Math.Clamp(upper298 * (1 + (ZabetakisPerK * (temperatureK - ReferenceK))), 0, 1);

    /// <summary>Upper limit at a pressure in Pa absolute (0.1 MPa and above): in percent, U + 20.6 (log10 P + 1) with P in MPa (Zabetakis 1965). At most 1.</summary>
    public static double UpperAtPressure(double upper, double pressurePaAbs) => Math.Clamp(upper + (0.206 * (Math.Log10(pressurePaAbs / 1e6) + 1)), 0, 1);

    /// <summary>Lower limit estimated from the stoichiometric fraction: 0.55 C_st (Jones 1938). For C, H, O and N.</summary>
    public static double LowerFromStoichiometry(double stoichiometricFraction) => 0.55 * stoichiometricFraction;

    /// <summary>Upper limit estimated from the stoichiometric fraction: 3.50 C_st (Jones 1938). At most 1.</summary>
    public static double UpperFromStoichiometry(double stoichiometricFraction) => Math.Min(3.5 * stoichiometricFraction, 1);

    /// <summary>Limiting oxygen fraction estimated as z L, with z the moles of oxygen per mole of fuel and L the lower limit.</summary>
    public static double LimitingOxygen(double oxygenPerMol, double lower) => oxygenPerMol * lower;

    /// <summary>
    /// Largest fuel fraction in a mixture with inert gas that no admixture of air makes flammable: L/(1 − LOC/0.21). On the
    /// line from such a gas to air, oxygen reaches the limiting fraction no earlier than the fuel falls to its lower limit. Derived
    /// for nitrogen; water vapour and carbon dioxide hold more heat, so they serve at least as well. 1 where the limiting
    /// oxygen is not below that of air.
    /// </summary>
    public static double NeverFlammableBelow(double lower, double limitingOxygen) =>
        limitingOxygen >= Combustion.OxygenInAir ? 1 : Math.Min(lower / (1 - (limitingOxygen / Combustion.OxygenInAir)), 1);

    private static double BurgessWheeler(double temperatureK, double heatOfCombustionJPerMol) =>
        0.0075 * (temperatureK - ReferenceK) / (heatOfCombustionJPerMol / JPerKilocalorie);
}
