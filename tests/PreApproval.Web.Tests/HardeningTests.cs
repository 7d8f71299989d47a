using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>What strangers can reach, and answers that a careful client relies on.</summary>
public sealed class HardeningTests(TestApp test)
{
    [Fact]
    public async Task Circuit_WithoutASignIn_IsNotNegotiated()
    {
        using HttpClient nobody = test.As(null);
        using HttpResponseMessage answer = await nobody.PostAsync("/_blazor/negotiate?negotiateVersion=1", content: null);
        Assert.Contains(answer.StatusCode, new[] { HttpStatusCode.Redirect, HttpStatusCode.Unauthorized });
        using Browsing author = await Browsing.SignInAsync(test.App, "author");
        author.Client.DefaultRequestHeaders.Add("Sec-Fetch-Site", "same-origin");
        using HttpResponseMessage welcome = await author.Client.PostAsync("/_blazor/negotiate?negotiateVersion=1", content: null);
        Assert.Equal(HttpStatusCode.OK, welcome.StatusCode);
    }

    [Fact]
    public async Task SignInRedirect_IsRelative()
    {
        using HttpClient nobody = test.As(null);
        nobody.DefaultRequestHeaders.Host = "elsewhere.example";
        using HttpResponseMessage answer = await nobody.GetAsync("/review");
        Assert.Equal(HttpStatusCode.Redirect, answer.StatusCode);
        Assert.StartsWith("/account/sign-in?ReturnUrl=", answer.Headers.GetValues("Location").Single(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/api/v1/procedures", "author")]
    [InlineData("/account/sign-in", null)]
    [InlineData("/health/live", null)]
    [InlineData("/openapi/v1.json", null)]
    public async Task Head_WhereGetIs_IsItsAnswerWithoutTheContent(string address, string? person)
    {
        using HttpClient client = test.As(person);
        using var request = new HttpRequestMessage(HttpMethod.Head, address);
        using HttpResponseMessage answer = await client.SendAsync(request);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.NotNull(answer.Content.Headers.ContentType);
        Assert.Empty(await answer.Content.ReadAsByteArrayAsync());
    }

    [Theory]
    [InlineData("", HttpStatusCode.Created)]
    [InlineData("{}", HttpStatusCode.Created)]
    [InlineData(" { } ", HttpStatusCode.Created)]
    [InlineData("""{ "version": 1 }""", HttpStatusCode.BadRequest)]
    [InlineData("submit", HttpStatusCode.BadRequest)]
    public async Task PostSubmissions_WithABody_Is400UnlessItSaysNothing(string body, HttpStatusCode status)
    {
        string address = await test.DraftAsync("with a body");
        using HttpClient author = test.As("author");
        using var content = new StringContent(body, Encoding.UTF8, "application/json");
        using HttpResponseMessage answer = await author.PostAsync($"{address}/submissions", content);
        Assert.Equal(status, answer.StatusCode);
    }

    [Theory]
    [InlineData("\"7\", \"1\"", HttpStatusCode.OK)]
    [InlineData("\"1\", W/\"1\"", HttpStatusCode.OK)]
    [InlineData("\"7\", W/\"1\"", HttpStatusCode.PreconditionFailed)]
    public async Task PutDraft_IfMatchWithAList_ComparesTagByTag(string tags, HttpStatusCode status)
    {
        string address = await test.DraftAsync("many tags");
        using HttpClient author = test.As("author");
        using var request = new HttpRequestMessage(HttpMethod.Put, $"{address}/draft")
        {
            Content = new StringContent(Sample.Document("changed").ToJsonString(), Encoding.UTF8, "application/json"),
        };
        request.Headers.TryAddWithoutValidation("If-Match", tags);
        using HttpResponseMessage answer = await author.SendAsync(request);
        Assert.Equal(status, answer.StatusCode);
    }

    [Theory]
    [InlineData("/api/v1/history?from=yesterday", "?from")]
    [InlineData("/api/v1/history?limit=many", "?limit")]
    [InlineData("/api/v1/history?procedure=1", "?procedure")]
    [InlineData("/api/v1/procedures?limit=1e3", "?limit")]
    [InlineData("/api/v1/members?group=ours", "?group")]
    public async Task Get_UnreadableQueryValue_Is400ThatNamesIt(string address, string path)
    {
        using HttpClient lead = test.As("lead");
        using HttpResponseMessage answer = await lead.GetAsync(address);
        Assert.Equal([path], Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.BadRequest)));
    }

    [Fact]
    public async Task OpenApi_NamesTheAnswersOfLoadAndOfUnreadableQueries()
    {
        using HttpClient nobody = test.As(null);
        using HttpResponseMessage answer = await nobody.GetAsync("/openapi/v1.json");
        JsonObject paths = (await Read.ObjectAsync(answer))["paths"]!.AsObject();
        Assert.True(paths["/api/v1/members"]!["get"]!["responses"]!.AsObject().ContainsKey("400"));
        Assert.True(paths["/api/v1/procedures/{id}/submissions"]!["post"]!["responses"]!.AsObject().ContainsKey("413"));
        Assert.True(paths["/api/v1/procedures/{id}/decisions"]!["post"]!["responses"]!.AsObject().ContainsKey("429"));
        Assert.All(paths.SelectMany(p => p.Value!.AsObject()), o => Assert.True(o.Value!["responses"]!.AsObject().ContainsKey("503")));
    }

    [Fact]
    public async Task Post_TooLargeAndSentSlowly_IsAnsweredInSeconds()
    {
        using var socket = new TcpClient();
        await socket.ConnectAsync("127.0.0.1", test.App.Address.Port);
        await using NetworkStream stream = socket.GetStream();
        long began = Stopwatch.GetTimestamp();
        await stream.WriteAsync(Encoding.ASCII.GetBytes("POST /api/v1/screenings HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 5000000\r\n\r\n{"));
        Task trickle = TrickleAsync(stream);
        byte[] buffer = new byte[64];
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(20));
        int read = await stream.ReadAsync(buffer, patience.Token);
        Assert.StartsWith("HTTP/1.1 413", Encoding.ASCII.GetString(buffer, 0, read), StringComparison.Ordinal);
        Assert.True(Stopwatch.GetElapsedTime(began) < TimeSpan.FromSeconds(9));
        await patience.CancelAsync();
        socket.Close();
        await trickle;
    }

    /// <summary>Fast enough for the server's least rate, far too slow to be done in time.</summary>
    private static async Task TrickleAsync(NetworkStream stream)
    {
        try
        {
            byte[] piece = new byte[2_000];
            for (int i = 0; i < 100; i++)
            {
                await stream.WriteAsync(piece);
                await Task.Delay(200);
            }
        }
        catch (Exception e) when (e is IOException or ObjectDisposedException)
        {
            // The server has had enough: that is the point.
        }
    }
}
