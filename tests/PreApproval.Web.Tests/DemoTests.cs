using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Microsoft.Extensions.DependencyInjection;
using PreApproval.Audit;
using PreApproval.Testing;
using PreApproval.Web.Administration;
using PreApproval.Web.Drafting;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>The demo group and the sample procedures, with the real engine.</summary>
public sealed class DemoTests(TestApp test)
{
    [Fact]
    public async Task Fill_EmptyDatabase_MakesTheGroupOnceAndAConsistentHistory()
    {
        TestDatabase database = await test.Server.CreateDatabaseAsync();
        await using WebApp app = WebApp.Start(database.Application, realEngine: true);
        Assert.True(await FillAsync(app));
        Assert.False(await FillAsync(app));

        using HttpClient lead = await SignInAsync(app, "edda");
        using HttpResponseMessage members = await lead.GetAsync("/api/v1/members");
        Assert.Equal(6, (await Read.ObjectAsync(members))["items"]!.AsArray().Count);

        // The lead sees what was submitted, and not the draft of somebody else.
        using HttpResponseMessage list = await lead.GetAsync("/api/v1/procedures");
        string[] states = [.. (await Read.ObjectAsync(list))["items"]!.AsArray().Select(i => (string)i!["state"]!).Order(StringComparer.Ordinal)];
        Assert.Equal(["approved", "changes-requested", "cleared", "in-review"], states);

        using HttpClient author = await SignInAsync(app, "mira");
        using HttpResponseMessage own = await author.GetAsync("/api/v1/procedures?state=draft");
        Assert.Single((await Read.ObjectAsync(own))["items"]!.AsArray());
    }

    [Fact]
    public async Task Screenings_OfASample_AreCanonicalTheSameTwiceAndStoredNowhere()
    {
        TestDatabase database = await test.Server.CreateDatabaseAsync();
        await using WebApp app = WebApp.Start(database.Application, realEngine: true);
        await FillAsync(app);
        using HttpClient author = await SignInAsync(app, "mira");
        await using Stream sample = typeof(DemoSeed).Assembly.GetManifestResourceStream("example:closed-tube-amination")!;
        using var memory = new MemoryStream();
        await sample.CopyToAsync(memory);
        List<byte[]> answers = [];
        for (int i = 0; i < 2; i++)
        {
            using var content = new ByteArrayContent(memory.ToArray());
            content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
            using HttpResponseMessage answer = await author.PostAsync("/api/v1/screenings", content);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            answers.Add(await answer.Content.ReadAsByteArrayAsync());
        }

        Assert.Equal(answers[0], answers[1]);
        Assert.True(CanonicalJson.TryCanonicalize(answers[0], out byte[] canonical, out _));
        Assert.Equal(canonical, answers[0]);

        // docs/examples/README.md: the closed tube passes its rating of 4 bar(g).
        JsonObject report = JsonNode.Parse(answers[0])!.AsObject();
        Assert.Equal("review", (string?)report["verdict"]);
        Assert.Contains(report["findings"]!.AsArray(), f => (string?)f!["hazard"] is "pressure" && (string?)f["severity"] is "danger");
        using HttpResponseMessage substances = await author.GetAsync("/api/v1/substances?q=tetrahydro");
        Assert.Contains((await Read.ObjectAsync(substances))["items"]!.AsArray(), s => (string?)s!["cas"] is "109-99-9");
    }

    /// <summary>docs/methods/fire-classes.md: on a hydride only class D powder and, for small amounts, dry sand serve (EN 2, NFPA 10: class D).</summary>
    [Theory]
    [InlineData("Bench 4, room 2.14 (invented)", true)]
    [InlineData("hood-12, Room 2.14 (invented)", false)]
    public async Task Screening_AgentsOnHandAtThePlace_AreHeldAgainstWhatBurns(string place, bool nothingFits)
    {
        JsonObject report = await ScreenAsync("hydride-quench", document =>
        {
            document["place"] = new JsonObject { ["name"] = place };
            document.Remove("fireResponse");
        });
        string[] codes = [.. report["findings"]!.AsArray().Select(f => (string)f!["code"]!)];
        Assert.Equal(nothingFits, codes.Contains("fire.no-agent-fits", StringComparer.Ordinal));
        Assert.DoesNotContain("fire.agents-not-stated", codes, StringComparer.Ordinal);
    }

