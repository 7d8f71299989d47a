using System.Globalization;
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
}
