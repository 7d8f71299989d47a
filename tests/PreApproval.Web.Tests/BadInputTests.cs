using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Malformed and absurd documents: a precise refusal, and nothing is stored.</summary>
public sealed class BadInputTests(TestApp test)
{
    public static TheoryData<string, string> Absurd => new()
    {
        { "negative mass", "/materials/1/amount" },
        { "a billion litres", "/materials/0/amount" },
        { "vessel never charged", "/vessels/1" },
        { "step naming no vessel", "/steps/1/vessel" },
        { "below 0 K", "/steps/0/temperature" },
        { "unit of another quantity", "/steps/0/temperature" },
        { "vessel that is not there", "/steps/0/vessel" },
    };

    [Theory]
    [MemberData(nameof(Absurd))]
    public async Task PostScreenings_AbsurdDocument_Is422WithItsPathAndNothingStored(string fault, string path)
    {
        string before = await test.RowsAsync();
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.PostAsJsonAsync("/api/v1/screenings", Faulty(fault));
        Assert.Contains(Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity)), p => p.StartsWith(path, StringComparison.Ordinal));
        Assert.Equal(before, await test.RowsAsync());
    }

    [Theory]
    [MemberData(nameof(Absurd))]
    public async Task PostSubmissions_AbsurdDraft_Is422WithItsPathAndNothingStored(string fault, string path)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage created = await author.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = Faulty(fault) });
        Assert.Equal(HttpStatusCode.Created, created.StatusCode);
        string before = await test.RowsAsync();
        using HttpResponseMessage answer = await author.PostAsync($"{created.Headers.Location}/submissions", content: null);
        Assert.Contains(Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity)), p => p.StartsWith(path, StringComparison.Ordinal));
        Assert.Equal(before, await test.RowsAsync());
    }

    [Fact]
    public async Task AbsurdDocument_ScreenedOrSubmitted_IsRefusedInTheSameWords()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage screened = await author.PostAsJsonAsync("/api/v1/screenings", Faulty("negative mass"));
        using HttpResponseMessage created = await author.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = Faulty("negative mass") });
        using HttpResponseMessage submitted = await author.PostAsync($"{created.Headers.Location}/submissions", content: null);
        JsonObject one = await Read.ProblemAsync(screened, HttpStatusCode.UnprocessableEntity);
        JsonObject two = await Read.ProblemAsync(submitted, HttpStatusCode.UnprocessableEntity);
        one.Remove("requestId");
        two.Remove("requestId");
        Assert.Equal(one.ToJsonString(), two.ToJsonString());
    }

    [Theory]
    [InlineData("""{ "schema": """)]
    [InlineData("""{ "title": "a", "title": "b" }""")]
    [InlineData("""{ "title": "a", } """)]
    [InlineData("""// comment""")]
    [InlineData("")]
    [InlineData("""{ "schema": "preapproval/procedure/1", "titel": "x" }""")]
    public async Task PostScreenings_NotADocument_Is400AndNothingStored(string json)
    {
        string before = await test.RowsAsync();
        using HttpClient author = test.As("author");
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await author.PostAsync("/api/v1/screenings", content);
        JsonObject problem = await Read.ProblemAsync(answer, HttpStatusCode.BadRequest);
        Assert.NotEmpty(problem["errors"]!.AsArray());
        Assert.Equal(before, await test.RowsAsync());
    }

    [Theory]
    [InlineData("""{ "document": { "schema": """, "")]
    [InlineData("""{ "document": { "titel": "x" } }""", "/document/titel")]
    [InlineData("""{ "document": {}, "owner": 1 }""", "/owner")]
    public async Task PostProcedures_Malformed_Is400WithItsPathAndNothingStored(string json, string path)
    {
        string before = await test.RowsAsync();
        using HttpClient author = test.As("author");
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await author.PostAsync("/api/v1/procedures", content);
        Assert.Contains(Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.BadRequest)), p => p.StartsWith(path, StringComparison.Ordinal));
        Assert.Equal(before, await test.RowsAsync());
    }

    [Theory]
    [InlineData("/api/v1/screenings", 5_000_000)]
    [InlineData("/api/v1/procedures", 5_000_000)]
    [InlineData("/api/v1/screenings", 1_020_000)]
    [InlineData("/api/v1/tokens", 5_000_000)]
    public async Task Post_TooLarge_Is413AndNothingStored(string address, int bytes)
    {
        string before = await test.RowsAsync();
        using HttpClient author = test.As("author");
        string json = $$"""{ "purpose": "{{new string('x', bytes)}}" }""";
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await author.PostAsync(address, content);
        await Read.ProblemAsync(answer, HttpStatusCode.RequestEntityTooLarge);
        Assert.Equal(before, await test.RowsAsync());
    }

    [Fact]
    public async Task Post_TooLargeWithoutALength_Is413()
    {
        using HttpClient author = test.As("author");
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/v1/screenings")
        {
            Content = new StreamContent(new MemoryStream(new byte[3_000_000])) { Headers = { ContentType = new("application/json") } },
        };
        request.Headers.TransferEncodingChunked = true;
        using HttpResponseMessage answer = await author.SendAsync(request);
        await Read.ProblemAsync(answer, HttpStatusCode.RequestEntityTooLarge);
    }

    [Theory]
    [InlineData("text/plain")]
    [InlineData("application/xml")]
    [InlineData("application/json; charset=utf-16")]
    public async Task Post_OtherMediaType_Is415(string type)
    {
        using HttpClient author = test.As("author");
        using var content = new ByteArrayContent("{}"u8.ToArray());
        content.Headers.TryAddWithoutValidation("Content-Type", type);
        using HttpResponseMessage answer = await author.PostAsync("/api/v1/screenings", content);
        await Read.ProblemAsync(answer, HttpStatusCode.UnsupportedMediaType);
    }

    [Theory]
    [InlineData("DELETE", "/api/v1/procedures")]
    [InlineData("PATCH", "/api/v1/procedures/0198c0de-0000-7000-8000-000000000000/draft")]
    [InlineData("GET", "/api/v1/screenings")]
    [InlineData("TRACE", "/api/v1/procedures")]
    public async Task OtherMethod_Is405WithAllow(string method, string address)
    {
        using HttpClient author = test.As("author");
        using var request = new HttpRequestMessage(new HttpMethod(method), address);
        using HttpResponseMessage answer = await author.SendAsync(request);
        await Read.ProblemAsync(answer, HttpStatusCode.MethodNotAllowed);
        Assert.NotEmpty(answer.Content.Headers.Allow);
    }

    [Theory]
    [InlineData("/api/v1/nothing")]
    [InlineData("/api/v1/procedures/1")]
    [InlineData("/api/v1/procedures/0198c0de-0000-7000-8000-000000000000")]
    [InlineData("/api/v2/procedures")]
    public async Task UnknownAddress_Is404(string address)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync(address);
        await Read.ProblemAsync(answer, HttpStatusCode.NotFound);
    }

    [Theory]
    [InlineData("text=%00")]
    [InlineData("action=%00")]
    [InlineData("limit=-1")]
    [InlineData("cursor=x")]
    [InlineData("from=yesterday")]
    public async Task GetHistory_BadQuery_Is400(string query)
    {
        using HttpClient lead = test.As("lead");
        using HttpResponseMessage answer = await lead.GetAsync($"/api/v1/history?{query}");
        await Read.ProblemAsync(answer, HttpStatusCode.BadRequest);
    }

    private static JsonObject Faulty(string fault) => Sample.Document(fault).With(d =>
    {
        switch (fault)
        {
            case "negative mass":
                d["materials"]![1]!["amount"]!["value"] = -5;
                break;
            case "a billion litres":
                d["materials"]![0]!["amount"] = new JsonObject { ["value"] = 1e9, ["unit"] = "L" };
                break;
            case "vessel never charged":
                d["vessels"]!.AsArray().Add(new JsonObject { ["id"] = "flask", ["kind"] = "round-bottom flask", ["volume"] = new JsonObject { ["value"] = 50, ["unit"] = "mL" } });
                break;
            case "step naming no vessel":
                d["steps"]![1]!.AsObject().Remove("vessel");
                break;
            case "below 0 K":
                d["steps"]![0]!["temperature"]!["value"] = -300;
                break;
            case "unit of another quantity":
                d["steps"]![0]!["temperature"]!["unit"] = "mL";
                break;
            case "vessel that is not there":
                d["steps"]![0]!["vessel"] = "bucket";
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(fault), fault, message: null);
        }
    });
}
