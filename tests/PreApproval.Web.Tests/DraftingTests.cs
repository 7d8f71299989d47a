using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

public sealed class DraftingTests(TestApp test)
{
    [Fact]
    public async Task PostProcedures_CompleteDocument_AnswersCreatedWithIdStateEtagAndLocation()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = Sample.Document("a first draft") });
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        JsonObject body = await Read.ObjectAsync(answer);
        Assert.Equal("draft", (string?)body["state"]);
        Assert.Empty(body["faults"]!.AsArray());
        Assert.Equal("\"1\"", answer.Headers.ETag?.ToString());
        Assert.Equal($"/api/v1/procedures/{body["id"]}", answer.Headers.Location?.ToString());

        using HttpResponseMessage read = await author.GetAsync(answer.Headers.Location);
        Assert.Equal("a first draft", (string?)(await Read.ObjectAsync(read))["title"]);
    }

    [Fact]
    public async Task PostProcedures_IncompleteDocument_IsStoredWithItsFaults()
    {
        using HttpClient author = test.As("author");
        JsonObject document = Sample.Document("no steps yet").With(d => d.Remove("steps"));
        using HttpResponseMessage answer = await author.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = document });
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        Assert.Contains((await Read.ObjectAsync(answer))["faults"]!.AsArray(), f => ((string)f!["path"]!).StartsWith("/document", StringComparison.Ordinal));
    }

    [Fact]
    public async Task GetDraft_AfterSaving_GivesTheDocumentAsTyped()
    {
        string address = await test.DraftAsync("typed");
        using HttpClient author = test.As("author");
        string typed = Sample.Document("typed again").ToJsonString().Replace("\"value\":50", "\"value\":50.00", StringComparison.Ordinal);
        using HttpResponseMessage saved = await PutAsync(author, address, typed, "\"1\"");
        Assert.Equal(HttpStatusCode.OK, saved.StatusCode);
        Assert.Equal("\"2\"", saved.Headers.ETag?.ToString());

        using HttpResponseMessage read = await author.GetAsync($"{address}/draft");
        Assert.Equal("\"2\"", read.Headers.ETag?.ToString());
        Assert.Contains("50.00", await read.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task PutDraft_WithoutIfMatch_Is428AndNothingChanges()
    {
        string address = await test.DraftAsync("no precondition");
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await PutAsync(author, address, Sample.Document("changed").ToJsonString(), ifMatch: null);
        await Read.ProblemAsync(answer, (HttpStatusCode)428);
        Assert.Equal("no precondition", await TitleAsync(author, address));
    }

    [Theory]
    [InlineData("\"7\"")]
    [InlineData("\"another\"")]
    [InlineData("W/\"1\"")]
    public async Task PutDraft_TagThatIsNotCurrent_Is412AndNothingChanges(string tag)
    {
        string address = await test.DraftAsync("stale");
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await PutAsync(author, address, Sample.Document("changed").ToJsonString(), tag);
        await Read.ProblemAsync(answer, HttpStatusCode.PreconditionFailed);
        Assert.Equal("stale", await TitleAsync(author, address));
    }

    [Theory]
    [InlineData("*")]
    [InlineData("\"1\"")]
    [InlineData("\"0\", \"1\"")]
    public async Task PutDraft_TagThatIsCurrent_Saves(string tag)
    {
        string address = await test.DraftAsync("current");
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await PutAsync(author, address, Sample.Document("changed").ToJsonString(), tag);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("changed", await TitleAsync(author, address));
    }

    [Fact]
    public async Task PutDraft_TwoWithTheSameTag_ExactlyOneWins()
    {
        string address = await test.DraftAsync("race");
        using HttpClient author = test.As("author");
        HttpResponseMessage[] answers = await Task.WhenAll(Enumerable.Range(0, 6)
            .Select(i => PutAsync(author, address, Sample.Document($"race {i}").ToJsonString(), "\"1\"")));
        Assert.Equal(1, answers.Count(a => a.StatusCode == HttpStatusCode.OK));
        Assert.Equal(5, answers.Count(a => a.StatusCode == HttpStatusCode.PreconditionFailed));
    }

    [Fact]
    public async Task GetProcedures_ByStateAndLimit_PagesWithoutGapsOrRepeats()
    {
        for (int i = 0; i < 5; i++)
        {
            await test.DraftAsync($"page {i}");
        }

        using HttpClient author = test.As("author");
        List<string> seen = [];
        string? cursor = null;
        do
        {
            using HttpResponseMessage answer = await author.GetAsync($"/api/v1/procedures?state=draft&limit=2{(cursor is null ? "" : $"&cursor={Uri.EscapeDataString(cursor)}")}");
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            JsonObject page = await Read.ObjectAsync(answer);
            Assert.True(page["items"]!.AsArray().Count <= 2);
            Assert.All(page["items"]!.AsArray(), item => Assert.Equal("draft", (string?)item!["state"]));
            seen.AddRange(page["items"]!.AsArray().Select(i => (string)i!["id"]!));
            cursor = (string?)page["next"];
        }
        while (cursor is not null);

        Assert.Equal(seen.Count, seen.Distinct(StringComparer.Ordinal).Count());
        Assert.True(seen.Count >= 5);
    }

    [Theory]
    [InlineData("state=nonsense", "?state")]
    [InlineData("state=InReview", "?state")]
    [InlineData("limit=0", "?limit")]
    [InlineData("limit=201", "?limit")]
    [InlineData("cursor=%00", "?cursor")]
    public async Task GetProcedures_BadQuery_Is400WithTheParameter(string query, string path)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/procedures?{query}");
        Assert.Equal([path], Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.BadRequest)));
    }

    [Theory]
    [InlineData("limit=many")]
    [InlineData("group=none")]
    public async Task GetProcedures_QueryOfTheWrongType_Is400(string query)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/procedures?{query}");
        await Read.ProblemAsync(answer, HttpStatusCode.BadRequest);
    }

    private static Task<HttpResponseMessage> PutAsync(HttpClient client, string address, string json, string? ifMatch)
    {
        var request = new HttpRequestMessage(HttpMethod.Put, $"{address}/draft") { Content = new StringContent(json, Encoding.UTF8, "application/json") };
        if (ifMatch is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        }

        return client.SendAsync(request);
    }

    private static async Task<string?> TitleAsync(HttpClient client, string address)
    {
        using HttpResponseMessage answer = await client.GetAsync(address);
        return (string?)(await Read.ObjectAsync(answer))["title"];
    }
}