    /// <summary>The demo's Bench 4 has carbon dioxide and a blanket (DemoInventory); a listed powder that stands elsewhere is told by the API too.</summary>
    [Fact]
    public async Task Screening_ListedAgentThatIsNotAtThePlace_IsAFinding()
    {
        JsonObject report = await ScreenAsync("hydride-quench", document =>
        {
            document["place"] = new JsonObject { ["name"] = "Bench 4, room 2.14 (invented)" };
            document["fireResponse"] = new JsonObject { ["agents"] = new JsonArray("class D powder") };
        });
        Assert.Contains(report["findings"]!.AsArray(), f => (string?)f!["code"] is "fire.agent-not-there" && (string?)f["severity"] is "warning");
        Assert.Equal(["class D powder"], report["fireActions"]![0]!["notThere"]!.AsArray().Select(a => (string)a!), StringComparer.Ordinal);
    }

    /// <summary>Whatever day the demo is made: nothing in it was inspected, opened, tested or checked after that day, and what it plans is planned for that day.</summary>
    [Fact]
    public async Task Fill_OnAnyDay_HoldsNoDateThatIsStillToCome()
    {
        TestDatabase database = await test.Server.CreateDatabaseAsync();
        await using WebApp app = WebApp.Start(database.Application, realEngine: true);
        var before = ExampleDates.Today(TimeProvider.System);
        await FillAsync(app);
        var after = ExampleDates.Today(TimeProvider.System);
        using HttpClient author = await SignInAsync(app, "mira");
        List<string> answers = [];
        foreach (string path in (string[])["vessels", "agents"])
        {
            answers.Add(await author.GetStringAsync("/api/v1/" + path));
        }

        foreach (JsonNode? procedure in (await Read.ObjectAsync(await author.GetAsync("/api/v1/procedures?state=draft")))["items"]!.AsArray())
        {
            answers.Add(await author.GetStringAsync($"/api/v1/procedures/{procedure!["id"]}/draft"));
        }

        (string Member, DateOnly Day)[] days = [.. answers.SelectMany(static text => Regex.Matches(text, "\"(?<member>inspectedOn|checkedOn|openedOn|plannedOn|on)\": *\"(?<day>[0-9-]{10})\"", RegexOptions.NonBacktracking | RegexOptions.ExplicitCapture).Select(static match => (match.Groups["member"].Value, DateOnly.Parse(match.Groups["day"].Value, CultureInfo.InvariantCulture))))];

        Assert.All(days, day => Assert.True(day.Day <= after, $"{day.Member} {day.Day}"));
        Assert.All(days.Where(static day => day.Member is "plannedOn"), day => Assert.InRange(day.Day, before, after));
        Assert.Superset(new HashSet<string>(["inspectedOn", "checkedOn", "openedOn", "plannedOn", "on"], StringComparer.Ordinal), days.Select(static day => day.Member).ToHashSet(StringComparer.Ordinal));
    }

    /// <summary>An example is planned for the day given, and what is 107 days older than its planned day stays 107 days older: 10 February before 28 May.</summary>
    [Theory]
    [InlineData("2026-11-30", "2026-08-15")]
    [InlineData("2028-02-29", "2027-11-14")]
    [InlineData("2031-05-28", "2031-02-10")]
    public void Moved_ToADay_KeepsTheDistances(string today, string inspected)
    {
        string moved = ExampleDates.Moved("""{ "plannedOn": "2031-05-28", "inspectedOn": "2031-02-10", "note": "of 2031-05-28", "id": "2031-13-01" }""", DateOnly.Parse(today, CultureInfo.InvariantCulture));

        Assert.Equal($$"""{ "plannedOn": "{{today}}", "inspectedOn": "{{inspected}}", "note": "of 2031-05-28", "id": "2031-13-01" }""", moved);
    }

