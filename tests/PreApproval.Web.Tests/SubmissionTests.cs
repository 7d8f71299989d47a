using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

public sealed class SubmissionTests(TestApp test)
{
    [Fact]
    public async Task PostSubmissions_NothingFlagged_ClearsAndLocatesTheRevision()
    {
        string address = await test.DraftAsync("harmless");
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.PostAsync($"{address}/submissions", content: null);
        Assert.Equal(HttpStatusCode.Created, answer.StatusCode);
        Assert.Equal($"{address}/revisions/1", answer.Headers.Location?.ToString());
        JsonObject revision = await Read.ObjectAsync(answer);
        Assert.Equal("cleared", (string?)revision["state"]);
        Assert.Equal("clear", (string?)revision["verdict"]);
        Assert.Empty(revision["slots"]!.AsArray());
    }

    [Fact]
    public async Task PostSubmissions_Danger_GoesToTheCompetentReviewerAndTheLead()
    {
        string address = await test.SubmittedAsync("a pressure danger");
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"{address}/revisions/1");
        JsonObject revision = await Read.ObjectAsync(answer);
        Assert.Equal("in-review", (string?)revision["state"]);
        Assert.Equal(
            [("countersign", test.Id("lead"), false), ("review", test.Id("pressure-reviewer"), true)],
            revision["slots"]!.AsArray().Select(s => ((string)s!["slot"]!, (Guid)s["assigneeId"]!, (bool)s["open"]!)).OrderBy(s => s.Item1, StringComparer.Ordinal));
    }

    [Fact]
    public async Task PostSubmissions_IncompleteDraft_Is422WithPathsAndNothingStored()
    {
        using HttpClient author = test.As("author");
        JsonObject document = Sample.Document("unfinished").With(d => d.Remove("steps"));
        using HttpResponseMessage created = await author.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = document });
        string before = await test.RowsAsync();
        using HttpResponseMessage answer = await author.PostAsync($"{created.Headers.Location}/submissions", content: null);
        Assert.Contains(Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity)), p => p.Contains("steps", StringComparison.Ordinal));
        Assert.Equal(before, await test.RowsAsync());
    }

    [Fact]
    public async Task PostSubmissions_StaleIfMatch_Is412AndNothingStored()
    {
        string address = await test.DraftAsync("stale submission");
        string before = await test.RowsAsync();
        using HttpClient author = test.As("author");
        using var request = new HttpRequestMessage(HttpMethod.Post, $"{address}/submissions");
        request.Headers.TryAddWithoutValidation("If-Match", "\"9\"");
        using HttpResponseMessage answer = await author.SendAsync(request);
        await Read.ProblemAsync(answer, HttpStatusCode.PreconditionFailed);
        Assert.Equal(before, await test.RowsAsync());
    }

    [Fact]
    public async Task PostSubmissions_Twice_TheSecondIs409()
    {
        string address = await test.SubmittedAsync("twice");
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.PostAsync($"{address}/submissions", content: null);
        await Read.ProblemAsync(answer, HttpStatusCode.Conflict);
    }

    [Fact]
    public async Task GetRevisionDocument_AfterSubmission_GivesTheSubmittedBytes()
    {
        using HttpClient author = test.As("author");
        string typed = """{ "document" : """ + Sample.Document("byte for byte").ToJsonString().Replace("\"value\":50", "\"value\": 50.00", StringComparison.Ordinal) + " }";
        using var content = new StringContent(typed, System.Text.Encoding.UTF8, "application/json");
        using HttpResponseMessage created = await author.PostAsync("/api/v1/procedures", content);
        (await author.PostAsync($"{created.Headers.Location}/submissions", content: null)).Dispose();
        string read = await author.GetStringAsync($"{created.Headers.Location}/revisions/1/document");
        Assert.Equal(typed[typed.IndexOf("{\"schema\"", StringComparison.Ordinal)..^2], read);
    }

    [Fact]
    public async Task GetRevisionScreening_AfterSubmission_HasTheDigestOfTheRevision()
    {
        string address = await test.SubmittedAsync("a fire warning");
        using HttpClient author = test.As("author");
        byte[] bytes = await author.GetByteArrayAsync($"{address}/revisions/1/screening");
        using HttpResponseMessage revision = await author.GetAsync($"{address}/revisions/1");
        string digest = $"sha256:{Convert.ToHexStringLower(System.Security.Cryptography.SHA256.HashData(bytes))}";
        Assert.Equal(digest, (string?)(await Read.ObjectAsync(revision))["screeningDigest"]);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(99999)]
    public async Task GetRevision_NumberThatIsNotThere_Is404(int number)
    {
        string address = await test.SubmittedAsync("one revision");
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"{address}/revisions/{number}");
        await Read.ProblemAsync(answer, HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task PostWithdrawal_InReview_IsWithdrawnWithAnEvent()
    {
        string address = await test.SubmittedAsync("a fire danger");
        long before = await test.EventsAsync("procedure.withdrawn");
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.PostAsJsonAsync($"{address}/withdrawal", new { revision = 1, reason = "not needed any more" });
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("withdrawn", (string?)(await Read.ObjectAsync(answer))["state"]);
        Assert.Equal(before + 1, await test.EventsAsync("procedure.withdrawn"));

        using HttpResponseMessage again = await author.PostAsJsonAsync($"{address}/withdrawal", new { revision = 1, reason = "again" });
        await Read.ProblemAsync(again, HttpStatusCode.Conflict);
    }

    [Theory]
    [InlineData("""{ "revision": 1 }""", HttpStatusCode.UnprocessableEntity, "/reason")]
    [InlineData("""{ "revision": 1, "reason": "  " }""", HttpStatusCode.UnprocessableEntity, "/reason")]
    [InlineData("""{ "revision": "1", "reason": "x" }""", HttpStatusCode.UnprocessableEntity, "/revision")]
    [InlineData("""{ "revision": 1.5, "reason": "x" }""", HttpStatusCode.UnprocessableEntity, "/revision")]
    [InlineData("""{ "revision": 1, "reason": "x", "by": "me" }""", HttpStatusCode.BadRequest, "/by")]
    [InlineData("""{ "revision": 1, "revision": 1, "reason": "x" }""", HttpStatusCode.BadRequest, "")]
    [InlineData("""[1]""", HttpStatusCode.BadRequest, "")]
    [InlineData("", HttpStatusCode.BadRequest, "")]
    public async Task PostWithdrawal_BadBody_NamesTheMember(string json, HttpStatusCode status, string path)
    {
        string address = await test.SubmittedAsync("a fire danger");
        string before = await test.RowsAsync();
        using HttpClient author = test.As("author");
        using var content = new StringContent(json, System.Text.Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await author.PostAsync($"{address}/withdrawal", content);
        Assert.Equal([path], Read.Paths(await Read.ProblemAsync(answer, status)));
        Assert.Equal(before, await test.RowsAsync());
    }
}
