namespace PreApproval.Documents;

/// <summary>Unit of the pressure in an Antoine equation, as tables print it.</summary>
public enum AntoinePressureUnit
{
    Bar,
    KiloPascal,
    Pascal,

    /// <summary>Conventional millimetre of mercury, 133.322 387 415 Pa (NIST SP 811, appendix B.8).</summary>
    MillimetreOfMercury,
}

/// <summary>Unit of the temperature in an Antoine equation.</summary>
public enum AntoineTemperatureUnit
{
    Celsius,
    Kelvin,
}

/// <summary>
/// A vapour pressure by the equation of Antoine, log10(p) = a − b/(t + c), as a table prints it: the units of p and t belong to the
/// coefficients. Outside the range it is not used. Source of the form: C. Antoine, C. R. Acad. Sci. 107 (1888) 681.
/// </summary>
public sealed record AntoineEntry
{
    private const double PaPerMillimetreOfMercury = 133.322387415;

    public double? A { get; init; }

    public double? B { get; init; }

    public double? C { get; init; }

    public AntoinePressureUnit? PressureUnit { get; init; }

    public AntoineTemperatureUnit? TemperatureUnit { get; init; }

    /// <summary>Lowest temperature it holds at.</summary>
    public Quantity? From { get; init; }

    /// <summary>Highest temperature it holds at.</summary>
    public Quantity? To { get; init; }

    /// <summary>The coefficients for p in Pa and T in K; null while something is missing.</summary>
    public IReadOnlyList<double>? InSi => this is { A: { } a, B: { } b, C: { } c, PressureUnit: { } pressure, TemperatureUnit: { } temperature }
        ? [a + Math.Log10(PascalPer(pressure)), b, c - (temperature == AntoineTemperatureUnit.Celsius ? Units.UnitTable.CelsiusZeroK : 0)]
        : null;

    /// <summary>Vapour pressure in Pa at a temperature in K, whatever the range; NaN while something is missing or at t + c ≤ 0.</summary>
    public double PascalAt(double temperatureK) => InSi is [var a, var b, var c] && temperatureK + c > 0 ? Math.Pow(10, a - (b / (temperatureK + c))) : double.NaN;

    /// <summary>The temperature in K at which the vapour pressure is 101 325 Pa; null while something is missing or where there is none.</summary>
    public double? NormalBoilingPointK
    {
        get
        {
            double log = Math.Log10(Units.UnitTable.AtmospherePa);
            return InSi is [var a, var b, var c] && a > log ? (b / (a - log)) - c : null;
        }
    }

    private static double PascalPer(AntoinePressureUnit unit) => unit switch
    {
        AntoinePressureUnit.Bar => 1e5,
        AntoinePressureUnit.KiloPascal => 1e3,
        AntoinePressureUnit.Pascal => 1,
        AntoinePressureUnit.MillimetreOfMercury => PaPerMillimetreOfMercury,
    };
}
