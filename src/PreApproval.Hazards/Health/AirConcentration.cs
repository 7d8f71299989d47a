namespace PreApproval.Hazards.Health;

/// <summary>
/// Converts concentrations of a gas or vapour in air at 25 °C and 101 325 Pa, the convention of NIOSH and OSHA: one mole of gas
/// fills 24.465 L (NIOSH Pocket Guide to Chemical Hazards, 2007, Introduction, prints 24.45). Particulates have no volume fraction.
/// </summary>
public static class AirConcentration
{
    /// <summary>Molar volume of an ideal gas at 298.15 K and 101 325 Pa in L/mol.</summary>
    public const double MolarVolumeLPerMol = 24.465;

    private const double GramsPerKg = 1000;

    /// <summary>mg/m³ of a volume fraction in ppm (10⁻⁶): c = x M / 24.465. Example: 1 ppm benzene (78.11 g/mol) is 3.193 mg/m³.</summary>
    public static double MilligramPerM3(double ppm, double molarMassKgPerMol) => ppm * molarMassKgPerMol * GramsPerKg / MolarVolumeLPerMol;

    /// <summary>Volume fraction in ppm (10⁻⁶) of a mass concentration in mg/m³: the inverse of <see cref="MilligramPerM3"/>.</summary>
    public static double Ppm(double milligramPerM3, double molarMassKgPerMol) => milligramPerM3 * MolarVolumeLPerMol / (molarMassKgPerMol * GramsPerKg);
}
