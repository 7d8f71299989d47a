using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using PreApproval.Web.Identity;

namespace PreApproval.Web.Shared;

/// <summary>The OpenAPI document of the API, at <c>/openapi/v1.json</c>.</summary>
public static class OpenApiSetup
{
    public const string DocumentName = "v1";

    public static IServiceCollection AddApiDescription(this IServiceCollection services) => services.AddOpenApi(DocumentName, options =>
    {
        options.ShouldInclude = description => description.RelativePath?.StartsWith("api/v1/", StringComparison.Ordinal) == true;
        options.AddDocumentTransformer((document, _, _) =>
        {
            Describe(document);
            return Task.CompletedTask;
        });
        options.AddOperationTransformer(DescribeAsync);
        options.AddSchemaTransformer((schema, context, _) =>
        {
            DescribeOpaque(schema, context.JsonTypeInfo.Type);
            return Task.CompletedTask;
        });
    });

    private static void Describe(OpenApiDocument document)
    {
        document.Info = new OpenApiInfo
        {
            Title = "PreApproval",
            Version = "1",
            Description = "Submit a planned hazardous procedure, have it screened, reviewed and signed, and read its history. "
                + "Errors are problem documents of RFC 9457 with a path for every fault.",
        };

        // Relative: the document is true wherever the application is reached.
        document.Servers = [new OpenApiServer { Url = "/" }];
        document.Components ??= new OpenApiComponents();
        document.Components.SecuritySchemes ??= new Dictionary<string, IOpenApiSecurityScheme>(StringComparer.Ordinal);
        document.Components.SecuritySchemes[BearerTokenHandler.SchemeName] = new OpenApiSecurityScheme
        {
            Type = SecuritySchemeType.Http,
            Scheme = "bearer",
            Description = "A token of POST /api/v1/tokens.",
        };
    }

    private static async Task DescribeAsync(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancellationToken)
    {
        IList<object> metadata = context.Description.ActionDescriptor.EndpointMetadata;
        operation.Parameters ??= [];
        if (metadata.OfType<TakesIdempotencyKey>().Any())
        {
            operation.Parameters.Add(Header(IdempotencyFilter.HeaderName, required: false, "A repeat with the same key gets the first answer; the same key with another request gets 422."));
        }

        if (metadata.OfType<TakesIfMatch>().FirstOrDefault() is { } ifMatch)
        {
            operation.Parameters.Add(Header("If-Match", ifMatch.Required, "ETag of what was edited."));
        }

        if (metadata.OfType<JsonBody>().FirstOrDefault() is { } body)
        {
            operation.RequestBody = new OpenApiRequestBody
            {
                Required = true,
                Content = new Dictionary<string, OpenApiMediaType>(StringComparer.Ordinal)
                {
                    ["application/json"] = new() { Schema = await context.GetOrCreateSchemaAsync(body.Type, cancellationToken: cancellationToken) },
                },
            };
        }

        if (metadata.OfType<CsvBody>().Any())
        {
            operation.RequestBody = new OpenApiRequestBody
            {
                Required = true,
                Content = new Dictionary<string, OpenApiMediaType>(StringComparer.Ordinal) { ["text/csv"] = new() { Schema = new OpenApiSchema { Type = JsonSchemaType.String } } },
            };
        }

        if (!metadata.OfType<IAllowAnonymous>().Any())
        {
            operation.Security = [new OpenApiSecurityRequirement { [new OpenApiSecuritySchemeReference(BearerTokenHandler.SchemeName, context.Document)] = [] }];
        }
    }

    private static void DescribeOpaque(OpenApiSchema schema, Type type)
    {
        if (type == typeof(ProcedureDocumentBody))
        {
            schema.Description = "A procedure document, preapproval/procedure/1. Its own JSON Schema, docs/procedure.schema.json, describes every member; unknown members are refused.";
            schema.Properties = new Dictionary<string, IOpenApiSchema>(StringComparer.Ordinal)
            {
                ["schema"] = new OpenApiSchema { Type = JsonSchemaType.String, Enum = [JsonValue.Create("preapproval/procedure/1")] },
                ["title"] = new OpenApiSchema { Type = JsonSchemaType.String },
            };
        }
        else if (type == typeof(Catalogue.OwnSubstanceBody))
        {
            schema.Description = "A substance of the group's own list. 'properties' is the object of that name in docs/procedure.schema.json: values with units, 'source', and 'sources' for single values; unknown members are refused.";
            schema.Required = new HashSet<string>(StringComparer.Ordinal) { "name", "properties" };
            schema.Properties = new Dictionary<string, IOpenApiSchema>(StringComparer.Ordinal)
            {
                ["name"] = new OpenApiSchema { Type = JsonSchemaType.String },
                ["synonyms"] = new OpenApiSchema { Type = JsonSchemaType.Array, Items = new OpenApiSchema { Type = JsonSchemaType.String } },
                ["cas"] = new OpenApiSchema { Type = JsonSchemaType.String },
                ["smiles"] = new OpenApiSchema { Type = JsonSchemaType.String },
                ["properties"] = new OpenApiSchema { Type = JsonSchemaType.Object },
            };
        }
        else if (Inventory.InventorySchemas.TryDescribe(schema, type))
        {
            return;
        }
        else if (type == typeof(ScreeningReport))
        {
            schema.Description = "A screening report: the same document, engine, data and policy give the same bytes.";
            schema.Properties = new Dictionary<string, IOpenApiSchema>(StringComparer.Ordinal)
            {
                ["engine"] = new OpenApiSchema { Type = JsonSchemaType.Object },
                ["procedure"] = new OpenApiSchema { Type = JsonSchemaType.Object },
                ["verdict"] = new OpenApiSchema { Type = JsonSchemaType.String, Enum = [JsonValue.Create("clear"), JsonValue.Create("review")] },
                ["findings"] = new OpenApiSchema { Type = JsonSchemaType.Array, Items = new OpenApiSchema { Type = JsonSchemaType.Object } },
                ["timeline"] = new OpenApiSchema { Type = JsonSchemaType.Array, Items = new OpenApiSchema { Type = JsonSchemaType.Object } },
                ["coverage"] = new OpenApiSchema { Type = JsonSchemaType.Array, Items = new OpenApiSchema { Type = JsonSchemaType.Object } },
                ["encounters"] = new OpenApiSchema { Type = JsonSchemaType.Array, Items = new OpenApiSchema { Type = JsonSchemaType.Object } },
                ["fireActions"] = new OpenApiSchema { Type = JsonSchemaType.Array, Items = new OpenApiSchema { Type = JsonSchemaType.Object } },
            };
        }
    }

    private static OpenApiParameter Header(string name, bool required, string description) => new()
    {
        Name = name,
        In = ParameterLocation.Header,
        Required = required,
        Description = description,
        Schema = new OpenApiSchema { Type = JsonSchemaType.String },
    };
}
