using System.Text.Json.Nodes;
using Microsoft.OpenApi;
using PreApproval.Web.Drafting.Editing;

namespace PreApproval.Web.Inventory;

/// <summary>The bodies of the inventory in the OpenAPI document.</summary>
public static class InventorySchemas
{
    /// <summary>True where the type is one of them.</summary>
    public static bool TryDescribe(OpenApiSchema schema, Type type)
    {
        ArgumentNullException.ThrowIfNull(schema);
        if (type == typeof(VesselBody))
        {
            Fill(schema, "A vessel. Its members are those of a vessel in docs/procedure.schema.json, with 'label' in place of 'id'; a rating needs 'ratingEvidence'. 'outOfService' says why nobody may use it at present.", ["label", "kind"],
                ("label", Text()), ("kind", Text()), ("volume", Quantity()), ("rating", Quantity()), ("ratingEvidence", Text()), ("maximumTemperature", Quantity()), ("closure", Text()),
                ("inspectedOn", Date()),
                ("relief", Members("A relief device on it; both members are needed.", ("device", Word(Choices.ReliefDevices)), ("set", Quantity()))),
                ("glassTube", Members("Its glass wall; both lengths are needed, and 'annealed' left out is not known.", ("outsideDiameterMm", Number()), ("wallMm", Number()), ("annealed", new OpenApiSchema { Type = JsonSchemaType.Boolean }))),
                ("parts", new OpenApiSchema { Type = JsonSchemaType.Array, Items = new OpenApiSchema { Type = JsonSchemaType.Object } }), ("outOfService", Text()), ("note", Text()));
            return true;
        }

        if (type == typeof(PlaceBody))
        {
            Fill(schema, "A bench or a hood. Its members are those of a place in docs/procedure.schema.json, with a note.", ["name", "kind"],
                ("name", Text()), ("kind", Word(Choices.Places)), ("roomVolume", Quantity()), ("airFlow", Quantity()), ("note", Text()));
            return true;
        }

        if (type == typeof(AgentBody))
        {
            Fill(schema, "An extinguishing agent on hand at a place of the inventory.", ["place", "agent"],
                ("place", new OpenApiSchema { Type = JsonSchemaType.String, Format = "uuid" }), ("agent", Word(Choices.Agents)), ("size", Text()), ("checkedOn", Date()), ("note", Text()));
            return true;
        }

        return false;
    }

    private static void Fill(OpenApiSchema schema, string description, IEnumerable<string> required, params ReadOnlySpan<(string Name, IOpenApiSchema Schema)> members)
    {
        schema.Description = description;
        schema.Required = required.ToHashSet(StringComparer.Ordinal);
        schema.Properties = new Dictionary<string, IOpenApiSchema>(StringComparer.Ordinal);
        foreach ((string name, IOpenApiSchema member) in members)
        {
            schema.Properties.Add(name, member);
        }
    }

    private static OpenApiSchema Text() => new() { Type = JsonSchemaType.String };

    private static OpenApiSchema Date() => new() { Type = JsonSchemaType.String, Format = "date" };

    private static OpenApiSchema Word(IReadOnlyList<string> words) => new() { Type = JsonSchemaType.String, Enum = [.. words.Select(word => (JsonNode)JsonValue.Create(word))] };

    private static OpenApiSchema Number() => new() { Type = JsonSchemaType.Number };

    private static OpenApiSchema Quantity() => Members(null, ("value", Number()), ("unit", Text()));

    private static OpenApiSchema Members(string? description, params ReadOnlySpan<(string Name, IOpenApiSchema Schema)> members)
    {
        var schema = new OpenApiSchema { Type = JsonSchemaType.Object, Description = description, Properties = new Dictionary<string, IOpenApiSchema>(StringComparer.Ordinal) };
        foreach ((string name, IOpenApiSchema member) in members)
        {
            schema.Properties.Add(name, member);
        }

        return schema;
    }
}
