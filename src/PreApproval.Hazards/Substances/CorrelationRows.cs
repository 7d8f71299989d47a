using System.Globalization;
using PreApproval.Hazards.Mixtures;

namespace PreApproval.Hazards.Substances;

/// <summary>Rows of correlations over temperature: form, coefficients, range, unit, source, and which is preferred.</summary>
internal static class CorrelationRows
{
    public const string Heading = "cas\tquantity\tform\tcoefficients\tminimum_K\tmaximum_K\tunit\tquality\tsource\tpreference";
    private const int Cas = 0;
    private const int QuantityColumn = 1;
    private const int FormColumn = 2;
    private const int Coefficients = 3;
    private const int MinimumK = 4;
    private const int MaximumK = 5;
    private const int Unit = 6;
    private const int QualityColumn = 7;
    private const int Source = 8;
    private const int Preference = 9;

    // One string for each form, not one for each row.
    private static readonly string[] Forms = ["wagner25", "wagner36", "dippr101", "antoine-ln", "antoine-log10", "antoine-extended", "dippr105", "vdi"];

    public static void Read(TsvRow row, CatalogDraft catalog)
    {
        if (!catalog.TryFind(row, Cas, out var draft) || !catalog.TrySource(row, Source, out var source) || !catalog.TryQuality(row, QualityColumn, out _))
        {
            return;
        }

        if (!row.TryNumber(MinimumK, out var minimumK) || minimumK <= 0)
        {
            catalog.Faults.Add(row.Fault(MinimumK, "give the lowest temperature of the range in K, above 0"));
            return;
        }

        if (!row.TryNumber(MaximumK, out var maximumK) || maximumK <= minimumK)
        {
            catalog.Faults.Add(row.Fault(MaximumK, FormattableString.Invariant($"give the highest temperature of the range in K, above the lowest ({minimumK})")));
            return;
        }

        if (!int.TryParse(row.Cell(Preference), NumberStyles.None, CultureInfo.InvariantCulture, out var preference) || preference < 1)
        {
            catalog.Faults.Add(row.Fault(Preference, "give 1 for the preferred correlation, 2 for the next"));
            return;
        }

        var vapourPressure = row.Cell(QuantityColumn) is "vapour pressure";
        if (!vapourPressure && row.Cell(QuantityColumn) is not "liquid density")
        {
            catalog.Faults.Add(row.Fault(QuantityColumn, "give vapour pressure or liquid density"));
            return;
        }

        var form = Form(row.Cell(FormColumn));
        var count = vapourPressure ? VapourPressure.CoefficientCount(form) : LiquidVolume.CoefficientCount(form);
        if (count == 0)
        {
            catalog.Faults.Add(row.Fault(FormColumn, vapourPressure ? "give a form of vapour pressure: wagner25, wagner36, dippr101, antoine-ln, antoine-log10, antoine-extended" : "give a form of liquid density: dippr105, vdi"));
            return;
        }

        var unit = vapourPressure ? "Pa" : LiquidVolume.Unit(form);
        if (!row.Cell(Unit).SequenceEqual(unit))
        {
            catalog.Faults.Add(row.Fault(Unit, $"the unit of {form} is {unit}"));
            return;
        }

        if (ReadCoefficients(row.Cell(Coefficients), count) is not { } coefficients)
        {
            catalog.Faults.Add(row.Fault(Coefficients, $"{form} takes {count} numbers with spaces between them"));
            return;
        }

        if (vapourPressure)
        {
            draft.Add(preference, new VapourPressureCorrelation(form, coefficients, minimumK, maximumK, source[0]));
        }
        else
        {
            draft.Add(preference, new LiquidDensityCorrelation(form, coefficients, minimumK, maximumK, source[0]));
        }
    }

    private static string Form(ReadOnlySpan<char> cell)
    {
        foreach (var form in Forms)
        {
            if (cell.SequenceEqual(form))
            {
                return form;
            }
        }

        return cell.ToString();
    }

    private static double[]? ReadCoefficients(ReadOnlySpan<char> cell, int count)
    {
        var coefficients = new double[count];
        for (var i = 0; i < count; i++)
        {
            var space = cell.IndexOf(' ');
            var last = i == count - 1;
            if (last ? space >= 0 : space < 0)
            {
                return null;
            }

            if (!TsvRow.TryNumber(last ? cell : cell[..space], out coefficients[i]))
            {
                return null;
            }

            cell = last ? cell : cell[(space + 1)..];
        }

        return coefficients;
    }
}
