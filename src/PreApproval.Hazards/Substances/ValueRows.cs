using System.Globalization;

namespace PreApproval.Hazards.Substances;

/// <summary>Rows of single values: substance, quantity, value, unit, the conditions they hold for, quality, source.</summary>
internal static class ValueRows
{
    public const string Heading = "cas\tquantity\tvalue\tunit\tconditions\tquality\tsource\tgoverns\tnote";
    public const int Value = 2;
    private const int Cas = 0;
    private const int QuantityColumn = 1;
    private const int Unit = 3;
    private const int Conditions = 4;
    private const int QualityColumn = 5;
    private const int Source = 6;
    private const int Governs = 7;
    private const int Note = 8;

    public static void Read(TsvRow row, CatalogDraft catalog)
    {
        if (!catalog.TryFind(row, Cas, out var draft) || !catalog.TrySource(row, Source, out var source) || !catalog.TryQuality(row, QualityColumn, out var quality))
        {
            return;
        }

        if (!Quantities.TryParse(row.Cell(QuantityColumn), out var quantity))
        {
            catalog.Faults.Add(row.Fault(QuantityColumn, $"give one of: {Quantities.Names}"));
            return;
        }

        var unit = Quantities.Unit(quantity);
        if (!row.Cell(Unit).SequenceEqual(unit))
        {
            catalog.Faults.Add(row.Fault(Unit, $"the unit of {Quantities.Name(quantity)} is {unit}"));
            return;
        }

        var (low, high) = Quantities.Range(quantity);
        if (!row.TryNumber(Value, out var value) || value < low || value > high)
        {
            catalog.Faults.Add(row.Fault(Value, FormattableString.Invariant($"give a number from {low} to {high} with a decimal point: {Quantities.Name(quantity)} in {unit}")));
            return;
        }

        if (row.Cell(Conditions).IsEmpty)
        {
            catalog.Faults.Add(row.Fault(Conditions, "give the conditions the value holds for"));
            return;
        }

        if (row.Cell(Governs) is not ("yes" or "no"))
        {
            catalog.Faults.Add(row.Fault(Governs, "give yes or no"));
            return;
        }

        var temperatureK = 298.15;
        if (quantity is Quantity.Density && !TryTemperature(row.Cell(Conditions), out temperatureK))
        {
            catalog.Faults.Add(row.Fault(Conditions, "give the temperature of the density, for instance 298.15 K"));
            return;
        }

        var note = row.Optional(Note);
        var governs = row.Cell(Governs) is "yes";
        if (!governs && note is null)
        {
            catalog.Faults.Add(row.Fault(Note, "say why the value does not govern"));
            return;
        }

        draft.Add(quantity, new DraftValue(new Sourced<double>(value, quality, source) { Note = note }, governs, temperatureK, row));
    }

    private static bool TryTemperature(ReadOnlySpan<char> conditions, out double temperatureK)
    {
        temperatureK = double.NaN;
        return conditions.EndsWith(" K", StringComparison.Ordinal)
            && double.TryParse(conditions[..^2], NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out temperatureK)
            && temperatureK is > 10 and < 3000;
    }
}