    /// <summary>The tube was inspected 107 days before the demo was made; an inspection counts twelve months (common practice, docs/thresholds.md).</summary>
    [Theory]
    [InlineData(0, false)]
    [InlineData(2, true)]
    public async Task Screening_InventoryVesselOutOfInspectionOnThePlannedDay_IsAFinding(int daysLater, bool found)
    {
        string plannedOn = ExampleDates.Today(TimeProvider.System).AddDays(-107).AddMonths(12).AddDays(daysLater).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        JsonObject report = await ScreenAsync("closed-tube-amination", document =>
        {
            document["plannedOn"] = plannedOn;
            document["vessels"] = new JsonArray(new JsonObject { ["id"] = "T-07", ["kind"] = "thick-walled glass tube" });
            foreach (JsonNode? step in document["steps"]!.AsArray())
            {
                step!["vessel"] = "T-07";
            }
        });
        Assert.Equal(found, report["findings"]!.AsArray().Any(f => (string?)f!["code"] is "safeguard.inspection-expired"));

        // The rating of 4 bar(g) came along: docs/examples/README.md.
        Assert.Contains(report["findings"]!.AsArray(), f => (string?)f!["hazard"] is "pressure" && (string?)f["severity"] is "danger");
    }

    /// <summary>EN 2 and NFPA 10 give flammable liquids the letter B; the card repeats what the stored screening says.</summary>
    [Fact]
    public async Task BenchCard_OfTheApprovedAndOfAWaitingRevision_SaysWhatToDoInAFireAndWhetherItHolds()
    {
        TestDatabase database = await test.Server.CreateDatabaseAsync();
        await using WebApp app = WebApp.Start(database.Application, realEngine: true);
        await FillAsync(app);
        using HttpClient lead = await SignInAsync(app, "edda");
        using Browsing browsing = await Browsing.SignInAsync(app, "edda", DemoGroup.Password);
        foreach ((string state, bool holds) in new[] { ("approved", true), ("in-review", false) })
        {
            using HttpResponseMessage list = await lead.GetAsync($"/api/v1/procedures?state={state}");
            string id = (string)Assert.Single((await Read.ObjectAsync(list))["items"]!.AsArray())!["id"]!;
            string screening = await lead.GetStringAsync($"/api/v1/procedures/{id}/revisions/1/screening");
            string page = System.Net.WebUtility.HtmlDecode(await browsing.Client.GetStringAsync($"/procedures/{id}/revisions/1/card"));
            JsonObject[] actions = [.. JsonNode.Parse(screening)!["fireActions"]!.AsArray().Select(static action => action!.AsObject())];
            Assert.NotEmpty(actions);
            Assert.All(actions, action => Assert.Contains((string)action["firstAction"]!, page, StringComparison.Ordinal));
            Assert.Contains("EN 2 class B", page, StringComparison.Ordinal);
            Assert.Contains("NFPA 10 class B", page, StringComparison.Ordinal);
            Assert.Equal(holds, !page.Contains("Do not work by this card", StringComparison.Ordinal));
            string revision = await browsing.Client.GetStringAsync($"/procedures/{id}/revisions/1");
            Assert.Contains($"/procedures/{id}/revisions/1/card", revision, StringComparison.Ordinal);
        }
    }

    private async Task<JsonObject> ScreenAsync(string example, Action<JsonObject> change)
    {
        TestDatabase database = await test.Server.CreateDatabaseAsync();
        await using WebApp app = WebApp.Start(database.Application, realEngine: true);
        await FillAsync(app);
        using HttpClient author = await SignInAsync(app, "mira");
        await using Stream sample = typeof(DemoSeed).Assembly.GetManifestResourceStream("example:" + example)!;
        JsonObject document = JsonNode.Parse(sample)!.AsObject();
        change(document);
        using HttpResponseMessage answer = await author.PostAsync("/api/v1/screenings", new StringContent(document.ToJsonString(), System.Text.Encoding.UTF8, "application/json"));
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.OK, text);
        return JsonNode.Parse(text)!.AsObject();
    }

    private static async Task<bool> FillAsync(WebApp app)
    {
        await using AsyncServiceScope scope = app.Services.CreateAsyncScope();
        return await scope.ServiceProvider.GetRequiredService<DemoSeed>().FillAsync(CancellationToken.None);
    }

    private static async Task<HttpClient> SignInAsync(WebApp app, string userName)
    {
        HttpClient client = app.Client();
        using HttpResponseMessage answer = await client.PostAsJsonAsync("/api/v1/tokens", new { userName, password = DemoGroup.Password });
        client.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", (string)(await Read.ObjectAsync(answer))["token"]!);
        return client;
    }
}
