using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

public sealed class OpenApiTests(TestApp test)
{
    [Fact]
    public async Task Document_Paths_AreExactlyTheMappedEndpoints()
    {
        JsonObject document = await DocumentAsync();
        string[] described = [.. document["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject().Select(m => $"{m.Key.ToUpperInvariant()} {p.Key}")).Order(StringComparer.Ordinal)];
        string[] mapped = [.. test.App.Services.GetServices<EndpointDataSource>().SelectMany(s => s.Endpoints).OfType<RouteEndpoint>().Distinct()
            .Where(e => e.RoutePattern.RawText?.StartsWith("/api/", StringComparison.Ordinal) == true)
            .SelectMany(e => e.Metadata.GetMetadata<HttpMethodMetadata>()!.HttpMethods.Select(m => $"{m} {Regex.Replace(e.RoutePattern.RawText!, ":[^}]+}", "}", RegexOptions.NonBacktracking)}"))
            .Order(StringComparer.Ordinal)];
        Assert.NotEmpty(mapped);
        Assert.Equal(mapped, described);
    }

    [Fact]
    public async Task Document_EveryOperation_HasASummaryANameProblemsAndItsSecurity()
    {
        JsonObject document = await DocumentAsync();
        Assert.Equal("bearer", (string?)document["components"]!["securitySchemes"]!["Bearer"]!["scheme"]);
        HashSet<string> names = new(StringComparer.Ordinal);
        foreach ((string path, JsonNode? operations) in document["paths"]!.AsObject())
        {
            foreach ((string method, JsonNode? operation) in operations!.AsObject())
            {
                Assert.False(string.IsNullOrWhiteSpace((string?)operation!["summary"]), $"{method} {path} has no summary");
                Assert.True(names.Add((string)operation["operationId"]!), $"{method} {path} shares its name");
                JsonObject responses = operation["responses"]!.AsObject();
                Assert.True(responses.ContainsKey("401"), $"{method} {path} names no 401");
                foreach ((string status, JsonNode? response) in responses.Where(r => r.Key[0] is '4' or '5'))
                {
                    Assert.True(response!["content"]?.AsObject().ContainsKey("application/problem+json"), $"{method} {path} {status} is no problem document");
                }

                Assert.Equal(!(path.EndsWith("/tokens", StringComparison.Ordinal) && method is "post"), operation["security"] is JsonArray { Count: > 0 });
                if (path.EndsWith("/import", StringComparison.Ordinal))
                {
                    Assert.NotNull(operation["requestBody"]?["content"]?["text/csv"]?["schema"]);
                }
                else if (method is "put" || (method is "post" && !path.EndsWith("/submissions", StringComparison.Ordinal)))
                {
                    Assert.NotNull(operation["requestBody"]?["content"]?["application/json"]?["schema"]);
                }
            }
        }
    }

    [Fact]
    public async Task Document_Words_AreThoseOfTheContract()
    {
        string text = (await DocumentAsync()).ToJsonString();
        Assert.Contains("\"request-changes\"", text, StringComparison.Ordinal);
        Assert.Contains("\"in-review\"", text, StringComparison.Ordinal);
        Assert.Contains("\"send-back\"", text, StringComparison.Ordinal);
    }

    private async Task<JsonObject> DocumentAsync()
    {
        using HttpClient client = test.As(null);
        using HttpResponseMessage answer = await client.GetAsync("/openapi/v1.json");
        answer.EnsureSuccessStatusCode();
        return await Read.ObjectAsync(answer);
    }
}
