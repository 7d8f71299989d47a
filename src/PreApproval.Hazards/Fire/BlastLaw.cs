namespace PreApproval.Hazards.Fire;

/// <summary>Energy of an explosion as an equivalent of trinitrotoluene, and how far its blast reaches. Pure functions; docs/methods/stored-energy.md and release.md have worked examples.</summary>
public static class BlastLaw
{
    /// <summary>Side-on overpressure from which eardrums tear, in Pa (35 kPa, threshold; Crowl and Louvar, from memory).</summary>
    public const double EardrumPa = 35e3;

    /// <summary>Side-on overpressure that breaks most windows, in Pa (7 kPa; Crowl and Louvar, from memory).</summary>
    public const double WindowPa = 7e3;

    /// <summary>Equivalent in kg from which a blast counts (1 g); below it fragments of glass hurt, not the blast. Common practice, no source.</summary>
    public const double BlastFromKg = 1e-3;

    /// <summary>
    /// Equivalent in kg of trinitrotoluene of a cloud of vapour that explodes: η m ΔHc/E (Crowl and Louvar, TNT equivalency). η is 0.01 to 0.1 in the open. An estimate: a cloud explodes more softly
    /// near by than the equivalent does. Example: 1000 kg of methane (818.7 kJ/mol, 16.04 g/mol) with η 0.02 and 4686 kJ/kg: 218 kg.
    /// </summary>
    /// <param name="heatJ">Heat of combustion of what is in the cloud, m ΔHc, in J, 0 or more.</param>
    /// <param name="yield">Share η of it that goes into the blast, from 0 to 1.</param>
    /// <param name="tntJPerKg">Energy of trinitrotoluene in J/kg, above 0 (books take 4.2 to 4.7 MJ/kg).</param>
    /// <returns>kg.</returns>
    public static double CloudTntKg(double heatJ, double yield, double tntJPerKg = Vessels.StoredEnergy.TntJPerKg)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(heatJ);
        ArgumentOutOfRangeException.ThrowIfNegative(yield);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(yield, 1);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(tntJPerKg);
        return yield * heatJ / tntJPerKg;
    }

    /// <summary>Scaled distance Z = R/W^⅓ in m/kg^⅓ (Hopkinson; Crowl and Louvar). Example: 50 m from 218 kg, 50/6.02 = 8.3.</summary>
    /// <param name="distanceM">Distance R in m, above 0.</param>
    /// <param name="tntKg">Equivalent W in kg, above 0.</param>
    public static double ScaledDistance(double distanceM, double tntKg)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(distanceM);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(tntKg);
        return distanceM / Math.Cbrt(tntKg);
    }

    /// <summary>
    /// Peak side-on overpressure in Pa of a charge on the ground at a scaled distance: 1616 [1 + (Z/4.5)²]/(√(1 + (Z/0.048)²) √(1 + (Z/0.32)²) √(1 + (Z/1.35)²)) atmospheres
    /// (Kinney and Graham, Explosive Shocks in Air; Crowl and Louvar). Free field: walls throw it back. Range: 0.05 to 40 m/kg^⅓. Example: Z = 8.3, 0.25 atm, 26 kPa.
    /// </summary>
    /// <param name="scaledDistance">Z in m/kg^⅓, above 0.</param>
    public static double OverpressurePa(double scaledDistance)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(scaledDistance);
        return Numerics.PhysicalConstants.AtmospherePa * 1616 * (1 + Square(scaledDistance / 4.5))
            / (Math.Sqrt(1 + Square(scaledDistance / 0.048)) * Math.Sqrt(1 + Square(scaledDistance / 0.32)) * Math.Sqrt(1 + Square(scaledDistance / 1.35)));

        static double Square(double x) => x * x;
    }

    /// <summary>Distance in m at which the overpressure has fallen to a value, within a thousandth.</summary>
    /// <param name="overpressurePa">Side-on overpressure in Pa, from 1 kPa to 1 MPa.</param>
    /// <param name="tntKg">Equivalent in kg, above 0.</param>
    public static double DistanceM(double overpressurePa, double tntKg)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(overpressurePa, 1e3);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(overpressurePa, 1e6);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(tntKg);

        // it falls all the way from 0.05 to 200
        double low = 0.05, high = 200;
        while (high - low > 1e-3 * low)
        {
            var middle = 0.5 * (low + high);
            (low, high) = OverpressurePa(middle) > overpressurePa ? (middle, high) : (low, middle);
        }

        return high * Math.Cbrt(tntKg);
    }
}
