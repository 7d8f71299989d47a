using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Substances;

/// <summary>The published correlations of a substance with their ranges of validity, the preferred one first.</summary>
internal static class CorrelationOutput
{
    private sealed record Row(string Quantity, string Form, TemperatureRange Range, bool Preferred, string Source);

    public static JsonArray Json(Substance substance) =>
    [
        .. Rows(substance).Select(row => new JsonObject
        {
            ["quantity"] = row.Quantity,
            ["form"] = row.Form,
            ["range"] = Range(row.Range),
            ["governs"] = row.Preferred,
            ["quality"] = "correlated",
            ["source"] = new JsonArray(Catalog.Default.Reference(row.Source)),
        }),
    ];

    public static JsonObject Range(TemperatureRange range) => new() { ["minimumC"] = range.MinimumC, ["maximumC"] = range.MaximumC };

    public static void Append(StringBuilder text, Substance substance)
    {
        IReadOnlyList<Row> rows = Rows(substance);
        if (rows.Count == 0)
        {
            return;
        }

        var table = new TextTable("correlation", "form", "from °C", "to °C", "", "source");
        foreach (Row row in rows)
        {
            table.Add(row.Quantity, row.Form, Rounded.Temperature(row.Range.MinimumC), Rounded.Temperature(row.Range.MaximumC), row.Preferred ? "governs" : "", Catalog.Default.Reference(row.Source));
        }

        text.AppendLine().Append(table);
    }

    private static IReadOnlyList<Row> Rows(Substance substance) =>
    [
        .. substance.VapourPressure.Select((correlation, index) => new Row("vapour pressure", correlation.Form, Celsius(correlation.MinimumK, correlation.MaximumK), index == 0, correlation.Source)),
        .. substance.LiquidDensity.Select((correlation, index) => new Row("liquid density", correlation.Form, Celsius(correlation.MinimumK, correlation.MaximumK), index == 0, correlation.Source)),
    ];

    private static TemperatureRange Celsius(double minimumK, double maximumK) => new(SubstanceValues.Celsius(minimumK), SubstanceValues.Celsius(maximumK));
}
