using System.Globalization;
using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Substances;

/// <summary>Rows of correlations over temperature: form, coefficients, range, unit, source, and which is preferred.</summary>
internal static class CorrelationRows
{
    public static void Read(TsvRow row, Dictionary<string, SubstanceDraft> drafts, Dictionary<string, string> references, List<string> faults)
    {
        if (!row.TryDraft(drafts, faults, out var draft) || !row.TrySource(references, faults, out var source))
        {
            return;
        }

        var minimumK = row.Number("minimum_K", faults);
        var maximumK = row.Number("maximum_K", faults);
        var preference = row.Number("preference", faults);
        if (!(minimumK > 0 && maximumK > minimumK))
        {
            faults.Add(row.Fault("the range of validity is blank or empty"));
            return;
        }

        var coefficients = new List<double>();
        foreach (var cell in row["coefficients"].Split(' '))
        {
            if (!double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out var number))
            {
                faults.Add(row.Fault($"coefficient '{cell}' is no number"));
                return;
            }

            coefficients.Add(number);
        }

        var form = row["form"];
        switch (row["quantity"])
        {
            case "vapour pressure" when VapourPressure.CoefficientCount(form) == coefficients.Count && row["unit"] is "Pa":
                draft.VapourPressure.Add(((int)preference, new VapourPressureCorrelation(form, coefficients.ToArray(), minimumK, maximumK, source)));
                break;
            case "liquid density" when LiquidVolume.CoefficientCount(form) == coefficients.Count && string.Equals(row["unit"], LiquidVolume.Unit(form), StringComparison.Ordinal):
                draft.LiquidDensity.Add(((int)preference, new LiquidDensityCorrelation(form, coefficients.ToArray(), minimumK, maximumK, source)));
                break;
            default:
                faults.Add(row.Fault($"form '{form}' for '{row["quantity"]}' in '{row["unit"]}' with {coefficients.Count} coefficients is not known"));
                break;
        }
    }
}
