using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;
using Npgsql;
using PreApproval.Procedures.Workflow;
using PreApproval.Testing;
using PreApproval.Web.Screenings;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>More than the machine or the database can do: said so, with a time to come back.</summary>
public sealed class LoadTests(TestApp test)
{
    [Fact]
    public async Task Screenings_MoreThanTheCoresCanDo_WaitShortlyOrGet503()
    {
        int running = 0;
        int most = 0;
        DocumentScreener slow = SampleScreening.Screener with
        {
            Screen = (document, policy) =>
            {
                InterlockedMax(ref most, Interlocked.Increment(ref running));
                Thread.Sleep(400);
                Interlocked.Decrement(ref running);
                return SampleScreening.Screener.Screen(document, policy);
            },
        };
        await using WebApp app = WebApp.Start(test.Application, services: services =>
        {
            services.RemoveAll<DocumentScreener>();
            services.AddSingleton(p => p.GetRequiredService<ScreeningLimiter>().Around(slow));
        });
        using HttpClient author = test.As("author", app);
        HttpResponseMessage[] answers = await Task.WhenAll(Enumerable.Range(0, 40).Select(_ => author.PostAsJsonAsync("/api/v1/screenings", Sample.Document("many at once"))));
        Assert.InRange(most, 1, Math.Max(1, Environment.ProcessorCount - 1));
        Assert.Contains(answers, a => a.StatusCode == HttpStatusCode.OK);
        HttpResponseMessage[] refused = [.. answers.Where(a => a.StatusCode != HttpStatusCode.OK)];
        Assert.NotEmpty(refused);
        foreach (HttpResponseMessage answer in refused)
        {
            JsonObject problem = await Read.ProblemAsync(answer, HttpStatusCode.ServiceUnavailable);
            Assert.Equal("busy", (string?)problem["code"]);
            Assert.True(answer.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        }
    }

    [Fact]
    public async Task Comparisons_MoreThanTheCoresCanDo_TakeTurnsWithScreenings()
    {
        int running = 0;
        int most = 0;
        T Slowly<T>(Func<T> work)
        {
            InterlockedMax(ref most, Interlocked.Increment(ref running));
            Thread.Sleep(200);
            Interlocked.Decrement(ref running);
            return work();
        }

        DocumentScreener slow = SampleScreening.Screener with
        {
            Screen = (document, policy) => Slowly(() => SampleScreening.Screener.Screen(document, policy)),
            Compare = (before, after, policy) => Slowly(() => SampleScreening.Screener.Compare(before, after, policy)),
        };
        await using WebApp app = WebApp.Start(test.Application, services: services =>
        {
            services.RemoveAll<DocumentScreener>();
            services.AddSingleton(p => p.GetRequiredService<ScreeningLimiter>().Around(slow));
        });
        using HttpClient author = test.As("author", app);
        JsonObject both = new() { ["before"] = Sample.Document("one"), ["after"] = Sample.Document("two") };
        HttpResponseMessage[] answers = await Task.WhenAll(Enumerable.Range(0, 30).Select(i => i % 2 == 0
            ? author.PostAsJsonAsync("/api/v1/comparisons", both)
            : author.PostAsJsonAsync("/api/v1/screenings", Sample.Document("between"))));
        Assert.InRange(most, 1, Math.Max(1, Environment.ProcessorCount - 1));
        Assert.Contains(answers, a => a.StatusCode == HttpStatusCode.OK);
        Assert.All(answers.Where(a => a.StatusCode != HttpStatusCode.OK), a => Assert.Equal(HttpStatusCode.ServiceUnavailable, a.StatusCode));
    }

    /// <summary>Up to 40 structures, each searched for every pattern, are as much work as a screening.</summary>
    [Fact]
    public async Task Pairs_WhileScreeningsTakeEveryPlace_Are503UntilOneIsFree()
    {
        await using WebApp app = WebApp.Start(test.Application);
        using HttpClient author = test.As("author", app);
        ScreeningLimiter limiter = app.Services.GetRequiredService<ScreeningLimiter>();
        await using (Places.TakeAll(limiter))
        {
            using HttpResponseMessage refused = await author.GetAsync("/api/v1/pairs?substance=CCO&substance=CC%3DO");
            Assert.Equal("busy", (string?)(await Read.ProblemAsync(refused, HttpStatusCode.ServiceUnavailable))["code"]);
            Assert.True(refused.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        }

        using HttpResponseMessage answer = await author.GetAsync("/api/v1/pairs?substance=CCO&substance=CC%3DO");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
    }

    /// <summary>The page as it is delivered does not wait for its curves; what runs in it tries again.</summary>
    [Fact]
    public async Task Explorer_WhileScreeningsTakeEveryPlace_IsDeliveredAndSaysSo()
    {
        await using WebApp app = WebApp.Start(test.Application);
        using HttpClient author = test.As("author", app);
        using HttpResponseMessage created = await author.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = ClosedTube.Document("explored when busy") });
        string page = $"{created.Headers.Location!.ToString()["/api/v1".Length..]}/explore?step=3";
        using Browsing browsing = await Browsing.SignInAsync(app, "author");
        await using (Places.TakeAll(app.Services.GetRequiredService<ScreeningLimiter>()))
        {
            string busy = await browsing.Client.GetStringAsync(page).WaitAsync(TimeSpan.FromSeconds(30), TestContext.Current.CancellationToken);
            Assert.Contains("Many calculations are running at the moment", busy, StringComparison.Ordinal);
            Assert.DoesNotContain("id=\"carry-back\"", busy, StringComparison.Ordinal);
        }

        Assert.Contains("id=\"carry-back\"", await browsing.Client.GetStringAsync(page), StringComparison.Ordinal);
    }

