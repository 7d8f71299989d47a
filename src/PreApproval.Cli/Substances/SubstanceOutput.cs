using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Plans;
using PreApproval.Hazards.Reactivity;
using PreApproval.Hazards.Substances;

namespace PreApproval.Cli.Substances;

/// <summary>A substance as JSON and as a table.</summary>
internal static class SubstanceOutput
{
    private const double GramsPerKg = 1e3;

    public static JsonObject Json(Substance substance, IReadOnlyList<SubstanceValue> values) => new()
    {
        ["identity"] = new JsonObject
        {
            ["name"] = substance.Identity.Name,
            ["cas"] = substance.Identity.Cas,
            ["formula"] = substance.Identity.Formula,
            ["molarMass"] = JsonText.Number(MolarMass(substance)),
            ["smiles"] = substance.Identity.Smiles,
            ["synonyms"] = Texts(substance.Identity.Synonyms),
            ["groups"] = Texts(Families(substance)),
        },
        ["values"] = new JsonArray([.. values.Select(Value)]),
        ["correlations"] = CorrelationOutput.Json(substance),
        ["hazardStatements"] = HealthOutput.Statements(substance),
        ["exposureLimits"] = HealthOutput.Limits(substance),
        ["idlh"] = HealthOutput.Idlh(substance),
        ["carcinogen"] = HealthOutput.Carcinogen(substance),
        ["advice"] = HealthOutput.Advice,
    };

    public static string Text(Substance substance, IReadOnlyList<SubstanceValue> values)
    {
        Identity identity = substance.Identity;
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{identity.Name}  CAS {identity.Cas ?? "–"}  {identity.Formula ?? ""}  {Rounded.Significant(MolarMass(substance), 5)} g/mol");
        if (identity.Synonyms.Count > 0)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"Also: {string.Join(", ", identity.Synonyms)}");
        }

        if (identity.Smiles is { } smiles)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"SMILES: {smiles}");
        }

        if (Families(substance) is { Count: > 0 } families)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"Families: {string.Join(", ", families)}");
        }

        text.AppendLine();
        var table = new TextTable("value", "", "unit", "quality", "source");
        foreach (SubstanceValue value in values)
        {
            string name = value.TemperatureC is { } celsius ? $"{value.Name} at {Rounded.Temperature(celsius)} °C" : value.Name;
            Add(table, value, value.Others.Count > 0 ? $"{name} (governs)" : name);
            foreach (SubstanceValue other in value.Others)
            {
                Add(table, other, "  also published");
            }
        }

        text.Append(table);
        CorrelationOutput.Append(text, substance);
        HealthOutput.Append(text, substance);
        return text.ToString();
    }

    private static void Add(TextTable table, SubstanceValue value, string name) => table.Add(
        name,
        Rounded.Significant(value.Value, 4),
        value.Unit,
        value.Quality is { } quality ? ReportWords.Of(quality) : "–",
        value.Because ?? string.Join("; ", value.Note is { } note ? value.Sources.Append(note) : value.Sources));

    private static JsonObject Value(SubstanceValue value)
    {
        var json = new JsonObject
        {
            ["name"] = value.Name,
            ["value"] = JsonText.Number(value.Value),
            ["unit"] = value.Unit,
            ["quality"] = value.Quality is { } quality ? ReportWords.Of(quality) : "missing",
            ["source"] = Texts(value.Sources),
        };
        if (value.TemperatureC is { } celsius)
        {
            json["temperatureC"] = celsius;
        }

        if (value.Range is { } range)
        {
            json["range"] = CorrelationOutput.Range(range);
        }

        if (value.Note is { } note)
        {
            json["note"] = note;
        }

        if (value.Because is { } because)
        {
            json["because"] = because;
        }

        if (value.Others.Count > 0)
        {
            json["governs"] = true;
            json["others"] = new JsonArray([.. value.Others.Select(Value)]);
        }

        return json;
    }

    private static IReadOnlyList<string> Families(Substance substance) =>
        FamilyTable.Default.Of(new PlanSubstance(substance.Key, substance.Identity.Name, substance), massFraction: 1);

    private static double? MolarMass(Substance substance) =>
        substance.Identity.MolarMassKgPerMol is { } molarMass ? Math.Round(molarMass * GramsPerKg, 9) : null;

    private static JsonArray Texts(IReadOnlyList<string> texts) => [.. texts.Select(text => JsonValue.Create(text))];
}
