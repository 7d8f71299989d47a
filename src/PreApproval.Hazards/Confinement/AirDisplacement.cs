using PreApproval.Hazards.Numerics;

namespace PreApproval.Hazards.Confinement;

/// <summary>
/// What evaporating cryogens do to the air of a room without ventilation: the gas displaces as much air as its own volume, evenly
/// mixed, x(O₂) = 0.209·(1 − V_gas/V_room) (the displacement law of the gas industry's leaflets on oxygen deficiency).
/// </summary>
public static class AirDisplacement
{
    /// <summary>Mole fraction of oxygen in dry air, as the leaflets count it.</summary>
    public const double OxygenInAir = 0.209;

    /// <summary>Volume fraction of oxygen below which an alarm sounds, 19.5 % (29 CFR 1910.146).</summary>
    public const double AlarmOxygen = 0.195;

    /// <summary>Volume fraction of oxygen below which one leaves, 18 % (gas industry leaflets).</summary>
    public const double LeaveOxygen = 0.18;

    /// <summary>Volume in m³ of an ideal gas at 101 325 Pa.</summary>
    /// <param name="mol">Amount in mol, 0 or more.</param>
    /// <param name="temperatureK">Temperature in K.</param>
    public static double GasVolumeM3(double mol, double temperatureK) => IdealGas.VolumeM3(mol, temperatureK);

    /// <summary>Volume fraction of oxygen left in a room; 0 when more gas forms than the room holds.</summary>
    /// <param name="gasM3">Volume of gas in m³.</param>
    /// <param name="roomM3">Volume of the room in m³, above 0.</param>
    public static double OxygenLeft(double gasM3, double roomM3) => OxygenInAir * Math.Max(0, 1 - (gasM3 / roomM3));
}
