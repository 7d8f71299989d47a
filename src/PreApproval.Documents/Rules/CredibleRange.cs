using System.Globalization;
using PreApproval.Documents.Units;

namespace PreApproval.Documents.Rules;

/// <summary>The range outside which a number is a slip of the pen. Common practice, no source, but for absolute zero.</summary>
/// <param name="Least">In SI units.</param>
/// <param name="Most">In SI units.</param>
/// <param name="ExcludesLeast">True when the least value itself is refused.</param>
/// <param name="Below">Said of a value below.</param>
/// <param name="Above">Said of a value above.</param>
internal sealed record CredibleRange(double Least, double Most, bool ExcludesLeast, string Below, string Above)
{
    public static CredibleRange Mass { get; } = Positive(1_000, "more than 1000 kg");

    public static CredibleRange AmountOfSubstance { get; } = Positive(100_000, "more than 100000 mol");

    public static CredibleRange Volume { get; } = Positive(1, "more than 1000 L");

    /// <summary>Of a vessel. The least is below a capillary of a few millimetres.</summary>
    public static CredibleRange VesselVolume { get; } = new(1e-9, 1, false, "is not credible for a vessel: less than 1 µL; check the number and its unit", "is not credible: more than 1000 L");

    public static CredibleRange RoomVolume { get; } = Positive(100_000, "more than 100000 m³");

    public static CredibleRange AirFlow { get; } = Positive(100, "more than 100 m³/s");

    public static CredibleRange Temperature { get; } = new(0, 3_000, false, "is below absolute zero (0 K = −273.15 °C)", "is above 3000 K (2727 °C)");

    public static CredibleRange AbsolutePressure { get; } = new(0, 1e9, false, "is below a perfect vacuum (0 bar absolute = −1.01325 bar(g))", "is above 10000 bar");

    public static CredibleRange Duration { get; } = Positive(366 * 86_400.0, "more than 366 d");

    public static CredibleRange AmountConcentration { get; } = Positive(100_000, "more than 100 mol/L");

    public static CredibleRange Fraction { get; } = Positive(1, "more than 100 %");

    public static CredibleRange MolarHeat { get; } = new(-1e7, 1e7, false, "is below −10000 kJ/mol", "is above 10000 kJ/mol");

    public static CredibleRange MolarMass { get; } = Positive(1_000, "more than 1000000 g/mol");

    public static CredibleRange Density { get; } = Positive(25_000, "more than 25 g/mL");

    /// <summary>The range of an amount, concentration or other quantity by what its unit measures; null where the member decides.</summary>
    public static CredibleRange? Of(Dimension dimension) => dimension switch
    {
        Dimension.Mass => Mass,
        Dimension.AmountOfSubstance => AmountOfSubstance,
        Dimension.Volume => Volume,
        Dimension.Temperature => Temperature,
        Dimension.Pressure => AbsolutePressure,
        Dimension.Time => Duration,
        Dimension.AmountConcentration => AmountConcentration,
        Dimension.Fraction => Fraction,
        Dimension.MolarEnergy => MolarHeat,
        Dimension.VolumeFlow => AirFlow,
        Dimension.MolarMass => MolarMass,
        Dimension.Density => Density,
        Dimension.Energy or Dimension.SpecificEnergy => null,
    };

    /// <summary>What is wrong, or null.</summary>
    public string? Fault(Quantity quantity)
    {
        double si = quantity.Si;
        string typed = $"{quantity.Value.ToString("R", CultureInfo.InvariantCulture)} {quantity.Unit}";

        // One part in 10^12: 1000 L must not fail for 1000 × 0.001.
        double slack = 1e-12 * Math.Max(Math.Abs(Least), Math.Abs(Most));
        if (si < Least - slack || (ExcludesLeast && si <= Least))
        {
            return $"{typed} {Below}";
        }

        return si > Most + slack ? $"{typed} {Above}; check the number and its unit" : null;
    }

    private static CredibleRange Positive(double most, string above) => new(0, most, true, "is not possible; it must be above 0", $"is not credible: {above}");
}
