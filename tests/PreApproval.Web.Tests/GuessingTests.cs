using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using PreApproval.Procedures.Accounts;
using PreApproval.Procedures.Workflow;
using PreApproval.Web.Identity;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Guessing of passwords: counted before it is looked at, and the same work whoever is asked for.</summary>
public sealed class GuessingTests(TestApp test)
{
    [Fact]
    public async Task FortyGuessesAtOnce_LastOneRight_LocksAfterFiveLooks()
    {
        await test.AddPersonAsync(test.Group, "guessed", [GroupRole.Member], []);
        var hasher = new CountingHasher();
        await using WebApp app = Start(hasher);
        string stored = await HashOfAsync(app, "guessed");
        using HttpClient client = app.Client();
        List<Task<HttpResponseMessage>> wrong = [.. Enumerable.Range(0, 39).Select(i => GuessAsync(client, "guessed", $"wrong sentence number {i}"))];
        await Task.WhenAny(wrong);
        HttpResponseMessage[] answers = await Task.WhenAll([.. wrong, GuessAsync(client, "guessed", TestApp.Password)]);
        Assert.All(answers, a => Assert.Equal(HttpStatusCode.Unauthorized, a.StatusCode));
        Assert.InRange(hasher.Hashes.Count(h => string.Equals(h, stored, StringComparison.Ordinal)), 1, 5);
        using HttpResponseMessage after = await GuessAsync(client, "guessed", TestApp.Password);
        Assert.Equal(HttpStatusCode.Unauthorized, after.StatusCode);
    }

    [Theory]
    [InlineData("nobody of this name", false)]
    [InlineData("known-one", false)]
    [InlineData("locked-one", false)]
    [InlineData("closed-one", false)]
    [InlineData("known-one", true)]
    public async Task Guess_WhoeverIsAskedFor_IsOneHash(string userName, bool right)
    {
        if (!userName.Contains(' ', StringComparison.Ordinal))
        {
            userName = $"{userName}-{right}";
            await test.AddPersonAsync(test.Group, userName, [GroupRole.Member], []);
        }

        if (userName.StartsWith("closed", StringComparison.Ordinal))
        {
            await test.DeactivateAsync(userName);
        }

        var hasher = new CountingHasher();
        await using WebApp app = Start(hasher);
        using HttpClient client = app.Client();
        for (int i = 0; i < 6 && userName.StartsWith("locked", StringComparison.Ordinal); i++)
        {
            (await GuessAsync(client, userName, "wrong again and again")).Dispose();
        }

        hasher.Clear();
        using HttpResponseMessage answer = await GuessAsync(client, userName, right ? TestApp.Password : "a wrong long sentence");
        Assert.Equal(right ? HttpStatusCode.OK : HttpStatusCode.Unauthorized, answer.StatusCode);
        Assert.Single(hasher.Hashes);
    }

    [Fact]
    public async Task Decisions_MoreThanTenInAMinute_Are429WithoutALookAtThePassword()
    {
        string address = await test.SubmittedAsync("a fire warning");
        var hasher = new CountingHasher();
        await using WebApp app = Start(hasher, decisionsPerMinute: 10);
        using HttpClient reviewer = test.As("fire-reviewer", app);
        for (int i = 0; i < 10; i++)
        {
            // A right password and a fault: nothing is locked, nothing is decided.
            using HttpResponseMessage early = await DecideAsync(reviewer, address);
            await Read.ProblemAsync(early, HttpStatusCode.UnprocessableEntity);
        }

        hasher.Clear();
        using HttpResponseMessage answer = await DecideAsync(reviewer, address);
        await Read.ProblemAsync(answer, HttpStatusCode.TooManyRequests);
        Assert.True(answer.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        Assert.Empty(hasher.Hashes);
    }

    private WebApp Start(CountingHasher hasher, int decisionsPerMinute = 100_000) => WebApp.Start(test.Application, decisionsPerMinute: decisionsPerMinute, services: services =>
    {
        services.RemoveAll<IPasswordHasher<Account>>();
        services.AddSingleton<IPasswordHasher<Account>>(hasher);
    });

    private static Task<HttpResponseMessage> GuessAsync(HttpClient client, string userName, string password) =>
        client.PostAsJsonAsync("/api/v1/tokens", new { userName, password });

    private static Task<HttpResponseMessage> DecideAsync(HttpClient client, string address) => client.PostAsJsonAsync($"{address}/decisions", new JsonObject
    {
        ["revision"] = 1,
        ["decision"] = "decline",
        ["password"] = TestApp.Password,
    });

    private static async Task<string> HashOfAsync(WebApp app, string userName)
    {
        await using AsyncServiceScope scope = app.Services.CreateAsyncScope();
        return (await scope.ServiceProvider.GetRequiredService<UserManager<Account>>().FindByNameAsync(userName))!.PasswordHash!;
    }

    /// <summary>The real hasher, which remembers what it verified against.</summary>
    private sealed class CountingHasher : IPasswordHasher<Account>
    {
        private readonly PasswordHasher<Account> _inner = new(Microsoft.Extensions.Options.Options.Create(IdentitySetup.Hashing));
        private readonly System.Collections.Concurrent.ConcurrentQueue<string> _hashes = new();

        public IReadOnlyCollection<string> Hashes => [.. _hashes];

        public void Clear() => _hashes.Clear();

        public string HashPassword(Account user, string password) => _inner.HashPassword(user, password);

        public PasswordVerificationResult VerifyHashedPassword(Account user, string hashedPassword, string providedPassword)
        {
            _hashes.Enqueue(hashedPassword);
            return _inner.VerifyHashedPassword(user, hashedPassword, providedPassword);
        }
    }
}
