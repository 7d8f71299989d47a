using System.Net;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json.Nodes;
using Npgsql;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

public sealed class IdempotencyTests(TestApp test)
{
    [Fact]
    public async Task SameKeySameRequest_GivesTheFirstAnswerAndOneProcedure()
    {
        string key = Key();
        using HttpClient author = test.As("author");
        using HttpResponseMessage first = await CreateAsync(author, key, "once");
        string rows = await test.RowsAsync();
        using HttpResponseMessage second = await CreateAsync(author, key, "once");
        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        Assert.Equal(first.StatusCode, second.StatusCode);
        Assert.Equal(await first.Content.ReadAsByteArrayAsync(), await second.Content.ReadAsByteArrayAsync());
        Assert.Equal(first.Headers.ETag, second.Headers.ETag);
        Assert.NotNull(second.Headers.Location);
        Assert.Equal(first.Headers.Location, second.Headers.Location);
        Assert.Equal(first.Content.Headers.ContentType, second.Content.Headers.ContentType);
        Assert.Equal(rows, await test.RowsAsync());
    }

    [Fact]
    public async Task SameKeyOtherBody_Is422AndNothingStored()
    {
        string key = Key();
        using HttpClient author = test.As("author");
        (await CreateAsync(author, key, "this")).Dispose();
        string rows = await test.RowsAsync();
        using HttpResponseMessage answer = await CreateAsync(author, key, "that");
        Assert.Equal("key-used", (string?)(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity))["code"]);
        Assert.Equal(rows, await test.RowsAsync());
    }

    [Fact]
    public async Task SameKeyOtherPerson_IsAnotherKey()
    {
        string key = Key();
        using HttpClient author = test.As("author");
        using HttpClient member = test.As("member");
        using HttpResponseMessage first = await CreateAsync(author, key, "mine");
        using HttpResponseMessage second = await CreateAsync(member, key, "mine");
        Assert.Equal(HttpStatusCode.Created, second.StatusCode);
        Assert.NotEqual(first.Headers.Location, second.Headers.Location);
    }

    [Fact]
    public async Task SameKeyManyAtOnce_OneEffectAndEqualAnswers()
    {
        string key = Key();
        using HttpClient author = test.As("author");
        long before = await test.EventsAsync("procedure.created");
        HttpResponseMessage[] answers = await Task.WhenAll(Enumerable.Range(0, 12).Select(_ => CreateAsync(author, key, "many")));
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Created, a.StatusCode));
        Assert.Single(answers.Select(a => a.Headers.Location).Distinct());
        Assert.Equal(before + 1, await test.EventsAsync("procedure.created"));
    }

    [Fact]
    public async Task SameKeyAfterARefusal_GivesTheSameRefusal()
    {
        string key = Key();
        using HttpClient author = test.As("author");
        string address = await test.SubmittedAsync("submitted");
        using HttpResponseMessage first = await SubmitAsync(author, address, key);
        using HttpResponseMessage second = await SubmitAsync(author, address, key);
        await Read.ProblemAsync(first, HttpStatusCode.Conflict);
        await Read.ProblemAsync(second, HttpStatusCode.Conflict);
        Assert.Equal(await first.Content.ReadAsStringAsync(), await second.Content.ReadAsStringAsync());
    }

    [Fact]
    public async Task SubmissionRepeated_IsOneRevision()
    {
        string key = Key();
        using HttpClient author = test.As("author");
        string address = await test.DraftAsync("submitted once");
        using HttpResponseMessage first = await SubmitAsync(author, address, key);
        using HttpResponseMessage second = await SubmitAsync(author, address, key);
        Assert.Equal(HttpStatusCode.Created, second.StatusCode);
        Assert.Equal(await first.Content.ReadAsStringAsync(), await second.Content.ReadAsStringAsync());
    }

    [Fact]
    public async Task DecisionAfterAWrongPassword_IsTheSameRequestAndTheKeyStillServes()
    {
        string key = Key();
        string address = await test.SubmittedAsync("a fire warning");
        using HttpClient reviewer = test.As("fire-reviewer");
        using HttpResponseMessage wrong = await DecideAsync(reviewer, address, key, "a wrong long sentence");
        await Read.ProblemAsync(wrong, HttpStatusCode.Unauthorized);
        using HttpResponseMessage right = await DecideAsync(reviewer, address, key, TestApp.Password);
        Assert.Equal(HttpStatusCode.OK, right.StatusCode);
        using HttpResponseMessage repeated = await DecideAsync(reviewer, address, key, TestApp.Password);
        Assert.Equal(await right.Content.ReadAsStringAsync(), await repeated.Content.ReadAsStringAsync());
        using HttpResponseMessage guessed = await DecideAsync(reviewer, address, key, "a wrong long sentence");
        await Read.ProblemAsync(guessed, HttpStatusCode.Conflict);
    }

    [Fact]
    public async Task StoredHash_OfARequestWithAPassword_IsNoPlainHashOfIt()
    {
        string key = Key();
        string address = await test.SubmittedAsync("a fire warning");
        using HttpClient reviewer = test.As("fire-reviewer");
        using HttpResponseMessage answer = await DecideAsync(reviewer, address, key, TestApp.Password);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        await using var connection = new NpgsqlConnection(test.ConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand("SELECT request_hash FROM idempotency_record WHERE key = $1", connection) { Parameters = { new() { Value = key } } };
        byte[] stored = (byte[])(await command.ExecuteScalarAsync())!;

        // Whoever reads the table could try passwords against a hash of the body at millions a second.
        byte[] plain = SHA256.HashData(Encoding.UTF8.GetBytes($"POST\n{address}/decisions\n{Decision(TestApp.Password).ToJsonString()}"));
        Assert.NotEqual(plain, stored);
    }

    [Fact]
    public async Task SameKeyOtherIfMatch_Is422()
    {
        string key = Key();
        string address = await test.DraftAsync("with a version");
        using HttpClient author = test.As("author");
        using HttpResponseMessage first = await SubmitAsync(author, address, key, "\"1\"");
        Assert.Equal(HttpStatusCode.Created, first.StatusCode);
        using HttpResponseMessage other = await SubmitAsync(author, address, key, "\"2\"");
        Assert.Equal("key-used", (string?)(await Read.ProblemAsync(other, HttpStatusCode.UnprocessableEntity))["code"]);
    }

    [Fact]
    public async Task DecisionWithAKey_NeedsOneConnectionAtATime()
    {
        // With a pool of one a request that holds a connection while it waits for a second would wait for itself.
        string pool = new NpgsqlConnectionStringBuilder(test.Application) { MaxPoolSize = 1, Timeout = 3 }.ConnectionString;
        await using WebApp narrow = WebApp.Start(pool);
        string address = await test.SubmittedAsync("a fire warning");
        using HttpClient reviewer = test.As("fire-reviewer", narrow);
        using HttpResponseMessage answer = await DecideAsync(reviewer, address, Key(), TestApp.Password);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    [Theory]
    [InlineData("a b")]
    [InlineData("")]
    public async Task KeyThatIsNoToken_Is400(string key)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await CreateAsync(author, key, "bad key");
        await Read.ProblemAsync(answer, HttpStatusCode.BadRequest);
    }

    private static string Key() => Guid.CreateVersion7().ToString();

    private static Task<HttpResponseMessage> CreateAsync(HttpClient client, string key, string title) =>
        client.SendJsonAsync(HttpMethod.Post, "/api/v1/procedures", new JsonObject { ["document"] = Sample.Document(title) }, key: key);

    private static Task<HttpResponseMessage> SubmitAsync(HttpClient client, string address, string key, string? ifMatch = null) =>
        client.SendJsonAsync(HttpMethod.Post, $"{address}/submissions", body: null, ifMatch, key);

    private static Task<HttpResponseMessage> DecideAsync(HttpClient client, string address, string key, string password) =>
        client.SendJsonAsync(HttpMethod.Post, $"{address}/decisions", Decision(password), key: key);

    private static JsonObject Decision(string password) => new()
    {
        ["revision"] = 1,
        ["decision"] = "decline",
        ["reason"] = "not here",
        ["password"] = password,
    };
}
