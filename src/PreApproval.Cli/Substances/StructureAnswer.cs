using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Cli.Output;
using PreApproval.Documents.Reporting;
using PreApproval.Hazards.Structures;

namespace PreApproval.Cli.Substances;

/// <summary>A structure that the catalogue does not list as <c>substance</c> shows it: composition, groups, estimates, and what is not known.</summary>
internal static class StructureAnswer
{
    private const string NotOnFile = "not on file";

    /// <param name="name">As asked for; the SMILES where nothing else was given.</param>
    /// <param name="structure">One that can be read.</param>
    public static Answer Of(string name, TypedStructure structure)
    {
        IReadOnlyList<StructureValue> values = StructureValues.Of(structure);
        return Answer.Of(Json(name, structure, values), Text(name, structure, values), isFlagged: false);
    }

    private static JsonObject Json(string name, TypedStructure structure, IReadOnlyList<StructureValue> values)
    {
        StructureGroups groups = structure.Groups!;
        return new JsonObject
        {
            ["identity"] = new JsonObject
            {
                ["name"] = name,
                ["cas"] = null,
                ["formula"] = structure.Formula,
                ["molarMass"] = JsonText.Number(MolarMass(structure)),
                ["smiles"] = structure.Smiles,
                ["synonyms"] = new JsonArray(),
                ["groups"] = Texts(structure.Families),
                ["listed"] = false,
                ["relation"] = structure.Relation?.Words,
            },
            ["structure"] = new JsonObject
            {
                ["functionalGroups"] = Texts(groups.FunctionalGroups),
                ["energeticGroups"] = Texts(groups.EnergeticGroups),
                ["reactiveSigns"] = Texts(groups.ReactiveSigns),
                ["undecided"] = Texts(groups.Undecided.Select(group => group.Name)),
                ["unifac"] = StructureValues.Unifac(structure),
            },
            ["values"] = new JsonArray([.. values.Select(Value)]),
            ["hazardStatements"] = Missing(),
            ["exposureLimits"] = Missing(),
            ["idlh"] = Missing(),
            ["carcinogen"] = Missing(),
            ["advice"] = $"{StructureValues.Caution} {HealthOutput.Advice}",
        };
    }

    private static JsonObject Value(StructureValue value)
    {
        var json = new JsonObject
        {
            ["name"] = value.Name,
            ["value"] = JsonText.Number(value.Value),
            ["unit"] = value.Unit,
            ["quality"] = value.Value is null ? "missing" : "estimated",
            ["model"] = value.Model,
            ["source"] = Texts(value.Sources),
        };
        if (value.Error is { } error)
        {
            json["error"] = JsonText.Number(error);
        }

        if (value.AtC is { } celsius)
        {
            json["temperatureC"] = celsius;
        }

        if (value.Because is { } because)
        {
            json["because"] = because;
        }

        return json;
    }

    private static string Text(string name, TypedStructure structure, IReadOnlyList<StructureValue> values)
    {
        var text = new StringBuilder();
        text.AppendLine(CultureInfo.InvariantCulture, $"{name}  not in the catalogue  {structure.Formula}  {Rounded.Significant(MolarMass(structure), 5)} g/mol");
        if (structure.Relation is { } relation)
        {
            text.AppendLine(relation.Words);
        }

        text.AppendLine(CultureInfo.InvariantCulture, $"SMILES: {structure.Smiles}");
        StructureGroups groups = structure.Groups!;
        Append(text, "Families", structure.Families);
        Append(text, "Functional groups", groups.FunctionalGroups);
        Append(text, "Energetic groups", groups.EnergeticGroups);
        Append(text, "Signs that it may react by itself", groups.ReactiveSigns.Except(groups.EnergeticGroups, StringComparer.Ordinal));
        Append(text, "Not decided", groups.Undecided.Select(group => group.Name));
        text.AppendLine(CultureInfo.InvariantCulture, $"UNIFAC groups: {StructureValues.Unifac(structure)}").AppendLine();
        var table = new TextTable("value", "", "±", "unit", "quality", "model and source");
        foreach (StructureValue value in values)
        {
            table.Add(
                value.AtC is { } celsius ? $"{value.Name} at {Rounded.Temperature(celsius)} °C" : value.Name,
                Rounded.Significant(value.Value, 4),
                value.Error is { } error ? Rounded.Significant(error, 2) : "",
                value.Unit,
                value.Value is null ? "–" : "estimated",
                value.Because ?? $"{value.Model}; {string.Join("; ", value.Sources)}");
        }

        text.Append(table).AppendLine().AppendLine(StructureValues.Caution);
        text.AppendLine("Hazard statements, exposure limits, IDLH, IARC group: not on file (this does not mean: no hazard)");
        text.AppendLine().AppendLine(HealthOutput.Advice);
        return text.ToString();
    }

    private static void Append(StringBuilder text, string heading, IEnumerable<string> names)
    {
        if (string.Join(", ", names) is { Length: > 0 } list)
        {
            text.AppendLine(CultureInfo.InvariantCulture, $"{heading}: {list}");
        }
    }

    private static double? MolarMass(TypedStructure structure) => structure.MolarMassKgPerMol is { } mass ? Math.Round(mass * 1000, 9) : null;

    private static JsonObject Missing() => new() { ["status"] = NotOnFile };

    private static JsonArray Texts(IEnumerable<string> texts) => [.. texts.Select(text => JsonValue.Create(text))];
}
