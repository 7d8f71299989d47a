using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using PreApproval.Web.Tests.Hosting;

namespace PreApproval.Web.Tests;

/// <summary>Search, reading, and the group's own substances. Own substances and their values are invented.</summary>
public sealed class SubstanceTests(TestApp test)
{
    [Theory]
    [InlineData("108-88-3", "toluene")]
    [InlineData("tolu", "toluene")]
    [InlineData("PhMe", "toluene")]
    [InlineData("DIETHYL-ETHER", "diethyl ether")]
    public async Task GetSubstances_NumberBeginningSynonymOrSpelling_PutsTheSubstanceFirst(string query, string name)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/substances?query={Uri.EscapeDataString(query)}");
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal(name, (string?)(await Read.ObjectAsync(answer))["items"]![0]!["name"]);
    }

    [Fact]
    public async Task GetSubstances_Order_IsExactThenBeginningThenWordInside()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync("/api/v1/substances?query=acetone&limit=50");
        string[] names = [.. (await Read.ObjectAsync(answer))["items"]!.AsArray().Select(i => (string)i!["name"]!)];
        Assert.Equal("acetone", names[0]);
        int inside = Array.FindIndex(names, n => !n.StartsWith("acetone", StringComparison.Ordinal));
        Assert.All(names.Skip(inside < 0 ? names.Length : inside), n => Assert.False(n.StartsWith("acetone", StringComparison.Ordinal), n));
    }

    [Theory]
    [InlineData("", "?query")]
    [InlineData("query=%20", "?query")]
    [InlineData("query=a&limit=0", "?limit")]
    [InlineData("query=a&limit=51", "?limit")]
    public async Task GetSubstances_BadQuery_Is400WithTheParameter(string query, string path)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/substances?{query}");
        Assert.Equal([path], Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.BadRequest)));
    }

    [Fact]
    public async Task GetSubstance_Toluene_GivesValuesWithQualityAndSourceTheGoverningFirst()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync("/api/v1/substances/108-88-3");
        JsonObject toluene = await Read.ObjectAsync(answer);
        Assert.Equal("C7H8", (string?)toluene["identity"]!["formula"]);
        JsonNode boiling = toluene["values"]!.AsArray().Single(v => (string?)v!["name"] is "boiling point")!;

        // CRC Handbook of Chemistry and Physics, 95th ed., section 3: toluene, 110.63 °C.
        Assert.Equal(110.6, (double)boiling["value"]!, 0.2);
        JsonArray flash = toluene["values"]!.AsArray().Single(v => (string?)v!["name"] is "flash point")!["published"]!.AsArray();
        Assert.True((bool)flash[0]!["governs"]!);
        Assert.Equal(flash.Min(p => (double)p!["value"]!), (double)flash[0]!["value"]!);
        Assert.All(toluene["values"]!.AsArray().SelectMany(v => v!["published"]!.AsArray()), p => Assert.NotEmpty(p!["source"]!.AsArray()));
        Assert.All(toluene["correlations"]!.AsArray(), c => Assert.True((double)c!["fromC"]! < (double)c["toC"]!));
        Assert.Contains(toluene["vapourPressure"]!.AsArray(), p => (string?)p!["mark"] is "critical point");
    }

    [Theory]
    [InlineData("conc HCl", "7647-01-0")]
    [InlineData("hydrochloric acid", "7647-01-0")]
    [InlineData("bleach", "7782-50-5")]
    [InlineData("formalin", "50-00-0")]
    public async Task GetSubstances_NameOfASolution_PutsItFirstAndNeverFindsTheGas(string query, string gas)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/substances?query={Uri.EscapeDataString(query)}&limit=50");
        JsonArray items = (await Read.ObjectAsync(answer))["items"]!.AsArray();
        Assert.NotNull(items[0]!["solution"]);
        Assert.DoesNotContain(items, i => string.Equals((string?)i!["key"], gas, StringComparison.Ordinal));
        using HttpResponseMessage card = await author.GetAsync($"/api/v1/substances/{Uri.EscapeDataString((string)items[0]!["key"]!)}");
        Assert.Equal((string?)items[0]!["name"], (string?)(await Read.ObjectAsync(card))["identity"]!["name"]);
    }

    [Fact]
    public async Task GetSubstance_HydrochloricAcid37Percent_GivesPartsDensityAndPartialPressures()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync($"/api/v1/substances/{Uri.EscapeDataString("hydrochloric acid, 37 %")}");
        JsonNode acid = (await Read.ObjectAsync(answer))["solution"]!;
        Assert.Equal("7647-01-0 7732-18-5", string.Join(' ', acid["parts"]!.AsArray().Select(p => (string?)p!["key"])));

        // From memory: concentrated hydrochloric acid has 1.18 to 1.19 g/mL and 12 mol/L.
        Assert.Equal(1185, (double)acid["densityKgPerM3"]!, 10.0);
        Assert.Equal(12, (double)acid["soluteMolPerL"]!, 0.2);
        double[] pressures = [.. acid["partialPressures"]!.AsArray().Select(p => (double)p!["soluteBar"]!)];
        Assert.Equal(pressures.Order(), pressures);

        // 42 bar is the vapour pressure of the pure gas at 20 °C.
        Assert.InRange((double)acid["partialPressures"]!.AsArray().Single(p => (double)p!["temperatureC"]! == 20)!["soluteBar"]!, 0.05, 1);
    }

    [Theory]
    [InlineData("/catalogue/hydrochloric%20acid%2C%2037%20%25", "Partial pressures")]
    [InlineData("/catalogue?query=bleach", "solution: ")]
    public async Task CataloguePage_Solution_IsShown(string address, string expected)
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync(address);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains(expected, await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task GetSubstance_Benzene_CarriesHealthValuesWithTheirOrigin()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync("/api/v1/substances/71-43-2");
        JsonNode health = (await Read.ObjectAsync(answer))["health"]!;
        Assert.Contains(health["hazardStatements"]!["items"]!.AsArray(), s => (string?)s!["code"] is "H350");
        Assert.All(health["exposureLimits"]!.AsArray(), l => Assert.False(string.IsNullOrEmpty((string?)l!["jurisdiction"])));

        // IARC Monographs: benzene is in group 1. NIOSH: immediately dangerous at 500 ppm.
        Assert.Equal("1", (string?)health["carcinogen"]!["group"]);
        Assert.Equal(500, (double)health["idlh"]!["ppm"]!);
    }

    [Fact]
    public async Task GetSubstance_AgainWithItsTag_Is304()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage first = await author.GetAsync("/api/v1/substances/67-64-1");
        Assert.Equal("no-cache, private", string.Join(", ", first.Headers.CacheControl!.ToString().Split(", ").Order(StringComparer.Ordinal)));
        using var request = new HttpRequestMessage(HttpMethod.Get, "/api/v1/substances/67-64-1");
        request.Headers.IfNoneMatch.Add(first.Headers.ETag!);
        using HttpResponseMessage again = await author.SendAsync(request);
        Assert.Equal(HttpStatusCode.NotModified, again.StatusCode);
        Assert.Empty(await again.Content.ReadAsByteArrayAsync());
    }

    [Fact]
    public async Task GetSubstance_NobodyKnowsIt_Is404()
    {
        using HttpClient author = test.As("author");
        using HttpResponseMessage answer = await author.GetAsync("/api/v1/substances/no-such-substance");
        await Read.ProblemAsync(answer, HttpStatusCode.NotFound);
    }

    [Fact]
    public async Task PostSubstances_ByAReviewer_IsFoundReadAndMarked()
    {
        (string address, _) = await AddAsync("invented find-me ester", flashPoint: 31);
        using HttpClient author = test.As("author");
        using HttpResponseMessage search = await author.GetAsync("/api/v1/substances?query=invented%20find-me");
        JsonNode found = (await Read.ObjectAsync(search))["items"]![0]!;
        Assert.True((bool)found["own"]!);
        Assert.EndsWith((string)found["key"]!, address, StringComparison.Ordinal);

        using HttpResponseMessage read = await author.GetAsync(address);
        Assert.Equal("\"1\"", read.Headers.ETag?.ToString());
        JsonObject own = await Read.ObjectAsync(read);
        JsonNode flash = own["values"]!.AsArray().Single(v => (string?)v!["name"] is "flash point")!;
        Assert.Equal((31.0, "stated by the group"), ((double)flash["value"]!, (string)flash["quality"]!));
        Assert.Contains("notebook 7, page 12 (invented)", (string)flash["source"]![0]!, StringComparison.Ordinal);
        Assert.False((bool)own["inCatalogue"]!);
    }

    [Theory]
    [InlineData("author", HttpStatusCode.Forbidden)]
    [InlineData("administrator", HttpStatusCode.Forbidden)]
    [InlineData("auditor", HttpStatusCode.Forbidden)]
    public async Task PostSubstances_WithoutTheRole_IsRefused(string person, HttpStatusCode status)
    {
        using HttpClient client = test.As(person);
        using HttpResponseMessage answer = await SendAsync(client, HttpMethod.Post, "/api/v1/substances", Substance("not mine to add"));
        await Read.ProblemAsync(answer, status);
    }

    [Fact]
    public async Task Substance_OfAForeignGroup_Is404ForEveryCall()
    {
        (string address, _) = await AddAsync("invented foreign ester");
        using HttpClient foreign = test.As("foreign-lead");
        using HttpResponseMessage read = await foreign.GetAsync(address);
        await Read.ProblemAsync(read, HttpStatusCode.NotFound);
        using HttpResponseMessage versions = await foreign.GetAsync(address + "/versions");
        await Read.ProblemAsync(versions, HttpStatusCode.NotFound);
        using HttpResponseMessage change = await SendAsync(foreign, HttpMethod.Put, address, Substance("mine now"), "\"1\"");
        await Read.ProblemAsync(change, HttpStatusCode.NotFound);
        using HttpResponseMessage retire = await SendAsync(foreign, HttpMethod.Post, address + "/retirement", new JsonObject { ["reason"] = "mine" }, "\"1\"");
        await Read.ProblemAsync(retire, HttpStatusCode.NotFound);
        using HttpResponseMessage search = await foreign.GetAsync("/api/v1/substances?query=invented%20foreign");
        Assert.Empty((await Read.ObjectAsync(search))["items"]!.AsArray());
    }

    [Fact]
    public async Task PutSubstance_TagAbsentStaleAndCurrent_Is428412And200()
    {
        (string address, _) = await AddAsync("invented changing ester");
        using HttpClient lead = test.As("lead");
        JsonObject changed = Substance("invented changing ester", flashPoint: 12);
        using HttpResponseMessage absent = await SendAsync(lead, HttpMethod.Put, address, changed);
        await Read.ProblemAsync(absent, (HttpStatusCode)428);
        using HttpResponseMessage stale = await SendAsync(lead, HttpMethod.Put, address, changed, "\"7\"");
        await Read.ProblemAsync(stale, HttpStatusCode.PreconditionFailed);
        using HttpResponseMessage current = await SendAsync(lead, HttpMethod.Put, address, changed, "\"1\"");
        Assert.Equal((HttpStatusCode.OK, "\"2\""), (current.StatusCode, current.Headers.ETag?.ToString()));
        using HttpResponseMessage versions = await lead.GetAsync(address + "/versions");
        Assert.Equal(2, (await Read.ObjectAsync(versions))["items"]!.AsArray().Count);
    }

    [Fact]
    public async Task PostSubstances_Faults_Are422WithTheirPaths()
    {
        using HttpClient lead = test.As("lead");
        JsonObject substance = JsonNode.Parse("""
            { "name": "toluene", "cas": "71-43-3",
              "properties": { "formula": "C6H6", "molarMass": { "value": 80, "unit": "g/mol" }, "flashPoint": { "value": -300, "unit": "°C" }, "boilingPoint": { "value": 95, "unit": "°C" },
                "vapourPressure": { "a": 4.3, "b": 1290, "c": 220.5, "pressureUnit": "bar", "temperatureUnit": "°C", "from": { "value": -10, "unit": "°C" }, "to": { "value": 120, "unit": "°C" } },
                "sources": { "density": "nowhere" } } }
            """)!.AsObject();
        using HttpResponseMessage answer = await SendAsync(lead, HttpMethod.Post, "/api/v1/substances", substance);
        string[] paths = Read.Paths(await Read.ProblemAsync(answer, HttpStatusCode.UnprocessableEntity));
        Assert.Equal(
            "/cas /name /properties/boilingPoint /properties/flashPoint/value /properties/molarMass /properties/source /properties/sources/density",
            string.Join(' ', paths.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)));
    }

    [Theory]
    [InlineData("""{ "name": "x", "colour": "red", "properties": { "source": "s" } }""", HttpStatusCode.BadRequest, "/colour")]
    [InlineData("""{ "name": "bleach", "properties": { "source": "s" } }""", HttpStatusCode.UnprocessableEntity, "/name")]
    [InlineData("""{ "properties": { "source": "s" } }""", HttpStatusCode.UnprocessableEntity, "/name")]
    public async Task PostSubstances_UnknownMemberOrUnusableName_IsRefused(string json, HttpStatusCode status, string path)
    {
        using HttpClient lead = test.As("lead");
        using HttpResponseMessage answer = await SendAsync(lead, HttpMethod.Post, "/api/v1/substances", JsonNode.Parse(json)!.AsObject());
        Assert.Contains(path, Read.Paths(await Read.ProblemAsync(answer, status)), StringComparer.Ordinal);
    }

    [Fact]
    public async Task PostSubstances_TwiceWithOneKey_AddsOnceAndOtherContentIs422()
    {
        using HttpClient lead = test.As("lead");
        string key = Guid.CreateVersion7().ToString();
        using HttpResponseMessage first = await SendAsync(lead, HttpMethod.Post, "/api/v1/substances", Substance("invented keyed ester"), key: key);
        using HttpResponseMessage again = await SendAsync(lead, HttpMethod.Post, "/api/v1/substances", Substance("invented keyed ester"), key: key);
        Assert.Equal((HttpStatusCode.Created, HttpStatusCode.Created), (first.StatusCode, again.StatusCode));
        Assert.Equal(await first.Content.ReadAsStringAsync(), await again.Content.ReadAsStringAsync());
        using HttpResponseMessage other = await SendAsync(lead, HttpMethod.Post, "/api/v1/substances", Substance("invented other ester"), key: key);
        await Read.ProblemAsync(other, HttpStatusCode.UnprocessableEntity);
        using HttpResponseMessage taken = await SendAsync(lead, HttpMethod.Post, "/api/v1/substances", Substance("Invented keyed-ester"));
        Assert.Equal(["/name"], Read.Paths(await Read.ProblemAsync(taken, HttpStatusCode.Conflict)));
    }

    [Fact]
    public async Task Retirement_TakesItOutOfSearchAndKeepsItReadable()
    {
        (string address, _) = await AddAsync("invented retiring ester");
        using HttpClient lead = test.As("lead");
        using HttpResponseMessage retired = await SendAsync(lead, HttpMethod.Post, address + "/retirement", new JsonObject { ["reason"] = "another compound" }, "\"1\"");
        Assert.Equal(HttpStatusCode.OK, retired.StatusCode);
        using HttpResponseMessage search = await lead.GetAsync("/api/v1/substances?query=invented%20retiring");
        Assert.Empty((await Read.ObjectAsync(search))["items"]!.AsArray());
        using HttpResponseMessage read = await lead.GetAsync(address);
        Assert.Equal("retired", (string?)(await Read.ObjectAsync(read))["own"]!["change"]);
    }

    [Fact]
    public async Task Submission_NamingAnOwnSubstance_CopiesItAndKeepsTheCopyWhenTheListChanges()
    {
        (string address, _) = await AddAsync("invented copied ester", flashPoint: 31);
        JsonObject document = Sample.Document("uses an own substance");
        document["materials"]!.AsArray()[1]!["substance"] = new JsonObject { ["name"] = "Invented copied-ester" };
        using HttpClient author = test.As("author");
        using HttpResponseMessage created = await SendAsync(author, HttpMethod.Post, "/api/v1/procedures", new JsonObject { ["document"] = document });
        string procedure = created.Headers.Location!.ToString();
        using HttpResponseMessage submitted = await author.PostAsync($"{procedure}/submissions", content: null);
        Assert.Equal(HttpStatusCode.Created, submitted.StatusCode);

        using HttpClient lead = test.As("lead");
        using HttpResponseMessage changed = await SendAsync(lead, HttpMethod.Put, address, Substance("invented copied ester", flashPoint: 12), "\"1\"");
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        using HttpResponseMessage kept = await author.GetAsync($"{procedure}/revisions/1/document");
        JsonNode properties = (await Read.ObjectAsync(kept))["materials"]![1]!["substance"]!["properties"]!;
        Assert.Equal(31.0, (double)properties["flashPoint"]!["value"]!);
        Assert.Equal("the group's own list, version 1: notebook 7, page 12 (invented)", (string?)properties["source"]);

        // The draft stays as typed.
        using HttpResponseMessage draft = await author.GetAsync($"{procedure}/draft");
        Assert.Null((await Read.ObjectAsync(draft))["document"]!["materials"]![1]!["substance"]!["properties"]);
    }

    [Fact]
    public async Task Page_FormWithFaults_ComesBackWithWhatWasTypedAndASummary()
    {
        using Browsing reviewer = await Browsing.SignInAsync(test.App, "fire-reviewer");
        Dictionary<string, string> form = await reviewer.FormAsync("/catalogue/own/new", "keep");
        form["name"] = "invented typed ester";
        form["cas"] = "96-33-4";
        form["flashPoint"] = "sixty";
        using HttpResponseMessage answer = await reviewer.SendAsync("/catalogue/own/new", form);
        string page = await answer.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("invented typed ester", page, StringComparison.Ordinal);
        Assert.Contains("is not a number", page, StringComparison.Ordinal);
        Assert.Contains("#flashPoint", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_FormOfAMember_IsRefused()
    {
        using Browsing member = await Browsing.SignInAsync(test.App, "member");
        using HttpResponseMessage answer = await member.Client.GetAsync("/catalogue/own/new");
        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    private async Task<(string Address, JsonObject Answer)> AddAsync(string name, double flashPoint = 63)
    {
        using HttpClient reviewer = test.As("fire-reviewer");
        using HttpResponseMessage answer = await SendAsync(reviewer, HttpMethod.Post, "/api/v1/substances", Substance(name, flashPoint));
        string text = await answer.Content.ReadAsStringAsync();
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        return (answer.Headers.Location!.ToString(), JsonNode.Parse(text)!.AsObject());
    }

    private static JsonObject Substance(string name, double flashPoint = 63) => new()
    {
        ["name"] = name,
        ["properties"] = new JsonObject { ["flashPoint"] = new JsonObject { ["value"] = flashPoint, ["unit"] = "°C" }, ["source"] = "notebook 7, page 12 (invented)" },
    };

    private static Task<HttpResponseMessage> SendAsync(HttpClient client, HttpMethod method, string address, JsonObject body, string? ifMatch = null, string? key = null)
    {
        var request = new HttpRequestMessage(method, address) { Content = new StringContent(body.ToJsonString(), Encoding.UTF8, "application/json") };
        if (ifMatch is not null)
        {
            request.Headers.TryAddWithoutValidation("If-Match", ifMatch);
        }

        if (key is not null)
        {
            request.Headers.TryAddWithoutValidation("Idempotency-Key", key);
        }

        return client.SendAsync(request);
    }
}
