using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Documents;
using PreApproval.Documents.Substances;
using PreApproval.Hazards.Substances;
using PreApproval.Web.Drafting.Editing;
using PreApproval.Web.Shared;
using PreApproval.Web.Shared.Components;

namespace PreApproval.Web.Catalogue;

/// <summary>The form of a group's own substance: fields to JSON, faults of the JSON back to fields.</summary>
public static class OwnSubstanceForm
{
    public const string VapourPressure = "vapourPressure";

    private static readonly string[] Coefficients = ["a", "b", "c"];
    private static readonly string[] Ends = ["from", "to"];
    private static readonly IReadOnlyList<string> Temperatures = ["°C", "K"];

    /// <summary>The fields of a substance that is there.</summary>
    public static IReadOnlyDictionary<string, string> Filled(GroupSubstance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        SubstanceProperties properties = substance.Properties;
        var fields = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["name"] = substance.Name,
            ["synonyms"] = string.Join('\n', substance.Synonyms),
            ["cas"] = substance.Cas ?? "",
            ["smiles"] = substance.Smiles ?? "",
            ["formula"] = properties.Formula ?? "",
            ["state"] = OwnFields.Word(properties.State),
            ["source"] = properties.Source ?? "",
        };
        foreach (OwnField field in OwnFields.All.Where(f => f.Get(properties) is not null))
        {
            FormValues.Fill(fields, field.Member, field.Get(properties));
        }

        if (properties.VapourPressure is { } antoine)
        {
            fields[VapourPressure + "-a"] = FormValues.Text(antoine.A);
            fields[VapourPressure + "-b"] = FormValues.Text(antoine.B);
            fields[VapourPressure + "-c"] = FormValues.Text(antoine.C);
            fields[VapourPressure + "-pressureUnit"] = OwnFields.Word(antoine.PressureUnit);
            fields[VapourPressure + "-temperatureUnit"] = OwnFields.Word(antoine.TemperatureUnit);
            FormValues.Fill(fields, VapourPressure + "-from", antoine.From);
            FormValues.Fill(fields, VapourPressure + "-to", antoine.To);
        }

        foreach ((string member, string source) in properties.Sources ?? new Dictionary<string, string>(StringComparer.Ordinal))
        {
            fields[member + "-source"] = source;
        }

        return fields;
    }

    /// <summary>The fields of a form that is begun for a substance of the catalogue.</summary>
    public static IReadOnlyDictionary<string, string> Of(Substance substance)
    {
        ArgumentNullException.ThrowIfNull(substance);
        return new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["name"] = substance.Identity.Name,
            ["cas"] = substance.Identity.Cas ?? "",
            ["formula"] = substance.Identity.Formula ?? "",
            ["smiles"] = substance.Identity.Smiles ?? "",
        };
    }

    /// <summary>What was sent, as the API takes it. Numbers that are none are noted in <paramref name="faults"/>.</summary>
    public static byte[] Json(Func<string, string> posted, ICollection<FormError> faults)
    {
        ArgumentNullException.ThrowIfNull(posted);
        ArgumentNullException.ThrowIfNull(faults);
        var properties = new JsonObject();
        FormValues.Put(properties, "formula", posted("formula"));
        FormValues.Put(properties, "state", posted("state"));
        var sources = new JsonObject();
        foreach (OwnField field in OwnFields.All)
        {
            if (FormValues.Quantity(posted, field.Member, field.Label, field.Units, faults) is { } quantity)
            {
                properties[field.Member] = quantity;
            }

            FormValues.Put(sources, field.Member, posted(field.Member + "-source"));
        }

        if (Antoine(posted, faults) is { } antoine)
        {
            properties[VapourPressure] = antoine;
        }

        FormValues.Put(sources, VapourPressure, posted(VapourPressure + "-source"));
        FormValues.Put(properties, "source", posted("source"));
        if (sources.Count > 0)
        {
            properties["sources"] = sources;
        }

        var substance = new JsonObject();
        FormValues.Put(substance, "name", posted("name"));
        string[] synonyms = posted("synonyms").Split(['\n', '\r', ';'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (synonyms.Length > 0)
        {
            substance["synonyms"] = new JsonArray([.. synonyms.Select(s => JsonValue.Create(s))]);
        }

        FormValues.Put(substance, "cas", posted("cas"));
        FormValues.Put(substance, "smiles", posted("smiles"));
        substance["properties"] = properties;
        return Encoding.UTF8.GetBytes(substance.ToJsonString());
    }

    /// <summary>The field of a fault, and the fault in words that name it.</summary>
    public static FormError Of(Fault fault)
    {
        ArgumentNullException.ThrowIfNull(fault);
        string[] parts = fault.Path.Split('/', StringSplitOptions.RemoveEmptyEntries);
        string field = parts switch
        {
            ["properties", "sources", var member, ..] => member + "-source",
            ["properties", VapourPressure, var part, ..] => $"{VapourPressure}-{part}",
            ["properties", VapourPressure] => VapourPressure + "-a",
            ["properties", var member, ..] => member,
            ["properties"] => "source",
            [var member, ..] => member,
            [] => "name",
        };
        return new FormError(field, $"{LabelOf(field)}: {FormValues.Asked(fault).TrimEnd('.')}.");
    }

    public static string LabelOf(string field)
    {
        ArgumentNullException.ThrowIfNull(field);
        if (field.EndsWith("-source", StringComparison.Ordinal))
        {
            string member = field[..^"-source".Length];
            return $"Source of the {(member is VapourPressure ? "vapour pressure" : LabelOf(member).ToLowerInvariant())}";
        }

        return field switch
        {
            "name" => "Name",
            "synonyms" => "Other names",
            "cas" => "CAS number",
            "smiles" => "Structure",
            "formula" => "Formula",
            "state" => "State",
            "source" => "Source of the values",
            VapourPressure + "-a" => "Vapour pressure, A",
            VapourPressure + "-b" => "Vapour pressure, B",
            VapourPressure + "-c" => "Vapour pressure, C",
            VapourPressure + "-pressureUnit" => "Vapour pressure, unit of pressure",
            VapourPressure + "-temperatureUnit" => "Vapour pressure, unit of temperature",
            VapourPressure + "-from" => "Vapour pressure, lowest temperature",
            VapourPressure + "-to" => "Vapour pressure, highest temperature",
            _ => OwnFields.All.FirstOrDefault(f => string.Equals(f.Member, field, StringComparison.Ordinal))?.Label ?? field,
        };
    }

    /// <summary>Null where no part of it was filled in.</summary>
    private static JsonObject? Antoine(Func<string, string> posted, ICollection<FormError> faults)
    {
        if (Coefficients.Concat(Ends).All(part => posted($"{VapourPressure}-{part}").Length == 0))
        {
            return null;
        }

        var antoine = new JsonObject();
        foreach (string part in Coefficients)
        {
            string field = $"{VapourPressure}-{part}";
            string number = TypedNumber.Read(posted(field), []).Number;
            if (number.Length > 0 && FormValues.Number(field, LabelOf(field), number, faults) is { } value)
            {
                antoine[part] = value;
            }
        }

        FormValues.Put(antoine, "pressureUnit", posted(VapourPressure + "-pressureUnit"));
        FormValues.Put(antoine, "temperatureUnit", posted(VapourPressure + "-temperatureUnit"));
        foreach (string part in Ends)
        {
            if (FormValues.Quantity(posted, $"{VapourPressure}-{part}", LabelOf($"{VapourPressure}-{part}"), Temperatures, faults) is { } end)
            {
                antoine[part] = end;
            }
        }

        return antoine;
    }
}
