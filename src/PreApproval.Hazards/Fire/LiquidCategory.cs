namespace PreApproval.Hazards.Fire;

/// <summary>Classes of flammable liquids by flash point and boiling point, as labels and storage rules have them. They do not show every danger: carbon disulfide is only category 2.</summary>
public static class LiquidCategory
{
    /// <summary>Category of the Globally Harmonized System, 1 to 4 (CLP Annex I, 2.6, has 1 to 3); null above a flash point of 93 °C.</summary>
    /// <param name="flashPointK">Closed-cup flash point in K.</param>
    /// <param name="boilingPointK">Initial boiling point in K.</param>
    public static int? Ghs(double flashPointK, double boilingPointK) =>
        flashPointK < 296.15 ? (boilingPointK <= 308.15 ? 1 : 2)
        : flashPointK <= 333.15 ? 3
        : flashPointK <= 366.15 ? 4
        : null;

    /// <summary>Class of NFPA 30, IA to IIIB, from 73, 100, 140 and 200 °F (from memory).</summary>
    /// <param name="flashPointK">Closed-cup flash point in K.</param>
    /// <param name="boilingPointK">Boiling point in K.</param>
    public static string Nfpa30(double flashPointK, double boilingPointK) =>
        flashPointK < Fahrenheit(73) ? (boilingPointK < Fahrenheit(100) ? "IA" : "IB")
        : flashPointK < Fahrenheit(100) ? "IC"
        : flashPointK < Fahrenheit(140) ? "II"
        : flashPointK < Fahrenheit(200) ? "IIIA"
        : "IIIB";

    private static double Fahrenheit(double degrees) => ((degrees - 32) / 1.8) + 273.15;
}