    [Fact]
    public async Task RunAsync_NoPlaceFree_WaitsWithoutHoldingTheThread()
    {
        using var limiter = new ScreeningLimiter();
        Task<int> waiting;
        await using (Places.TakeAll(limiter))
        {
            waiting = limiter.RunAsync(static () => 7, TestContext.Current.CancellationToken);
            Assert.False(waiting.IsCompleted);
        }

        Assert.Equal(7, await waiting);
        await using (Places.TakeAll(limiter))
        {
            await Assert.ThrowsAsync<ScreeningBusyException>(() => limiter.RunAsync(static () => 7, TestContext.Current.CancellationToken));
        }
    }

    [Theory]
    [InlineData("-c statement_timeout=300")]
    [InlineData("-c lock_timeout=300")]
    public async Task DatabaseThatIsBusy_Is503WithRetryAfter(string options)
    {
        string connection = new NpgsqlConnectionStringBuilder(test.Application) { Options = options }.ConnectionString;
        await using WebApp app = WebApp.Start(connection);
        using HttpClient author = test.As("author", app);
        await using (await LockAsync())
        {
            using HttpResponseMessage answer = await author.GetAsync("/api/v1/procedures");
            Assert.Equal("busy", (string?)(await Read.ProblemAsync(answer, HttpStatusCode.ServiceUnavailable))["code"]);
            Assert.True(answer.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        }

        using HttpResponseMessage later = await author.GetAsync("/api/v1/procedures");
        Assert.Equal(HttpStatusCode.OK, later.StatusCode);
    }

    [Fact]
    public async Task PoolThatIsExhausted_Is503WithRetryAfter()
    {
        string connection = new NpgsqlConnectionStringBuilder(test.Application) { MaxPoolSize = 1, Timeout = 1 }.ConnectionString;
        await using WebApp app = WebApp.Start(connection);
        using HttpClient author = test.As("author", app);
        using HttpResponseMessage warm = await author.GetAsync("/api/v1/members");
        Task<HttpResponseMessage> waiting;
        await using (await LockAsync())
        {
            waiting = author.GetAsync("/api/v1/procedures");
            await Task.Delay(500);
            using HttpResponseMessage answer = await author.GetAsync("/api/v1/members");
            await Read.ProblemAsync(answer, HttpStatusCode.ServiceUnavailable);
            Assert.True(answer.Headers.RetryAfter?.Delta > TimeSpan.Zero);
        }

        using HttpResponseMessage first = await waiting;
        Assert.Equal(HttpStatusCode.OK, first.StatusCode);
    }

    [Fact]
    public async Task Faults_OfABodyWithVeryManyOrVeryLongNames_AreFewAndShort()
    {
        using HttpClient author = test.As("author");
        var many = new JsonObject { ["document"] = new JsonObject() };
        for (int i = 0; i < 1_000; i++)
        {
            many[$"unknown-{i}"] = 1;
        }

        many[new string('n', 100_000)] = 1;
        using HttpResponseMessage answer = await author.PostAsJsonAsync("/api/v1/procedures", many);
        string[] paths = Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.BadRequest));
        Assert.InRange(paths.Length, 1, 200);

        using HttpResponseMessage named = await author.PostAsJsonAsync("/api/v1/procedures", new JsonObject { ["document"] = new JsonObject(), [new string('n', 100_000)] = 1 });
        Assert.All(Read.Paths(await Read.ProblemAsync(named, HttpStatusCode.BadRequest)), p => Assert.InRange(p.Length, 1, 110));
        using HttpResponseMessage inside = await author.PostAsJsonAsync("/api/v1/screenings", new JsonObject { [new string('n', 100_000)] = 1 });
        Assert.All(Read.Paths(await Read.ProblemAsync(inside, HttpStatusCode.BadRequest)), p => Assert.InRange(p.Length, 0, 110));
    }

    /// <summary>Nobody reads procedures until it is disposed of.</summary>
    private async Task<NpgsqlConnection> LockAsync()
    {
        var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(test.ConnectionString) { Pooling = false }.ConnectionString);
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand("BEGIN; LOCK TABLE procedure IN ACCESS EXCLUSIVE MODE", connection);
        await command.ExecuteNonQueryAsync();
        return connection;
    }

    private static void InterlockedMax(ref int target, int value)
    {
        int seen;
        while ((seen = Volatile.Read(ref target)) < value && Interlocked.CompareExchange(ref target, value, seen) != seen)
        {
            // Another thread was faster: look again.
        }
    }
}
