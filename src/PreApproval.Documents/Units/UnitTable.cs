using System.Collections.Frozen;
using PreApproval.Hazards.Plans;

namespace PreApproval.Documents.Units;

/// <summary>
/// The units a document may use. Factors are exact by definition (BIPM, The International System of Units, 9th ed.,
/// tables 7 and 8; NIST SP 811, appendix B.8, for the pound-force per square inch and the standard atmosphere).
/// </summary>
public static class UnitTable
{
    /// <summary>Standard atmosphere in Pa: the zero of gauge pressures.</summary>
    public const double AtmospherePa = 101_325;

    /// <summary>0 °C in K.</summary>
    public const double CelsiusZeroK = 273.15;

    private const double PoundForcePerSquareInchPa = 6_894.757_293_168_361;

    /// <summary>All units, those of a dimension together.</summary>
    public static IReadOnlyList<Unit> All { get; } =
    [
        Of("kg", Dimension.Mass, 1),
        Of("g", Dimension.Mass, 1e-3),
        Of("mg", Dimension.Mass, 1e-6),
        Of("mol", Dimension.AmountOfSubstance, 1),
        Of("mmol", Dimension.AmountOfSubstance, 1e-3),
        Of("µmol", Dimension.AmountOfSubstance, 1e-6, "μmol", "umol"),
        Of("L", Dimension.Volume, 1e-3),
        Of("mL", Dimension.Volume, 1e-6),
        Of("µL", Dimension.Volume, 1e-9, "μL", "uL"),
        Of("m³", Dimension.Volume, 1, "m3"),
        new("°C", Dimension.Temperature, 1, CelsiusZeroK, ["degC"], null, false),
        Of("K", Dimension.Temperature, 1),
        Of("bar", Dimension.Pressure, 1e5),
        Of("mbar", Dimension.Pressure, 100),
        Of("kPa", Dimension.Pressure, 1e3),
        Of("MPa", Dimension.Pressure, 1e6),
        Of("psi", Dimension.Pressure, PoundForcePerSquareInchPa),
        Of("atm", Dimension.Pressure, AtmospherePa),
        new("bar(g)", Dimension.Pressure, 1e5, AtmospherePa, [], null, true),
        new("psi(g)", Dimension.Pressure, PoundForcePerSquareInchPa, AtmospherePa, [], null, true),
        Of("s", Dimension.Time, 1),
        Of("min", Dimension.Time, 60),
        Of("h", Dimension.Time, 3_600),
        Of("d", Dimension.Time, 86_400),
        Of("mol/L", Dimension.AmountConcentration, 1e3),
        new("wt%", Dimension.Fraction, 1e-2, 0, [], FractionBasis.Mass, false),
        new("vol%", Dimension.Fraction, 1e-2, 0, [], FractionBasis.Volume, false),
        new("mol%", Dimension.Fraction, 1e-2, 0, [], FractionBasis.Mole, false),
        Of("J", Dimension.Energy, 1),
        Of("kJ", Dimension.Energy, 1e3),
        Of("kJ/mol", Dimension.MolarEnergy, 1e3),
        Of("J/g", Dimension.SpecificEnergy, 1e3),
        Of("mL/min", Dimension.VolumeFlow, 1e-6 / 60),
        Of("L/min", Dimension.VolumeFlow, 1e-3 / 60),
        Of("m³/h", Dimension.VolumeFlow, 1.0 / 3_600, "m3/h"),
        Of("g/mol", Dimension.MolarMass, 1e-3),
        Of("g/mL", Dimension.Density, 1e3),
        Of("kg/m³", Dimension.Density, 1, "kg/m3"),
    ];

    private static readonly FrozenDictionary<string, Unit> BySpelling = All
        .SelectMany(unit => unit.Aliases.Prepend(unit.Symbol).Select(spelling => (spelling, unit)))
        .ToFrozenDictionary(entry => entry.spelling, entry => entry.unit, StringComparer.Ordinal);

    /// <summary>Finds a unit by its symbol or an accepted alias, letter case included.</summary>
    public static bool TryFind(string spelling, [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out Unit? unit) =>
        BySpelling.TryGetValue(spelling, out unit);

    private static Unit Of(string symbol, Dimension dimension, double factor, params string[] aliases) =>
        new(symbol, dimension, factor, 0, aliases, null, false);
}
