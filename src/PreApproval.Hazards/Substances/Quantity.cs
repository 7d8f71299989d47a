namespace PreApproval.Hazards.Substances;

/// <summary>The single values a data file may give.</summary>
internal enum Quantity
{
    MeltingPoint,
    BoilingPoint,
    CriticalTemperature,
    CriticalPressure,
    AcentricFactor,
    CriticalVolume,
    LiquidHeatCapacity,
    EnthalpyOfVaporisation,
    GasEnthalpyOfFormation,
    LiquidEnthalpyOfFormation,
    SolidEnthalpyOfFormation,
    Density,
    FlashPoint,
    Autoignition,
    LowerLimit,
    UpperLimit,
    NonFlammable,
}

/// <summary>Names, units and credible ranges of the quantities in the data files.</summary>
internal static class Quantities
{
    /// <summary>How many quantities there are.</summary>
    public const int Count = (int)Quantity.NonFlammable + 1;

    /// <summary>Every name, for messages.</summary>
    public static string Names => string.Join(", ", Enum.GetValues<Quantity>().Select(Name));

    public static bool TryParse(ReadOnlySpan<char> name, out Quantity quantity)
    {
        quantity = name switch
        {
            "melting point" => Quantity.MeltingPoint,
            "boiling point" => Quantity.BoilingPoint,
            "critical temperature" => Quantity.CriticalTemperature,
            "critical pressure" => Quantity.CriticalPressure,
            "acentric factor" => Quantity.AcentricFactor,
            "critical volume" => Quantity.CriticalVolume,
            "heat capacity, liquid" => Quantity.LiquidHeatCapacity,
            "enthalpy of vaporisation" => Quantity.EnthalpyOfVaporisation,
            "enthalpy of formation, gas" => Quantity.GasEnthalpyOfFormation,
            "enthalpy of formation, liquid" => Quantity.LiquidEnthalpyOfFormation,
            "enthalpy of formation, solid" => Quantity.SolidEnthalpyOfFormation,
            "density" => Quantity.Density,
            "flash point" => Quantity.FlashPoint,
            "autoignition temperature" => Quantity.Autoignition,
            "lower flammable limit" => Quantity.LowerLimit,
            "upper flammable limit" => Quantity.UpperLimit,
            "non-flammable" => Quantity.NonFlammable,
            _ => (Quantity)(-1),
        };
        return quantity >= Quantity.MeltingPoint;
    }

    public static string Name(Quantity quantity) => quantity switch
    {
        Quantity.MeltingPoint => "melting point",
        Quantity.BoilingPoint => "boiling point",
        Quantity.CriticalTemperature => "critical temperature",
        Quantity.CriticalPressure => "critical pressure",
        Quantity.AcentricFactor => "acentric factor",
        Quantity.CriticalVolume => "critical volume",
        Quantity.LiquidHeatCapacity => "heat capacity, liquid",
        Quantity.EnthalpyOfVaporisation => "enthalpy of vaporisation",
        Quantity.GasEnthalpyOfFormation => "enthalpy of formation, gas",
        Quantity.LiquidEnthalpyOfFormation => "enthalpy of formation, liquid",
        Quantity.SolidEnthalpyOfFormation => "enthalpy of formation, solid",
        Quantity.Density => "density",
        Quantity.FlashPoint => "flash point",
        Quantity.Autoignition => "autoignition temperature",
        Quantity.LowerLimit => "lower flammable limit",
        Quantity.UpperLimit => "upper flammable limit",
        Quantity.NonFlammable => "non-flammable",
    };

    /// <summary>The one unit in which a quantity may be written.</summary>
    public static string Unit(Quantity quantity) => quantity switch
    {
        Quantity.MeltingPoint or Quantity.BoilingPoint or Quantity.CriticalTemperature or Quantity.FlashPoint or Quantity.Autoignition => "K",
        Quantity.CriticalPressure => "Pa",
        Quantity.CriticalVolume => "m3/mol",
        Quantity.LiquidHeatCapacity => "J/(mol K)",
        Quantity.EnthalpyOfVaporisation or Quantity.GasEnthalpyOfFormation or Quantity.LiquidEnthalpyOfFormation or Quantity.SolidEnthalpyOfFormation => "J/mol",
        Quantity.Density => "kg/m3",
        Quantity.AcentricFactor or Quantity.LowerLimit or Quantity.UpperLimit or Quantity.NonFlammable => "1",
    };

    /// <summary>
    /// Lowest and highest credible value in the unit of the quantity: wide enough for every known substance (helium to tungsten),
    /// narrow enough to catch degrees Celsius for kelvin, percent for a fraction, kilojoules for joules. Own judgement.
    /// </summary>
    public static (double Low, double High) Range(Quantity quantity) => quantity switch
    {
        Quantity.MeltingPoint => (10, 5000),
        Quantity.BoilingPoint => (4, 6500),
        Quantity.CriticalTemperature => (5, 10_000),
        Quantity.CriticalPressure => (1e5, 2e8),
        Quantity.AcentricFactor => (-0.5, 2.5),
        Quantity.CriticalVolume => (2e-5, 3e-3),
        Quantity.LiquidHeatCapacity => (10, 2000),
        Quantity.EnthalpyOfVaporisation => (50, 1e6),
        Quantity.GasEnthalpyOfFormation or Quantity.LiquidEnthalpyOfFormation or Quantity.SolidEnthalpyOfFormation => (-2e7, 2e6),
        Quantity.Density => (60, 23_000),
        Quantity.FlashPoint => (120, 800),
        Quantity.Autoignition => (250, 1200),
        Quantity.LowerLimit or Quantity.UpperLimit => (0.001, 1),
        Quantity.NonFlammable => (0, 1),
    };
}
