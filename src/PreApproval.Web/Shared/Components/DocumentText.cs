using System.Globalization;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace PreApproval.Web.Shared.Components;

/// <summary>Reads a procedure document, complete or not, for showing. Nothing is converted: quantities are shown as typed.</summary>
public static class DocumentText
{
    /// <summary>A document as it is kept: without spaces, letters of every script as they are.</summary>
    public static JsonSerializerOptions Compact { get; } = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The document, or an empty one for bytes that are no JSON object.</summary>
    public static JsonObject Parse(ReadOnlyMemory<byte> utf8)
    {
        try
        {
            return JsonNode.Parse(utf8.Span) as JsonObject ?? [];
        }
        catch (JsonException)
        {
            return [];
        }
    }

    public static JsonNode? At(JsonNode? node, string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        foreach (string part in path.Split('/'))
        {
            node = node switch
            {
                JsonObject o => o[part],
                JsonArray a when int.TryParse(part, NumberStyles.None, CultureInfo.InvariantCulture, out int i) && i < a.Count => a[i],
                _ => null,
            };
        }

        return node;
    }

    /// <summary>Text of a value; numbers as typed; empty when there is none.</summary>
    public static string Text(JsonNode? node, string path) => Text(At(node, path));

    public static string Text(JsonNode? node) => node switch
    {
        JsonValue v when v.GetValueKind() == JsonValueKind.String => v.GetValue<string>(),
        JsonValue v when v.GetValueKind() is JsonValueKind.True => "yes",
        JsonValue v when v.GetValueKind() is JsonValueKind.False => "no",
        JsonValue v => v.ToJsonString(),
        _ => "",
    };

    public static bool Flag(JsonNode? node, string path) => At(node, path) is JsonValue v && v.GetValueKind() == JsonValueKind.True;

    /// <summary>The entries of a list that are objects.</summary>
    public static IReadOnlyList<JsonObject> Rows(JsonNode? node, string path) => At(node, path) is JsonArray a ? [.. a.OfType<JsonObject>()] : [];

    public static IReadOnlyList<string> Texts(JsonNode? node, string path) => At(node, path) is JsonArray a ? [.. a.Select(Text)] : [];

    /// <summary>For instance <c>20 mL</c>; empty when there is none.</summary>
    public static string Quantity(JsonNode? node, string path)
    {
        JsonNode? quantity = At(node, path);
        return quantity is JsonObject ? $"{Text(quantity, "value")} {Text(quantity, "unit")}".Trim() : Text(quantity);
    }

    public static string Substance(JsonNode? node)
    {
        string name = Text(node, "name");
        string cas = Text(node, "cas");
        string smiles = Text(node, "smiles");
        if (name.Length == 0 && cas.Length > 0 && Hazards.Substances.Catalog.Default.TryFindByCas(cas, out Hazards.Substances.Substance? known))
        {
            name = known.Identity.Name;
        }

        string[] parts = [name, cas.Length > 0 ? $"({cas})" : "", name.Length == 0 && cas.Length == 0 ? smiles : ""];
        return string.Join(' ', parts.Where(p => p.Length > 0));
    }

    /// <summary>A relief device of a vessel, for instance <c>relief valve opens at 8 bar(g)</c>; empty when there is none.</summary>
    public static string Relief(JsonNode? node) => node is JsonObject relief
        ? $"{Text(relief, "device") switch { "" => "relief device", "valve" => "relief valve", var device => device }} opens at {Quantity(relief, "set")}".TrimEnd()
        : "";

    /// <summary>The glass wall of a vessel; empty when there is none.</summary>
    public static string GlassTube(JsonNode? node) => node is JsonObject tube
        ? $"glass {Text(tube, "outsideDiameterMm")} mm outside, wall {Text(tube, "wallMm")} mm, {Text(tube, "annealed") switch { "yes" => "annealed", "no" => "not annealed", _ => "not known to be annealed" }}"
        : "";

    /// <summary>What a material is made of, in words.</summary>
    public static string Composition(JsonObject material)
    {
        ArgumentNullException.ThrowIfNull(material);
        if (material["mixture"] is JsonArray mixture)
        {
            return string.Join(" + ", mixture.Select(part => $"{Quantity(part, "fraction")} {Substance(At(part, "substance"))}".Trim()));
        }

        string substance = Substance(material["substance"]);
        return material["solution"] is JsonObject solution
            ? $"{substance}, {Quantity(solution, "concentration")} in {Substance(solution["solvent"])}"
            : substance;
    }

    /// <summary>The materials of a step, in words.</summary>
    public static string MaterialsOf(JsonObject step) => string.Join(", ", (At(step, "materials") as JsonArray ?? []).Select(use =>
        use is JsonObject o ? $"{Text(o, "id")} ({Quantity(o, "amount")})" : Text(use)));

    /// <summary>One step in a phrase without its number.</summary>
    public static string Step(JsonObject step)
    {
        ArgumentNullException.ThrowIfNull(step);
        List<string> parts = [];
        string materials = MaterialsOf(step);
        string vessel = Text(step, "vessel");
        string to = Text(step, "to");
        if (materials.Length > 0)
        {
            parts.Add(vessel.Length > 0 ? $"{materials} into {vessel}" : materials);
        }
        else if (vessel.Length > 0)
        {
            parts.Add(vessel);
        }

        Add("to ", to);
        Add("over ", Quantity(step, "over"));
        Add(Text(step, "action") is "heat" or "cool" ? "to " : "at ", Quantity(step, "temperature"));
        Add("for ", Quantity(step, "duration"));
        Add("with ", Text(step, "heatSource"));
        if (step["independentCutOut"] is not null)
        {
            parts.Add(Flag(step, "independentCutOut") ? "independent cut-out" : "no independent cut-out");
        }

        Add("surface ", Quantity(step, "surfaceTemperature"));
        Add("under ", step["headspace"] is JsonObject gas ? Substance(gas["substance"] ?? gas) : Text(step, "headspace"));
        Add("closed by ", Text(step, "closure"));
        Add("gas ", step["gas"] is JsonObject g ? Substance(g["substance"] ?? g) : Text(step, "gas"));
        Add("pressure ", Quantity(step, "pressure"));
        return string.Join(", ", parts);

        void Add(string before, string text)
        {
            if (text.Length > 0)
            {
                parts.Add(before + text);
            }
        }
    }
}
