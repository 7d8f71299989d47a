using static PreApproval.Hazards.Numerics.PhysicalConstants;

namespace PreApproval.Hazards.Mixtures;

/// <summary>
/// Volume of liquid water under pressure by the industrial formulation of 1997 of the International Association for the Properties of Water and
/// Steam (IAPWS R7-97(2012), region 1): 273.15 K to 623.15 K, saturation to 100 MPa. Its check values: 300 K and 3 MPa 1.00215168 dm³/kg, 300 K
/// and 80 MPa 0.971180894, 500 K and 3 MPa 1.20241800.
/// </summary>
public static class WaterVolume
{
    public const double MinimumK = 273.15;
    public const double MaximumK = 623.15;
    public const double MaximumPa = 100e6;

    private const double GasConstant = 461.526;
    private const double ReducingPa = 16.53e6;
    private const double ReducingK = 1386;

    // Table 2 of the release without the terms that do not depend on pressure: I, J, n.
    private static readonly (int I, int J, double N)[] Terms =
    [
        (1, -9, 0.28319080123804e-3), (1, -7, -0.60706301565874e-3), (1, -1, -0.18990068218419e-1), (1, 0, -0.32529748770505e-1),
        (1, 1, -0.21841717175414e-1), (1, 3, -0.52838357969930e-4), (2, -3, -0.47184321073267e-3), (2, 0, -0.30001780793026e-3),
        (2, 1, 0.47661393906987e-4), (2, 3, -0.44141845330846e-5), (2, 17, -0.72694996297594e-15), (3, -4, -0.31679644845054e-4),
        (3, 0, -0.28270797985312e-5), (3, 6, -0.85205128120103e-9), (4, -5, -0.22425281908000e-5), (4, -2, -0.65171222895601e-6),
        (4, 10, -0.14341729937924e-12), (5, -8, -0.40516996860117e-6), (8, -11, -0.12734301741641e-8), (8, -6, -0.17424871230634e-9),
        (21, -29, -0.68762131295531e-18), (23, -31, 0.14478307828521e-19), (29, -38, 0.26335781662795e-22), (30, -39, -0.11947622640071e-22),
        (31, -40, 0.18228094581404e-23), (32, -41, -0.93537087292458e-25),
    ];

    /// <summary>Specific volume in m³/kg at a temperature in K and a pressure in Pa.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range of region 1.</exception>
    public static double At(double temperatureK, double pressurePa)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(temperatureK, MinimumK);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(temperatureK, MaximumK);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(pressurePa, MaximumPa);
        var p = 7.1 - (pressurePa / ReducingPa);
        var t = (ReducingK / temperatureK) - 1.222;
        double slope = 0;
        foreach (var (i, j, n) in Terms)
        {
            slope -= n * i * Math.Pow(p, i - 1) * Math.Pow(t, j);
        }

        return GasConstant * temperatureK * slope / ReducingPa;
    }
}
