using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using PreApproval.Testing;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>The program as it is started: by an image, by a service, by hand.</summary>
public sealed class StartTests(TestApp test)
{
    [Theory]
    [InlineData("ASPNETCORE_HTTP_PORTS", "{0}")]
    [InlineData("ASPNETCORE_URLS", "http://127.0.0.1:{0}")]
    public async Task Start_AddressFromTheEnvironment_ListensThere(string name, string value)
    {
        TestDatabase database = await test.Server.CreateDatabaseAsync();
        int port = WebProcess.FreePort();
        await using WebProcess program = WebProcess.Start(new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["ConnectionStrings__PreApproval"] = database.Application,
            [name] = string.Format(CultureInfo.InvariantCulture, value, port),
        });
        Assert.True(await program.AnswersAsync(new Uri($"http://127.0.0.1:{port}/health/live")));
    }

    [Fact]
    public async Task Setup_EmptyDatabase_MakesTheFirstPersonOnceAndPrintsThePassword()
    {
        TestDatabase database = await test.Server.CreateDatabaseAsync();
        Dictionary<string, string> environment = new(StringComparer.Ordinal) { ["ConnectionStrings__PreApproval"] = database.Application };
        string[] arguments = ["setup", "--group", "Group of nobody (invented)", "--user", "first", "--name", "Invented First"];
        await using WebProcess program = WebProcess.Start(environment, arguments);
        (int code, string output, string errors) = await program.EndAsync();
        Assert.True(code == 0, output + errors);
        string password = output.Split('\n').Single(l => l.StartsWith("Password: ", StringComparison.Ordinal))["Password: ".Length..].Trim();
        Assert.True(password.Length >= 20);

        await using WebApp app = WebApp.Start(database.Application);
        using HttpClient client = app.Client();
        using HttpResponseMessage token = await client.PostAsJsonAsync("/api/v1/tokens", new { userName = "first", password });
        Assert.Equal(HttpStatusCode.OK, token.StatusCode);

        await using WebProcess again = WebProcess.Start(environment, [.. arguments[..^3], "second", "--name", "Invented Second"]);
        (int refused, string said, string why) = await again.EndAsync();
        Assert.Equal(1, refused);
        Assert.DoesNotContain("Password: ", said, StringComparison.Ordinal);
        Assert.Contains("group", why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true, "http://127.0.0.1:0")]
    [InlineData(false, "http://0.0.0.0:0")]
    [InlineData(false, "http://*:0")]
    public async Task Demo_OnARealDatabaseOrForTheWorld_IsRefused(bool server, string address)
    {
        TestDatabase database = await test.Server.CreateDatabaseAsync();
        Dictionary<string, string> environment = new(StringComparer.Ordinal);
        if (server)
        {
            environment.Add("ConnectionStrings__PreApproval", database.Application);
        }

        await using WebProcess program = WebProcess.Start(environment, "--demo", "--urls", address, "--data", "/nonexistent/data");
        (int code, _, string errors) = await program.EndAsync();
        Assert.Equal(2, code);
        Assert.Contains("--demo-anyway", errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Demo_Anyway_Starts()
    {
        TestDatabase database = await test.Server.CreateDatabaseAsync();
        int port = WebProcess.FreePort();
        Dictionary<string, string> environment = new(StringComparer.Ordinal) { ["ConnectionStrings__PreApproval"] = database.Application };
        await using WebProcess program = WebProcess.Start(environment, "--demo", "--demo-anyway", "--urls", $"http://127.0.0.1:{port}");
        Assert.True(await program.AnswersAsync(new Uri($"http://127.0.0.1:{port}/health/live")));
    }
}
