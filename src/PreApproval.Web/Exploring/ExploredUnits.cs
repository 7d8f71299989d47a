using System.Globalization;
using PreApproval.Documents.Units;
using PreApproval.Web.Drafting.Editing;

namespace PreApproval.Web.Exploring;

/// <summary>Numbers of the explorer as people type them, in its fields and in its address: each field shows one unit and takes those of the editor.</summary>
public static class ExploredUnits
{
    /// <summary>The units that may be typed behind a number of a field, the field's own first.</summary>
    public static IReadOnlyList<string> TakenBy(string unit) => unit switch
    {
        "°C" => Choices.Temperatures,
        "mL" => Choices.Volumes,
        "bar(g)" => Choices.Ratings,
        _ => [unit],
    };

    /// <summary>The number in the unit of the field; null: none, or out of range.</summary>
    public static double? Read(string typed, string unit, double least, double most)
    {
        TypedNumber number = TypedNumber.Read(typed, TakenBy(unit));
        if (!double.TryParse(number.Number, NumberStyles.Float, CultureInfo.InvariantCulture, out double value))
        {
            return null;
        }

        if (number.Unit is { } other && !string.Equals(other, unit, StringComparison.Ordinal) && UnitTable.TryFind(other, out Unit? from) && UnitTable.TryFind(unit, out Unit? to))
        {
            value = Math.Round(((value * from.Factor) + from.Offset - to.Offset) / to.Factor, 6);
        }

        return value >= least && value <= most ? value : null;
    }
}
