using System.Net;
using System.Text;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Every answer carries the protective headers, errors included.</summary>
public sealed class HeaderTests(TestApp test)
{
    [Theory]
    [InlineData("GET", "/health/live", null, 200)]
    [InlineData("GET", "/health/ready", null, 200)]
    [InlineData("GET", "/openapi/v1.json", null, 200)]
    [InlineData("GET", "/api/v1/procedures", "author", 200)]
    [InlineData("GET", "/api/v1/procedures", null, 401)]
    [InlineData("GET", "/api/v1/procedures", "administrator", 403)]
    [InlineData("GET", "/api/v1/nothing", "author", 404)]
    [InlineData("DELETE", "/api/v1/procedures", "author", 405)]
    [InlineData("POST", "/api/v1/screenings", "author", 415)]
    [InlineData("GET", "/nothing-of-ours.txt", null, 404)]
    public async Task Answer_Whatever_CarriesTheHeaders(string method, string address, string? person, int status)
    {
        using HttpClient client = test.As(person);
        using var request = new HttpRequestMessage(new HttpMethod(method), address);
        using HttpResponseMessage answer = await client.SendAsync(request);
        Assert.Equal(status, (int)answer.StatusCode);
        string policy = Assert.Single(answer.Headers.GetValues("Content-Security-Policy"));
        Assert.StartsWith("default-src 'none'; ", policy, StringComparison.Ordinal);
        Assert.Contains("frame-ancestors 'none'", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe", policy, StringComparison.Ordinal);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.Equal("no-referrer", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
        Assert.True(answer.Headers.CacheControl?.NoStore);
        Assert.False(answer.Headers.Contains("Server"));
        Assert.False(answer.Headers.Contains("X-Powered-By"));
        Assert.False(answer.Headers.Contains("Access-Control-Allow-Origin"));
    }

    [Fact]
    public async Task Answer_Cross_OriginRequest_HasNoCors()
    {
        using HttpClient client = test.As("author");
        using var request = new HttpRequestMessage(HttpMethod.Options, "/api/v1/procedures");
        request.Headers.TryAddWithoutValidation("Origin", "https://elsewhere.example");
        request.Headers.TryAddWithoutValidation("Access-Control-Request-Method", "POST");
        using HttpResponseMessage answer = await client.SendAsync(request);
        Assert.False(answer.Headers.Contains("Access-Control-Allow-Origin"));
    }

    [Fact]
    public async Task Json_EveryAnswer_NamesItsCharacterSetOrIsUtf8ByDefinition()
    {
        using HttpClient client = test.As("author");
        using HttpResponseMessage answer = await client.GetAsync("/api/v1/procedures");
        Assert.Equal("application/json", answer.Content.Headers.ContentType?.MediaType);
        Assert.Equal("utf-8", answer.Content.Headers.ContentType?.CharSet);
    }

    [Fact]
    public async Task Answer_AfterAFailureInside_IsAProblemWithoutDetails()
    {
        // A database that is not there makes every handler fail.
        await using WebApp broken = WebApp.Start("Host=/nonexistent;Username=nobody;Database=none;Timeout=1");
        using HttpClient client = broken.Client();
        using var content = new StringContent("""{ "userName": "a", "password": "b" }""", Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await client.PostAsync("/api/v1/tokens", content);
        await Read.ProblemAsync(answer, HttpStatusCode.InternalServerError);
        Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));

        using HttpResponseMessage live = await client.GetAsync("/health/live");
        Assert.Equal(HttpStatusCode.OK, live.StatusCode);
        using HttpResponseMessage ready = await client.GetAsync("/health/ready");
        Assert.Equal(HttpStatusCode.ServiceUnavailable, ready.StatusCode);
        Assert.DoesNotContain("nonexistent", await ready.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }
}
