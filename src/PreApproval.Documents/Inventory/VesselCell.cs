using System.Globalization;
using System.Text.Json.Nodes;
using PreApproval.Documents.Reading;

namespace PreApproval.Documents.Inventory;

/// <summary>One cell of a table of vessels: text to a member of the vessel's JSON, and back.</summary>
internal static class VesselCell
{
    /// <summary>What a cell that is not empty says; or why it says nothing. A value that is the same, in another unit or with other line breaks, stays as it was typed.</summary>
    /// <param name="column">Its column.</param>
    /// <param name="cell">As it stands in the file.</param>
    /// <param name="before">The member as it is; null: none.</param>
    /// <param name="known">The quantity as it is; null: none.</param>
    public static Result<JsonNode, string> Read(VesselColumn column, string cell, JsonNode? before, Quantity? known) => column.Form switch
    {
        CellForm.Text => Text(CsvText.Unguarded(cell), before),
        CellForm.Word => Word(CsvText.Unguarded(cell).Trim()),
        CellForm.Quantity => Number(cell, value => ToJson(new Quantity(value, column.Unit!.Symbol), known)),
        CellForm.Millimetres => Number(cell, value => JsonValue.Create(before?.GetValue<double>() is { } was && InventoryUse.Same(was, value) ? was : value)),
        CellForm.YesOrNo => YesOrNo(CsvText.Unguarded(cell).Trim()),
    };

    /// <summary>What the vessel says in a column; empty: nothing.</summary>
    public static string Write(VesselColumn column, InventoryVessel vessel)
    {
        VesselEntry entry = vessel.Vessel;
        if (column.Part is { } number)
        {
            VesselPartEntry? part = entry.Parts is { } parts && number <= parts.Count ? parts[number - 1] : null;
            return column.Member switch
            {
                "rating" => Cell(part?.Rating, column),
                "maximumTemperature" => Cell(part?.MaximumTemperature, column),
                _ => CsvText.Guarded(part?.Part ?? ""),
            };
        }

        return column.Unit is not null
            ? Cell(Known(column, entry), column)
            : CsvText.Guarded(column.Member switch
            {
                "label" => vessel.Label,
                "kind" => entry.Kind,
                "ratingEvidence" => entry.RatingEvidence,
                "closure" => entry.Closure,
                "inspectedOn" => entry.InspectedOn?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                "relief/device" => entry.Relief?.DeviceWord,
                "glassTube/outsideDiameterMm" => entry.GlassTube?.OutsideDiameterMm?.ToString("R", CultureInfo.InvariantCulture),
                "glassTube/wallMm" => entry.GlassTube?.WallMm?.ToString("R", CultureInfo.InvariantCulture),
                "glassTube/annealed" => entry.GlassTube?.Annealed is { } annealed ? annealed ? Yes : No : null,
                "outOfService" => vessel.OutOfService,
                _ => vessel.Note,
            } ?? "");
    }

    /// <summary>The quantity that a vessel has in a column; null: none, or no column of quantities.</summary>
    public static Quantity? Known(VesselColumn column, VesselEntry vessel) => column.Member switch
    {
        "volume" => vessel.Volume,
        "rating" => vessel.Rating,
        "maximumTemperature" => vessel.MaximumTemperature,
        "relief/set" => vessel.Relief?.Set,
        _ => null,
    };

    private const string Yes = "yes";

    private const string No = "no";

    /// <summary>Programs that carry a table write line breaks their own way: that alone changes nothing.</summary>
    private static JsonValue Text(string text, JsonNode? before) =>
        before?.GetValue<string>() is { } was && string.Equals(was.ReplaceLineEndings("\n"), text.ReplaceLineEndings("\n"), StringComparison.Ordinal)
            ? JsonValue.Create(was)
            : JsonValue.Create(text);

    /// <summary>Spreadsheets begin a cell with a capital letter. What is no word of the contract is judged with the vessel.</summary>
    private static JsonValue Word(string text) => JsonValue.Create(Words.ReliefKinds.All.FirstOrDefault(word => string.Equals(word, text, StringComparison.OrdinalIgnoreCase)) ?? text);

    private static Result<JsonNode, string> YesOrNo(string text)
    {
        bool yes = string.Equals(text, Yes, StringComparison.OrdinalIgnoreCase);
        if (yes || string.Equals(text, No, StringComparison.OrdinalIgnoreCase))
        {
            return JsonValue.Create(yes);
        }

        return $"“{Shown.Text(text)}” is neither yes nor no; write one of them, or leave it empty where it is not known";
    }

    /// <remarks>No conditional expression: a text would become JSON in it, and the fault a value.</remarks>
    private static Result<JsonNode, string> Number(string cell, Func<double, JsonNode> write)
    {
        if (double.TryParse(cell.Replace('−', '-'), NumberStyles.Float, CultureInfo.InvariantCulture, out double value) && double.IsFinite(value))
        {
            return write(value);
        }

        return $"“{Shown.Text(cell)}” is no number; write for instance 1.5, with a point and without the unit";
    }

    private static JsonObject ToJson(Quantity quantity, Quantity? known)
    {
        Quantity kept = known is not null && InventoryUse.Same(known, quantity) ? known : quantity;
        return new JsonObject { ["value"] = kept.Value, ["unit"] = kept.Unit };
    }

    /// <summary>In the column's unit, to twelve digits: a number that was typed in it comes out as it was typed.</summary>
    private static string Cell(Quantity? quantity, VesselColumn column)
    {
        if (quantity is null || column.Unit is not { } unit)
        {
            return "";
        }

        double value = string.Equals(quantity.Definition.Symbol, unit.Symbol, StringComparison.Ordinal) ? quantity.Value : (quantity.Si - unit.Offset) / unit.Factor;
        return value.ToString(string.Equals(quantity.Definition.Symbol, unit.Symbol, StringComparison.Ordinal) ? "R" : "G12", CultureInfo.InvariantCulture);
    }
}
