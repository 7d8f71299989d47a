using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Npgsql;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

public sealed class TokenTests(TestApp test)
{
    [Fact]
    public async Task PostTokens_RightPassword_GivesATokenThatIsStoredOnlyAsAHash()
    {
        using HttpClient client = test.As(null);
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/tokens", new { userName = "author", password = TestApp.Password });
        string token = (string)(await Read.ObjectAsync(answer))["token"]!;
        Assert.StartsWith("pa_", token, StringComparison.Ordinal);
        Assert.True(token.Length >= 46);

        await using var connection = new NpgsqlConnection(test.ConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand("SELECT count(*) FROM api_token WHERE hash = sha256($1::text::bytea)", connection) { Parameters = { new() { Value = token } } };
        Assert.Equal(1L, await command.ExecuteScalarAsync());
    }

    [Theory]
    [InlineData("author", "not the right sentence")]
    [InlineData("no-such-person", TestApp.Password)]
    public async Task PostTokens_WrongNameOrPassword_IsTheSame401(string userName, string password)
    {
        using HttpClient client = test.As(null);
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/tokens", new { userName, password });
        JsonObject problem = await Read.ProblemAsync(answer, HttpStatusCode.Unauthorized);
        Assert.Equal("wrong-password", (string?)problem["code"]);
        Assert.Equal("User name or password is wrong, or the account is closed or locked for a few minutes.", (string?)problem["detail"]);
    }

    [Fact]
    public async Task PostTokens_FiveWrongPasswords_LocksTheAccount()
    {
        await test.AddPersonAsync(test.Group, "locked", [GroupRole.Member], []);
        using HttpClient client = test.As(null);
        for (int i = 0; i < 5; i++)
        {
            using HttpResponseMessage wrong = await client.PostAsJsonAsync("/api/v1/tokens", new { userName = "locked", password = $"wrong sentence number {i}" });
            Assert.Equal(HttpStatusCode.Unauthorized, wrong.StatusCode);
        }

        using HttpResponseMessage right = await client.PostAsJsonAsync("/api/v1/tokens", new { userName = "locked", password = TestApp.Password });
        await Read.ProblemAsync(right, HttpStatusCode.Unauthorized);
    }

    [Fact]
    public async Task PostTokens_ManyFromOneAddress_Is429WithRetryAfter()
    {
        TestDatabase database = await test.Server.CreateDatabaseAsync();
        await using WebApp app = WebApp.Start(database.Application, signInsPerMinute: 3);
        using HttpClient client = app.Client();
        for (int i = 0; i < 3; i++)
        {
            using HttpResponseMessage early = await client.PostAsJsonAsync("/api/v1/tokens", new { userName = "x", password = "y" });
            Assert.Equal(HttpStatusCode.Unauthorized, early.StatusCode);
        }

        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/tokens", new { userName = "x", password = "y" });
        await Read.ProblemAsync(answer, HttpStatusCode.TooManyRequests);
        Assert.True(answer.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        using HttpResponseMessage other = await client.GetAsync("/health/live");
        Assert.Equal(HttpStatusCode.OK, other.StatusCode);
    }

    [Theory]
    [InlineData("pa_")]
    [InlineData("pa_AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("nonsense")]
    public async Task Request_UnknownToken_Is401InvalidToken(string token)
    {
        using HttpClient client = test.As(null);
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        using HttpResponseMessage answer = await client.GetAsync("/api/v1/members");
        await Read.ProblemAsync(answer, HttpStatusCode.Unauthorized);
        Assert.Contains("invalid_token", answer.Headers.WwwAuthenticate.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Request_BasicAuthorization_Is401()
    {
        using HttpClient client = test.As(null);
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Basic", "YTpi");
        using HttpResponseMessage answer = await client.GetAsync("/api/v1/members");
        await Read.ProblemAsync(answer, HttpStatusCode.Unauthorized);
    }

    [Fact]
    public async Task Request_TokenOfADeactivatedAccount_Is401AtOnce()
    {
        await test.AddPersonAsync(test.Group, "gone", [GroupRole.Member], []);
        using HttpClient client = test.As("gone");
        using HttpResponseMessage before = await client.GetAsync("/api/v1/members");
        Assert.Equal(HttpStatusCode.OK, before.StatusCode);
        await test.DeactivateAsync("gone");
        using HttpResponseMessage after = await client.GetAsync("/api/v1/members");
        await Read.ProblemAsync(after, HttpStatusCode.Unauthorized);
        using HttpResponseMessage again = await client.PostAsJsonAsync("/api/v1/tokens", new { userName = "gone", password = TestApp.Password });
        await Read.ProblemAsync(again, HttpStatusCode.Unauthorized);
    }

    [Fact]
    public async Task GetTokens_ListsOwnTokensWithoutSecrets()
    {
        await test.AddPersonAsync(test.Group, "lister", [GroupRole.Member], []);
        using HttpClient client = test.As("lister");
        using HttpResponseMessage answer = await client.GetAsync("/api/v1/tokens");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        string text = await answer.Content.ReadAsStringAsync();
        JsonArray items = JsonNode.Parse(text)!["items"]!.AsArray();
        JsonObject only = Assert.Single(items)!.AsObject();
        Assert.True((bool)only["current"]!);
        Assert.Equal(["createdAt", "current", "expiresAt", "id", "lastUsedAt"], only.Select(m => m.Key).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.DoesNotContain("pa_", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task DeleteTokens_Current_EndsItAtOnceAndNoOther()
    {
        await test.AddPersonAsync(test.Group, "ender", [GroupRole.Member], []);
        using HttpClient first = test.As("ender");
        using HttpClient second = await test.AsWithANewTokenAsync("ender");
        using HttpResponseMessage ended = await second.DeleteAsync("/api/v1/tokens/current");
        Assert.Equal(HttpStatusCode.NoContent, ended.StatusCode);
        using HttpResponseMessage after = await second.GetAsync("/api/v1/members");
        await Read.ProblemAsync(after, HttpStatusCode.Unauthorized);
        using HttpResponseMessage other = await first.GetAsync("/api/v1/members");
        Assert.Equal(HttpStatusCode.OK, other.StatusCode);
    }

    [Fact]
    public async Task DeleteTokens_ById_EndsOwnOnesOnly()
    {
        await test.AddPersonAsync(test.Group, "revoker", [GroupRole.Member], []);
        using HttpClient first = test.As("revoker");
        using HttpClient second = await test.AsWithANewTokenAsync("revoker");
        using HttpResponseMessage list = await second.GetAsync("/api/v1/tokens");
        string id = (string)(await Read.ObjectAsync(list))["items"]!.AsArray().Single(t => !(bool)t!["current"]!)!["id"]!;
        using HttpClient stranger = test.As("author");
        using HttpResponseMessage foreign = await stranger.DeleteAsync($"/api/v1/tokens/{id}");
        await Read.ProblemAsync(foreign, HttpStatusCode.NotFound);
        using HttpResponseMessage own = await second.DeleteAsync($"/api/v1/tokens/{id}");
        Assert.Equal(HttpStatusCode.NoContent, own.StatusCode);
        using HttpResponseMessage after = await first.GetAsync("/api/v1/members");
        await Read.ProblemAsync(after, HttpStatusCode.Unauthorized);
    }

    [Theory]
    [InlineData("too short", true)]
    [InlineData("passwordpassword", true)]
    [InlineData("aaaaaaaaaaaaaaaaaaaa", true)]
    [InlineData("mira mira mira mira", true)]
    [InlineData("preapproval laboratory", true)]
    [InlineData("four plain words here", false)]
    [InlineData("ünïcödé is welcome ⚗", false)]
    public void PasswordRules_FaultOf_RefusesWhatIsGuessedFirst(string password, bool refused) =>
        Assert.Equal(refused, Web.Identity.PasswordRules.FaultOf(password, "mira", "Mira Hallewell") is not null);
}
