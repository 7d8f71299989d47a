using System.Net;
using System.Text.Json.Nodes;

namespace PreApproval.Web.Tests.Hosting;

/// <summary>Reads answers.</summary>
internal static class Read
{
    public static async Task<JsonObject> ObjectAsync(HttpResponseMessage answer) => JsonNode.Parse(await answer.Content.ReadAsStringAsync())!.AsObject();

    /// <summary>Asserts that it is a problem document of RFC 9457 with this status, and gives its members.</summary>
    public static async Task<JsonObject> ProblemAsync(HttpResponseMessage answer, HttpStatusCode status)
    {
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == status, $"{(int)answer.StatusCode} instead of {(int)status}: {text}");
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        JsonObject problem = JsonNode.Parse(text)!.AsObject();
        Assert.Equal((int)status, (int)problem["status"]!);
        Assert.False(string.IsNullOrWhiteSpace((string?)problem["title"]));
        Assert.False(string.IsNullOrWhiteSpace((string?)problem["detail"]));
        Assert.NotNull(problem["errors"]);
        Assert.DoesNotContain("   at ", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", text, StringComparison.Ordinal);
        return problem;
    }

    /// <summary>Paths of the fields at fault.</summary>
    public static string[] Paths(JsonObject problem) => [.. problem["errors"]!.AsArray().Select(e => (string)e!["path"]!)];
}
