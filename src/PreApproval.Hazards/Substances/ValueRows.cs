using System.Globalization;

namespace PreApproval.Hazards.Substances;

/// <summary>Rows of single values: substance, quantity, value, unit, the conditions they hold for, quality, source.</summary>
internal static class ValueRows
{
    public static void Read(TsvRow row, Dictionary<string, SubstanceDraft> drafts, Dictionary<string, string> references, List<string> faults)
    {
        if (!row.TryDraft(drafts, faults, out var draft) || !row.TrySource(references, faults, out var source) || !row.TryQuality(faults, out var quality))
        {
            return;
        }

        var quantity = row["quantity"];
        if (!Quantity.Units.TryGetValue(quantity, out var unit) || !string.Equals(unit, row["unit"], StringComparison.Ordinal))
        {
            faults.Add(row.Fault($"quantity '{quantity}' in unit '{row["unit"]}' is not known"));
            return;
        }

        if (row.Optional("conditions") is null)
        {
            faults.Add(row.Fault("the conditions the value holds for are blank"));
            return;
        }

        var value = row.Number("value", faults);
        var low = quantity switch
        {
            Quantity.AcentricFactor => -0.5,
            Quantity.GasEnthalpyOfFormation or Quantity.LiquidEnthalpyOfFormation or Quantity.SolidEnthalpyOfFormation => double.NegativeInfinity,
            _ => 0,
        };
        if (!(value > low))
        {
            faults.Add(row.Fault($"{quantity} of {value} is out of range"));
            return;
        }

        if (quantity is Quantity.Density)
        {
            var conditions = row["conditions"];
            if (!conditions.EndsWith(" K", StringComparison.Ordinal) || !double.TryParse(conditions.AsSpan(0, conditions.Length - 2), CultureInfo.InvariantCulture, out var densityK))
            {
                faults.Add(row.Fault("the temperature of the density is blank"));
                return;
            }

            draft.DensityTemperatureK = densityK;
        }

        if (!draft.Values.TryGetValue(quantity, out var values))
        {
            draft.Values.Add(quantity, values = []);
        }

        values.Add((new Sourced<double>(value, quality, [source]) { Note = row.Optional("note") }, string.Equals(row["governs"], "yes", StringComparison.Ordinal)));
    }
}
